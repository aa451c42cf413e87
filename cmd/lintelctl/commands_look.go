package main

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// someCase reads an optional case: its code, or "room A1"; else the one that is
// open where this device is, or was last. None is no error.
func (s *session) someCase(ctx context.Context, a *arguments) (c requests.Case, err error) {
	room, named, err := a.after(wordRoom)
	if err != nil {
		return c, err
	}
	code, coded := "", false
	if !named {
		code, coded = a.next()
	}
	err = s.lists(ctx, func(v station.View) error {
		all := v.Board.Cases()
		for _, x := range slices.Backward(all) {
			if coded && (requests.Code(x.Ref) == code || x.Ref.Hex() == code) {
				c = x
				return nil
			}
		}
		if coded {
			return &fault{id: "case-none", blanks: []any{code}}
		}
		for _, in := range append([]mesh.ID{mesh.ID(room)}, s.hold.Rooms...) {
			if found, known := caseIn(v.Board, in); known || named {
				c = found
				return nil
			}
		}
		if len(all) > 0 {
			c = all[len(all)-1]
		}
		return nil
	})
	return c, err
}

// caseEvent is one case.
type caseEvent struct {
	Event    string     `json:"event"` // case
	Case     string     `json:"case"`  // its code
	Ref      string     `json:"ref"`
	Room     mesh.ID    `json:"room"`
	What     mesh.ID    `json:"what,omitempty"`
	Label    mesh.Label `json:"label,omitempty"`
	Opened   int64      `json:"opened"` // milliseconds since 1970 UTC
	Hurry    bool       `json:"hurry,omitempty"`
	Over     bool       `json:"over"`
	MovedTo  mesh.Label `json:"moved_to,omitempty"`
	Drill    bool       `json:"drill,omitempty"` // an exercise goes on
	Requests int        `json:"requests"`
	Inside   []string   `json:"inside"` // tags of those who are in
	Unheard  int        `json:"unheard"`
	Skipped  []mesh.ID  `json:"skipped,omitempty"`

	what string // for people
}

func (e caseEvent) say(w words.Words) string {
	state := words.ID("list.case-open")
	if e.Over {
		state = "list.case-over"
	}
	what := ""
	if e.what != "" {
		what = w.Say("list.case-what", e.what)
	}
	said := w.Say("list.case", e.Case, e.Room, what, w.Say(state), e.Requests, len(e.Inside))
	add := func(on bool, id words.ID, blanks ...any) {
		if on {
			said += w.Say("device.and") + w.Say(id, blanks...)
		}
	}
	add(e.Label != "", "list.case-label", e.Label)
	add(e.Hurry, "fact.flag.hurry")
	add(e.MovedTo != "", "list.case-moved", e.MovedTo)
	add(e.Drill, "list.case-drill")
	add(len(e.Skipped) > 0, "list.case-skipped", len(e.Skipped))
	add(e.Unheard > 0, "list.case-unheard", e.Unheard)
	return said
}

func describeCase(b *requests.Board, c requests.Case) caseEvent {
	e := caseEvent{
		Event: "case", Case: requests.Code(c.Ref), Ref: c.Ref.Hex(), Room: c.Room, What: c.What, Label: c.Label,
		Opened: int64(c.Opened.When()), Hurry: c.Hurry, Over: c.Over, MovedTo: c.MovedTo, Requests: len(c.Requests), Inside: []string{},
		what: string(c.What),
	}
	if l, known := b.ListLine("what", c.What); known {
		e.what = string(l.Words)
	}
	for _, p := range c.People {
		if p.Zone != "" && p.Side != requests.Outside {
			e.Inside = append(e.Inside, string(p.Tag))
		}
	}
	e.Unheard = unheard(c)
	for _, x := range c.Skipped {
		if !x.Made {
			e.Skipped = append(e.Skipped, x.Line)
		}
	}
	e.Drill = b.IsDrill(c.Ref)
	return e
}

// unheard counts the phrases and breaches that nobody heard.
func unheard(c requests.Case) (n int) {
	for _, x := range c.Breaches {
		if len(x.Heard) == 0 {
			n++
		}
	}
	for _, x := range c.Said {
		if len(x.Heard) == 0 {
			n++
		}
	}
	return n
}

func (s *session) listCases(ctx context.Context, a *arguments) (event, error) {
	if err := a.done(); err != nil {
		return nil, err
	}
	var all []event
	err := s.lists(ctx, func(v station.View) error {
		for _, c := range v.Board.Cases() {
			all = append(all, describeCase(v.Board, c))
		}
		return nil
	})
	return s.list("cases", all, err)
}

// listFacts lists what was recorded for a case, its requests apart.
func (s *session) listFacts(ctx context.Context, a *arguments) (event, error) {
	return s.perCase(ctx, "facts", a, func(v station.View, c requests.Case) (out []event) {
		for _, e := range factsOf(s.w, v.Board, c) {
			out = append(out, e)
		}
		return out
	})
}

// timeline lists a case in time, on the common clock of the devices.
func (s *session) timeline(ctx context.Context, a *arguments) (event, error) {
	return s.perCase(ctx, "timeline", a, func(v station.View, c requests.Case) (out []event) {
		for _, e := range timelineOf(s.w, v, c) {
			out = append(out, e)
		}
		return out
	})
}

// perCase lists what a look finds of the case that a line means.
func (s *session) perCase(ctx context.Context, command string, a *arguments, look func(station.View, requests.Case) []event) (event, error) {
	c, err := s.someCase(ctx, a)
	if err == nil {
		err = a.done()
	}
	if err != nil {
		return nil, err
	}
	var all []event
	err = s.lists(ctx, func(v station.View) error {
		if !c.Ref.IsZero() {
			all = look(v, c)
		}
		return nil
	})
	return s.list(command, all, err)
}

// callEvent is what waits for a person outside.
type callEvent struct {
	Event   string   `json:"event"` // call
	Code    string   `json:"code"`  // of the request, phrase, breach or test
	Ref     string   `json:"ref"`
	Room    mesh.ID  `json:"room"`
	Why     words.ID `json:"why"`
	Level   uint8    `json:"level"`
	For     []string `json:"for"`  // names of the devices that call
	Here    bool     `json:"here"` // this one does
	Elapsed int64    `json:"elapsed_ms"`
	Usual   int64    `json:"usual_ms,omitempty"`
}

func (e callEvent) say(w words.Words) string {
	calling := strings.Join(e.For, " ")
	if calling == "" {
		calling = w.Say("fact.nobody")
	}
	said := w.Say("list.call", e.Code, e.Room, w.Say("call-why."+e.Why), e.Level, minutes(e.Elapsed), calling)
	if e.Usual > 0 {
		said += w.Say("list.call-usual", minutes(e.Usual))
	}
	return said
}

// minutes is a length of time as people read it: 2:10.
func minutes(ms int64) string {
	d := time.Duration(ms) * time.Millisecond
	return fmt.Sprintf("%d:%02d", d/time.Minute, d%time.Minute/time.Second)
}

func (s *session) calls(ctx context.Context, a *arguments) (event, error) {
	if err := a.done(); err != nil {
		return nil, err
	}
	var all []event
	err := s.view(ctx, func(v station.View) error {
		named := deviceNames(v)
		for _, c := range v.Calls() {
			e := callEvent{
				Event: "call", Code: requests.Code(c.Ref), Ref: c.Ref.Hex(), Room: c.Room, Why: words.CallID(c.Why), Level: c.Level,
				For: []string{}, Here: slices.Contains(c.For, s.dev.Key()), Elapsed: c.Elapsed.Milliseconds(), Usual: c.Usual.Milliseconds(),
			}
			for _, k := range c.For {
				e.For = append(e.For, named(k))
			}
			all = append(all, e)
		}
		return nil
	})
	return s.list("calls", all, err)
}

// deviceNames gives the name of a device, or the beginning of its key.
func deviceNames(v station.View) func(mesh.Key) string {
	names := map[mesh.Key]string{}
	for _, d := range v.Peer.Devices() {
		names[d.Key] = string(d.Name)
	}
	return func(k mesh.Key) string {
		if n := names[k]; n != "" {
			return n
		}
		return k.String()
	}
}
