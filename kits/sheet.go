package kits

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// RegisterSheet is what is copied by hand into the paper register of one drug:
// in the order of entries, nothing left out, corrections beside what they
// correct (after the Misuse of Drugs Regulations 2001, regs 19–20). It replaces no
// register.
type RegisterSheet struct {
	Item  ItemLine
	Pages []mesh.Label // of the paper register, as the issues name them, sorted
	Rows  []RegisterRow
}

// RegisterRow is one line of a sheet.
type RegisterRow struct {
	Ref       mesh.Ref
	Wall      mesh.Wall // when it happened
	Kind      mesh.Kind // KindMoved, KindDrawnUp, KindLeftWith, KindCounted
	From, To  Place
	Amount    Measured
	In, Out   int64 // containers into and out of clean stock
	Balance   int64 // containers in clean stock afterwards
	Issue     mesh.Ref
	Page      mesh.Label
	TakenBy   mesh.Tag // as the issue says, else who recorded it
	CheckedBy mesh.Tag
	Witnesses []Witness
	Reversed  []mesh.Ref // the corrections; such a row changes no balance
	Why       mesh.Label

	at mesh.Order
}

// RegisterSheets are those of all controlled drugs with any row, in the order of
// the first page, the name and the number. Cases for which drill says yes are
// left out; nil leaves none out.
func (l *Ledger) RegisterSheets(drill func(mesh.Ref) bool) []RegisterSheet {
	sheets := map[mesh.Number]*RegisterSheet{}
	for m := range l.moves.all() {
		if drill != nil && drill(m.inCase) {
			continue
		}
		l.registerMove(sheets, m)
	}
	for p, s := range l.shelves {
		if cleanStock(p) && len(s.chain) > 0 {
			l.registerCounts(sheets, p)
		}
	}
	var out []RegisterSheet
	for _, s := range sheets {
		s.balance()
		out = append(out, *s)
	}
	slices.SortFunc(out, func(a, b RegisterSheet) int {
		return cmp.Or(slices.Compare(a.Pages, b.Pages), cmp.Compare(a.Item.Name, b.Item.Name), cmp.Compare(a.Item.Number, b.Item.Number))
	})
	return out
}

// cleanStock tells whether containers at a place are the unit's own stock.
func cleanStock(p Place) bool { return p.Sort == Store || p.Sort == Trolley || p.Sort == Kit }

// sheetOf is the sheet of a controlled drug, or nil for another item.
func (l *Ledger) sheetOf(sheets map[mesh.Number]*RegisterSheet, item mesh.Number) *RegisterSheet {
	c, ok := l.Item(item)
	if !ok || !c.Value.Has(Controlled) {
		return nil
	}
	if sheets[item] == nil {
		sheets[item] = &RegisterSheet{Item: c.Value}
	}
	return sheets[item]
}

// registerMove adds a row for each line of a controlled drug.
func (l *Ledger) registerMove(sheets map[mesh.Number]*RegisterSheet, m *move) {
	for i, x := range m.lines {
		s := l.sheetOf(sheets, x.Item)
		if s == nil {
			continue
		}
		v := l.movement(m)
		row := RegisterRow{
			Ref: m.ref, Wall: whenOf(m.wall, *m.by), Kind: m.kind, From: m.from, To: m.to, Amount: l.MeasuredLine(x),
			Issue: m.issue, TakenBy: m.by.Tag, Witnesses: l.Witnesses(m.ref), Reversed: v.Reversed, Why: m.why, at: m.at,
		}
		if m.drawn != nil {
			row.TakenBy, row.CheckedBy = cmp.Or(m.drawn.DrawnBy, m.by.Tag), m.drawn.CheckedBy
		}
		if issue := l.issues[m.issue]; issue != nil {
			row.Page = issue.body.Register
			if cleanStock(m.from) {
				row.TakenBy, row.CheckedBy = cmp.Or(issue.body.TakenBy, row.TakenBy), cmp.Or(row.CheckedBy, issue.body.CheckedBy)
			}
		}
		row.In, row.Out = m.stockChange(i)
		if row.Page != "" && !slices.Contains(s.Pages, row.Page) {
			s.Pages = append(s.Pages, row.Page)
		}
		s.Rows = append(s.Rows, row)
	}
}

// stockChange is what one line did to clean stock, in containers. What was put
// at a door is out until it came back.
func (m *move) stockChange(line int) (in, out int64) {
	x := m.lines[line]
	if m.reversed(nil) || x.Quantity.Measure != mesh.Each || !x.Syringe.IsZero() {
		return 0, 0
	}
	if cleanStock(m.from) {
		out = x.Quantity.N
	}
	if cleanStock(m.to) {
		in = x.Quantity.N
	}
	if taken, ended := m.outcome(nil); ended {
		back := max(0, x.Quantity.N-taken[line])
		if cleanStock(m.from) {
			in += back
		}
		if cleanStock(m.then) {
			in += taken[line]
		}
	}
	return in, out
}

// registerCounts adds a row for each controlled drug of which a count of clean
// stock found more or fewer.
func (l *Ledger) registerCounts(sheets map[mesh.Number]*RegisterSheet, p Place) {
	for _, c := range l.Counts(p) {
		for _, a := range c.Adjustments {
			s := l.sheetOf(sheets, a.Cell.Item)
			if s == nil || a.Cell.Measure != mesh.Each || !a.Cell.Syringe.IsZero() {
				continue
			}
			n := max(a.N, -a.N)
			s.Rows = append(s.Rows, RegisterRow{
				Ref: c.Ref, Kind: KindCounted, From: Place{Difference, p.ID}, To: p,
				Amount: l.Measured(a.Cell.Item, Quantity{n, mesh.Each}), In: max(a.N, 0), Out: max(-a.N, 0), at: c.At,
			})
		}
	}
}

// balance puts the rows in order and adds them up.
func (s *RegisterSheet) balance() {
	slices.Sort(s.Pages)
	slices.SortStableFunc(s.Rows, func(a, b RegisterRow) int {
		return cmp.Or(a.at.Compare(b.at), a.Ref.Compare(b.Ref), cmp.Compare(a.Amount.Base.N, b.Amount.Base.N))
	})
	var n int64
	for i := range s.Rows {
		n += s.Rows[i].In - s.Rows[i].Out
		s.Rows[i].Balance = n
	}
}
