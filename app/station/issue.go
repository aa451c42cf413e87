package station

import (
	"lintel/kits"
	"lintel/mesh"
)

// shared is lines of one movement and the issue that they belong to.
type shared struct {
	lines []kits.Line
	issue mesh.Ref // zero: none
}

// SettingWitness names the grades of witness that suffice in the unit, as
// kits.ReadGrades reads them.
const SettingWitness mesh.ID = "witness-grades"

// witnessed tells the ledger which grades suffice, by the board's setting. A
// text that names no grades lets any suffice.
func (v View) witnessed() View {
	text, _ := v.Board.Setting(SettingWitness)
	suffice, _ := kits.ReadGrades(string(text))
	v.Ledger.SetSuffices(suffice)
	return v
}

// sharesMax bounds the movements of one tap: each may have who saw it beside it.
const sharesMax = (mesh.PartsMax - 2) / 2

// shares are n containers of an item at a place inside, by the issues that they
// were brought in for, those of issues first. What does not lie there is of no
// known lot and belongs to the item's only issue there, if it has one.
func (m *maker) shares(inside kits.Place, item mesh.Number, n int64, lot mesh.Label) (out []shared) {
	add := func(issue mesh.Ref, lot mesh.Label, n int64) {
		line := kits.Line{Item: item, Lot: lot, Quantity: kits.Quantity{N: n, Measure: mesh.Each}}
		for i := range out {
			if out[i].issue == issue {
				out[i].lines = append(out[i].lines, line)
				return
			}
		}
		if len(out) == sharesMax { // more issues at once than an entry has room for
			out[len(out)-1].lines = append(out[len(out)-1].lines, line)
			return
		}
		out = append(out, shared{[]kits.Line{line}, issue})
	}
	for _, issued := range []bool{true, false} {
		for _, e := range m.view.Proposal(inside.ID) {
			c := e.Cell
			fits := e.HandOver.IsZero() && c.Item == item && c.Syringe.IsZero() && c.Measure == mesh.Each && (lot == "" || lot == c.Lot)
			if k := min(e.N, n); fits && k > 0 && issued != e.Issue.IsZero() {
				add(e.Issue, c.Lot, k)
				n -= k
			}
		}
	}
	if n > 0 {
		add(m.issueOf(inside, item), lot, n)
	}
	return out
}

// flat is all lines of shares.
func (m *maker) flat(shares []shared) (out []kits.Line) {
	for _, s := range shares {
		out = append(out, s.lines...)
	}
	return out
}

// issueOf is the issue that an item inside belongs to: that of what lies there,
// else the only one that is open for the room's newest case.
func (m *maker) issueOf(inside kits.Place, item mesh.Number) (found mesh.Ref) {
	for _, e := range m.view.Proposal(inside.ID) {
		if e.HandOver.IsZero() && e.Cell.Item == item && e.Cell.Syringe.IsZero() && !e.Issue.IsZero() {
			return e.Issue
		}
	}
	c, _ := m.view.CaseAt(inside.ID)
	open := 0
	for _, i := range m.view.Ledger.Issues() {
		if i.Line.Item == item && !c.Ref.IsZero() && i.Case == c.Ref && i.State == kits.IssueOpen {
			found = i.Ref
			open++
		}
	}
	if open != 1 {
		return mesh.Ref{}
	}
	return found
}

// unmoved is the issue of a case for an item that nothing was moved for yet, the
// earliest of several; zero: there is none.
func (m *maker) unmoved(of mesh.Ref, item mesh.Number) mesh.Ref {
	for _, i := range m.view.Ledger.Issues() {
		if i.Line.Item != item || i.Case != of || len(i.Shut) > 0 {
			continue
		}
		if r, _ := m.view.Ledger.IssueRecord(i.Ref); len(r.Entries) == 0 {
			return i.Ref
		}
	}
	return mesh.Ref{}
}

// OnlySyringe is the one syringe of an item that still holds something at a
// place; false where there is none, or more than one.
func (v View) OnlySyringe(at kits.Place, item mesh.Number) (found kits.Movement, known bool) {
	for _, b := range v.Ledger.BalancesAt(at) {
		if b.Cell.Item != item || b.Cell.Syringe.IsZero() || b.N <= 0 {
			continue
		}
		if known {
			return kits.Movement{}, false
		}
		found, known = v.Ledger.Movement(b.Cell.Syringe)
	}
	return found, known
}
