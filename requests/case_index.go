package requests

import (
	"slices"

	"lintel/mesh"
)

// run is a list of facts that is kept in order as it grows.
type run struct {
	facts []*fact
	mixed bool // something came behind what it goes before
}

func (r *run) add(n *fact) {
	if last := len(r.facts) - 1; last >= 0 && compareFacts(n, r.facts[last]) < 0 {
		r.mixed = true
	}
	r.facts = append(r.facts, n)
}

// insert is an add that keeps the order at once, for lists that are looked into
// while facts come in. It is for short lists: it moves what lies behind n.
func (r *run) insert(n *fact) {
	i, _ := slices.BinarySearchFunc(r.all(), n, compareFacts)
	r.facts = slices.Insert(r.facts, i, n)
}

// all gives the facts in order; shared, not to be changed. A nil run is empty.
func (r *run) all() []*fact {
	if r == nil {
		return nil
	}
	if r.mixed {
		slices.SortFunc(r.facts, compareFacts)
		r.mixed = false
	}
	return r.facts
}

// before gives those of the facts that come before n.
func (r *run) before(n *fact) []*fact {
	all := r.all()
	i, _ := slices.BinarySearchFunc(all, n, compareFacts)
	return all[:i]
}

// caseIndex finds what belongs to cases. It belongs to the Board.
type caseIndex struct {
	opens      run                  // every CaseOpen
	rooms      map[mesh.ID]*run     // the same, by room
	filed      map[mesh.Ref]*run    // facts by the case that they name
	unfiled    map[mesh.ID]*run     // facts that name no case, by room
	homeless   run                  // facts that name neither
	beside     map[mesh.Ref][]*fact // facts about other facts, by what they name
	drills     map[mesh.ID]*run     // by the room they name
	conditions map[mesh.Key]*run    // by device

	views map[mesh.ID]map[*fact]*Case // derived, by room and CaseOpen
}

func newCaseIndex() caseIndex {
	return caseIndex{
		rooms: map[mesh.ID]*run{}, filed: map[mesh.Ref]*run{}, unfiled: map[mesh.ID]*run{},
		beside: map[mesh.Ref][]*fact{}, drills: map[mesh.ID]*run{}, conditions: map[mesh.Key]*run{},
		views: map[mesh.ID]map[*fact]*Case{},
	}
}

// runOf gives the run of one name, which is made when it is first asked for.
func runOf[K comparable](runs map[K]*run, name K) *run {
	r := runs[name]
	if r == nil {
		r = &run{}
		runs[name] = r
	}
	return r
}

// reorder notes that a fact's place in the order changed, and drops what was derived.
func (x *caseIndex) reorder() {
	x.opens.mixed, x.homeless.mixed = true, true
	for _, runs := range []map[mesh.ID]*run{x.rooms, x.unfiled, x.drills} {
		for _, r := range runs {
			r.mixed = true
		}
	}
	for _, r := range x.filed {
		r.mixed = true
	}
	for _, r := range x.conditions {
		r.mixed = true
	}
	clear(x.views)
}

// placeCase files a fact of a case, or about one; false: it is neither.
func (b *Board) placeCase(n *fact) bool {
	x := &b.cases
	switch body := n.body.(type) {
	case *CaseOpen:
		x.opens.add(n)
		runOf(x.rooms, body.Room).insert(n)
	case *Condition:
		runOf(x.conditions, n.Ref.Author()).add(n)
	case *Drill:
		runOf(x.drills, body.Room).add(n)
		b.file(n, body.Case, body.Room)
	default:
		if names, about := aboutFact(body); about {
			n.names = names
			x.beside[names] = append(x.beside[names], n)
		} else if of, room, ours := caseNamed(body); ours {
			b.file(n, of, room)
		} else {
			return false
		}
	}
	b.touch(n)
	return true
}

// file puts a fact under the case that it names, else under its room.
func (b *Board) file(n *fact, of mesh.Ref, room mesh.ID) {
	switch {
	case !of.IsZero():
		runOf(b.cases.filed, of).add(n)
	case room != "":
		runOf(b.cases.unfiled, room).add(n)
	default:
		b.cases.homeless.add(n)
	}
}

// touch drops what was derived from a fact.
func (b *Board) touch(n *fact) {
	switch body := n.body.(type) {
	case *CaseOpen:
		delete(b.cases.views, body.Room)
	case *RoomLine:
		delete(b.cases.views, body.ID)
	case *ListLine:
		delete(b.lists.views, body.List)
		clear(b.cases.views)
	case *LateTime:
		if b.correctsMark(n) {
			b.forget(b.facts[n.names].root)
		}
	}
	if open := b.caseFact(n); open != nil {
		delete(b.cases.views[roomOf(open)], open)
	}
}

// roomOf is the room that a CaseOpen names.
func roomOf(open *fact) mesh.ID { return open.body.(*CaseOpen).Room }

// caseFact is the CaseOpen that a fact belongs to; nil: to none that counts.
func (b *Board) caseFact(n *fact) *fact {
	for range aboutDepthMax {
		target := b.facts[n.names]
		if n.root != nil || target == nil || !rightlyAbout(n, target) {
			break
		}
		n = target
	}
	if n.root != nil {
		n = n.root
	}
	open := n
	if n.Kind != KindCaseOpen {
		of, room, ours := caseNamed(n.body)
		switch {
		case !ours:
			return nil
		case !of.IsZero():
			open = b.facts[of]
		default:
			open = b.newestBefore(n, room)
		}
	}
	if open == nil || open.Kind != KindCaseOpen || open.body == nil || b.undone(open) {
		return nil
	}
	return open
}

// newestBefore is the case that was newest in a room when n was written.
func (b *Board) newestBefore(n *fact, room mesh.ID) *fact {
	if room == "" {
		return nil
	}
	for _, open := range slices.Backward(b.cases.rooms[room].before(n)) {
		if !b.undone(open) {
			return open
		}
	}
	return nil
}

// caseNamed is the case and the room that the body of a fact names; false: it is
// no fact of a case.
func caseNamed(body any) (of mesh.Ref, room mesh.ID, ours bool) {
	switch b := body.(type) {
	case *Asked:
		return b.Case, b.Room, true
	case *CaseShut:
		return b.Case, "", true
	case *CaseMoved:
		return b.Case, "", true
	case *RoleTaken:
		return b.Case, "", true
	case *LineDone:
		return b.Case, "", true
	case *PPECheck:
		return b.Case, "", true
	case *Skipped:
		return b.Case, "", true
	case *TestAsked:
		return b.Case, b.Room, true
	case *Said:
		return b.Case, b.Room, true
	case *Entered:
		return b.Case, "", true
	case *Left:
		return b.Case, "", true
	case *Breach:
		return b.Case, "", true
	case *DoffStep:
		return b.Case, "", true
	case *Door:
		return mesh.Ref{}, b.Room, true
	case *Time:
		return b.Case, "", true
	case *ChartClock:
		return b.Case, "", true
	case *Debrief:
		return b.Case, "", true
	case *DebriefLine:
		return b.Case, "", true
	case *Drill:
		return b.Case, b.Room, true
	}
	return mesh.Ref{}, "", false
}

// aboutDepthMax is how many names lead from a fact about others to the case: an
// Undone, a LateTime, a SaidHeard, a Said.
const aboutDepthMax = 4

// aboutFact is the fact that the body of a fact about another names; false: it
// is about none.
func aboutFact(body any) (mesh.Ref, bool) {
	switch b := body.(type) {
	case *TestHeard:
		return b.Names, true
	case *SaidHeard:
		return b.Names, true
	case *LateTime:
		return b.Names, true
	case *Inject:
		return b.Drill, true
	case *ThisIsReal:
		return b.Drill, true
	}
	return mesh.Ref{}, false
}

// rightlyAbout tells whether n may be about target. Names lead down from Undone
// over LateTime to all else, so that no circle of names counts.
func rightlyAbout(n, target *fact) bool {
	switch n.Kind {
	case KindTestHeard:
		return target.Kind == KindTestAsked
	case KindSaidHeard:
		return target.Kind == KindSaid || target.Kind == KindBreach
	case KindInject, KindThisIsReal:
		return target.Kind == KindDrill
	case KindLateTime:
		return target.Kind != KindLateTime && target.Kind != KindUndone
	case KindUndone:
		return target.Kind != KindUndone
	}
	return false
}
