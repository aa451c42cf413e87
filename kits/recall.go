package kits

import (
	"cmp"
	"maps"
	"slices"

	"lintel/mesh"
)

// RecallAnswer says where a lot is and went.
type RecallAnswer struct {
	Item     ItemLine
	Lot      Chosen[LotLine] // as it was entered; the zero value where nobody did
	HeldBack bool
	Where    []RecallPlace // now, in the order of places
	Kits     []RecallKit   // whose newest preparation names it, by id
	Cases    []RecallCase  // in the order of their refs
}

// RecallPlace is what lies at one place, or came to one end.
type RecallPlace struct {
	Cell Cell     // with a syringe: what was drawn up from the lot
	N    int64    // in the cell's measure
	How  HowKnown // Unknown: of a lot that nobody noted, it may be of this one
}

// RecallKit is a kit that holds, or held, the lot.
type RecallKit struct {
	ID    mesh.ID
	N     int64 // containers
	How   HowKnown
	State KitState
}

// RecallCase is a case that the lot came into.
type RecallCase struct {
	Case mesh.Ref
	How  HowKnown // the surest way in which it is known
}

// Recall answers where a lot is, which kits hold it and which cases it came
// into. What is of a lot that nobody noted may be of this one: it is listed as
// Unknown.
func (l *Ledger) Recall(item mesh.Number, lot mesh.Label) RecallAnswer {
	a := RecallAnswer{HeldBack: l.HeldBack(item, lot)}
	c, _ := l.Item(item)
	a.Item = c.Value
	a.Item.Number = item
	a.Lot, _ = l.Lot(item, lot)
	r := &recaller{l: l, item: item, lot: lot, sure: l.kitLine(Line{Item: item, Lot: lot}).How,
		cases: map[mesh.Ref]HowKnown{}, syringes: map[mesh.Ref]HowKnown{}}
	for m := range l.moves.all() {
		r.drawn(m)
	}
	for m := range l.moves.all() {
		r.move(m)
	}
	for _, b := range l.Balances() {
		if how, ok := r.certain(b.Cell.batch()); ok && b.Cell.Place.Sort < DrawnOff && b.Cell.Place.Sort != Supplier {
			a.Where = append(a.Where, RecallPlace{b.Cell, b.N, how})
		}
	}
	a.Kits = r.kits()
	for _, ref := range slices.SortedFunc(maps.Keys(r.cases), mesh.Ref.Compare) {
		a.Cases = append(a.Cases, RecallCase{ref, r.cases[ref]})
	}
	return a
}

// recaller looks for one lot.
type recaller struct {
	l        *Ledger
	item     mesh.Number
	lot      mesh.Label
	sure     HowKnown // how the lot is known where it is named
	cases    map[mesh.Ref]HowKnown
	syringes map[mesh.Ref]HowKnown // drawn up from the lot
}

// certain tells whether a batch is of the lot, and how surely.
func (r *recaller) certain(b batch) (HowKnown, bool) {
	if !b.syringe.IsZero() {
		how, ok := r.syringes[b.syringe]
		return how, ok
	}
	switch {
	case b.item != r.item:
		return 0, false
	case b.lot == r.lot && r.lot != "":
		return r.sure, true
	}
	return Unknown, b.lot == ""
}

// drawn notes a syringe that was drawn up from the lot.
func (r *recaller) drawn(m *move) {
	if m.drawn == nil || m.reversed(nil) {
		return
	}
	for _, x := range m.lines {
		if how, ok := r.certain(x.batch()); ok && x.Syringe.IsZero() {
			r.syringes[m.ref] = max(r.syringes[m.ref], how)
		}
	}
}

// move notes the case of a movement of the lot.
func (r *recaller) move(m *move) {
	if m.inCase.IsZero() || m.reversed(nil) {
		return
	}
	for _, x := range m.lines {
		if how, ok := r.certain(x.batch()); ok {
			r.cases[m.inCase] = max(r.cases[m.inCase], how)
		}
	}
}

// kits are those whose newest preparation names the lot. The case that opened
// any preparation of the lot is one that it came into.
func (r *recaller) kits() (out []RecallKit) {
	for _, p := range r.l.trays.prepared {
		row := r.l.kitRow(p)
		k := RecallKit{ID: p.body.Kit}
		named := false
		for _, x := range p.body.Lines {
			if how, ok := r.certain(x.batch()); ok {
				named, k.N, k.How = true, k.N+x.Quantity.N, max(k.How, how)
			}
		}
		if !named {
			continue
		}
		for _, o := range row.Openings {
			if !o.Case.IsZero() {
				r.cases[o.Case] = max(r.cases[o.Case], k.How)
			}
		}
		if newest, _ := r.l.newest(k.ID); newest.ref == p.ref {
			k.State = r.l.Kit(k.ID, 0).State
			out = append(out, k)
		}
	}
	slices.SortFunc(out, func(a, b RecallKit) int { return cmp.Compare(a.ID, b.ID) })
	return out
}
