package station

import (
	"slices"

	"lintel/kits"
	"lintel/mesh"
)

// Pictures lists the pictures that the catalogue names, of items and places,
// each once, sorted.
func (v View) Pictures() (all []mesh.Hash) {
	for _, i := range v.Ledger.Items() {
		all = append(all, i.Picture)
	}
	for _, p := range v.Ledger.Places() {
		all = append(all, p.Map)
	}
	slices.SortFunc(all, mesh.Hash.Compare)
	all = slices.Compact(all)
	return slices.DeleteFunc(all, func(h mesh.Hash) bool { return h == mesh.Hash{} })
}

// NamesPicture tells whether facts can name a picture that was not named before.
func NamesPicture(facts []mesh.Fact) bool {
	return slices.ContainsFunc(facts, func(f mesh.Fact) bool {
		return f.Kind == kits.KindItemLine || f.Kind == kits.KindPlaceLine
	})
}

// SetPicture gives an item its picture; zeros take it away. The rest of its line
// stays. The bytes are kept by whoever makes the act, before it.
type SetPicture struct {
	Item mesh.Number
	Hash mesh.Hash
}

func (a SetPicture) parts(m *maker) error {
	stands, known := m.view.Ledger.Item(a.Item)
	if !known || stands.Value.Gone {
		return ErrNoItem
	}
	line := stands.Value
	line.Picture, line.Replaces = a.Hash, stands.Writes
	m.add(kits.KindItemLine, &line)
	return nil
}

// SetMap gives a place its map; zeros take it away. As SetPicture.
type SetMap struct {
	Place kits.Place
	Hash  mesh.Hash
}

func (a SetMap) parts(m *maker) error {
	stands, known := m.view.Ledger.Place(a.Place)
	if !known || stands.Value.Gone {
		return ErrNoPlace
	}
	line := stands.Value
	line.Map, line.Replaces = a.Hash, stands.Writes
	m.add(kits.KindPlaceLine, &line)
	return nil
}
