package main

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// placedEvent is one line of a case's timeline, on the common clock of the devices.
type placedEvent struct {
	Event  string   `json:"event"` // at
	Lane   words.ID `json:"lane"`  // fact, request, stock, opening
	At     int64    `json:"at"`    // milliseconds since 1970 UTC on the common clock
	Within int64    `json:"within_ms"`
	Known  bool     `json:"known"` // false: that device's clock was compared with no other, and within says nothing
	Late   bool     `json:"late,omitempty"`
	Code   string   `json:"code,omitempty"`
	Ref    string   `json:"ref,omitempty"`
	Tag    mesh.Tag `json:"by,omitempty"`
	Role   mesh.ID  `json:"role,omitempty"`
	Chart  int64    `json:"monitor,omitempty"` // on the patient monitor's clock, as if UTC
	Text   string   `json:"text"`
}

func (e placedEvent) say(w words.Words) string {
	within := w.Say("at.unknown")
	if e.Known {
		within = w.Say("at.within", seconds(time.Duration(e.Within)*time.Millisecond))
	}
	at := clockTime(mesh.Wall(e.At))
	if e.Chart > 0 {
		at += w.Say("at.monitor", time.UnixMilli(e.Chart).UTC().Format(time.TimeOnly))
	}
	said := w.Say("at.line", at, within, e.Tag, e.Text)
	if e.Late {
		said += w.Say("device.and") + w.Say("fact.late")
	}
	return said
}

// course puts a case on one clock. Whoever made it owns it.
type course struct {
	w      words.Words
	v      station.View
	clocks requests.Clocks
	charts []requests.Chart
	said   map[mesh.Ref]string // marks of requests in words
	out    []placedEvent
}

// timelineOf lists everything of a case in time.
func timelineOf(w words.Words, v station.View, c requests.Case) []placedEvent {
	t := &course{w: w, v: v, clocks: v.Board.ClocksOf(c.Ref), charts: c.Charts, said: saidOf(w, v)}
	for _, e := range factsOf(w, v.Board, c) {
		text := e.text
		for _, f := range e.Flags {
			text += w.Say("device.and") + w.Say("fact.flag."+f)
		}
		t.add("fact", e.mark, text)
	}
	for _, ref := range c.Requests {
		r, _ := v.Board.Request(ref)
		for _, m := range r.Marks {
			if text := t.said[m.Ref]; text != "" && !m.Undone {
				t.add("request", m, text)
			}
		}
	}
	t.stock(c)
	for _, o := range v.Board.Timeline(c.Ref).Openings {
		id := words.ID("at.opening")
		if o.Measured {
			id = "at.opening-measured"
		}
		t.out = append(t.out, t.placed("opening", o.From, w.Say(id, o.HandOvers, o.Crossings)))
	}
	slices.SortStableFunc(t.out, func(a, b placedEvent) int { return cmp.Compare(a.At, b.At) })
	return t.out
}

// stock is what was drawn up, came to an end or went on with the patient.
func (t *course) stock(c requests.Case) {
	for _, m := range t.v.Ledger.Movements() {
		if m.Case != c.Ref || !m.Counts() {
			continue
		}
		id := words.ID("stock.end")
		switch {
		case m.Kind == kits.KindDrawnUp:
			id = "stock.drawn"
		case m.Kind == kits.KindLeftWith:
			id = "stock.left"
		case m.To.Sort < kits.Used || m.To.Sort > kits.LeftWithPatient:
			continue
		}
		var what []string
		for _, x := range m.Lines {
			name := nameOf(t.v.Ledger, x.Item)
			if x.Syringe.IsZero() {
				what = append(what, thingOf{Item: name, Count: x.Quantity.N}.say(t.w))
			} else {
				what = append(what, t.w.Say("stock.syringe", requests.Code(x.Syringe), name))
			}
		}
		mark := requests.Mark{Ref: m.Ref, At: m.At, Wall: m.Wall, By: m.By, Kind: m.Kind}
		t.add("stock", mark, t.w.Say(id, strings.Join(what, ", "), kits.Place{Sort: m.To.Sort}.Words(), requests.Code(m.Ref)))
	}
}

func (t *course) add(lane words.ID, m requests.Mark, text string) {
	e := t.placed(lane, t.clocks.Place(m), text)
	e.Code, e.Ref, e.Tag, e.Role = requests.Code(m.Ref), m.Ref.Hex(), m.By.Tag, m.By.Role
	if p, tied := t.clocks.Monitor(t.charts, m); tied {
		e.Chart = int64(p.Wall)
	}
	t.out = append(t.out, e)
}

func (t *course) placed(lane words.ID, p requests.Placed, text string) placedEvent {
	return placedEvent{
		Event: "at", Lane: lane, At: int64(p.Wall), Within: p.Within.Milliseconds(), Known: p.Known, Late: p.Late, Text: text,
	}
}

// saidOf words every mark of a request, in the order of the entries.
func saidOf(w words.Words, v station.View) map[mesh.Ref]string {
	type stored struct {
		at    mesh.Order
		entry *mesh.Entry
	}
	var all []stored
	v.Peer.EachItem(func(at mesh.Order, it mesh.Item) {
		if e, err := mesh.DecodeEntry(it.Bytes); err == nil {
			all = append(all, stored{at, e})
		}
	})
	slices.SortFunc(all, func(a, b stored) int { return a.at.Compare(b.at) })
	t := newTimeline(w, v)
	out := map[mesh.Ref]string{}
	for _, x := range all {
		for _, m := range t.moments(x.entry) {
			out[m.ref] = strings.TrimSpace(m.said)
		}
	}
	return out
}
