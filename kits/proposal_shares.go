package kits

import (
	"cmp"
	"maps"
	"slices"

	"lintel/mesh"
)

// share is what of a batch belongs to an issue.
type share struct {
	issue  mesh.Ref
	inCase mesh.Ref
	n      int64
}

// usedUp tells whether what went to a place was what people had asked for.
func usedUp(s PlaceSort) bool {
	return s == Used || s == Given || s == DrawnOff || s == LeftWithPatient || s == Reprocessing
}

// exercised adds what an exercise brought in or took out.
func (p *proposer) exercised(m *move, b batch, n int64) {
	if p.drill == nil || !p.drill(m.inCase) {
		return
	}
	if p.exercises[b] == nil {
		p.exercises[b] = map[mesh.Ref]int64{}
	}
	p.exercises[b][m.inCase] += n
}

// sharesAt is what of everything at a place belongs to which issue, the
// earliest issue first.
func (l *Ledger) sharesAt(at Place) map[batch][]share {
	net := map[mesh.Ref]map[batch]int64{}
	if s := l.shelves[at]; s != nil {
		for _, m := range s.moves {
			if m.issue.IsZero() {
				continue
			}
			if net[m.issue] == nil {
				net[m.issue] = map[batch]int64{}
			}
			s.tally(m, nil, net[m.issue], +1, func(batch) bool { return true })
		}
	}
	out := map[batch][]share{}
	for _, r := range slices.SortedFunc(maps.Keys(net), l.compareIssues) {
		s := share{issue: r}
		if i := l.issues[r]; i != nil {
			s.inCase = i.body.Case
		}
		for b, n := range net[r] {
			if n > 0 {
				s.n = n
				out[b] = append(out[b], s)
			}
		}
	}
	return out
}

// compareIssues puts the earlier issue first; what is no issue here comes last.
func (l *Ledger) compareIssues(a, b mesh.Ref) int {
	x, y := l.issues[a], l.issues[b]
	switch {
	case x != nil && y != nil:
		return cmp.Or(x.at.Compare(y.at), a.Compare(b))
	case x != nil:
		return -1
	case y != nil:
		return 1
	}
	return a.Compare(b)
}
