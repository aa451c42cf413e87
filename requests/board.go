package requests

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// FoldVersion labels State. It changes whenever the same facts fold to other
// bytes.
const FoldVersion = 2

// Defaults is what a board starts with, from the program's own data. Entries
// stand over it.
type Defaults struct {
	Roles    []RoleLine
	Rooms    []RoomLine
	Lists    []ListLine
	Settings []Setting
}

// Board is the fold of everything this package knows: who is here in which
// role, which rooms there are, what was asked and what became of it. It keeps
// every fact as it came and derives the rest from the set when asked, so that
// the order of arrival cannot matter; what was derived is kept until a fact
// touches it.
//
// A Board has one owner, the loop that calls it, and is not safe for use from
// several goroutines.
type Board struct {
	bodies   map[mesh.Kind]func() any
	defaults Defaults

	starterSettings map[mesh.ID]mesh.Text

	facts      map[mesh.Ref]*fact
	answers    map[mesh.Ref][]*fact // marks by what they name, in order of arrival
	undos      map[mesh.Ref][]*fact // the Undone among them
	asked      []*fact
	joins      []*fact              // Joined and JoinedCode
	codes      map[codeName][]*fact // the Asked with a joining code, by room
	holds      map[mesh.Key][]*fact
	choices    map[mesh.Key][]*fact // the Agreed and Refused, by device: what they mean depends on who holds it
	roles      map[mesh.ID][]*fact
	rooms      map[mesh.ID][]*fact
	settings   map[mesh.ID][]*fact
	lists      listIndex
	cases      caseIndex
	unreadable []*fact
	kept       map[mesh.Kind]int // facts that are kept and not folded
	clocks     clockBook         // compared wall clocks: of the log itself, never in State
	usual      usualBook         // derived: how long deliveries took
	runners    runnerIndex       // marks of those who fetch, by device

	views  map[mesh.Ref]*Request // derived and still true
	stale  map[*fact]bool        // the Asked whose view was dropped since live was brought up to date
	live   map[*fact]bool        // the Asked that were not over then
	sorted bool                  // asked is in order
	groups *grouping             // derived from joins; nil: not yet, or no longer true
}

// fact is one stored fact with its decoded body.
type fact struct {
	mesh.Fact
	body   any      // nil: unreadable, or from a newer version
	why    string   // why it is unreadable; for people, never in State
	names  mesh.Ref // what it answers; zero: nothing
	root   *fact    // the Asked that its names lead to; nil: not known (yet)
	isMark bool     // it belongs to a request

	want      *fact // what was wanted where it lies; set when its request is derived
	outOfTurn bool  // set when its request is derived
}

// NewBoard gives an empty board over a copy of d.
func NewBoard(d Defaults) *Board {
	return &Board{
		bodies:   Kinds(),
		defaults: Defaults{Roles: slices.Clone(d.Roles), Rooms: slices.Clone(d.Rooms)},
		facts:    map[mesh.Ref]*fact{},
		answers:  map[mesh.Ref][]*fact{},
		codes:    map[codeName][]*fact{},
		undos:    map[mesh.Ref][]*fact{},
		holds:    map[mesh.Key][]*fact{},
		roles:    map[mesh.ID][]*fact{},
		rooms:    map[mesh.ID][]*fact{},
		settings: map[mesh.ID][]*fact{},
		kept:     map[mesh.Kind]int{},
		views:    map[mesh.Ref]*Request{},
		stale:    map[*fact]bool{},
		live:     map[*fact]bool{},
		choices:  map[mesh.Key][]*fact{},
		lists:    newListIndex(d.Lists),
		cases:    newCaseIndex(),

		starterSettings: settingValues(d.Settings),
	}
}

// Add takes in one fact, in any order. Facts of other packages are ignored, but
// for comparisons of clocks. A
// Ref that is already there changes nothing, except that of two orders for the
// same Ref (a tap that was entered again in a new incarnation) the lower
// counts. A mark may come before what it names. A body that cannot be read is
// kept and listed by Unreadable. Add keeps f.Body, which must not change.
func (b *Board) Add(f mesh.Fact) {
	if f.Kind == mesh.KindClock {
		b.clocks.add(f)
	}
	if !ours(f.Kind) {
		return
	}
	if old, known := b.facts[f.Ref]; known {
		b.again(old, f)
		return
	}
	n := &fact{Fact: f}
	b.facts[f.Ref] = n
	b.read(n)
	b.place(n)
	b.usual.learn(b, n)
}

// again handles a Ref that comes a second time.
func (b *Board) again(old *fact, f mesh.Fact) {
	if f.At.Compare(old.At) >= 0 {
		return
	}
	old.At, old.Wall, old.By = f.At, f.Wall, f.By
	b.cases.reorder()
	clear(b.lists.views)
	b.forgetAll()
}

// read decodes a fact's body, or notes why it cannot.
func (b *Board) read(n *fact) {
	fresh, known := b.bodies[n.Kind]
	if !known {
		return
	}
	body := fresh()
	if err := mesh.Decode(n.Body, body); err != nil {
		n.why = err.Error()
		b.unreadable = append(b.unreadable, n)
		return
	}
	n.body = body
	n.names, n.isMark = named(body)
}

// place puts a fact where it is found again.
func (b *Board) place(n *fact) {
	switch body := n.body.(type) {
	case *Asked:
		b.asked, b.sorted = append(b.asked, n), false
		b.noteCode(n, body)
		n.isMark = true
		b.adopt(n, n)
		b.file(n, body.Case, body.Room)
		b.touch(n)
	case *RoleLine:
		b.roles[body.ID] = append(b.roles[body.ID], n)
		b.forgetAll()
	case *RoomLine:
		b.rooms[body.ID] = append(b.rooms[body.ID], n)
		b.touch(n)
	case *ListLine:
		b.lists.add(n, body)
		b.touch(n)
	case *Layout:
		b.lists.layouts = append(b.lists.layouts, n)
	case *Setting:
		b.settings[body.Name] = append(b.settings[body.Name], n)
	case *Holds:
		b.holds[n.Ref.Author()] = append(b.holds[n.Ref.Author()], n)
		for _, c := range b.choices[n.Ref.Author()] {
			if c.root != nil {
				b.forget(c.root)
			}
		}
	case *Joined, *JoinedCode:
		b.joins, b.groups = append(b.joins, n), nil
	default:
		if n.isMark {
			b.answer(n)
		} else if !b.placeCase(n) && n.why == "" {
			b.kept[n.Kind]++
		}
	}
}

// answer hangs a mark under what it names.
func (b *Board) answer(n *fact) {
	b.answers[n.names] = append(b.answers[n.names], n)
	b.runners.add(n)
	if n.Kind == KindAgreed || n.Kind == KindRefused {
		b.choices[n.Ref.Author()] = append(b.choices[n.Ref.Author()], n)
	}
	target := b.facts[n.names]
	if _, undo := n.body.(*Undone); undo {
		b.undos[n.names] = append(b.undos[n.names], n)
		b.groups = nil
		b.tookBack(target)
	}
	if target != nil && target.root != nil {
		b.adopt(n, target.root)
	}
}

// tookBack drops what was derived from a fact that somebody took back. nil: it
// is not here yet, and nothing was.
func (b *Board) tookBack(target *fact) {
	if target == nil {
		return
	}
	switch target.Kind {
	case KindHolds, KindRoleLine:
		b.forgetAll() // it may end who holds what, or a role
	}
	b.touch(target)
}

// adopt gives n and everything that waited under it to the request of root.
// Every fact is adopted at most once, and a circle of names never.
func (b *Board) adopt(n, root *fact) {
	b.forget(root)
	b.groups = b.groups.unlessWaiting()
	waiting := []*fact{n}
	for len(waiting) > 0 {
		last := waiting[len(waiting)-1]
		waiting = waiting[:len(waiting)-1]
		if last.root != nil {
			continue
		}
		last.root = root
		waiting = append(waiting, b.answers[last.Ref]...)
	}
}

// forget drops what was derived of one request.
func (b *Board) forget(asked *fact) {
	delete(b.views, asked.Ref)
	b.stale[asked] = true
	b.usual.forget(asked)
}

// forgetAll drops everything derived.
func (b *Board) forgetAll() {
	clear(b.views)
	for _, n := range b.asked {
		b.stale[n] = true
	}
	b.usual.forgetAll()
	b.runners.reorder()
	b.groups, b.sorted = nil, false
}

// undone tells whether someone took the fact back. Taking back an Undone has
// no effect: whoever undid in error records the thing again.
func (b *Board) undone(n *fact) bool {
	return n.Kind != KindUndone && len(b.undos[n.Ref]) > 0
}

// RequestOf returns the request, by its Asked, that a mark belongs to. False:
// what the mark names is not here, or leads nowhere.
func (b *Board) RequestOf(mark mesh.Ref) (mesh.Ref, bool) {
	n := b.facts[mark]
	if n == nil || n.root == nil {
		return mesh.Ref{}, false
	}
	return n.root.Ref, true
}

// Unread is a fact of this package whose body cannot be read.
type Unread struct {
	Mark
	Why string // for people and logs; not the same in every version
}

// Unreadable lists the facts whose bodies cannot be read, in order.
func (b *Board) Unreadable() []Unread {
	out := make([]Unread, 0, len(b.unreadable))
	for _, n := range inOrder(b.unreadable) {
		out = append(out, Unread{b.mark(n), n.why})
	}
	return out
}

// Loose lists, in order, the marks whose names lead to no request: what they
// name has not arrived, was never written, or is no mark of a request. They are
// kept, and join their request when it comes.
func (b *Board) Loose() []Mark {
	var loose []*fact
	for _, n := range b.facts {
		if n.isMark && n.root == nil && !b.endsOther(n) {
			loose = append(loose, n)
		}
	}
	out := make([]Mark, 0, len(loose))
	for _, n := range inOrder(loose) {
		out = append(out, b.mark(n))
	}
	return out
}

// endsOther tells whether n takes back a fact that is no mark: a holder, a role, a join.
func (b *Board) endsOther(n *fact) bool {
	target := b.facts[n.names]
	return n.Kind == KindUndone && target != nil && !target.isMark
}

// Kept counts, by kind, the facts that are stored and not folded: those of kinds
// from a newer version.
func (b *Board) Kept() map[mesh.Kind]int {
	out := make(map[mesh.Kind]int, len(b.kept))
	for k, n := range b.kept {
		out[k] = n
	}
	return out
}

// inOrder gives the facts in the order all devices agree on; parts of one
// entry go by their place in it.
func inOrder(facts []*fact) []*fact {
	out := slices.Clone(facts)
	slices.SortFunc(out, compareFacts)
	return out
}

func compareFacts(a, b *fact) int {
	return cmp.Or(a.At.Compare(b.At), a.Ref.Compare(b.Ref))
}
