package kits

import (
	"cmp"

	"lintel/mesh"
)

// ItemValues lists the values of a catalogue line that stand beside each other,
// the one in use first: several people wrote without knowing of each other, and
// a person has to choose. Where nobody differs there are none.
func (l *Ledger) ItemValues(n mesh.Number) (out []ItemLine) {
	stand := l.lines.items.Standing(n)
	if len(stand) < 2 {
		return nil
	}
	for _, s := range stand {
		out = append(out, s.Value)
	}
	return out
}

// ItemsGone lists the catalogue lines that were taken out of use, by number.
func (l *Ledger) ItemsGone() (out []ItemLine) {
	for _, n := range keys(&l.lines.items, l.defaults.items, cmp.Compare) {
		if c, _ := l.Item(n); c.Value.Gone {
			out = append(out, c.Value)
		}
	}
	return out
}

// WasteLines lists the classes of waste in a country's codes, without those Gone,
// by their ids.
func (l *Ledger) WasteLines(country mesh.ID) (out []WasteLine) {
	for _, k := range keys(&l.lines.waste, l.defaults.waste, compareWaste) {
		if c, known := l.Waste(k.class, k.country); known && k.country == country && !c.Value.Gone {
			out = append(out, c.Value)
		}
	}
	return out
}

func compareWaste(a, b wasteKey) int {
	return cmp.Or(cmp.Compare(a.class, b.class), cmp.Compare(a.country, b.country))
}
