package kits

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// IssueRecord is one issue with everything that was written for it. It is the
// case's own record; the statutory register stays what it is.
type IssueRecord struct {
	Issue
	Item         ItemLine
	AuthorisedBy mesh.ID    // a role
	Register     mesh.Label // the page of the paper register
	Wall         mesh.Wall
	By           mesh.By
	Slots        []Slot
	Entries      []IssueEntry // in the order of entries, reversed ones too
	Closings     []Closing    // in the order of entries; empty: nobody closed it
}

// SlotID names a part of the equation.
type SlotID string

// Slots in the order of the equation: the first equals the sum of the others.
const (
	SlotIssued    SlotID = "issued"
	SlotGiven     SlotID = "given"
	SlotWasted    SlotID = "wasted"
	SlotBroken    SlotID = "broken"
	SlotReturned  SlotID = "returned"
	SlotDestroyed SlotID = "destroyed"
	SlotLeft      SlotID = "left"
	SlotResidual  SlotID = "residual" // not accounted for; Base.N below 0: too much is
)

// Slot is one part of the equation.
type Slot struct {
	ID     SlotID
	Amount Measured
}

// IssueEntry is one line of a movement that belongs to an issue.
type IssueEntry struct {
	Ref        mesh.Ref
	Wall       mesh.Wall
	By         mesh.By
	Kind       mesh.Kind
	From, To   Place
	Amount     Measured
	Why        mesh.Label
	Unit       mesh.Label // of what left with the patient
	ReceivedBy mesh.Tag
	Reversed   []mesh.Ref
	Needs      bool // a second person must have seen it
	Seen       bool // one did, of a grade that suffices here
	Witnesses  []Witness
}

// Closing is one closing of an issue.
type Closing struct {
	Ref  mesh.Ref
	Wall mesh.Wall
	By   mesh.By   // who, as far as the device knew
	Why  mesh.Text // empty: nobody said
}

// IssueRecord returns the record of the issue r.
func (l *Ledger) IssueRecord(r mesh.Ref) (IssueRecord, bool) {
	i := l.issues[r]
	if i == nil {
		return IssueRecord{}, false
	}
	v := IssueRecord{
		Issue: l.issueView(i), AuthorisedBy: i.body.AuthorisedBy, Register: i.body.Register, Wall: i.wall, By: i.by,
	}
	item, _ := l.Item(v.Line.Item)
	v.Item = item.Value
	v.Item.Number = v.Line.Item
	v.Slots = l.slots(v.Issue)
	for _, m := range l.views(l.byIssue[r]) {
		v.Entries = append(v.Entries, l.issueEntries(m)...)
	}
	for _, s := range inOrder(l.shut[r]) {
		v.Closings = append(v.Closings, Closing{s.ref, s.wall, s.by, s.body.Why})
	}
	return v, true
}

// slots are the parts of the equation. What is too much is said as a negative
// base amount without containers.
func (l *Ledger) slots(v Issue) (out []Slot) {
	for _, s := range [...]struct {
		id SlotID
		n  int64
	}{
		{SlotIssued, v.Issued}, {SlotGiven, v.Given}, {SlotWasted, v.Wasted}, {SlotBroken, v.Broken}, {SlotReturned, v.Returned},
		{SlotDestroyed, v.Destroyed}, {SlotLeft, v.Left}, {SlotResidual, v.Residual},
	} {
		m := Measured{Base: Quantity{s.n, v.Measure}}
		if s.n >= 0 {
			m = l.Measured(v.Line.Item, Quantity{s.n, v.Measure})
		}
		out = append(out, Slot{s.id, m})
	}
	return out
}

// issueEntries are the lines of one movement of an issue.
func (l *Ledger) issueEntries(v Movement) (out []IssueEntry) {
	m := l.moves.get(v.Ref)
	for _, x := range v.Lines {
		e := IssueEntry{
			Ref: v.Ref, Wall: whenOf(v.Wall, v.By), By: v.By, Kind: v.Kind, From: v.From, To: v.To,
			Amount: l.MeasuredLine(x), Why: v.Why, Reversed: v.Reversed,
			Needs: l.needsWitness(m), Seen: l.witnessed(m), Witnesses: l.Witnesses(v.Ref),
		}
		if m.left != nil {
			e.Unit, e.ReceivedBy = m.left.Unit, m.left.ReceivedBy
		}
		out = append(out, e)
	}
	return out
}

// whenOf is when something happened, as stated, else as recorded.
func whenOf(wall mesh.Wall, by mesh.By) mesh.Wall {
	if by.Happened != 0 {
		return by.Happened
	}
	return wall
}

// ListedID says why something stands on the auditor's list of controlled drugs.
type ListedID string

// Reasons. The last three are always listed, however well everything adds up.
const (
	ListedShort       ListedID = "short"
	ListedOver        ListedID = "over"
	ListedUnwitnessed ListedID = "unwitnessed"
	ListedConflict    ListedID = "conflict"
	ListedOpen        ListedID = "open"
	ListedUnsaid      ListedID = "shut-unsaid" // closed while short, and nobody said why
	ListedBroken      ListedID = "broken"
	ListedLeft        ListedID = "left-with-patient"
	ListedNoIssue     ListedID = "without-issue" // it came to an end and belongs to no issue
)

// Listed is one line of the auditor's list.
type Listed struct {
	ID     ListedID
	Issue  mesh.Ref // zero: it belongs to none
	Ref    mesh.Ref // the record concerned
	Item   mesh.Number
	Amount Measured
}

// ControlledList is what an auditor looks at: issues that do not add up or are
// open, and always what broke, what left with a patient and what belongs to no
// issue. Cases for which drill says yes are left out; nil leaves none out.
func (l *Ledger) ControlledList(drill func(mesh.Ref) bool) []Listed {
	var out []Listed
	for _, v := range l.Issues() {
		if drill == nil || !drill(v.Case) {
			out = append(out, l.listedIssue(v)...)
		}
	}
	for m := range l.moves.all() {
		if m.issue.IsZero() && !m.reversed(nil) && (drill == nil || !drill(m.inCase)) {
			out = append(out, l.listedMove(m)...)
		}
	}
	slices.SortFunc(out, func(a, b Listed) int {
		return cmp.Or(cmp.Compare(a.ID, b.ID), a.Issue.Compare(b.Issue), a.Ref.Compare(b.Ref), cmp.Compare(a.Item, b.Item),
			cmp.Compare(a.Amount.Base.N, b.Amount.Base.N))
	})
	return out
}

func (l *Ledger) listedIssue(v Issue) (out []Listed) {
	base := Measured{Base: Quantity{v.Residual, v.Measure}}
	if v.Residual >= 0 {
		base = l.Measured(v.Line.Item, base.Base)
	}
	add := func(id ListedID) { out = append(out, Listed{id, v.Ref, v.Ref, v.Line.Item, base}) }
	switch v.State {
	case IssueShort:
		add(ListedShort)
		if v.ShutWhy == "" {
			add(ListedUnsaid)
		}
	case IssueOver:
		add(ListedOver)
	case IssueUnwitnessed:
		add(ListedUnwitnessed)
	case IssueConflict:
		add(ListedConflict)
	case IssueOpen:
		add(ListedOpen)
	}
	for _, m := range l.byIssue[v.Ref] {
		if !m.reversed(nil) {
			out = append(out, l.listedEnds(m)...)
		}
	}
	return out
}

// listedMove lists a controlled drug that came to an end without an issue.
func (l *Ledger) listedMove(m *move) (out []Listed) {
	if m.to.Sort < Used || m.to.Sort >= DrawnOff {
		return nil
	}
	for _, x := range m.lines {
		if c, ok := l.Item(x.Item); ok && c.Value.Has(Controlled) {
			out = append(out, Listed{ListedNoIssue, m.issue, m.ref, x.Item, l.MeasuredLine(x)})
		}
	}
	if len(out) > 0 {
		out = append(out, l.listedEnds(m)...)
	}
	return out
}

// listedEnds lists what broke and what left with a patient.
func (l *Ledger) listedEnds(m *move) (out []Listed) {
	id := ListedBroken
	switch m.to.Sort {
	case Broken:
	case LeftWithPatient:
		id = ListedLeft
	default:
		return nil
	}
	for _, x := range m.lines {
		out = append(out, Listed{id, m.issue, m.ref, x.Item, l.MeasuredLine(x)})
	}
	return out
}
