package kits

import (
	"cmp"
	"maps"
	"slices"

	"lintel/mesh"
)

// count is one Counted with what the movements that it had seen amount to. The
// Ledger owns it.
type count struct {
	ref     mesh.Ref
	at      mesh.Order
	body    *Counted
	heads   map[mesh.Feed]mesh.Seq
	counted map[batch]int64
	covers  map[covered]bool
	seen    map[batch]int64 // at its place, by the movements, reversals and ends within heads
}

// covered is what a line of a count speaks for: every lot and every syringe of
// the item in this measure. What is not named there was counted as none.
type covered struct {
	item    mesh.Number
	measure mesh.Measure
}

func newCount(f mesh.Fact, body *Counted) *count {
	c := &count{
		ref: f.Ref, at: f.At, body: body,
		heads:   map[mesh.Feed]mesh.Seq{},
		counted: map[batch]int64{},
		covers:  map[covered]bool{},
		seen:    map[batch]int64{},
	}
	for _, h := range body.Seen {
		c.heads[h.Feed] = max(c.heads[h.Feed], h.Seq)
	}
	for _, x := range body.Lines {
		c.counted[x.batch()] += x.Quantity.N
		c.covers[covered{x.Item, x.Quantity.Measure}] = true
	}
	return c
}

// sees tells whether the count had seen what was written at this place of a feed.
func (c *count) sees(at mesh.Order) bool { return at.Seq <= c.heads[at.Feed] }

// speaksFor tells whether the count says how much of b there was.
func (c *count) speaksFor(b batch) bool { return c.body.Whole || c.covers[covered{b.item, b.measure}] }

// look adds or takes away what m did, as far as the count had seen it.
func (c *count) look(m *move, sign int64) {
	m.postings(c.sees, func(p posting) {
		if p.from == c.body.Place {
			addTo(c.seen, p.what, -sign*p.n)
		}
		if p.to == c.body.Place {
			addTo(c.seen, p.what, sign*p.n)
		}
	})
}

// addCount takes a count and walks once through the movements of its place.
func (l *Ledger) addCount(f mesh.Fact, body *Counted) {
	c := newCount(f, body)
	l.counts[c.ref] = c
	s := l.shelfAt(body.Place)
	for _, m := range s.moves {
		c.look(m, +1)
	}
	s.counts = append(s.counts, c)
	s.link()
}

// link finds the counts that hold: from the first on, of all that name the same
// one before, the one written first.
func (s *shelf) link() {
	after := map[mesh.Ref]*count{}
	for _, c := range s.counts {
		if old := after[c.body.Before]; old == nil || c.before(old) {
			after[c.body.Before] = c
		}
	}
	s.chain = s.chain[:0]
	for c := after[mesh.Ref{}]; c != nil && len(s.chain) <= len(s.counts); c = after[c.ref] {
		s.chain = append(s.chain, c)
	}
}

func (c *count) before(d *count) bool {
	if n := c.at.Compare(d.at); n != 0 {
		return n < 0
	}
	return c.ref.Compare(d.ref) < 0
}

// Count is one count as the ledger sees it.
type Count struct {
	Ref         mesh.Ref
	At          mesh.Order
	Place       Place
	Before      mesh.Ref
	Holds       bool // it is in the chain of counts of its place
	Adjustments []Adjustment
}

// Adjustment is what a count that holds found more (N above 0) or missing
// (below 0) against the movements it had seen and the counts before it.
type Adjustment struct {
	Cell Cell
	N    int64
}

// Counts lists the counts of a place, earliest first.
func (l *Ledger) Counts(p Place) []Count {
	s := l.shelves[p]
	if s == nil {
		return nil
	}
	found := s.adjustments()
	var out []Count
	for _, c := range s.counts {
		out = append(out, Count{
			Ref: c.ref, At: c.at, Place: p, Before: c.body.Before,
			Holds: slices.Contains(s.chain, c), Adjustments: s.cells(found[c.ref]),
		})
	}
	slices.SortFunc(out, func(a, b Count) int {
		return cmp.Or(a.At.Compare(b.At), a.Ref.Compare(b.Ref))
	})
	return out
}

// LastCount is the newest count of a place that holds, which the next count
// names; the zero Ref if there is none.
func (l *Ledger) LastCount(p Place) mesh.Ref {
	s := l.shelves[p]
	if s == nil || len(s.chain) == 0 {
		return mesh.Ref{}
	}
	return s.chain[len(s.chain)-1].ref
}

// adjustments are those of each count that holds, without zeros.
func (s *shelf) adjustments() map[mesh.Ref]map[batch]int64 {
	out := map[mesh.Ref]map[batch]int64{}
	sum := map[batch]int64{}
	for _, c := range s.chain {
		mine := map[batch]int64{}
		for b := range s.mentioned(c, sum) {
			if c.speaksFor(b) {
				addTo(mine, b, c.counted[b]-c.seen[b]-sum[b])
			}
		}
		for b, n := range mine {
			addTo(sum, b, n)
		}
		out[c.ref] = mine
	}
	return out
}

// mentioned are the batches that c or the counts before it say anything about.
func (s *shelf) mentioned(c *count, sum map[batch]int64) map[batch]bool {
	out := map[batch]bool{}
	for _, m := range [...]map[batch]int64{c.counted, c.seen, sum} {
		for b := range maps.Keys(m) {
			out[b] = true
		}
	}
	return out
}

func (s *shelf) cells(found map[batch]int64) []Adjustment {
	var out []Adjustment
	for b, n := range found {
		out = append(out, Adjustment{b.at(s.place), n})
	}
	slices.SortFunc(out, func(a, b Adjustment) int { return a.Cell.Compare(b.Cell) })
	return out
}
