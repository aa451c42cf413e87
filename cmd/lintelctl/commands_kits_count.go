package main

import (
	"context"
	"slices"
	"strings"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// endEvent is what a count proposes for one line inside.
type endEvent struct {
	Event   string   `json:"event"` // end
	Room    mesh.ID  `json:"room"`
	Item    string   `json:"item"`
	Number  uint32   `json:"number"`
	Lot     string   `json:"lot,omitempty"`
	Syringe string   `json:"syringe,omitempty"`
	Amount  amountOf `json:"amount"`
	To      string   `json:"to,omitempty"` // empty: nothing can be proposed
	Why     words.ID `json:"why,omitempty"`
	Issue   string   `json:"issue,omitempty"`
	AtDoor  bool     `json:"at_door,omitempty"`
	Ask     words.ID `json:"ask,omitempty"` // why it is asked singly
}

func (e endEvent) say(w words.Words) string {
	to := w.Say("list.end-none")
	if e.To != "" {
		to = e.To
	}
	said := w.Say("list.end", e.Room, e.Amount.say(w), e.Item, to)
	add := func(on bool, id words.ID, blanks ...any) {
		if on {
			said += w.Say("device.and") + w.Say(id, blanks...)
		}
	}
	add(e.Syringe != "", "list.held-syringe", e.Syringe)
	add(e.Lot != "", "list.end-lot", e.Lot)
	add(e.Why != "", "reason."+e.Why)
	add(e.Issue != "", "list.end-issue", e.Issue)
	add(e.AtDoor, "list.end-door")
	add(e.Ask != "", "ask-singly."+e.Ask)
	return said
}

// countLine is what a line about a count says.
type countLine struct {
	room   mesh.ID
	accept bool   // all that is not asked singly
	whole  bool   // also what is
	item   string // one item
	end    kits.Place
	seen   station.Seen
}

func (a *arguments) countLine() (c countLine, err error) {
	l, err := a.kitLine([]string{"accept", wordAll, "item", wordGlass}, wordRoom, wordSeenBy)
	if err != nil {
		return c, err
	}
	c.room, c.accept, c.whole = mesh.ID(l.given[wordRoom]), l.flags["accept"], l.flags[wordAll]
	c.seen.Tag = mesh.Tag(l.given[wordSeenBy])
	if c.seen.Grade = kits.SameDevice; l.flags[wordGlass] {
		c.seen.Grade = kits.ThroughGlass
	}
	one := l.flags["item"]
	if one && len(l.words) > 1 {
		if p, known := kits.ParsePlace(l.words[len(l.words)-1]); known {
			c.end, l.words = p, l.words[:len(l.words)-1]
		}
	}
	c.item = l.item()
	if l.count != 0 || one != (c.item != "") || one && c.accept || c.whole && !c.accept {
		return c, a.bad()
	}
	return c, nil
}

// countCommand proposes the end of everything inside, accepts it, or decides
// one item.
func (s *session) countCommand(ctx context.Context, a *arguments) (event, error) {
	c, err := a.countLine()
	if err != nil {
		return nil, err
	}
	var all []event
	var acts []station.Act
	err = s.lists(ctx, func(v station.View) error {
		if c.room == "" {
			if doors := v.Doors(); len(doors) == 1 {
				c.room = doors[0]
			} else {
				return station.ErrNoRoom
			}
		}
		ends := v.Proposal(c.room)
		if !c.accept && c.item == "" {
			all = proposed(v, c.room)
			return nil
		}
		if ends, err = c.chosen(v, ends); err == nil {
			acts = v.AcceptEnds(c.room, mesh.Ref{}, ends)
		}
		return err
	})
	if err != nil || !c.accept && c.item == "" {
		return s.list("count", all, err)
	}
	return s.acceptEnds(ctx, a, acts, c.seen)
}

// proposed are the ends that are proposed for what is inside a room.
func proposed(v station.View, room mesh.ID) (all []event) {
	for _, e := range v.Proposal(room) {
		all = append(all, describeEnd(v.Ledger, room, e))
	}
	return all
}

// endEvents are the same of a data folder.
func endEvents(_ words.Words, v station.View, a *arguments) ([]event, error) {
	room, more := a.next()
	switch {
	case !more:
		return nil, station.ErrNoRoom
	case len(a.words) > 0:
		return nil, a.bad()
	}
	return proposed(v, mesh.ID(room)), nil
}

// chosen are the ends that a line means.
func (c countLine) chosen(v station.View, ends []kits.ProposedEnd) (out []kits.ProposedEnd, err error) {
	if c.accept {
		return slices.DeleteFunc(ends, func(e kits.ProposedEnd) bool {
			return !c.whole && e.Ask != kits.AskNothing
		}), nil
	}
	item, err := findItem(v.Ledger, c.item)
	if err != nil {
		return nil, err
	}
	for _, e := range ends {
		if e.Cell.Item != item.Number {
			continue
		}
		if c.end.Sort != 0 && e.HandOver.IsZero() {
			if c.end.Sort < kits.Used {
				return nil, station.ErrNoEnd
			}
			e.To, e.Why = kits.Place{Sort: c.end.Sort, ID: c.room}, ""
		}
		out = append(out, e)
	}
	return out, nil
}

// acceptEnds writes the ends, then who saw those that a second person must see.
func (s *session) acceptEnds(ctx context.Context, a *arguments, acts []station.Act, seen station.Seen) (event, error) {
	st, err := s.unit(ctx)
	switch {
	case err != nil:
		return nil, err
	case len(acts) == 0:
		return nil, station.ErrNothing
	}
	var moved []mesh.Ref
	for _, act := range acts {
		r, err := st.Do(ctx, s.by(a), act)
		if err != nil {
			return nil, err
		}
		for part := 1; part < mesh.PartsMax; part++ {
			moved = append(moved, mesh.MakeRef(s.dev.Key(), r.Tap, part))
		}
	}
	var needs []mesh.Ref
	err = s.view(ctx, func(v station.View) error {
		for _, r := range moved {
			if v.Ledger.NeedsWitness(r) {
				needs = append(needs, r)
			}
		}
		return nil
	})
	var seenBy []station.Act
	if seen.Tag != "" {
		for some := range slices.Chunk(needs, station.WitnessMax) {
			seenBy = append(seenBy, station.Witness{Movements: some, Tag: seen.Tag, Grade: seen.Grade})
		}
	}
	for _, act := range seenBy {
		if _, err := st.Do(ctx, s.by(a), act); err != nil {
			return nil, err
		}
	}
	n := len(acts) + len(seenBy)
	e := s.said("count")
	e.Count, e.text = &n, s.w.Say("done.several", "count", n, s.w.Say("done.saved"))
	return e, err
}

func describeEnd(l *kits.Ledger, room mesh.ID, x kits.ProposedEnd) endEvent {
	e := endEvent{
		Event: "end", Room: room, Item: itemName(x.Item), Number: uint32(x.Item.Number), Lot: string(x.Cell.Lot), Why: words.ID(x.Why),
		Amount: amountOf{Containers: x.N, Base: x.N, Measure: words.MeasureID(x.Cell.Measure), Exact: true},
		AtDoor: !x.HandOver.IsZero(), Ask: words.AskID(x.Ask),
	}
	if c := x.Cell; x.N >= 0 {
		line := kits.Line{Item: c.Item, Lot: c.Lot, Syringe: c.Syringe, Quantity: kits.Quantity{N: x.N, Measure: c.Measure}}
		e.Amount = amountFrom(l.MeasuredLine(line))
	}
	if x.To.Sort != 0 {
		e.To = x.To.Words()
	}
	if !x.Cell.Syringe.IsZero() {
		e.Syringe = requests.Code(x.Cell.Syringe)
	}
	if !x.Issue.IsZero() {
		e.Issue = requests.Code(x.Issue)
	}
	return e
}

// counted reads PLACE [whole] [ITEM xN|none [/ …]].
func (s *session) counted(ctx context.Context, a *arguments) (event, error) {
	text, more := a.next()
	if !more {
		return nil, a.bad()
	}
	p, err := readPlace(text)
	if err != nil {
		return nil, err
	}
	act := station.CountPlace{Place: p}
	_, act.Whole = a.keyword("whole")
	for _, part := range strings.Split(a.rest(), "/") {
		texts := strings.Fields(part)
		if len(texts) == 0 {
			continue
		}
		one := &arguments{usage: a.usage}
		for _, x := range texts {
			one.words = append(one.words, word{text: x})
		}
		l, err := one.kitLine([]string{wordNone}, wordLot)
		if err != nil || l.flags[wordNone] == (l.count > 0) {
			return nil, a.bad()
		}
		err = s.lists(ctx, func(v station.View) error {
			item, err := findItem(v.Ledger, l.item())
			line := kits.Containers(item.Number, l.count)
			line.Lot = mesh.Label(l.given[wordLot])
			act.Lines = append(act.Lines, line)
			return err
		})
		if err != nil {
			return nil, err
		}
	}
	return s.plain(ctx, "counted", a, act)
}
