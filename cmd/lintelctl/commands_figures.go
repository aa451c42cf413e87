package main

import (
	"context"

	"lintel/app/station"
	"lintel/requests"
)

// figures sums up a case; all: every case but exercises.
func (s *session) figures(ctx context.Context, a *arguments) (event, error) {
	c, err := s.caseOrAll(ctx, a)
	if err != nil {
		return nil, err
	}
	var all []event
	err = s.lists(ctx, func(v station.View) error {
		e := figuresOf(v.Board, c)
		all = append(all, e)
		return nil
	})
	return s.list("figures", all, err)
}

// caseOrAll reads an optional case, or "all".
func (s *session) caseOrAll(ctx context.Context, a *arguments) (c requests.Case, err error) {
	if _, whole := a.keyword("all"); !whole {
		if c, err = s.someCase(ctx, a); err != nil {
			return c, err
		}
	}
	return c, a.done()
}
