package kits

import (
	"cmp"
	"maps"
	"slices"

	"lintel/mesh"
)

// KitsKinds maps this package's kinds to a fresh body, for tools and tests.
func KitsKinds() map[mesh.Kind]func() any {
	return map[mesh.Kind]func() any{
		KindItemLine:   func() any { return new(ItemLine) },
		KindBundleLine: func() any { return new(BundleLine) },
		KindTemplate:   func() any { return new(Template) },
		KindPlaceLine:  func() any { return new(PlaceLine) },
		KindParLine:    func() any { return new(ParLine) },
		KindWasteLine:  func() any { return new(WasteLine) },
		KindLotLine:    func() any { return new(LotLine) },
		KindQuarantine: func() any { return new(Quarantine) },
		KindMoved:      func() any { return new(Moved) },
		KindReversed:   func() any { return new(Reversed) },
		KindEnded:      func() any { return new(Ended) },
		KindDrawnUp:    func() any { return new(DrawnUp) },
		KindLeftWith:   func() any { return new(LeftWith) },
		KindWitnessed:  func() any { return new(Witnessed) },
		KindCounted:    func() any { return new(Counted) },
		KindReopened:   func() any { return new(Reopened) },
		KindIssued:     func() any { return new(Issued) },
		KindIssueShut:  func() any { return new(IssueShut) },
		KindPrepared:   func() any { return new(Prepared) },
		KindSealed:     func() any { return new(Sealed) },
		KindSealOpened: func() any { return new(SealOpened) },
		KindBrokenDown: func() any { return new(BrokenDown) },
		KindOrdered:    func() any { return new(Ordered) },
		KindWasteBox:   func() any { return new(WasteBox) },
	}
}

// registers are the unit's own choices, each over the starter lists.
type registers struct {
	items      mesh.Register[mesh.Number, ItemLine]
	bundles    mesh.Register[mesh.Number, BundleLine]
	templates  mesh.Register[mesh.ID, Template]
	places     mesh.Register[Place, PlaceLine]
	pars       mesh.Register[parKey, ParLine]
	waste      mesh.Register[wasteKey, WasteLine]
	lots       mesh.Register[lotKey, LotLine]
	quarantine mesh.Register[lotKey, Quarantine]
}

type parKey struct {
	place Place
	item  mesh.Number
}

func (k parKey) compare(o parKey) int {
	return cmp.Or(k.place.Compare(o.place), cmp.Compare(k.item, o.item))
}

type wasteKey struct{ class, country mesh.ID }

type lotKey struct {
	item mesh.Number
	lot  mesh.Label
}

// add takes a write of a register; other bodies are left alone.
func (r *registers) add(f mesh.Fact, body any) {
	w := mesh.Write{Ref: f.Ref, At: f.At}
	switch b := body.(type) {
	case *ItemLine:
		w.Replaces = b.Replaces
		r.items.Add(b.Number, w, *b)
	case *BundleLine:
		w.Replaces = b.Replaces
		r.bundles.Add(b.Number, w, *b)
	case *Template:
		w.Replaces = b.Replaces
		r.templates.Add(b.ID, w, *b)
	case *PlaceLine:
		w.Replaces = b.Replaces
		r.places.Add(b.Place, w, *b)
	case *ParLine:
		w.Replaces = b.Replaces
		r.pars.Add(parKey{b.Place, b.Item}, w, *b)
	case *WasteLine:
		w.Replaces = b.Replaces
		r.waste.Add(wasteKey{b.Class, b.Country}, w, *b)
	case *LotLine:
		w.Replaces = b.Replaces
		r.lots.Add(lotKey{b.Item, b.Lot}, w, *b)
	case *Quarantine:
		w.Replaces = b.Replaces
		r.quarantine.Add(lotKey{b.Item, b.Lot}, w, *b)
	}
}

// Chosen is a value in use together with what stands beside it.
type Chosen[V any] struct {
	Value     V
	TwoValues bool       // several people wrote without knowing of each other
	Writes    []mesh.Ref // the standing writes, the one in use first; what a new write replaces
}

// choose gives the value in use: the highest standing write, else the starter
// line. ok is false where there is neither.
func choose[K comparable, V any](r *mesh.Register[K, V], k K, starter map[K]V) (c Chosen[V], ok bool) {
	stand := r.Standing(k)
	if len(stand) == 0 {
		c.Value, ok = starter[k]
		return c, ok
	}
	c.Value, c.TwoValues = stand[0].Value, len(stand) > 1
	for _, s := range stand {
		c.Writes = append(c.Writes, s.Ref)
	}
	return c, true
}

// keys are those of the register and of the starter lines together, sorted.
func keys[K comparable, V any](r *mesh.Register[K, V], starter map[K]V, compare func(a, b K) int) []K {
	all := map[K]bool{}
	for _, k := range r.Keys() {
		all[k] = true
	}
	for k := range starter {
		all[k] = true
	}
	return slices.SortedFunc(maps.Keys(all), compare)
}

// Item returns the catalogue line with this number, also one that is Gone.
func (l *Ledger) Item(n mesh.Number) (Chosen[ItemLine], bool) {
	return choose(&l.lines.items, n, l.defaults.items)
}

// Bundle returns the bundle with this number, also one that is Gone.
func (l *Ledger) Bundle(n mesh.Number) (Chosen[BundleLine], bool) {
	return choose(&l.lines.bundles, n, l.defaults.bundles)
}

// Place returns what a place is called.
func (l *Ledger) Place(p Place) (Chosen[PlaceLine], bool) {
	return choose(&l.lines.places, p, l.defaults.places)
}

// Par returns how many of an item a place should hold.
func (l *Ledger) Par(p Place, item mesh.Number) (Chosen[ParLine], bool) {
	return choose(&l.lines.pars, parKey{p, item}, l.defaults.pars)
}

// Waste returns a class of waste in a country's codes.
func (l *Ledger) Waste(class, country mesh.ID) (Chosen[WasteLine], bool) {
	return choose(&l.lines.waste, wasteKey{class, country}, l.defaults.waste)
}

// Lot returns what is known of a lot.
func (l *Ledger) Lot(item mesh.Number, lot mesh.Label) (Chosen[LotLine], bool) {
	return choose(&l.lines.lots, lotKey{item, lot}, nil)
}

// HeldBack tells whether a lot is in quarantine.
func (l *Ledger) HeldBack(item mesh.Number, lot mesh.Label) bool {
	c, ok := choose(&l.lines.quarantine, lotKey{item, lot}, nil)
	return ok && c.Value.Held
}

// Items lists the catalogue without what is Gone, in the order of the numbers.
func (l *Ledger) Items() []ItemLine {
	var out []ItemLine
	for _, n := range keys(&l.lines.items, l.defaults.items, cmp.Compare) {
		if c, ok := l.Item(n); ok && !c.Value.Gone {
			out = append(out, c.Value)
		}
	}
	return out
}

// Bundles lists the bundles without those Gone, in the order of the numbers.
func (l *Ledger) Bundles() []BundleLine {
	var out []BundleLine
	for _, n := range keys(&l.lines.bundles, l.defaults.bundles, cmp.Compare) {
		if c, ok := l.Bundle(n); ok && !c.Value.Gone {
			out = append(out, c.Value)
		}
	}
	return out
}
