package station

import (
	"slices"

	"lintel/kits"
	"lintel/mesh"
)

// Filling is what fills a kit by its template.
type Filling struct {
	PrepareKit
	Short []kits.KitMissing // what is nowhere in stock
	Leave []kits.LotHeld    // what lies in the kit and must not be used
}

// FillKit proposes how to fill a kit by a template: what lies in it stays unless
// it expired or is held back; what is missing is taken where it is kept, else
// from a store, first expired first. People say what they really did.
func (v View) FillKit(kit, template mesh.ID) (Filling, error) {
	t, known := v.Ledger.Template(template)
	if !known || t.Value.Gone {
		return Filling{}, &NamedError{Err: ErrNoTemplate, Name: template}
	}
	f := Filling{PrepareKit: PrepareKit{Kit: kit, Template: template}}
	want := map[mesh.Number]int64{}
	for _, x := range t.Value.Lines {
		want[x.Item] += x.Count
	}
	for _, x := range t.Value.Lines {
		n := want[x.Item]
		delete(want, x.Item) // of an item that stands in two lines once
		if n == 0 {
			continue
		}
		for _, lot := range v.Ledger.LotsAt(kitPlace(kit), x.Item, v.Today()) {
			if lot.Refused == kits.Picks {
				n -= lot.N
			} else {
				f.Leave = append(f.Leave, lot)
			}
		}
		n = f.take(v, x.Item, n)
		if n > 0 {
			item, _ := v.Ledger.Item(x.Item)
			item.Value.Number = x.Item
			f.Short = append(f.Short, kits.KitMissing{Item: item.Value, Where: x.Where, Want: x.Count, Got: max(0, x.Count-n)})
		}
	}
	return f, nil
}

// take adds n of an item from where it lies, and gives how many are nowhere.
func (f *Filling) take(v View, item mesh.Number, n int64) int64 {
	for _, p := range v.sources(item) {
		if n <= 0 || p == kitPlace(f.Kit) {
			continue
		}
		got := v.Ledger.Pick(p, item, n, v.Today())
		for _, lot := range got.Lots {
			f.add(p, kits.Line{Item: item, Lot: lot.Lot, Quantity: kits.Quantity{N: lot.N, Measure: mesh.Each}})
		}
		n = got.Short
	}
	return max(n, 0)
}

// add takes one more line from a place.
func (f *Filling) add(from kits.Place, x kits.Line) {
	i := slices.IndexFunc(f.Takes, func(t kits.Moved) bool { return t.From == from && len(t.Lines) < kits.EndLinesMax })
	if i < 0 {
		i = len(f.Takes)
		f.Takes = append(f.Takes, kits.Moved{From: from, To: kitPlace(f.Kit), Why: "kit filled"})
	}
	f.Takes[i].Lines = append(f.Takes[i].Lines, x)
}

// sources are the places that an item is taken from for a kit: where it is
// kept, then every store.
func (v View) sources(item mesh.Number) (out []kits.Place) {
	if line, known := v.Ledger.Item(item); known && line.Value.KeptAt.Sort != 0 {
		out = append(out, line.Value.KeptAt)
	}
	for _, p := range v.Ledger.Places() {
		if p.Place.Sort == kits.Store && !slices.Contains(out, p.Place) {
			out = append(out, p.Place)
		}
	}
	return out
}
