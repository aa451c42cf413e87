package requests

import (
	"slices"

	"lintel/mesh"
)

// Cases returns every case, also those that are over, in order of opening.
func (b *Board) Cases() []Case {
	var out []Case
	for _, open := range b.cases.opens.all() {
		if !b.undone(open) {
			out = append(out, *b.caseView(open))
		}
	}
	return out
}

// Case returns the case of a CaseOpen; false: there is none by that name, or
// its opening was taken back.
func (b *Board) Case(ref mesh.Ref) (Case, bool) {
	open := b.facts[ref]
	if open == nil || b.caseFact(open) != open {
		return Case{}, false
	}
	return *b.caseView(open), true
}

// CaseIn returns the newest case in a room that nobody shut.
func (b *Board) CaseIn(room mesh.ID) (Case, bool) {
	for _, open := range slices.Backward(b.cases.rooms[room].all()) {
		if !b.undone(open) && !b.caseView(open).Over {
			return *b.caseView(open), true
		}
	}
	return Case{}, false
}

// TwoCases returns the cases in a room that nobody shut and that do not go on
// elsewhere, newest first, if there are several: people opened them without
// knowing of each other, or forgot one. The first is in use until somebody
// shuts one.
func (b *Board) TwoCases(room mesh.ID) []Case {
	var out []Case
	for _, open := range slices.Backward(b.cases.rooms[room].all()) {
		if c := b.caseView(open); !b.undone(open) && !c.Over && c.MovedTo == "" {
			out = append(out, *c)
		}
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

// CaseOf returns the case that a fact, a request or a mark of one belongs to:
// the one that it names, else the newest in its room when it was written.
func (b *Board) CaseOf(ref mesh.Ref) (mesh.Ref, bool) {
	n := b.facts[ref]
	if n == nil {
		return mesh.Ref{}, false
	}
	if open := b.caseFact(n); open != nil {
		return open.Ref, true
	}
	return mesh.Ref{}, false
}

// NotDone lists the lines of a list that are not ticked in a case: ticked never,
// or unticked since.
func (b *Board) NotDone(c Case, list mesh.ID) []Line {
	var out []Line
	for _, line := range b.List(list) {
		if !c.done(list, line.ID) {
			out = append(out, line)
		}
	}
	return out
}

// done tells whether the newest word on a line is that it was done.
func (c *Case) done(list, line mesh.ID) bool {
	return slices.ContainsFunc(c.Ticks, func(t Tick) bool { return t.List == list && t.Line == line && t.Done })
}

// DrillIn returns the exercise that goes on in a room, the newest of several.
func (b *Board) DrillIn(room mesh.ID) (DrillRow, bool) {
	all := b.drillsIn(room)
	if len(all) == 0 {
		return DrillRow{}, false
	}
	return b.drillRow(slices.MaxFunc(all, compareFacts)), true
}

// DrillsBeside names the other exercises that go on in the room of one, in order:
// two people may have begun one each.
func (b *Board) DrillsBeside(drill mesh.Ref) (out []mesh.Ref) {
	one := b.facts[drill]
	if one == nil || one.Kind != KindDrill {
		return nil
	}
	all := b.drillsIn(b.drillRoom(one))
	slices.SortFunc(all, compareFacts)
	for _, n := range all {
		if n != one {
			out = append(out, n.Ref)
		}
	}
	return out
}

// drillsIn lists the exercises that go on in a room.
func (b *Board) drillsIn(room mesh.ID) (out []*fact) {
	for _, name := range slices.Compact([]mesh.ID{room, ""}) {
		for _, n := range b.cases.drills[name].all() {
			if b.drillRoom(n) == room && b.drillGoesOn(n) {
				out = append(out, n)
			}
		}
	}
	return out
}

// drillRoom is the room that a drill is in: as it says, else that of its case.
func (b *Board) drillRoom(n *fact) mesh.ID {
	if room := n.body.(*Drill).Room; room != "" {
		return room
	}
	if open := b.caseFact(n); open != nil {
		return roomOf(open)
	}
	return ""
}

// drillGoesOn tells whether nobody took the drill back, said that this is real,
// or shut its case since.
func (b *Board) drillGoesOn(n *fact) bool {
	if b.undone(n) || len(b.aboutOf(n, KindThisIsReal)) > 0 {
		return false
	}
	open := b.caseFact(n)
	return open == nil || !slices.ContainsFunc(b.caseView(open).Shut, func(e Ending) bool {
		return b.facts[e.Ref] != nil && compareFacts(b.facts[e.Ref], n) > 0
	})
}

func (b *Board) drillRow(n *fact) DrillRow {
	row := DrillRow{Mark: b.mark(n), Room: b.drillRoom(n), Label: n.body.(*Drill).Label}
	if open := b.caseFact(n); open != nil {
		row.Case = open.Ref
	}
	for _, i := range b.aboutOf(n, KindInject) {
		body := i.body.(*Inject)
		row.Injects = append(row.Injects, Injected{b.mark(i), body.What, body.Words})
	}
	for _, r := range b.aboutOf(n, KindThisIsReal) {
		row.Real = append(row.Real, b.mark(r))
	}
	return row
}

// aboutOf lists, in order, the facts of one kind that are about n and count.
func (b *Board) aboutOf(n *fact, kind mesh.Kind) []*fact {
	var out []*fact
	for _, a := range b.cases.beside[n.Ref] {
		if a.Kind == kind && !b.undone(a) && rightlyAbout(a, n) {
			out = append(out, a)
		}
	}
	slices.SortFunc(out, compareFacts)
	return out
}

// Condition returns the newest word of a device on its battery, charger and
// disk; false if it never said.
func (b *Board) Condition(device mesh.Key) (Condition, Mark, bool) {
	for _, n := range slices.Backward(b.cases.conditions[device].all()) {
		if !b.undone(n) {
			return *n.body.(*Condition), b.mark(n), true
		}
	}
	return Condition{}, Mark{}, false
}

// Astray lists, in order, the facts that belong to no case: the case that they
// name is not here or was taken back, none was opened in their room before
// them, or what they are about is not here or of another sort. They are kept,
// and join their case when it comes. Requests are not among them.
func (b *Board) Astray() []Mark {
	var out []Mark
	for _, n := range b.astray() {
		out = append(out, b.mark(n))
	}
	return out
}

func (b *Board) astray() []*fact {
	var out []*fact
	keep := func(facts []*fact) {
		for _, n := range facts {
			if n.Kind != KindAsked && b.caseFact(n) == nil && !b.correctsMark(n) {
				out = append(out, n)
			}
		}
	}
	keep(b.cases.homeless.facts)
	for _, r := range b.cases.filed {
		keep(r.facts)
	}
	for _, r := range b.cases.unfiled {
		keep(r.facts)
	}
	for _, about := range b.cases.beside {
		keep(about)
	}
	slices.SortFunc(out, compareFacts)
	return out
}

// correctsMark tells whether n says when a mark of a request happened.
func (b *Board) correctsMark(n *fact) bool {
	target := b.facts[n.names]
	return n.Kind == KindLateTime && target != nil && target.root != nil
}
