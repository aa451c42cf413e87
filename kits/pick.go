package kits

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// LotHeld is one lot at a place, in containers.
type LotHeld struct {
	Lot      mesh.Label // empty: not known
	Expiry   uint32     // last day of use, as 20271231; 0: not known
	Inferred bool       // the day was not on the label
	How      HowKnown
	N        int64
	Refused  Refusal // why it is not picked; Picks: it may be
}

// Refusal is why a lot is not picked.
type Refusal uint8

// Reasons.
const (
	Picks        Refusal = 0
	PastItsDay   Refusal = 1
	InQuarantine Refusal = 2
	NotAccounted Refusal = 3 // it makes up for what another lot is below zero
)

// Picking is what to take of an item at a place.
type Picking struct {
	Lots    []LotHeld // to take, in this order
	Short   int64     // how many there are too few
	Refused []LotHeld // what lies there and must not be taken
	Undated int64     // how many of those to take are of a lot without a known day
}

// Pick proposes n containers of an item at a place: first expired, first out;
// of equal days the lot that was received first, then by the lot's text; lots
// without a known day last. What expired before the day on, or is held back, is
// never picked. On day 0 nothing is expired.
func (l *Ledger) Pick(p Place, item mesh.Number, n int64, on uint32) Picking {
	return picked(l.LotsAt(p, item, on), n)
}

// picked takes n of lots in their order.
func picked(lots []LotHeld, n int64) (out Picking) {
	for _, x := range lots {
		switch {
		case x.Refused != Picks:
			out.Refused = append(out.Refused, x)
		case n > 0:
			x.N = min(x.N, n)
			n -= x.N
			out.Lots = append(out.Lots, x)
			if x.Expiry == 0 {
				out.Undated += x.N
			}
		}
	}
	out.Short = n
	return out
}

// LotsAt lists the lots of an item at a place in the order in which they are to
// be taken, those that must not be taken last.
func (l *Ledger) LotsAt(p Place, item mesh.Number, on uint32) []LotHeld {
	held := map[mesh.Label]int64{}
	for _, b := range l.BalancesAt(p) {
		if c := b.Cell; c.Item == item && c.Measure == mesh.Each && c.Syringe.IsZero() {
			held[c.Lot] += b.N
		}
	}
	return l.order(p, item, held, on)
}

// order puts lots into the order in which they are taken, and says of each
// whether it may be. What is below zero is taken off the last ones.
func (l *Ledger) order(p Place, item mesh.Number, held map[mesh.Label]int64, on uint32) []LotHeld {
	var all []LotHeld
	var missing int64
	for lot, n := range held {
		if n <= 0 {
			missing -= n
			continue
		}
		k := l.kitLine(Line{Item: item, Lot: lot})
		x := LotHeld{Lot: lot, Expiry: k.Expiry, Inferred: k.Inferred, How: k.How, N: n}
		switch {
		case k.HeldBack:
			x.Refused = InQuarantine
		case expiredOn(k.Expiry, on):
			x.Refused = PastItsDay
		}
		all = append(all, x)
	}
	var came map[mesh.Label]mesh.Order // found only when two lots have the same day
	slices.SortFunc(all, func(a, b LotHeld) int {
		if c := cmp.Or(cmp.Compare(a.Refused, b.Refused), compareDays(a.Expiry, b.Expiry)); c != 0 {
			return c
		}
		if came == nil {
			came = l.received(p, item)
		}
		return cmp.Or(compareCame(came, a.Lot, b.Lot), cmp.Compare(a.Lot, b.Lot))
	})
	return cover(all, missing)
}

// compareDays puts the earlier day first and what has none last.
func compareDays(a, b uint32) int {
	if (a == 0) != (b == 0) {
		return cmp.Compare(b, a)
	}
	return cmp.Compare(a, b)
}

// compareCame puts first what came first; what came by no movement comes last.
func compareCame(came map[mesh.Label]mesh.Order, a, b mesh.Label) int {
	x, knownA := came[a]
	y, knownB := came[b]
	switch {
	case knownA && knownB:
		return x.Compare(y)
	case knownA:
		return -1
	case knownB:
		return 1
	}
	return 0
}

// received is when each lot of an item came: the first movement from a supplier
// that carries it, else the first one to the place.
func (l *Ledger) received(p Place, item mesh.Number) map[mesh.Label]mesh.Order {
	out := map[mesh.Label]mesh.Order{}
	look := func(moves []*move, comes func(posting) bool) map[mesh.Label]mesh.Order {
		found := map[mesh.Label]mesh.Order{}
		for _, m := range moves {
			m.postings(nil, func(x posting) {
				if x.what.item != item || !comes(x) {
					return
				}
				if first, ok := found[x.what.lot]; !ok || m.at.Compare(first) < 0 {
					found[x.what.lot] = m.at
				}
			})
		}
		return found
	}
	if s := l.shelves[p]; s != nil {
		out = look(s.moves, func(x posting) bool { return x.to == p })
	}
	for lot, at := range look(l.suppliedBy(), func(x posting) bool { return x.from.Sort == Supplier }) {
		out[lot] = at
	}
	return out
}

// cover takes what other lots are below zero off the last ones that may be
// taken: whoever wrote another lot took containers that are not there.
func cover(all []LotHeld, missing int64) []LotHeld {
	for i := len(all) - 1; i >= 0 && missing > 0; i-- {
		if all[i].Refused != Picks {
			continue
		}
		n := min(missing, all[i].N)
		missing -= n
		all[i].N -= n
		if n > 0 {
			gone := all[i]
			gone.N, gone.Refused = n, NotAccounted
			all = append(all, gone)
		}
	}
	return slices.DeleteFunc(all, func(x LotHeld) bool { return x.N == 0 })
}
