package kits

import (
	"cmp"
	"maps"
	"math/bits"
	"slices"

	"lintel/mesh"
)

type issue struct {
	ref  mesh.Ref
	at   mesh.Order
	wall mesh.Wall
	by   mesh.By
	body *Issued
}

// IssueState is what an issue of a controlled drug adds up to.
type IssueState uint8

// States of an issue.
const (
	IssueOpen        IssueState = 1 // not all is accounted for yet, and nobody closed it
	IssueBalanced    IssueState = 2
	IssueShort       IssueState = 3 // closed, and something is missing
	IssueOver        IssueState = 4 // more came to an end than was issued
	IssueUnwitnessed IssueState = 5 // it adds up, but a second person is missing
	IssueConflict    IssueState = 6 // a hand-over was ended differently, or a reversal differs
)

// Issue is one line of the controlled-drug record: issued = given + wasted +
// broken + returned + destroyed unopened + left with the patient + residual.
// All amounts are in Measure.
type Issue struct {
	Ref         mesh.Ref
	Case        mesh.Ref
	Line        Line // as issued, in containers
	TakenBy     mesh.Tag
	CheckedBy   mesh.Tag
	Measure     mesh.Measure
	Issued      int64
	Given       int64
	Wasted      int64
	Broken      int64
	Returned    int64 // never taken in
	Destroyed   int64 // unopened
	Left        int64 // with the patient
	Pending     int64 // still at the door
	Residual    int64
	Shut        []mesh.Ref
	ShutWhy     mesh.Text  // empty: nobody said
	Unwitnessed []mesh.Ref // movements without a witness that suffices
	Unmeasured  []mesh.Ref // movements in a measure that cannot be compared
	State       IssueState
}

// Issues lists the controlled-drug issues, earliest first.
func (l *Ledger) Issues() []Issue {
	all := slices.SortedFunc(maps.Values(l.issues), func(a, b *issue) int {
		return cmp.Or(a.at.Compare(b.at), a.ref.Compare(b.ref))
	})
	out := make([]Issue, 0, len(all))
	for _, i := range all {
		out = append(out, l.issueView(i))
	}
	return out
}

// Issue returns the issue r.
func (l *Ledger) Issue(r mesh.Ref) (Issue, bool) {
	i := l.issues[r]
	if i == nil {
		return Issue{}, false
	}
	return l.issueView(i), true
}

func (l *Ledger) issueView(i *issue) Issue {
	v := Issue{
		Ref: i.ref, Case: i.body.Case, Line: i.body.Line,
		TakenBy: i.body.TakenBy, CheckedBy: i.body.CheckedBy,
	}
	q, ok := l.base(i.body.Line.Item, i.body.Line.Quantity)
	v.Issued, v.Measure = q.N, q.Measure
	if !ok {
		v.Unmeasured = append(v.Unmeasured, i.ref)
	}
	conflict := false
	for _, m := range l.byIssue[i.ref] {
		l.account(&v, m)
		conflict = conflict || m.disputed()
	}
	v.Residual = v.Issued - v.Given - v.Wasted - v.Broken - v.Returned - v.Destroyed - v.Left
	for _, s := range l.shut[i.ref] {
		v.Shut = append(v.Shut, s.ref)
		v.ShutWhy = max(v.ShutWhy, s.body.Why)
	}
	for _, refs := range [...][]mesh.Ref{v.Shut, v.Unwitnessed, v.Unmeasured} {
		slices.SortFunc(refs, mesh.Ref.Compare)
	}
	v.State = v.state(conflict)
	return v
}

func (v *Issue) state(conflict bool) IssueState {
	switch {
	case conflict:
		return IssueConflict
	case v.Residual < 0:
		return IssueOver
	case v.Pending != 0, v.Residual > 0 && len(v.Shut) == 0:
		return IssueOpen
	case v.Residual > 0:
		return IssueShort
	case len(v.Unwitnessed) > 0:
		return IssueUnwitnessed
	}
	return IssueBalanced
}

// account adds what m carried to or from an end.
func (l *Ledger) account(v *Issue, m *move) {
	m.postings(nil, func(p posting) {
		if p.what.item != v.Line.Item {
			return
		}
		q, ok := l.base(p.what.item, Quantity{p.n, p.what.measure})
		if !ok || q.Measure != v.Measure {
			v.Unmeasured = append(v.Unmeasured, m.ref)
			return
		}
		if m.isHandOver() && p.from == m.to && p.to == m.from {
			v.Returned += q.N
		}
		if sum := v.sum(p.to.Sort); sum != nil {
			*sum += q.N
		}
		if sum := v.sum(p.from.Sort); sum != nil {
			*sum -= q.N
		}
	})
	if !m.reversed(nil) && l.needsWitness(m) && !l.witnessed(m) {
		v.Unwitnessed = append(v.Unwitnessed, m.ref)
	}
}

// sum is the part of the equation that a place stands for, or nil.
func (v *Issue) sum(s PlaceSort) *int64 {
	switch s {
	case Given:
		return &v.Given
	case Wasted:
		return &v.Wasted
	case Broken:
		return &v.Broken
	case Returned:
		return &v.Returned
	case DestroyedUnopened:
		return &v.Destroyed
	case LeftWithPatient:
		return &v.Left
	case Door:
		return &v.Pending
	}
	return nil
}

// disputed tells whether records of m contradict each other.
func (m *move) disputed() bool {
	if m.named == nil {
		return false
	}
	if m.isHandOver() && m.handOverState() == HandOverConflict {
		return true
	}
	return slices.ContainsFunc(m.named.reversals, func(r reversal) bool { return !m.repeats(r.body) })
}

// base turns containers into what they hold by the catalogue; other quantities,
// and containers that hold nothing measured, stay as they are. ok is false when
// the product is beyond what the ledger counts.
func (l *Ledger) base(item mesh.Number, q Quantity) (out Quantity, ok bool) {
	if q.Measure != mesh.Each {
		return q, true
	}
	c, known := l.Item(item)
	if !known || c.Value.Content.N == 0 {
		return q, true
	}
	high, low := bits.Mul64(uint64(q.N), uint64(c.Value.Content.N))
	if high != 0 || low > uint64(QuantityMax) {
		return Quantity{0, c.Value.Content.Measure}, false
	}
	return Quantity{int64(low), c.Value.Content.Measure}, true
}
