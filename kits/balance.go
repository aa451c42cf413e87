package kits

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// Cell is what a balance is kept for: one sort of thing at one place.
type Cell struct {
	Place   Place
	Item    mesh.Number
	Lot     mesh.Label // empty: not known
	Syringe mesh.Ref   // zero: a container as supplied
	Measure mesh.Measure
}

// Balance is how much of something is at a place, in the cell's measure.
type Balance struct {
	Cell Cell
	N    int64 // below 0 at the supplier, and where something does not add up
}

// Compare orders cells by place, item, lot, syringe and measure.
func (c Cell) Compare(d Cell) int {
	return cmp.Or(
		c.Place.Compare(d.Place), cmp.Compare(c.Item, d.Item), cmp.Compare(c.Lot, d.Lot),
		c.Syringe.Compare(d.Syringe), cmp.Compare(c.Measure, d.Measure))
}

func (c Cell) batch() batch { return batch{c.Item, c.Lot, c.Syringe, c.Measure} }

// batches gives every sort of thing a small number, by which shelves keep it.
// The Ledger owns them.
type batches struct {
	ids map[batch]int32
	all []batch
}

// id gives the number of b, a new one if it has none.
func (s *batches) id(b batch) int32 {
	id, known := s.ids[b]
	if !known {
		id = int32(len(s.all))
		s.ids[b] = id
		s.all = append(s.all, b)
	}
	return id
}

func (b batch) at(p Place) Cell { return Cell{p, b.item, b.lot, b.syringe, b.measure} }

// shelf is what the ledger keeps for one place. The Ledger owns it.
type shelf struct {
	place  Place
	held   map[int32]int64 // by movements alone, without zeros; by the number of the batch
	known  *batches
	moves  []*move  // every movement that may touch the place, in order of arrival
	counts []*count // of the place, in order of arrival
	chain  []*count // those that hold, first one first
}

// addTo changes m[b] by n and keeps m without zeros.
func addTo[K comparable](m map[K]int64, b K, n int64) {
	if n == 0 {
		return
	}
	if n += m[b]; n == 0 {
		delete(m, b)
	} else {
		m[b] = n
	}
}

func (s *shelf) add(id int32, n int64) { addTo(s.held, id, n) }

// moved is what is on the shelf by movements alone.
func (s *shelf) moved(b batch) int64 {
	if id, known := s.known.ids[b]; known {
		return s.held[id]
	}
	return 0
}

// balance is what is on the shelf: what the newest count that speaks for it
// saw, and what was written since without its knowledge.
func (s *shelf) balance(b batch) int64 {
	for _, c := range slices.Backward(s.chain) {
		if c.speaksFor(b) {
			return s.moved(b) + c.counted[b] - c.seen[b]
		}
	}
	return s.moved(b)
}

// batches are those that may not be zero on the shelf.
func (s *shelf) batches() map[batch]bool {
	out := map[batch]bool{}
	for id := range s.held {
		out[s.known.all[id]] = true
	}
	for _, c := range s.chain {
		for b := range c.counted {
			out[b] = true
		}
		for b := range c.seen {
			out[b] = true
		}
	}
	return out
}

// Balance returns how much is in one cell.
func (l *Ledger) Balance(c Cell) int64 {
	if c.Place.Sort == Difference {
		return l.difference(c)
	}
	if s := l.shelves[c.Place]; s != nil {
		return s.balance(c.batch())
	}
	return 0
}

// difference is the other end of all adjustments at places of that id.
func (l *Ledger) difference(c Cell) (n int64) {
	for p, s := range l.shelves {
		if p.ID == c.Place.ID && len(s.chain) > 0 {
			n -= s.balance(c.batch()) - s.moved(c.batch())
		}
	}
	return n
}

// Balances lists every cell that is not zero, in the order of Cell.Compare.
func (l *Ledger) Balances() []Balance {
	sums := map[Cell]int64{}
	for p, s := range l.shelves {
		for b := range s.batches() {
			n := s.balance(b)
			sums[b.at(p)] += n
			sums[b.at(Place{Difference, p.ID})] -= n - s.moved(b)
		}
	}
	out := make([]Balance, 0, len(sums))
	for c, n := range sums {
		if n != 0 {
			out = append(out, Balance{c, n})
		}
	}
	slices.SortFunc(out, func(a, b Balance) int { return a.Cell.Compare(b.Cell) })
	return out
}

// BalancesAt lists what is at one place, in the order of Cell.Compare.
func (l *Ledger) BalancesAt(p Place) []Balance {
	var out []Balance
	if s := l.shelves[p]; s != nil && p.Sort != Difference {
		for b := range s.batches() {
			if n := s.balance(b); n != 0 {
				out = append(out, Balance{b.at(p), n})
			}
		}
	}
	slices.SortFunc(out, func(a, b Balance) int { return a.Cell.Compare(b.Cell) })
	return out
}

// Held is how many containers of an item are at a place, of all lots together.
func (l *Ledger) Held(p Place, item mesh.Number) (n int64) {
	for _, b := range l.BalancesAt(p) {
		if b.Cell.Item == item && b.Cell.Measure == mesh.Each && b.Cell.Syringe.IsZero() {
			n += b.N
		}
	}
	return n
}
