package main

import (
	"context"
	"flag"
	"io"
	"slices"
	"time"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// usageReady is how a folder is asked whether another patient could come.
const usageReady = "lintelctl ready [-json] [-in 40m] DIR [ROOM]"

// gapEvent is one reason why a room cannot take a patient.
type gapEvent struct {
	Event string   `json:"event"` // gap
	Room  mesh.ID  `json:"room"`
	Gap   words.ID `json:"gap"`
	Of    mesh.ID  `json:"of,omitempty"` // kit or rescue set
	At    string   `json:"at,omitempty"` // what a pick list would fill
	N     int64    `json:"n"`
}

func (e gapEvent) say(w words.Words) string {
	return w.Say("list.gap", e.Room, w.Say("gap."+e.Gap, e.N, e.Of, e.At))
}

// readyRoomEvent says whether a room could take a patient.
type readyRoomEvent struct {
	Event string  `json:"event"` // room
	Room  mesh.ID `json:"room"`
	Ready bool    `json:"ready"`
	Gaps  int     `json:"gaps"`
}

func (e readyRoomEvent) say(w words.Words) string {
	if e.Ready {
		return w.Say("list.room-ready", e.Room)
	}
	return w.Say("list.room-gaps", e.Room, e.Gaps)
}

// readyLines are the rooms with their gaps, and whether any of them could take
// a patient after so long.
func readyLines(v station.View, room mesh.ID, after time.Duration) (all []event, could bool) {
	in := v.ReadyInput(after)
	if room != "" {
		in.Rooms = slices.DeleteFunc(in.Rooms, func(r kits.ReadyRoom) bool { return r.Room != room })
	}
	gaps := kits.Ready(in)
	for _, r := range in.Rooms {
		var mine []event
		for _, g := range gaps {
			if g.Room != r.Room {
				continue
			}
			e := gapEvent{Event: "gap", Room: g.Room, Gap: words.ID(g.ID), Of: g.Of, N: g.N}
			if g.At.Sort != 0 {
				e.At = g.At.Words()
			}
			mine = append(mine, e)
		}
		all = append(append(all, readyRoomEvent{"room", r.Room, len(mine) == 0, len(mine)}), mine...)
		could = could || len(mine) == 0
	}
	return all, could
}

// ready reads [ROOM] [in 40m].
func (s *session) ready(ctx context.Context, a *arguments) (event, error) {
	l, err := a.kitLine(nil, wordIn)
	if err != nil || len(l.words) > 1 || l.count != 0 {
		return nil, a.bad()
	}
	var after time.Duration
	if text, given := l.given[wordIn]; given {
		if after, err = time.ParseDuration(text); err != nil || after < 0 {
			return nil, a.bad()
		}
	}
	var all []event
	could := false
	err = s.lists(ctx, func(v station.View) error {
		all, could = readyLines(v, mesh.ID(l.item()), after)
		return nil
	})
	if err != nil {
		return nil, err
	}
	for _, e := range all {
		s.out.print(e)
	}
	e := s.listed("ready", len(all))
	e.Ready, e.text = &could, s.w.Say(couldID(could))
	return e, nil
}

// couldID is the sentence for whether another patient could come.
func couldID(could bool) words.ID {
	if could {
		return "list.ready"
	}
	return "list.not-ready"
}

// readyCommand answers from a data folder: code 0 where a room could take a
// patient, else 1.
func readyCommand(ctx context.Context, w words.Words, args []string, stdout io.Writer) error {
	set := flag.NewFlagSet("ready", flag.ContinueOnError)
	json := set.Bool("json", false, "")
	after := set.Duration("in", 0, "")
	if err := readFlags(set, usageReady, args); err != nil {
		return err
	}
	if set.NArg() == 0 || set.NArg() > 2 || *after < 0 {
		return missing("DIR", usageReady)
	}
	v, err := readUnit(ctx, set.Arg(0))
	if err != nil {
		return err
	}
	v.Now = mesh.Now{Wall: mesh.Wall(time.Now().UnixMilli())}
	all, could := readyLines(v, mesh.ID(set.Arg(1)), *after)
	out := &printer{out: stdout, w: w, json: *json}
	for _, e := range all {
		out.print(e)
	}
	if !could {
		return &fault{id: "not-ready"}
	}
	return out.err
}
