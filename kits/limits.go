package kits

import "lintel/mesh"

// PiecesMax bounds how many containers a list or an order speaks of.
const PiecesMax = 1_000_000

// Valid reports a negative or too large amount of a catalogue line.
func (i ItemLine) Valid() error {
	for _, n := range [...]int64{i.VolumeUL, i.CostMinor, i.MassMG} {
		if err := mesh.Within("amount", n, 0, QuantityMax); err != nil {
			return err
		}
	}
	return nil
}

// Valid reports a negative or too large count.
func (t TemplateLine) Valid() error { return mesh.Within("count", t.Count, 0, PiecesMax) }

// Valid reports a negative or too large par.
func (p ParLine) Valid() error { return mesh.Within("par", p.Par, 0, PiecesMax) }

// Valid reports a negative or too large order.
func (o Ordered) Valid() error { return mesh.Within("count", o.Count, 0, PiecesMax) }

// Valid reports a negative or too large container.
func (w WasteBox) Valid() error { return mesh.Within("tenths of a litre", w.LitresT, 0, PiecesMax) }
