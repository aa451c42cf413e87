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

// Keywords of the commands about what is inside.
const (
	wordInto     = "into"
	wordBy       = "by"
	wordSyringe  = "syringe"
	wordReceived = "received-by"
)

// ended reads END ITEM xN [room A1] [lot L].
func (s *session) ended(ctx context.Context, a *arguments) (event, error) {
	end, more := a.next()
	if !more {
		return nil, a.bad()
	}
	p, known := kits.ParsePlace(end)
	if !known {
		return nil, station.ErrNoEnd
	}
	w, err := a.wanted(wordRoom, wordLot)
	if err != nil {
		return nil, err
	}
	act := station.EndItem{Room: w.room, Lot: w.lot, End: p.Sort}
	if act.Thing, err = s.named(ctx, w); err != nil {
		return nil, err
	}
	return s.plain(ctx, "ended", a, act)
}

// named finds the thing that a line names; a quantity must be given.
func (s *session) named(ctx context.Context, w wanted) (t requests.Thing, err error) {
	err = s.lists(ctx, func(v station.View) error {
		t, err = thing(v, w, 0)
		return err
	})
	return t, err
}

// drawUp reads ITEM xN into N mL [by T] [checked-by T] [LABEL].
func (s *session) drawUp(ctx context.Context, a *arguments) (event, error) {
	into := -1
	for i, w := range a.words {
		if !w.quoted && w.text == wordInto {
			into = i
		}
	}
	if into < 0 || len(a.words) < into+3 || a.words[into+2].text != "mL" {
		return nil, a.bad()
	}
	ml, err := strconv.ParseUint(a.words[into+1].text, 10, 10)
	if err != nil || ml == 0 {
		return nil, a.bad()
	}
	w, err := (&arguments{words: a.words[:into], usage: a.usage}).wanted()
	if err != nil {
		return nil, err
	}
	a.words = a.words[into+3:]
	act := station.DrawUp{VolumeUL: int64(ml) * 1000, DrawnBy: s.hold.Tag}
	if act.Thing, err = s.named(ctx, w); err != nil {
		return nil, err
	}
	for {
		key, ok := a.keyword(wordBy, wordChecked)
		if !ok {
			break
		}
		tag, more := a.next()
		if !more {
			return nil, a.bad()
		}
		if key == wordBy {
			act.DrawnBy = mesh.Tag(tag)
		} else {
			act.CheckedBy = mesh.Tag(tag)
		}
	}
	act.Label = mesh.Label(a.rest())
	return s.plain(ctx, "draw-up", a, act)
}

// leftWith reads UNIT syringe MARK, or UNIT ITEM xN, then who received it.
func (s *session) leftWith(ctx context.Context, a *arguments) (event, error) {
	unit, more := a.next()
	if !more {
		return nil, a.bad()
	}
	act := station.LeaveWith{Unit: mesh.Label(unit)}
	n := len(a.words)
	if n > 1 && !a.words[n-2].quoted && a.words[n-2].text == wordReceived {
		act.ReceivedBy = mesh.Tag(a.words[n-1].text)
		a.words = a.words[:n-2]
	}
	if _, ok := a.keyword(wordSyringe); ok {
		name, more := a.next()
		if !more || len(a.words) > 0 {
			return nil, a.bad()
		}
		err := s.lists(ctx, func(v station.View) error {
			act.Syringe = findSyringe(v.Ledger, strings.ToLower(name))
			if act.Syringe.IsZero() {
				return about(station.ErrNoSyringe, name)
			}
			return nil
		})
		if err != nil {
			return nil, err
		}
		return s.plain(ctx, "left-with", a, act)
	}
	w, err := a.wanted(wordRoom)
	if err != nil {
		return nil, err
	}
	act.Room = w.room
	if act.Thing, err = s.named(ctx, w); err != nil {
		return nil, err
	}
	return s.plain(ctx, "left-with", a, act)
}

// findSyringe finds what was drawn up by its code or its whole ref.
func findSyringe(l *kits.Ledger, name string) mesh.Ref {
	for _, m := range l.Movements() {
		if m.Kind == kits.KindDrawnUp && (requests.Code(m.Ref) == name || m.Ref.Hex() == name) {
			return m.Ref
		}
	}
	return mesh.Ref{}
}
