package kits

import (
	"slices"

	"lintel/mesh"
)

// balances checks what is at every place.
func (a *auditor) balances() {
	sums := map[batch]int64{}
	var run []Balance // of one place, item and measure
	for _, b := range a.l.Balances() {
		sums[b.Cell.batch()] += b.N
		if len(run) > 0 && !sameShelfItem(run[0].Cell, b.Cell) {
			a.belowZero(run)
			run = nil
		}
		run = append(run, b)
		if _, ok := a.l.Item(b.Cell.Item); !ok && b.Cell.Place.Sort < DrawnOff {
			a.find(UnknownItem, b.Cell, 0, b.N)
		}
	}
	a.belowZero(run)
	for b, n := range sums {
		if n != 0 {
			a.find(NotConserved, b.at(Place{}), 0, n)
		}
	}
}

func sameShelfItem(a, b Cell) bool { return a.Place == b.Place && a.Item == b.Item }

// belowZero checks the balances of one item at one place. Containers of an
// unknown lot may stand for those of a known one, and the other way round: a
// lot is below zero only by what the unknown ones cannot cover, and they are
// only if all lots together are.
func (a *auditor) belowZero(run []Balance) {
	if len(run) == 0 {
		return
	}
	switch run[0].Cell.Place.Sort {
	case Supplier, DrawnOff, Difference:
		return
	}
	type sums struct{ all, unknown, missing int64 }
	of := map[mesh.Measure]*sums{}
	for _, b := range run {
		if !b.Cell.Syringe.IsZero() {
			continue
		}
		s := of[b.Cell.Measure]
		if s == nil {
			s = &sums{}
			of[b.Cell.Measure] = s
		}
		s.all += b.N
		if b.Cell.Lot == "" {
			s.unknown += b.N
		} else {
			s.missing += min(b.N, 0)
		}
	}
	for _, b := range run {
		s := of[b.Cell.Measure]
		switch {
		case b.N >= 0:
		case !b.Cell.Syringe.IsZero(),
			b.Cell.Lot == "" && s.all < 0,
			b.Cell.Lot != "" && max(s.unknown, 0)+s.missing < 0:
			a.find(BelowZero, b.Cell, 0, b.N)
		}
	}
}

// counts lists each count that does not hold, with the one that does instead.
func (a *auditor) counts() {
	for _, s := range a.l.shelves {
		for _, c := range s.counts {
			if slices.Contains(s.chain, c) {
				continue
			}
			a.besides(s, c)
		}
	}
}

func (a *auditor) besides(s *shelf, c *count) {
	at := Cell{Place: s.place}
	if b := c.body.Before; !b.IsZero() && a.l.counts[b] == nil {
		a.unknown(c.ref, b)
		return
	}
	refs := []mesh.Ref{c.ref}
	for _, h := range s.chain {
		if h.body.Before == c.body.Before {
			refs = append(refs, h.ref)
		}
	}
	a.find(CountBeside, at, 0, 0, refs...)
}

// issues checks the controlled-drug record.
func (a *auditor) issues() {
	for _, v := range a.l.Issues() {
		c := Cell{Item: v.Line.Item, Lot: v.Line.Lot, Measure: v.Measure}
		switch v.State {
		case IssueShort:
			a.find(ShortIssue, c, v.Issued, v.Issued-v.Residual, v.Ref)
			if v.ShutWhy == "" {
				a.find(ShutUnsaid, c, v.Issued, v.Issued-v.Residual, append([]mesh.Ref{v.Ref}, v.Shut...)...)
			}
		case IssueOver:
			a.find(OverIssue, c, v.Issued, v.Issued-v.Residual, v.Ref)
		case IssueConflict:
			a.find(IssueDisputed, c, v.Issued, v.Issued-v.Residual, v.Ref)
		}
		for _, r := range slices.Compact(v.Unmeasured) {
			a.find(IssueUnmeasured, c, v.Issued, 0, v.Ref, r)
		}
	}
	for r, marks := range a.l.shut {
		for _, s := range marks {
			if a.l.issues[r] == nil {
				a.unknown(s.ref, r)
			}
		}
	}
}
