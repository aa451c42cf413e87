package station

import (
	"lintel/kits"
	"lintel/mesh"
)

// SyringeLabel is what a syringe's label says.
type SyringeLabel struct {
	Drug
	Item         mesh.Number
	Amount       kits.Measured // OverUL is the volume when it was drawn up
	DrawnBy      mesh.Tag
	CheckedBy    mesh.Tag
	At           mesh.Wall // when it was drawn up
	DiscardAfter mesh.Wall // 0: not given
	Written      mesh.Label
}

// SyringeLabel tells what is written on a syringe; false where nothing was drawn
// up under that name.
func (v View) SyringeLabel(ref mesh.Ref) (SyringeLabel, bool) {
	d, at, known := v.Ledger.Drawn(ref)
	if !known {
		return SyringeLabel{}, false
	}
	l := SyringeLabel{
		Item: d.Item, DrawnBy: d.DrawnBy, CheckedBy: d.CheckedBy, At: at, DiscardAfter: d.DiscardAfter, Written: d.Label,
		Amount: v.Ledger.MeasuredLine(kits.Line{Item: d.Item, Syringe: ref, Quantity: d.Amount}),
	}
	if l.Drug, known = v.Drug(d.Item); !known {
		item, _ := v.Ledger.Item(d.Item)
		l.Name = string(item.Value.Name)
	}
	return l, true
}
