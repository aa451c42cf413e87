package kits

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// RestockLine is what one place is short of.
type RestockLine struct {
	Place   Place    // what is to be brought back to full
	Item    ItemLine // what is missing
	Par     int64
	Have    int64      // containers there, without lots that are held back
	Missing int64      // Par − Have, above 0
	From    Place      // where it is fetched
	Where   mesh.Label // the shelf there; empty: not known
}

// Restock lists what the given places are short of, or all places that have a
// par, grouped by where it is fetched, then by place and item.
func (l *Ledger) Restock(places ...Place) []RestockLine {
	var out []RestockLine
	for _, k := range keys(&l.lines.pars, l.defaults.pars, parKey.compare) {
		par, _ := l.Par(k.place, k.item)
		if par.Value.Gone || len(places) > 0 && !slices.Contains(places, k.place) {
			continue
		}
		have := l.usable(k.place, k.item)
		if have >= par.Value.Par {
			continue
		}
		item, _ := l.Item(k.item)
		item.Value.Number = k.item
		from, where := l.source(k.place, item.Value)
		out = append(out, RestockLine{
			Place: k.place, Item: item.Value, Par: par.Value.Par, Have: have,
			Missing: par.Value.Par - have, From: from, Where: where,
		})
	}
	slices.SortStableFunc(out, func(a, b RestockLine) int {
		return cmp.Or(a.From.Compare(b.From), cmp.Compare(a.Where, b.Where), a.Place.Compare(b.Place),
			cmp.Compare(a.Item.Number, b.Item.Number))
	})
	return out
}

// usable is how many containers of an item may be taken at a place.
func (l *Ledger) usable(p Place, item mesh.Number) (n int64) {
	for _, b := range l.BalancesAt(p) {
		c := b.Cell
		if c.Item == item && c.Measure == mesh.Each && c.Syringe.IsZero() && !l.HeldBack(item, c.Lot) {
			n += b.N
		}
	}
	return n
}

// source is where an item is fetched to fill p: where it is normally kept; for
// that place itself the store that has a par for it; else the supplier. No
// store is filled from a trolley.
func (l *Ledger) source(p Place, item ItemLine) (Place, mesh.Label) {
	if k := item.KeptAt; k.Sort != 0 && k != p && (p.Sort != Store || k.Sort == Store) {
		return k, item.KeptWords
	}
	if p.Sort != Store {
		for _, k := range keys(&l.lines.pars, l.defaults.pars, parKey.compare) {
			if k.place.Sort == Store && k.item == item.Number {
				return k.place, ""
			}
		}
	}
	return Place{Sort: Supplier}, ""
}
