package kits

import (
	"cmp"
	"maps"
	"slices"

	"lintel/mesh"
)

// WasteBy says what sums of waste are told apart by; add them up. Training is
// always apart from all else.
type WasteBy uint8

// Ways of telling sums apart.
const (
	ByCase WasteBy = 1 << iota
	ByRoom
	ByMonth
	ByReason
	ByClass
)

// WasteKey is what one sum is of, as far as it was told apart.
type WasteKey struct {
	Case     mesh.Ref
	Room     mesh.ID
	Month    uint32
	Reason   Reason
	Class    mesh.ID
	Code     mesh.Label
	Training bool
}

// Money is an amount in hundredths of one currency.
type Money struct {
	Currency mesh.ID
	Minor    int64
}

// WasteSum adds up waste. Currencies are never added to each other.
type WasteSum struct {
	WasteKey
	Containers int64
	MassMG     int64
	Costs      []Money // by currency
	Unpriced   int64   // containers of which no price is known
	Unweighed  int64   // containers of which no mass is known
}

// SumWaste adds rows up, in the order of training, case, room, month, reason and class.
func SumWaste(rows []WasteRow, by WasteBy) []WasteSum {
	sums := map[WasteKey]*WasteSum{}
	costs := map[WasteKey]map[mesh.ID]int64{}
	for _, r := range rows {
		k := r.key(by)
		s := sums[k]
		if s == nil {
			s = &WasteSum{WasteKey: k}
			sums[k], costs[k] = s, map[mesh.ID]int64{}
		}
		s.Containers += r.Containers
		s.MassMG += r.MassMG
		if r.Item.MassMG == 0 {
			s.Unweighed += r.Containers
		}
		if r.Currency == "" || r.Item.CostMinor == 0 {
			s.Unpriced += r.Containers
			continue
		}
		costs[k][r.Currency] += r.CostMinor
	}
	var out []WasteSum
	for k, s := range sums {
		for _, c := range slices.Sorted(maps.Keys(costs[k])) {
			s.Costs = append(s.Costs, Money{c, costs[k][c]})
		}
		out = append(out, *s)
	}
	slices.SortFunc(out, func(a, b WasteSum) int { return a.WasteKey.compare(b.WasteKey) })
	return out
}

func (r WasteRow) key(by WasteBy) (k WasteKey) {
	k.Training = r.Reason == ReasonTraining
	if by&ByCase != 0 {
		k.Case = r.Case
	}
	if by&ByRoom != 0 {
		k.Room = r.Room
	}
	if by&ByMonth != 0 {
		k.Month = r.Month
	}
	if by&ByReason != 0 {
		k.Reason = r.Reason
	}
	if by&ByClass != 0 {
		k.Class, k.Code = r.Item.Waste, r.Code
	}
	return k
}

func (k WasteKey) compare(o WasteKey) int {
	if k.Training != o.Training {
		if o.Training {
			return -1
		}
		return 1
	}
	return cmp.Or(k.Case.Compare(o.Case), cmp.Compare(k.Room, o.Room), cmp.Compare(k.Month, o.Month),
		cmp.Compare(k.Reason, o.Reason), cmp.Compare(k.Class, o.Class), cmp.Compare(k.Code, o.Code))
}

// WasteBoxRow is one waste container that was closed.
type WasteBoxRow struct {
	Ref      mesh.Ref
	Case     mesh.Ref
	Room     mesh.ID
	Month    uint32 // as 202612
	Class    mesh.ID
	Code     mesh.Label
	Name     mesh.Label // of the class in the country
	Seal     mesh.Label // empty: none was noted
	LitresT  int64      // what it holds, in tenths of a litre
	FillT    int64      // up to where it may be filled: three quarters, rounded down
	Training bool
}

// Containers are filled to three quarters (WHO guidance on health-care waste).
const (
	fillNumerator   = 3
	fillDenominator = 4
)

// WasteBoxes lists the containers that were closed, in the order of entries.
func (l *Ledger) WasteBoxes(q WasteQuestion) []WasteBoxRow {
	var out []WasteBoxRow
	for _, b := range inOrder(l.trays.boxes) {
		class, _ := l.Waste(b.body.Class, cmp.Or(q.Country, WasteEU))
		out = append(out, WasteBoxRow{
			Ref: b.ref, Case: b.body.Case, Room: b.body.Room, Month: DayOf(b.wall) / 100,
			Class: b.body.Class, Code: class.Value.Code, Name: class.Value.Name, Seal: b.body.Seal,
			LitresT: b.body.LitresT, FillT: b.body.LitresT * fillNumerator / fillDenominator,
			Training: b.body.Drill || q.Drill != nil && q.Drill(b.body.Case),
		})
	}
	return out
}
