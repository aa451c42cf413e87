package main

import (
	"context"
	"strings"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// roomsFor reads an optional room; without one those that this device is for,
// else all that the unit has.
func (s *session) roomsFor(ctx context.Context, a *arguments) (rooms []mesh.ID, err error) {
	if _, _, err = a.after(wordRoom); err != nil { // "room A1" and "A1" are the same here
		return nil, a.bad()
	}
	text, named := a.next()
	if err := a.done(); err != nil {
		return nil, err
	}
	if err := s.knownRoom(ctx, mesh.ID(text)); err != nil {
		return nil, err
	}
	if named {
		return []mesh.ID{mesh.ID(text)}, nil
	}
	if rooms = s.hold.Rooms; len(rooms) > 0 {
		return rooms, nil
	}
	err = s.lists(ctx, func(v station.View) error {
		for _, r := range v.Board.Rooms() {
			rooms = append(rooms, r.ID)
		}
		return nil
	})
	return rooms, err
}

// perRoom lists what a look finds for each of the rooms that a line names or
// this device is for.
func (s *session) perRoom(ctx context.Context, command string, a *arguments, look func(station.View, mesh.ID) []event) (event, error) {
	rooms, err := s.roomsFor(ctx, a)
	if err != nil {
		return nil, err
	}
	var all []event
	err = s.lists(ctx, func(v station.View) error {
		for _, room := range rooms {
			all = append(all, look(v, room)...)
		}
		return nil
	})
	return s.list(command, all, err)
}

// runnerEvent is one runner as seen from one door.
type runnerEvent struct {
	Event  string   `json:"event"` // runner
	Room   mesh.ID  `json:"room"`
	Device string   `json:"device,omitempty"`
	Tag    mesh.Tag `json:"tag,omitempty"`
	Doing  words.ID `json:"doing"`        // here, at-door, fetching, none
	At     mesh.ID  `json:"at,omitempty"` // the door that doing is about
	Next   bool     `json:"next,omitempty"`
	Open   int      `json:"open"`
}

func (e runnerEvent) say(w words.Words) string {
	said := w.Say("list.runner", e.Room, e.Tag, w.Say("doing."+e.Doing, e.At), e.Open)
	if e.Doing == "none" {
		return w.Say("list.runner-none", e.Room)
	}
	if e.Next {
		said += w.Say("device.and") + w.Say("list.runner-next")
	}
	return said
}

func (s *session) runners(ctx context.Context, a *arguments) (event, error) {
	return s.perRoom(ctx, "runners", a, func(v station.View, room mesh.ID) (out []event) {
		named := deviceNames(v)
		for _, r := range v.Board.RunnerAt(room) {
			out = append(out, runnerEvent{
				Event: "runner", Room: room, Device: named(r.Device), Tag: r.Tag, Doing: words.DoingID(r.Doing), At: r.Room, Next: r.Next, Open: r.Open,
			})
		}
		if len(out) == 0 {
			out = append(out, runnerEvent{Event: "runner", Room: room, Doing: "none"})
		}
		return out
	})
}

// bag lists what can travel together through each door at its next opening.
func (s *session) bag(ctx context.Context, a *arguments) (event, error) {
	return s.perRoom(ctx, "bag", a, func(v station.View, room mesh.ID) (out []event) {
		for _, r := range v.Board.Bag(room) {
			out = append(out, describe(v, s.w, r, lookAt(v, r, s.dev.Key())))
		}
		return out
	})
}

// openingEvent is a planned opening of a door.
type openingEvent struct {
	Event    string   `json:"event"` // opening
	Room     mesh.ID  `json:"room"`
	In       int64    `json:"in_ms"` // from now
	Now      bool     `json:"now"`   // something that is wanted now opens it
	Requests []string `json:"requests"`
}

func (e openingEvent) say(w words.Words) string {
	return w.Say("list.opening", e.Room, minutes(e.In), len(e.Requests), strings.Join(e.Requests, " "))
}

func (s *session) openings(ctx context.Context, a *arguments) (event, error) {
	return s.perRoom(ctx, "openings", a, func(v station.View, room mesh.ID) (out []event) {
		for _, o := range v.Board.Plan(room, v.Elapsed) {
			out = append(out, openingEvent{
				Event: "opening", Room: o.Door, In: o.At.Milliseconds(), Now: o.Now, Requests: codes(o.Carries),
			})
		}
		return out
	})
}

// usualEvent is how long an item usually takes from "going" to the door.
type usualEvent struct {
	Event   string `json:"event"` // usual
	Item    string `json:"item"`
	Number  uint32 `json:"number"`
	Urgency string `json:"urgency"`
	Usual   int64  `json:"usual_ms"` // the 90th percentile, nearest rank
	Of      int    `json:"of"`       // deliveries; too few: it is the unit's setting
}

func (e usualEvent) say(w words.Words) string {
	return w.Say("list.usual", e.Item, w.Say("urgency."+words.ID(e.Urgency)), minutes(e.Usual), e.Of)
}

func (s *session) usual(ctx context.Context, a *arguments) (event, error) {
	w, err := a.wanted(urgencies()...)
	if err != nil {
		return nil, err
	}
	if w.urgency == 0 {
		w.urgency = requests.RightNow
	}
	var all []event
	err = s.lists(ctx, func(v station.View) error {
		item, err := findItem(v.Ledger, w.item)
		if err != nil {
			return err
		}
		took, of := v.Board.Usual(item.Number, w.urgency)
		all = append(all, usualEvent{"usual", itemName(item), uint32(item.Number), urgencyWord(w.urgency), took.Milliseconds(), of})
		return nil
	})
	return s.list("usual", all, err)
}

// stay tells whether this device may stay behind in the room.
func (s *session) stay(ctx context.Context, a *arguments) (event, error) {
	if err := a.done(); err != nil {
		return nil, err
	}
	e := s.said("stay")
	err := s.view(ctx, func(v station.View) error {
		st := v.StayBehind()
		may := st.May()
		e.Count, e.May = &st.Here, &may
		switch {
		case may:
			e.text = s.w.Say("done.stay")
		case st.Here == 0:
			e.text = s.w.Count("done.stay-clean", len(st.Clean))
		default:
			e.text = s.w.Count("done.stay-here", st.Here)
		}
		return nil
	})
	return e, err
}

// passAll gives everything that this device's holder goes for or holds to
// another runner, and lists it with what lies at the door.
func (s *session) passAll(ctx context.Context, a *arguments) (event, error) {
	to, more := a.next()
	if !more || len(a.words) > 0 {
		return nil, a.bad()
	}
	var carried requests.Carrying
	var all []event
	err := s.view(ctx, func(v station.View) error {
		carried = v.Board.Carrying(s.dev.Key())
		for _, some := range [][]requests.Request{carried.InHand, carried.Promised, carried.AtDoor} {
			for _, r := range some {
				all = append(all, describe(v, s.w, r, lookAt(v, r, s.dev.Key())))
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	for _, r := range append(append([]requests.Request(nil), carried.InHand...), carried.Promised...) {
		if _, _, err := s.write(ctx, "pass-all", a, station.PassOn{Request: r.Ref, To: mesh.Tag(to)}); err != nil {
			return nil, err
		}
	}
	e, err := s.list("pass-all", all, nil)
	return e, err
}
