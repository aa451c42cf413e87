package charge

import (
	"fmt"
	"slices"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
)

// Filling is what a form is filled in over.
type Filling struct {
	Line     kits.ItemLine   // of the catalogue, as it stands
	Both     []kits.ItemLine // the values that stand beside each other, if there are two
	Gone     []kits.ItemLine // lines out of use
	Free     mesh.Number     // a number that is not used; 0: none
	Places   []kits.PlaceLine
	Place    kits.PlaceLine // as it stands
	Issue    kits.Issue
	Room     mesh.ID // of the issue's case
	Portions []Portion
	Moved    kits.Movement
	Held     []Held
	Sets     Sets
	Classes  []kits.WasteLine
	Country  mesh.ID // whose codes they are in
}

// Portion is what is inside of an issue: containers, or one syringe.
type Portion struct {
	Syringe mesh.Ref // zero: containers
	N       int64    // containers, or what is left in the base measure
	Amount  kits.Measured
}

// Held is what the ledger says lies at a place.
type Held struct {
	Item kits.ItemLine
	Lot  kits.LotHeld
}

// places lists what places are called.
func (s *Snapshot) places(v station.View) { s.Form.Places = v.Ledger.Places() }

// form notes what the form that is open is filled in over.
func (s *Snapshot) form(v station.View) {
	s.Items = v.Ledger.Items()
	s.places(v)
	s.Form.Gone = v.Ledger.ItemsGone()
	f := &s.Form
	switch s.For.Form {
	case FormItem:
		f.Line = itemOf(v, s.For.Item)
		f.Free = free(v)
		f.Both = v.Ledger.ItemValues(s.For.Item)
		s.waste(v)
	case FormReceive:
		f.Line = itemOf(v, s.For.Item)
	case FormIssue, FormDrawUp:
		s.rooms(v)
		s.Items = slices.DeleteFunc(s.Items, func(i kits.ItemLine) bool {
			return s.For.Form == FormIssue && !i.Has(kits.Controlled) || i.Content.N == 0
		})
	case FormEnd:
		s.portions(v)
	case FormReverse:
		f.Moved, _ = v.Ledger.Movement(s.For.Movement)
	case FormTake:
		s.held(v)
	case FormWaste:
		s.classes(v)
	case FormSet:
		f.Free = free(v)
		s.sets(v)
	case FormPlace:
		p, _ := v.Ledger.Place(s.For.Place)
		f.Place = p.Value
		f.Place.Place = s.For.Place
	}
}

// free is the first spoken number behind those that were ever used.
func free(v station.View) mesh.Number {
	last := mesh.Number(0)
	for _, i := range v.Ledger.Items() {
		last = max(last, i.Number)
	}
	for n := last + 1; n <= min(last+1000, mesh.NumberMax); n++ {
		_, item := v.Ledger.Item(n)
		_, bundle := v.Ledger.Bundle(n)
		if _, spoken := kits.ParseNumber(fmt.Sprint(n)); spoken && !item && !bundle {
			return n
		}
	}
	return 0
}

// portions notes what is inside of an issue.
func (s *Snapshot) portions(v station.View) {
	s.Form.Issue, _ = v.Ledger.Issue(s.For.Ref)
	s.Form.Line = itemOf(v, s.Form.Issue.Line.Item)
	c, _ := v.Board.Case(s.Form.Issue.Case)
	s.Form.Room = c.Room
	containers := int64(0)
	for _, b := range v.Ledger.BalancesAt(kits.Place{Sort: kits.InRoom, ID: c.Room}) {
		switch {
		case b.N <= 0 || b.Cell.Item != s.Form.Line.Number:
		case b.Cell.Syringe.IsZero():
			containers += b.N
		default:
			line := kits.Line{Item: b.Cell.Item, Syringe: b.Cell.Syringe, Quantity: kits.Quantity{N: b.N, Measure: b.Cell.Measure}}
			s.Form.Portions = append(s.Form.Portions, Portion{b.Cell.Syringe, b.N, v.Ledger.MeasuredLine(line)})
		}
	}
	if containers > 0 {
		whole := v.Ledger.MeasuredLine(kits.Containers(s.Form.Line.Number, containers))
		s.Form.Portions = append([]Portion{{N: containers, Amount: whole}}, s.Form.Portions...)
	}
}

// held notes what the ledger says of a place, by item and lot.
func (s *Snapshot) held(v station.View) {
	for _, b := range v.Ledger.BalancesAt(s.For.Place) {
		if b.N == 0 || b.Cell.Measure != mesh.Each || !b.Cell.Syringe.IsZero() {
			continue
		}
		x := kits.LotHeld{Lot: b.Cell.Lot, N: b.N}
		if l, known := v.Ledger.Lot(b.Cell.Item, b.Cell.Lot); known {
			x.Expiry, x.Inferred, x.How = l.Value.Expiry, l.Value.Inferred, l.Value.How
		}
		s.Form.Held = append(s.Form.Held, Held{itemOf(v, b.Cell.Item), x})
	}
}
