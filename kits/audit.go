package kits

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// FindingID names a broken invariant for the table of words.
type FindingID string

// Findings. Want and Got of a Finding are in the measure of its Cell.
const (
	BelowZero        FindingID = "below-zero"        // a place holds less than nothing: Got
	EndedDifferently FindingID = "ended-differently" // ends of one hand-over disagree; Refs: it, then they
	EndMisfits       FindingID = "end-misfits"       // an end has Got numbers for Want lines and does not count
	EndedReversed    FindingID = "ended-reversed"    // a hand-over was ended although it was reversed
	TakenMore        FindingID = "taken-more"        // Got were taken in of Want that were passed
	ReversalDiffers  FindingID = "reversal-differs"  // it does not repeat what it names and does not count
	NamesUnknown     FindingID = "names-unknown"     // it names what is not here (yet)
	NamesWrong       FindingID = "names-wrong"       // it names something of another sort
	Unwitnessed      FindingID = "unwitnessed"       // a second person is missing
	WitnessDiffers   FindingID = "witness-differs"   // a witness states other quantities
	CountBeside      FindingID = "count-beside"      // a count does not hold: another one stands where it would
	SealTwice        FindingID = "seal-twice"        // one seal was opened more than once
	SealDiffers      FindingID = "seal-differs"      // another seal was read than was put on
	KitUnchecked     FindingID = "kit-unchecked"     // a kit was checked by who prepared it, or by nobody
	KitUnsealed      FindingID = "kit-unsealed"      // a kit was opened that nobody had sealed
	KitLotExpired    FindingID = "kit-expired"       // a kit was prepared from a lot that had expired: Want is its last day, Got the day
	KitHeldBack      FindingID = "kit-held-back"     // Got of a kit's lines are of a lot that is held back
	KitIncomplete    FindingID = "kit-incomplete"    // a kit was sealed with Got of Want by its template
	SealLate         FindingID = "seal-late"         // a seal says Got, and the first line expires on Want
	BoxUnsealed      FindingID = "box-unsealed"      // a waste container without the number of a seal
	BoxTwice         FindingID = "box-twice"         // one seal was put on more than one waste container
	ShutUnsaid       FindingID = "issue-shut-unsaid" // Got of Want was accounted for when it was closed, and nobody said why
	UnknownItem      FindingID = "unknown-item"      // Got of something that is in no catalogue line
	SyringeMismatch  FindingID = "syringe-mismatch"  // Got is in a syringe drawn from containers with Want
	SyringeUnchecked FindingID = "syringe-unchecked" // what its containers hold is not known in the syringe's measure
	ShortIssue       FindingID = "issue-short"       // Got of Want issued is accounted for
	OverIssue        FindingID = "issue-over"
	IssueDisputed    FindingID = "issue-conflict"
	IssueUnmeasured  FindingID = "issue-unmeasured" // an amount cannot be compared with what was issued
	Malformed        FindingID = "malformed"        // a part that cannot be read
	NotConserved     FindingID = "not-conserved"    // the sum over all places is Got, not 0: a fault of the program
)

// Finding is one broken invariant.
type Finding struct {
	ID        FindingID
	Refs      []mesh.Ref // the records concerned
	Cell      Cell       // place, item, lot, syringe and measure, as far as they apply
	Want, Got int64
}

// Audit returns every broken invariant, not the first, in a fixed order. The
// auditor's button, the command line and the tests all call it. It depends on
// the facts, the catalogue and the grades of witness that suffice.
func (l *Ledger) Audit() []Finding {
	a := &auditor{l: l}
	a.balances()
	for m := range l.moves.all() {
		a.movement(m)
		if m.named != nil {
			a.naming(m.ref, m.named)
		}
	}
	for r, n := range l.waiting {
		a.naming(r, n)
	}
	for r, n := range l.reopens {
		for _, x := range n.marks {
			if _, ended := l.ended[r]; !ended {
				a.unknown(x.ref, r)
			}
		}
	}
	a.counts()
	a.kits()
	a.boxes()
	a.issues()
	for _, u := range l.unread {
		if !u.Newer {
			a.find(Malformed, Cell{}, 0, 0, u.Ref)
		}
	}
	slices.SortFunc(a.found, func(x, y Finding) int {
		return cmp.Or(cmp.Compare(x.ID, y.ID), slices.CompareFunc(x.Refs, y.Refs, mesh.Ref.Compare),
			x.Cell.Compare(y.Cell), cmp.Compare(x.Want, y.Want), cmp.Compare(x.Got, y.Got))
	})
	return a.found
}

// auditor gathers findings in any order.
type auditor struct {
	l     *Ledger
	found []Finding
}

func (a *auditor) find(id FindingID, c Cell, want, got int64, refs ...mesh.Ref) {
	a.found = append(a.found, Finding{ID: id, Refs: refs, Cell: c, Want: want, Got: got})
}

// movement checks one movement with its ends and witnesses.
func (a *auditor) movement(m *move) {
	if m.isHandOver() {
		a.handOver(m)
	}
	if i := m.issue; !i.IsZero() && a.l.issues[i] == nil {
		a.unknown(m.ref, i)
	}
	if m.reversed(nil) {
		return
	}
	if m.drawn != nil {
		a.syringe(m)
	}
	if a.l.needsWitness(m) && !a.l.witnessed(m) {
		a.find(Unwitnessed, firstCell(m), 0, 0, m.ref)
	}
}

// firstCell says where a movement of at least one line begins.
func firstCell(m *move) Cell {
	if len(m.lines) == 0 {
		return Cell{Place: m.from}
	}
	return m.lines[0].batch().at(m.from)
}

func (a *auditor) handOver(m *move) {
	standing := m.standing(nil)
	refs := []mesh.Ref{m.ref}
	for _, x := range standing {
		refs = append(refs, x.ref)
	}
	switch m.handOverState() {
	case HandOverConflict:
		a.find(EndedDifferently, m.lines[0].batch().at(m.to), 0, 0, refs...)
	case HandOverReversed:
		if len(standing) > 0 {
			a.find(EndedReversed, m.lines[0].batch().at(m.to), 0, 0, refs...)
		}
	case HandOverEnded:
		taken, _ := m.outcome(nil)
		for i, x := range m.lines {
			if taken[i] > x.Quantity.N {
				a.find(TakenMore, x.batch().at(m.to), x.Quantity.N, taken[i], refs...)
			}
		}
	}
}

// syringe checks that what is in a syringe came out of its containers.
func (a *auditor) syringe(m *move) {
	c := m.syringe().at(m.from)
	var want int64
	for _, x := range m.lines {
		if x.Item != m.drawn.Item {
			continue // diluent
		}
		q, ok := a.l.base(x.Item, x.Quantity)
		if !ok || q.Measure != m.drawn.Amount.Measure {
			a.find(SyringeUnchecked, c, 0, m.drawn.Amount.N, m.ref)
			return
		}
		want += q.N
	}
	if want != m.drawn.Amount.N {
		a.find(SyringeMismatch, c, want, m.drawn.Amount.N, m.ref)
	}
}

// naming checks what names the part r.
func (a *auditor) naming(r mesh.Ref, n *named) {
	m := a.l.moves.get(r)
	for _, x := range n.reversals {
		switch {
		case m == nil:
			a.unknown(x.ref, r)
		case !m.repeats(x.body):
			a.find(ReversalDiffers, firstCell(m), 0, 0, r, x.ref)
		}
	}
	for _, x := range n.ends {
		switch {
		case m == nil:
			a.unknown(x.ref, r)
		case !m.isHandOver():
			a.find(NamesWrong, Cell{}, 0, 0, x.ref, r)
		case len(x.body.Taken) != len(m.lines) && !x.reopened.by(nil):
			a.find(EndMisfits, m.lines[0].batch().at(m.to), int64(len(m.lines)), int64(len(x.body.Taken)), r, x.ref)
		}
	}
	for _, x := range n.witnesses {
		switch {
		case m == nil:
			a.unknown(x.ref, r)
		case !slices.Equal(x.body.Lines, m.lines):
			a.find(WitnessDiffers, firstCell(m), 0, 0, r, x.ref)
		}
	}
}

// unknown lists that x names r, which is not here or of another sort.
func (a *auditor) unknown(x, r mesh.Ref) {
	if a.l.has(r) {
		a.find(NamesWrong, Cell{}, 0, 0, x, r)
		return
	}
	a.find(NamesUnknown, Cell{}, 0, 0, x, r)
}
