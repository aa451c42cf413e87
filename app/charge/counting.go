package charge

import (
	"reflect"
	"slices"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
)

// counting is a count by exception that goes on: what was answered so far.
// Nothing of it is recorded before the second person was named.
type counting struct {
	rest    bool                       // what need not be asked for was accepted
	answers map[int][]kits.ProposedEnd // by question; without an end it stays inside
	at      int                        // the question that is asked
	parts   *parting                   // what is asked is answered in parts
}

// parting is one question answered in parts, end after end.
type parting struct {
	end  int   // which of the question's ends
	left int64 // of it, in its measure
	to   kits.PlaceSort
	done []kits.ProposedEnd
}

// begun begins a count of nothing.
func begun() counting { return counting{answers: map[int][]kits.ProposedEnd{}} }

// answered tells whether a question was.
func (c counting) answered(q int) bool { return c.answers[q] != nil }

// next is the first question without an answer; false: there is none.
func (c counting) next(questions int) (int, bool) {
	for q := range questions {
		if !c.answered(q) {
			return q, true
		}
	}
	return 0, false
}

// carriedOver is a count that goes on when something else was recorded meanwhile:
// answers to what is still as it was stay, all others are asked for again.
func (c counting) carriedOver(was, now Count) counting {
	out := begun()
	before, restBefore := was.questions()
	after, rest := now.questions()
	for q, old := range before {
		if !c.answered(q) {
			continue
		}
		n := slices.IndexFunc(after, func(x asked) bool { return x.item == old.item && x.ask == old.ask })
		if n >= 0 && reflect.DeepEqual(was.of(old.ends), now.of(after[n].ends)) {
			out.answers[n] = c.answers[q]
		}
	}
	out.rest = c.rest && reflect.DeepEqual(was.of(restBefore), now.of(rest))
	return out
}

// of are some of the ends.
func (c Count) of(ends []int) (out []kits.ProposedEnd) {
	for _, i := range ends {
		out = append(out, c.Ends[i])
	}
	return out
}

// complete tells whether everything was answered.
func (c counting) complete(s Count) bool {
	singly, rest := s.questions()
	_, open := c.next(len(singly))
	return !open && (c.rest || len(rest) == 0) && len(s.Ends) > 0
}

// accepted are the ends that were answered, and that nothing is there of what is
// below zero. More is not said to be seen: things may come in meanwhile.
func (c counting) accepted(s Count, room mesh.ID) (ends []kits.ProposedEnd, seen station.CountPlace) {
	singly, rest := s.questions()
	for _, i := range rest {
		ends = append(ends, s.Ends[i])
	}
	seen.Place = kits.Place{Sort: kits.InRoom, ID: room}
	for q := range singly {
		for _, e := range c.answers[q] {
			if e.Ask == kits.AskBelowZero {
				none := kits.Quantity{Measure: e.Cell.Measure}
				seen.Lines = append(seen.Lines, kits.Line{Item: e.Cell.Item, Lot: e.Cell.Lot, Syringe: e.Cell.Syringe, Quantity: none})
				continue // the count that follows mends it
			}
			if e.To.Sort == 0 && e.HandOver.IsZero() {
				continue
			}
			ends = append(ends, e)
		}
	}
	return ends, seen
}

// ended is what a question proposes with another end; sort 0 leaves it where it
// is. What lies at the door is taken whole or goes back; beside something inside
// it goes as it is proposed.
func ended(s Count, q asked, sort kits.PlaceSort, why mesh.Label) (out []kits.ProposedEnd) {
	for _, i := range q.ends {
		e := s.Ends[i]
		if h, lies := s.HandOvers[e.HandOver]; lies {
			switch {
			case sort == kits.InRoom:
				e.Taken = kits.Moved{Lines: h.Lines}.All()
			case q.atDoor(s):
				e.Taken = make([]int64, len(h.Lines))
			}
			out = append(out, e)
			continue
		}
		e.To, e.Why = kits.Place{}, ""
		if sort != 0 {
			e.To, e.Why = kits.Place{Sort: sort, ID: e.Cell.Place.ID}, why
		}
		out = append(out, e)
	}
	return out
}

// proposed is a question answered as it is proposed.
func proposed(s Count, q asked) []kits.ProposedEnd {
	return s.of(q.ends)
}

// part begins to answer a question in parts. What lies at the door is no part
// of it: that goes as proposed.
func (c *counting) part(s Count, q asked) {
	c.parts = &parting{end: -1}
	c.advance(s, q)
}

// advance goes to the next end with something in it; after the last the
// question is answered.
func (c *counting) advance(s Count, q asked) {
	p := c.parts
	for p.end++; p.end < len(q.ends); p.end++ {
		e := s.Ends[q.ends[p.end]]
		if e.HandOver.IsZero() && e.N > 0 {
			p.left = e.N
			return
		}
		p.done = append(p.done, e)
	}
	c.answers[c.at], c.parts = p.done, nil
}

// take gives so many of what is left an end: of containers n, of a syringe n
// tenths of a millilitre. What is more than is left, or as much, is all.
func (c *counting) take(s Count, q asked, n int64) {
	p := c.parts
	i := q.ends[p.end]
	e := s.Ends[i]
	if e.Cell.Measure != mesh.Each {
		n = ofVolume(n*tenthUL, s.Amounts[i].OverUL, e.N)
	}
	e.N = min(n, p.left)
	e.To, e.Why = kits.Place{Sort: p.to, ID: e.Cell.Place.ID}, whyOf(p.to)
	if p.left -= e.N; e.N > 0 {
		p.done = append(p.done, e)
	}
	if p.left == 0 {
		c.advance(s, q)
	}
}

// tenthUL is a tenth of a millilitre, in which volumes are typed.
const tenthUL = 100

// ofVolume is what a volume holds of a whole, rounded to the nearest; of all of
// the volume, all of it.
func ofVolume(ul, wholeUL, whole int64) int64 {
	if ul >= wholeUL || wholeUL <= 0 {
		return whole
	}
	return (whole/wholeUL)*ul + (whole%wholeUL*ul+wholeUL/2)/wholeUL
}

// whyOf is why something that is not used comes to an end.
func whyOf(sort kits.PlaceSort) mesh.Label {
	switch sort {
	case kits.Wasted:
		return kits.WhyOpened
	case kits.DestroyedUnopened:
		return kits.WhyContaminated
	}
	return ""
}

// endsFor are what may have become of what is asked for, the proposed ones left
// out: those stand first.
func endsFor(s Count, q asked) (out []kits.PlaceSort) {
	e := s.Ends[q.ends[0]]
	all := []kits.PlaceSort{kits.Used, kits.Wasted, kits.Broken}
	switch {
	case e.Ask == kits.AskBelowZero:
		return nil
	case q.atDoor(s):
		return []kits.PlaceSort{kits.InRoom, kits.Door}
	case e.Item.Has(kits.IsDrug):
		all = []kits.PlaceSort{kits.Given, kits.Wasted, kits.DestroyedUnopened, kits.Broken, kits.LeftWithPatient}
	case e.Item.Has(kits.Reprocessed):
		all = []kits.PlaceSort{kits.Reprocessing, kits.Wasted, kits.Broken, kits.LeftWithPatient}
	}
	whole := slices.ContainsFunc(q.ends, func(i int) bool { return s.Ends[i].Cell.Syringe.IsZero() })
	if !whole {
		all = slices.DeleteFunc(all, func(p kits.PlaceSort) bool { return p == kits.DestroyedUnopened })
	}
	return all
}

// atDoor tells whether all that is asked for lies at the door.
func (q asked) atDoor(s Count) bool {
	return !slices.ContainsFunc(q.ends, func(i int) bool { return s.Ends[i].HandOver.IsZero() })
}
