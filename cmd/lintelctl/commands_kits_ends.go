package main

import (
	"context"
	"strconv"
	"strings"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// issue reads ITEM xN, or for REQ, with who took, checked and authorised it.
func (s *session) issue(ctx context.Context, a *arguments) (event, error) {
	l, err := a.kitLine([]string{"at-door"}, "for", wordLot, wordFrom, wordBy, wordChecked, "role", wordPage, wordRoom)
	if err != nil {
		return nil, err
	}
	act := station.IssueDrug{
		Room: mesh.ID(l.given[wordRoom]), Lot: mesh.Label(l.given[wordLot]), AtDoor: l.flags["at-door"], TakenBy: mesh.Tag(l.given[wordBy]),
		CheckedBy: mesh.Tag(l.given[wordChecked]), AuthorisedBy: mesh.ID(l.given["role"]), Register: mesh.Label(l.given[wordPage]),
	}
	if from, named := l.given[wordFrom]; named {
		if act.From, err = readPlace(from); err != nil {
			return nil, err
		}
	}
	err = s.lists(ctx, func(v station.View) error {
		if name, of := l.given["for"]; of {
			r, err := findRequest(v.Board, name)
			act.Request = r.Ref
			if err != nil || len(l.words) == 0 {
				return err
			}
		}
		act.Thing, err = thing(v, wanted{item: l.item(), count: l.count}, 0)
		return err
	})
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "issue", a, act)
}

// portion reads ITEM xN, ITEM N mL, or syringe SYRINGE [N mL].
func (s *session) portion(ctx context.Context, l kitLine) (p station.Portion, err error) {
	p.Containers, p.VolumeUL = l.count, l.ul
	if name, of := l.given[wordSyringe]; of {
		if len(l.words) > 0 || l.count > 0 {
			return p, station.ErrCount
		}
		err = s.lists(ctx, func(v station.View) error {
			if p.Syringe = findSyringe(v.Ledger, strings.ToLower(name)); p.Syringe.IsZero() {
				return about(station.ErrNoSyringe, name)
			}
			return nil
		})
		return p, err
	}
	if (l.count > 0) == (l.ul > 0) {
		return p, &fault{id: "count-missing"}
	}
	p.Item, err = s.itemOf(ctx, l)
	return p, err
}

func (s *session) give(ctx context.Context, a *arguments) (event, error) {
	l, err := a.kitLine(nil, wordSyringe, wordRoom)
	if err != nil {
		return nil, err
	}
	p, err := s.portion(ctx, l)
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "give", a, station.GiveDrug{Room: mesh.ID(l.given[wordRoom]), Portion: p})
}

func (s *session) wasteDrug(ctx context.Context, a *arguments) (event, error) {
	l, err := a.kitLine([]string{wordGlass}, wordSyringe, wordSeenBy, wordRoom)
	if err != nil {
		return nil, err
	}
	p, err := s.portion(ctx, l)
	if err != nil {
		return nil, err
	}
	act := station.WasteDrug{Room: mesh.ID(l.given[wordRoom]), Portion: p, Seen: station.Seen{Tag: mesh.Tag(l.given[wordSeenBy])}}
	if l.flags[wordGlass] {
		act.Seen.Grade = kits.ThroughGlass
	}
	return s.plain(ctx, "waste-drug", a, act)
}

// witness reads MOVEMENT… [tag T] [glass|later].
func (s *session) witness(ctx context.Context, a *arguments) (event, error) {
	l, err := a.kitLine([]string{wordGlass, wordLater}, wordTag)
	if err != nil || len(l.words) == 0 || l.count != 0 {
		return nil, a.bad()
	}
	act := station.Witness{Tag: mesh.Tag(l.given[wordTag])}
	switch {
	case l.flags[wordGlass]:
		act.Grade = kits.ThroughGlass
	case l.flags[wordLater]:
		act.Grade = kits.LaterSigned
	}
	err = s.lists(ctx, func(v station.View) error {
		for _, name := range l.words {
			r, err := findMovement(v.Ledger, name)
			if err != nil {
				return err
			}
			act.Movements = append(act.Movements, r)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "witness", a, act)
}

// recorded finds what the next word of a line names.
func (s *session) recorded(ctx context.Context, a *arguments, find func(*kits.Ledger, string) (mesh.Ref, error)) (r mesh.Ref, err error) {
	name, more := a.next()
	if !more {
		return r, a.bad()
	}
	err = s.lists(ctx, func(v station.View) error {
		r, err = find(v.Ledger, name)
		return err
	})
	return r, err
}

func (s *session) closeIssue(ctx context.Context, a *arguments) (event, error) {
	r, err := s.recorded(ctx, a, findIssue)
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "close-issue", a, station.CloseIssue{Issue: r, Why: mesh.Text(a.rest())})
}

func (s *session) reverse(ctx context.Context, a *arguments) (event, error) {
	r, err := s.recorded(ctx, a, findMovement)
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "reverse", a, station.Reverse{Movement: r, Why: mesh.Label(a.rest())})
}

// settle reads MOVEMENT N…: how many of each line really went on.
func (s *session) settle(ctx context.Context, a *arguments) (event, error) {
	r, err := s.recorded(ctx, a, findMovement)
	if err != nil {
		return nil, err
	}
	act := station.Settle{HandOver: r}
	for len(a.words) > 0 {
		text, _ := a.next()
		n, err := strconv.ParseInt(text, 10, 32)
		if err != nil || n > requests.CountMax {
			return nil, a.bad()
		}
		act.Taken = append(act.Taken, n)
	}
	return s.plain(ctx, "settle", a, act)
}
