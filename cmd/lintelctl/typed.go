package main

import (
	"context"
	"errors"
	"slices"
	"strings"

	"lintel/app/device"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// knownRoom refuses a room that nobody has named, holds a device for, opened a
// case in or asked for: it is a slip of the finger. Where no room is known at all
// any name may be right.
func (s *session) knownRoom(ctx context.Context, room mesh.ID) error {
	err := s.view(ctx, func(v station.View) error {
		all := roomsOf(v)
		if room == "" || len(all) == 0 || slices.Contains(all, string(room)) {
			return nil
		}
		return &fault{id: "room-none", blanks: []any{room}, list: []string{strings.Join(all, " ")}}
	})
	if errors.Is(err, device.ErrNoUnit) {
		return nil
	}
	return err
}

// roomsOf are the rooms that anything is known of, sorted.
func roomsOf(v station.View) (all []string) {
	for _, r := range v.Board.Rooms() {
		all = append(all, string(r.ID))
	}
	for _, h := range v.Board.Holders() {
		for _, room := range h.Rooms {
			all = append(all, string(room))
		}
	}
	for _, c := range v.Board.Cases() {
		all = append(all, string(c.Room))
	}
	for _, r := range v.Board.Open() {
		all = append(all, string(r.Room))
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// knownList refuses a list that nobody has written.
func (s *session) knownList(ctx context.Context, name mesh.ID) error {
	return s.lists(ctx, func(v station.View) error {
		if len(v.Board.List(name)) == 0 && !slices.Contains(listNames(), string(name)) {
			return &fault{id: "list-none", blanks: []any{name, strings.Join(listNames(), " ")}}
		}
		return nil
	})
}

// isNumber tells whether a word is typed digits alone.
func (w word) isNumber() bool {
	return !w.quoted && w.text != "" && strings.Trim(w.text, "0123456789") == ""
}

// percentMax is a full battery.
const percentMax = 100

// percent takes a battery's charge.
func (a *arguments) percent() (int32, error) {
	text := ""
	if len(a.words) > 0 {
		text = a.words[0].text
	}
	n, err := a.number(32)
	if err != nil || n > percentMax {
		return 0, &fault{id: "percent", blanks: []any{text}}
	}
	return int32(n), nil
}

// beside tells of another case that is open in the room of a case: two devices
// may have opened one each while they were apart.
func beside(b *requests.Board, of mesh.Ref) (other requests.Case, is bool) {
	c, known := b.Case(of)
	if !known {
		return other, false
	}
	for _, x := range b.Cases() {
		if x.Room == c.Room && x.Ref != c.Ref && !x.Over && x.MovedTo == "" {
			other, is = x, true
		}
	}
	return other, is
}

// sayBeside adds to the answer about a case that another one is open there too.
func (s *session) sayBeside(ctx context.Context, answer event, err error) (event, error) {
	e, is := answer.(doneEvent)
	if err != nil || !is {
		return answer, err
	}
	err = s.view(ctx, func(v station.View) error {
		ref, err := readRef(e.Ref)
		if err != nil {
			return err
		}
		if of, known := v.Board.CaseOf(ref); known {
			ref = of
		}
		if other, two := beside(v.Board, ref); two {
			e.Beside = requests.Code(other.Ref)
			e.text += s.w.Say("done.case-beside", e.Beside, other.Room)
		}
		return nil
	})
	return e, err
}

// belongings is how much belongs to a case: its requests, and what else was
// recorded for it. Zero: the ref names no case.
func (s *session) belongings(ctx context.Context, ref mesh.Ref) (n int) {
	_ = s.view(ctx, func(v station.View) error { // a device without a unit has no case
		c, known := v.Board.Case(ref)
		if known && c.Ref == ref {
			n = len(c.Requests) + len(factsOf(s.w, v.Board, c)) - 1
		}
		return nil
	})
	return n
}
