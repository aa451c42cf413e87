package kits

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// Reason says why something became waste.
type Reason string

// Reasons. What was thrown away without one was opened and not used.
const (
	ReasonUsed         Reason = "used"
	ReasonOpened       Reason = "opened-unused"
	ReasonContaminated Reason = "unopened-contaminated"
	ReasonExpired      Reason = "expired"
	ReasonBroken       Reason = "broken"
	ReasonTraining     Reason = "training" // in an exercise, whatever else it was
)

// WasteQuestion says how waste is looked at.
type WasteQuestion struct {
	Country mesh.ID             // whose codes; empty: eu
	Drill   func(mesh.Ref) bool // whether a case is an exercise; nil: none is
}

// WasteEU is the country of the European List of Waste.
const WasteEU mesh.ID = "eu"

// WasteRow is one line that became waste. A row below zero takes back what came
// out of the waste again.
type WasteRow struct {
	Ref        mesh.Ref
	Case       mesh.Ref
	Room       mesh.ID // of the end that it went to
	Month      uint32  // when it happened, by its author's clock in UTC, as 202612; 0: not known
	Item       ItemLine
	Reason     Reason
	Code       mesh.Label // of the item's class in the country; empty: not known
	Containers int64      // whole ones
	Amount     Quantity   // what was not whole containers, in its measure
	MassMG     int64
	CostMinor  int64   // in hundredths of Currency
	Currency   mesh.ID // empty: no price is known
}

// WasteRows lists what became waste, in the order of entries. What was drawn up
// counts when it is drawn up: its containers with their mass, and their price
// less the share of what was then thrown away from the syringe, which is a row
// of its own.
func (l *Ledger) WasteRows(q WasteQuestion) []WasteRow {
	w := &wasteWriter{l: l, q: q, shares: map[mesh.Ref]int64{}}
	for m := range l.moves.all() {
		if m.drawn == nil {
			w.move(m)
		}
	}
	for m := range l.moves.all() {
		if m.drawn != nil && !m.reversed(nil) {
			w.drawn(m)
		}
	}
	slices.SortFunc(w.out, func(a, b ordered[WasteRow]) int {
		return cmp.Or(a.at.Compare(b.at), a.row.Ref.Compare(b.row.Ref), cmp.Compare(a.row.Item.Number, b.row.Item.Number),
			cmp.Compare(a.row.Reason, b.row.Reason), cmp.Compare(a.row.Containers, b.row.Containers),
			cmp.Compare(a.row.Amount.N, b.row.Amount.N), cmp.Compare(a.row.Room, b.row.Room))
	})
	rows := make([]WasteRow, 0, len(w.out))
	for _, o := range w.out {
		rows = append(rows, o.row)
	}
	return rows
}

// ordered is a row at its place in the order of entries.
type ordered[R any] struct {
	at  mesh.Order
	row R
}

// wasteWriter makes the rows of one question.
type wasteWriter struct {
	l      *Ledger
	q      WasteQuestion
	shares map[mesh.Ref]int64 // by syringe: what of its price was thrown away
	out    []ordered[WasteRow]
}

// wasteReason is why something at an end is waste; false for an end that is none.
func wasteReason(s PlaceSort, why mesh.Label) (Reason, bool) {
	switch s {
	case Used, Given:
		return ReasonUsed, true
	case Broken:
		return ReasonBroken, true
	case Wasted, DestroyedUnopened:
	default:
		return "", false
	}
	switch {
	case why == WhyExpired:
		return ReasonExpired, true
	case why == WhyContaminated, s == DestroyedUnopened:
		return ReasonContaminated, true
	}
	return ReasonOpened, true
}

// move adds what a movement carried to waste, and takes off what it carried from there.
func (w *wasteWriter) move(m *move) {
	m.postings(nil, func(p posting) {
		if r, ok := wasteReason(p.to.Sort, m.why); ok {
			w.add(m, p.what, p.n, p.to.ID, r)
		}
		if r, ok := wasteReason(p.from.Sort, m.why); ok {
			w.add(m, p.what, -p.n, p.from.ID, r)
		}
	})
}

// row begins a row.
func (w *wasteWriter) row(m *move, item mesh.Number, room mesh.ID, r Reason) WasteRow {
	c, _ := w.l.Item(item)
	c.Value.Number = item
	code, _ := w.l.Waste(c.Value.Waste, cmp.Or(w.q.Country, WasteEU))
	if w.training(m.inCase) {
		r = ReasonTraining
	}
	return WasteRow{
		Ref: m.ref, Case: m.inCase, Room: room, Month: DayOf(whenOf(m.wall, *m.by)) / 100,
		Item: c.Value, Reason: r, Code: code.Value.Code, Currency: c.Value.Currency,
	}
}

func (w *wasteWriter) training(inCase mesh.Ref) bool { return w.q.Drill != nil && w.q.Drill(inCase) }

// add makes a row of n of a batch; n below 0 takes back.
func (w *wasteWriter) add(m *move, b batch, n int64, room mesh.ID, r Reason) {
	x := w.row(m, b.item, room, r)
	sign := int64(1)
	if n < 0 {
		sign, n = -1, -n
	}
	switch d := w.l.moves.get(b.syringe); {
	case !b.syringe.IsZero():
		if r == ReasonUsed || d == nil || d.drawn == nil {
			return // its containers counted when they were drawn up
		}
		x.Amount = Quantity{sign * n, b.measure}
		x.CostMinor, _ = portion(n, w.l.drugPrice(d), d.drawn.Amount.N)
		x.CostMinor *= sign
		w.shares[b.syringe] += x.CostMinor
	case b.measure == mesh.Each:
		x.Containers = sign * n
		x.MassMG, x.CostMinor = times(sign*n, x.Item.MassMG), times(sign*n, x.Item.CostMinor)
	default:
		x.Amount = Quantity{sign * n, b.measure}
		if holds := x.Item.Content; holds.Measure == b.measure {
			x.MassMG, _ = portion(n, x.Item.MassMG, holds.N)
			x.CostMinor, _ = portion(n, x.Item.CostMinor, holds.N)
			x.MassMG, x.CostMinor = sign*x.MassMG, sign*x.CostMinor
		}
	}
	w.out = append(w.out, ordered[WasteRow]{m.at, x})
}

// drawn adds the containers of a drawing up as used. The price of the drug is
// less what was thrown away from the syringe.
func (w *wasteWriter) drawn(m *move) {
	share := max(0, min(w.shares[m.ref], w.l.drugPrice(m)))
	for _, line := range m.lines {
		if !line.Syringe.IsZero() {
			continue
		}
		x := w.row(m, line.Item, m.from.ID, ReasonUsed)
		x.Amount = line.Quantity
		if line.Quantity.Measure == mesh.Each {
			x.Amount, x.Containers = Quantity{}, line.Quantity.N
			x.MassMG, x.CostMinor = times(line.Quantity.N, x.Item.MassMG), times(line.Quantity.N, x.Item.CostMinor)
		}
		if line.Item == m.drawn.Item {
			off := min(share, x.CostMinor)
			share -= off
			x.CostMinor -= off
		}
		w.out = append(w.out, ordered[WasteRow]{m.at, x})
	}
}

// drugPrice is the price of the drug's containers that went into a syringe.
func (l *Ledger) drugPrice(m *move) (n int64) {
	c, _ := l.Item(m.drawn.Item)
	for _, x := range m.lines {
		if x.Item == m.drawn.Item && x.Quantity.Measure == mesh.Each && x.Syringe.IsZero() {
			n = min(n+times(x.Quantity.N, c.Value.CostMinor), QuantityMax)
		}
	}
	return n
}

// times is n × each, bounded by QuantityMax on both sides of 0.
func times(n, each int64) int64 {
	sign := int64(1)
	if n < 0 {
		sign, n = -1, -n
	}
	out, _ := portion(n, each, 1)
	return sign * out
}
