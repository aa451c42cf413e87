package station

import (
	"lintel/kits"
	"lintel/mesh"
)

// WriteWaste writes a class of waste in a country's codes in place of what stands
// there.
type WriteWaste struct{ Line kits.WasteLine }

func (a WriteWaste) parts(m *maker) error {
	x := a.Line
	if x.Class == "" || x.Country == "" {
		return &NamedError{Err: ErrNoWaste, Name: mesh.ID(x.Name)}
	}
	stands, _ := m.view.Ledger.Waste(x.Class, x.Country)
	x.Replaces = stands.Writes
	m.add(kits.KindWasteLine, &x)
	return nil
}
