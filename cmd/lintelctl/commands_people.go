package main

import (
	"context"

	"lintel/app/station"
	"lintel/mesh"
)

// Keywords of the commands about people and phrases.
const (
	wordIn      = "in"
	wordChecked = "checked-by"
)

// say says a fixed phrase: outwards from a device that is held inside, inwards
// from any other, unless the line says which way.
func (s *session) say(ctx context.Context, a *arguments) (event, error) {
	phrase, more := a.next()
	if !more {
		return nil, a.bad()
	}
	way, said := a.keyword(wordOut, wordIn)
	room, _, err := a.after(wordRoom)
	if err == nil {
		err = a.done()
	}
	if err == nil {
		err = s.knownRoom(ctx, mesh.ID(room))
	}
	if err != nil {
		return nil, err
	}
	out := way == wordOut
	if !said {
		out = s.inside(ctx)
	}
	return s.plain(ctx, "say", a, station.Say{Room: mesh.ID(room), Phrase: mesh.ID(phrase), Out: out})
}

func (s *session) heardCommand(ctx context.Context, a *arguments) (event, error) {
	ref, err := s.fact(ctx, a, "said-in", "said-out", "breach")
	if err == nil {
		err = a.done()
	}
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "heard", a, station.Hear{Said: ref})
}

// crossing is who crosses into or out of which zone, checked by whom.
type crossing struct {
	of           mesh.Ref
	tag, checker mesh.Tag
	zone         mesh.ID
}

// crosses reads TAG [ZONE] [checked-by T] [room A1].
func (s *session) crosses(ctx context.Context, a *arguments) (c crossing, err error) {
	tag, more := a.next()
	if !more {
		return c, a.bad()
	}
	c.tag = mesh.Tag(tag)
	for len(a.words) > 0 {
		checker, ok, err := a.after(wordChecked)
		if err != nil {
			return c, err
		}
		if ok {
			c.checker = mesh.Tag(checker)
			continue
		}
		if c.of.IsZero() {
			if c.of, err = s.caseOf(ctx, a); err != nil {
				return c, err
			}
			if !c.of.IsZero() {
				continue
			}
		}
		if c.zone != "" {
			return c, a.bad()
		}
		zone, _ := a.next()
		c.zone = mesh.ID(zone)
	}
	return c, nil
}

func (s *session) enter(ctx context.Context, a *arguments) (event, error) {
	c, err := s.crosses(ctx, a)
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "enter", a, station.GoIn{Case: c.of, Tag: c.tag, Zone: c.zone, Checker: c.checker})
}

func (s *session) leave(ctx context.Context, a *arguments) (event, error) {
	c, err := s.crosses(ctx, a)
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "leave", a, station.ComeOut{Case: c.of, Tag: c.tag, Zone: c.zone, Checker: c.checker})
}

func (s *session) breach(ctx context.Context, a *arguments) (event, error) {
	tag, _ := a.next()
	what, more := a.next()
	if !more {
		return nil, a.bad()
	}
	ref, err := s.caseOf(ctx, a)
	if err != nil {
		return nil, err
	}
	act := station.ReportBreach{Case: ref, Tag: mesh.Tag(tag), What: mesh.ID(what), Words: mesh.Text(a.rest())}
	return s.plain(ctx, "breach", a, act)
}

func (s *session) doff(ctx context.Context, a *arguments) (event, error) {
	tag, _ := a.next()
	step, _ := a.next()
	checker, more := a.next()
	if !more {
		return nil, a.bad()
	}
	_, bad := a.keyword(wordBad)
	ref, err := s.caseOf(ctx, a)
	if err == nil {
		err = a.done()
	}
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "doff", a, station.DoffStep{
		Case: ref, Tag: mesh.Tag(tag), Step: mesh.ID(step), Checker: mesh.Tag(checker), Good: !bad,
	})
}

func (s *session) doorOpen(ctx context.Context, a *arguments) (event, error) {
	return s.doorMeasured(ctx, "door-open", a, true)
}

func (s *session) doorShut(ctx context.Context, a *arguments) (event, error) {
	return s.doorMeasured(ctx, "door-shut", a, false)
}

func (s *session) doorMeasured(ctx context.Context, command string, a *arguments, open bool) (event, error) {
	room, _, err := a.after(wordRoom)
	if err == nil {
		err = a.done()
	}
	if err == nil {
		err = s.knownRoom(ctx, mesh.ID(room))
	}
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, command, a, station.MeasureDoor{Room: mesh.ID(room), Open: open})
}
