package kits

import (
	"fmt"

	"lintel/mesh"
)

// Defaults are the starter lists that a unit edits. State does not depend on
// them: two devices with other starter lists still fold to the same bytes.
type Defaults struct {
	Items     []ItemLine
	Bundles   []BundleLine
	Templates []Template
	Places    []PlaceLine
	Pars      []ParLine
	Waste     []WasteLine
}

// Files are the starter lists as CSV. An empty one gives an empty list.
type Files struct {
	Catalogue, Bundles, Templates, Places, Stock, Waste []byte
}

// ReadDefaults reads the starter lists and checks that they fit together. An
// error names the list, the row and the column.
func ReadDefaults(f Files) (d Defaults, err error) {
	if d.Items, err = ReadCatalogue(f.Catalogue); err != nil {
		return Defaults{}, fmt.Errorf("catalogue: %w", err)
	}
	if d.Bundles, err = ReadBundles(f.Bundles); err != nil {
		return Defaults{}, fmt.Errorf("bundles: %w", err)
	}
	if d.Templates, err = ReadTemplates(f.Templates); err != nil {
		return Defaults{}, fmt.Errorf("templates of kits: %w", err)
	}
	if d.Places, err = ReadPlaces(f.Places); err != nil {
		return Defaults{}, fmt.Errorf("places: %w", err)
	}
	if d.Waste, err = ReadWaste(f.Waste); err != nil {
		return Defaults{}, fmt.Errorf("waste: %w", err)
	}
	stock, err := ReadStock(f.Stock)
	if err != nil {
		return Defaults{}, fmt.Errorf("stock: %w", err)
	}
	for _, s := range stock {
		d.Pars = append(d.Pars, ParLine{Place: s.Place, Item: s.Item, Par: s.Par})
	}
	return d, d.check()
}

// check reports a bundle, a template, an alternative, a waste class or a par that names
// what is in no list.
func (d Defaults) check() error {
	x := indexDefaults(d)
	classes := map[mesh.ID]bool{}
	for _, w := range d.Waste {
		classes[w.Class] = true
	}
	for _, i := range d.Items {
		for _, a := range i.Alternatives {
			if _, ok := x.items[a]; !ok {
				return fmt.Errorf("item %d: %w: its alternative %d is in no list", i.Number, ErrList, a)
			}
		}
		if i.Waste != "" && len(classes) > 0 && !classes[i.Waste] {
			return fmt.Errorf("item %d: %w: its waste class %q is in no list", i.Number, ErrList, i.Waste)
		}
	}
	for _, b := range d.Bundles {
		for _, t := range b.Lines {
			if _, ok := x.items[t.Item]; !ok {
				return fmt.Errorf("bundle %d: %w: its item %d is in no list", b.Number, ErrList, t.Item)
			}
		}
	}
	for _, t := range d.Templates {
		for _, l := range t.Lines {
			if _, ok := x.items[l.Item]; !ok {
				return fmt.Errorf("template %s: %w: its item %d is in no list", t.ID, ErrList, l.Item)
			}
		}
	}
	for _, p := range d.Pars {
		if _, ok := x.items[p.Item]; !ok {
			return fmt.Errorf("par at %s: %w: item %d is in no list", p.Place.Words(), ErrList, p.Item)
		}
	}
	return nil
}

// index is Defaults by key.
type index struct {
	items     map[mesh.Number]ItemLine
	bundles   map[mesh.Number]BundleLine
	templates map[mesh.ID]Template
	places    map[Place]PlaceLine
	pars      map[parKey]ParLine
	waste     map[wasteKey]WasteLine
}

func indexDefaults(d Defaults) index {
	x := index{
		items:     map[mesh.Number]ItemLine{},
		bundles:   map[mesh.Number]BundleLine{},
		templates: map[mesh.ID]Template{},
		places:    map[Place]PlaceLine{},
		pars:      map[parKey]ParLine{},
		waste:     map[wasteKey]WasteLine{},
	}
	for _, v := range d.Items {
		x.items[v.Number] = v
	}
	for _, v := range d.Bundles {
		x.bundles[v.Number] = v
	}
	for _, v := range d.Templates {
		x.templates[v.ID] = v
	}
	for _, v := range d.Places {
		x.places[v.Place] = v
	}
	for _, v := range d.Pars {
		x.pars[parKey{v.Place, v.Item}] = v
	}
	for _, v := range d.Waste {
		x.waste[wasteKey{v.Class, v.Country}] = v
	}
	return x
}
