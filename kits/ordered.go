package kits

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// Outstanding is how many containers of an item are ordered and have not come.
// In the order of entries an order adds, and what comes from a supplier takes
// away until nothing is outstanding.
func (l *Ledger) Outstanding(item mesh.Number) (n int64) {
	type event struct {
		at  mesh.Order
		ref mesh.Ref
		n   int64 // ordered above 0, come below
	}
	if len(l.trays.orders[item]) == 0 {
		return 0
	}
	var all []event
	for _, o := range l.trays.orders[item] {
		all = append(all, event{o.at, o.ref, o.body.Count})
	}
	for _, m := range l.suppliedBy() {
		var came int64
		m.postings(nil, func(p posting) {
			if p.what.item != item || p.what.measure != mesh.Each || !p.what.syringe.IsZero() {
				return
			}
			if p.from.Sort == Supplier {
				came += p.n
			}
			if p.to.Sort == Supplier {
				came -= p.n
			}
		})
		if came > 0 {
			all = append(all, event{m.at, m.ref, -came})
		}
	}
	slices.SortFunc(all, func(a, b event) int { return cmp.Or(a.at.Compare(b.at), a.ref.Compare(b.ref)) })
	for _, e := range all {
		n = max(0, n+e.n)
	}
	return n
}

// suppliedBy are the movements that touch a supplier.
func (l *Ledger) suppliedBy() (out []*move) {
	for p, s := range l.shelves {
		if p.Sort == Supplier {
			out = append(out, s.moves...)
		}
	}
	return out
}
