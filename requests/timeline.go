package requests

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// Timeline is one case on one clock, in lanes. Every lane is in order of time.
type Timeline struct {
	Of       mesh.Ref
	Start    Placed
	End      Placed // the end of the case; while it goes on, the last thing that was recorded
	Moments  []MomentAt
	People   []StayAt
	Requests []Bar
	Openings []OpeningAt
	Breaches []BreachAt
	Phrases  []PhraseAt
	Apart    []mesh.Key // devices whose clocks were never compared: their marks stand by their own
}

// MomentAt is a noted time.
type MomentAt struct {
	Moment
	Placed  Placed
	Monitor Placed // on the patient monitor's clock; not Known: the case is not tied to one
}

// StayAt is one person's stay in one zone.
type StayAt struct {
	Tag      mesh.Tag
	Zone     mesh.ID // empty: the innermost, without a name
	Side     Side
	From, To Placed
	Open     bool // no coming out was recorded: To is the end of the case
}

// Bar is one request from its asking to its end.
type Bar struct {
	Request  Request
	From, To Placed
	Open     bool    // it never ended: To is the end of the case
	Points   []Point // its marks that count
}

// Point is a mark on a bar.
type Point struct {
	Mark
	Placed Placed
}

// OpeningAt is one opening of the door.
type OpeningAt struct {
	From, To  Placed
	Measured  bool // by a contact at the door; else derived from what crossed
	HandOvers int  // things taken in or out meanwhile
	Crossings int  // persons meanwhile
}

// BreachAt is a breach.
type BreachAt struct {
	Harm
	Placed Placed
}

// PhraseAt is a phrase.
type PhraseAt struct {
	Phrase
	Placed Placed
}

// Timeline lays a case out in time. What was taken back is left out. Of a Ref
// that is no case it is empty.
func (b *Board) Timeline(of mesh.Ref) Timeline {
	c, known := b.Case(of)
	if !known {
		return Timeline{}
	}
	w := newCourse(b, c)
	t := Timeline{Of: of, Start: w.start, End: w.end, Openings: w.openings()}
	for _, m := range c.Moments {
		monitor, _ := w.clocks.Monitor(c.Charts, m.Mark)
		t.Moments = append(t.Moments, MomentAt{m, w.clocks.Place(m.Mark), monitor})
	}
	for _, s := range w.stays() {
		t.People = append(t.People, StayAt{s.tag, s.zone, s.side, w.clocks.Place(s.from), w.ending(s), s.open})
	}
	for _, r := range w.requests {
		t.Requests = append(t.Requests, w.bar(r))
	}
	for _, h := range c.Breaches {
		t.Breaches = append(t.Breaches, BreachAt{h, w.clocks.Place(h.Mark)})
	}
	for _, p := range c.Said {
		t.Phrases = append(t.Phrases, PhraseAt{p, w.clocks.Place(p.Mark)})
	}
	t.Apart = w.apart()
	t.sort()
	return t
}

// sort puts every lane in order of time.
func (t *Timeline) sort() {
	slices.SortStableFunc(t.Moments, func(x, y MomentAt) int { return cmp.Compare(x.Placed.Wall, y.Placed.Wall) })
	slices.SortStableFunc(t.People, func(x, y StayAt) int { return cmp.Compare(x.From.Wall, y.From.Wall) })
	slices.SortStableFunc(t.Requests, func(x, y Bar) int { return cmp.Compare(x.From.Wall, y.From.Wall) })
	slices.SortStableFunc(t.Breaches, func(x, y BreachAt) int { return cmp.Compare(x.Placed.Wall, y.Placed.Wall) })
	slices.SortStableFunc(t.Phrases, func(x, y PhraseAt) int { return cmp.Compare(x.Placed.Wall, y.Placed.Wall) })
}

// course is one case with its requests on its common clock.
type course struct {
	b        *Board
	c        Case
	clocks   Clocks
	requests []Request // that were not taken back
	marks    []Mark    // everything of the case that has a time
	start    Placed
	end      Placed
}

func newCourse(b *Board, c Case) *course {
	w := &course{b: b, c: c, clocks: b.ClocksOf(c.Ref)}
	for _, ref := range c.Requests {
		if r, known := b.Request(ref); known && !r.Undone {
			w.requests = append(w.requests, r)
		}
	}
	w.gather()
	w.start = w.clocks.Place(c.Opened)
	w.end = w.start
	if c.Over {
		w.end = w.clocks.Place(c.Shut[0].Mark)
		return w
	}
	for _, m := range w.marks {
		if p := w.clocks.Place(m); p.Wall > w.end.Wall {
			w.end = p
		}
	}
	return w
}

// gather collects every mark of the case that counts and has a time.
func (w *course) gather() {
	add := func(m Mark) { w.marks = append(w.marks, m) }
	add(w.c.Opened)
	for _, r := range w.requests {
		for _, m := range r.Marks {
			if !m.Undone {
				add(m)
			}
		}
	}
	each(w.c.Moments, func(m Moment) { add(m.Mark) })
	each(w.c.Crossings, func(x Crossing) { add(x.Mark) })
	each(w.c.Breaches, func(h Harm) { add(h.Mark) })
	each(w.c.Said, func(p Phrase) { add(p.Mark) })
	each(w.c.Doors, func(d DoorSeen) { add(d.Mark) })
	each(w.c.Shut, func(e Ending) { add(e.Mark) })
}

// apart lists the devices whose clocks could not be set against the others, if
// there are others.
func (w *course) apart() []mesh.Key {
	var devices, apart []mesh.Key
	for _, m := range w.marks {
		devices = append(devices, m.Device())
		if !w.clocks.Place(m).Known {
			apart = append(apart, m.Device())
		}
	}
	if len(sortedKeys(devices)) < 2 {
		return nil
	}
	return sortedKeys(apart)
}

// bar lays out one request.
func (w *course) bar(r Request) Bar {
	bar := Bar{Request: r, From: w.clocks.Place(r.Asked), Open: !r.Over()}
	bar.To = bar.From
	for _, m := range r.Marks {
		if m.Undone || m.Kind == KindUndone {
			continue
		}
		p := Point{m, w.clocks.Place(m)}
		bar.Points = append(bar.Points, p)
		if p.Placed.Wall > bar.To.Wall && ends(m.Kind) {
			bar.To = p.Placed
		}
	}
	if bar.Open {
		bar.To = w.end
	}
	slices.SortStableFunc(bar.Points, func(x, y Point) int { return cmp.Compare(x.Placed.Wall, y.Placed.Wall) })
	return bar
}

// ends tells whether a mark of this kind can end a request.
func ends(k mesh.Kind) bool {
	switch k {
	case KindTakenIn, KindTakenBack, KindWithdrawn, KindCouldNot:
		return true
	}
	return false
}
