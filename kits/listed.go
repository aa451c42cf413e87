package kits

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// Places lists what places are called, without what is Gone, in their order.
func (l *Ledger) Places() (out []PlaceLine) {
	for _, p := range keys(&l.lines.places, l.defaults.places, Place.Compare) {
		if c, ok := l.Place(p); ok && !c.Value.Gone {
			out = append(out, c.Value)
		}
	}
	return out
}

// Pars lists how many of which item a place should hold, without what is Gone,
// in the order of places, then of items.
func (l *Ledger) Pars() (out []ParLine) {
	for _, k := range keys(&l.lines.pars, l.defaults.pars, parKey.compare) {
		if c, ok := l.Par(k.place, k.item); ok && !c.Value.Gone {
			out = append(out, c.Value)
		}
	}
	return out
}

// HasWaste tells whether a class of waste is known in any country's codes. Where
// no class is known at all, every one is.
func (l *Ledger) HasWaste(class mesh.ID) bool {
	byClass := func(a, b wasteKey) int {
		return cmp.Or(cmp.Compare(a.class, b.class), cmp.Compare(a.country, b.country))
	}
	all := keys(&l.lines.waste, l.defaults.waste, byClass)
	return len(all) == 0 || slices.ContainsFunc(all, func(k wasteKey) bool {
		c, ok := l.Waste(k.class, k.country)
		return ok && k.class == class && !c.Value.Gone
	})
}
