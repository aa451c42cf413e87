package kits

import (
	"slices"

	"lintel/mesh"
)

// trained is what movements of exercises make up of the balances of a shelf:
// what they carried, less what the count that speaks for it had seen of it,
// since that count says what really lies there.
func (s *shelf) trained(drill func(mesh.Ref) bool) map[batch]int64 {
	out := map[batch]int64{}
	if drill == nil {
		return out
	}
	for _, m := range s.moves {
		if !drill(m.inCase) {
			continue
		}
		s.tally(m, nil, out, +1, func(batch) bool { return true })
		for i, c := range s.chain {
			later := s.chain[i+1:]
			s.tally(m, c.sees, out, -1, func(b batch) bool {
				return c.speaksFor(b) && !slices.ContainsFunc(later, func(d *count) bool { return d.speaksFor(b) })
			})
		}
	}
	return out
}

// tally adds what e sees of m at the shelf, for the batches that are asked for.
func (s *shelf) tally(m *move, e eyes, into map[batch]int64, sign int64, asked func(batch) bool) {
	m.postings(e, func(p posting) {
		if !asked(p.what) {
			return
		}
		if p.from == s.place {
			addTo(into, p.what, -sign*p.n)
		}
		if p.to == s.place {
			addTo(into, p.what, sign*p.n)
		}
	})
}

// realAt is what lies at a place without what exercises moved: containers as
// supplied, by item and lot.
func (l *Ledger) realAt(p Place, drill func(mesh.Ref) bool) map[mesh.Number]map[mesh.Label]int64 {
	out := map[mesh.Number]map[mesh.Label]int64{}
	add := func(b batch, n int64) {
		if b.measure != mesh.Each || !b.syringe.IsZero() || n == 0 {
			return
		}
		if out[b.item] == nil {
			out[b.item] = map[mesh.Label]int64{}
		}
		out[b.item][b.lot] += n
	}
	for _, b := range l.BalancesAt(p) {
		add(b.Cell.batch(), b.N)
	}
	if s := l.shelves[p]; s != nil {
		for b, n := range s.trained(drill) {
			add(b, -n)
		}
	}
	return out
}
