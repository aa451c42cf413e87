package inside

import (
	"fmt"
	"slices"

	"lintel/app/look"
	"lintel/kits/barcode"
	"lintel/mesh"
)

// Places beyond those of the board that a key can be bound to: the rescue sets,
// in their order.
const PlaceOfSets = 101

// Press asks for what stands at a place of the board, as a tap there does: 1 and
// on as on the printed card, PlaceOfSets and on for the rescue sets. False: there
// is no such place. Call it on the UI goroutine.
func (s *Screen) Press(place int) bool {
	if n := place - PlaceOfSets; n >= 0 {
		if n >= len(s.snap.Sets) {
			return false
		}
		s.tapSet(n)
		return true
	}
	for i, t := range s.opt.Board.Tiles {
		if int(t.Place) == place {
			s.show(pageBoard)
			s.tapTile(i)
			return true
		}
	}
	return false
}

// Scanned takes what a scanner read: behind "drugs" it opens what became of that
// drug, elsewhere "other item" with the item's number typed, so that one tap asks
// for it. A label alone asks for nothing. False: it is of no item known here, or
// the open page has no use for one. Call it on the UI goroutine.
func (s *Screen) Scanned(text string) bool {
	scan, err := barcode.Parse([]byte(text), s.opt.Now().Year())
	if err != nil || s.rows.Lock != (look.LockFace{}) {
		return false
	}
	i := slices.IndexFunc(s.snap.Items, func(i Item) bool {
		return slices.ContainsFunc(scan.Names(), func(n string) bool { return slices.Contains(i.Codes, mesh.Label(n)) })
	})
	if i < 0 {
		return false
	}
	return s.scanned(s.snap.Items[i].Number)
}

// scanned does what a label of an item means on the page that is open.
func (s *Screen) scanned(item mesh.Number) bool {
	switch s.hand.page {
	case pageDrugs:
		i := slices.IndexFunc(s.snap.Drugs, func(d DrugIn) bool { return d.Item == item })
		if i < 0 {
			return false
		}
		s.useDrug(pick{item: item, mark: s.snap.Drugs[i].Syringe})
	case pageBoard, pageSmall, pageOther, pageShelf:
		s.hand.group = -1
		s.show(pageOther)
		s.hand.digits = fmt.Sprint(item)
		s.Paint()
	default:
		return false
	}
	return true
}
