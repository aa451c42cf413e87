package kits

import (
	"cmp"
	"maps"
	"slices"

	"lintel/mesh"
)

// FoldVersion labels State. It changes when the same facts would fold to
// another state, also when a kind begins to be folded that was only kept.
const FoldVersion = 2

// Options of a Ledger.
type Options struct {
	Defaults Defaults
	// Suffices are the grades of witness that the site accepts; empty: any.
	Suffices []Grade
	// Expect is about how many movements will come, where that is known, as at
	// a start: room is made for them at once. It changes nothing else.
	Expect int
}

// DefaultOptions gives a ledger without a catalogue in which any grade of
// witness suffices.
func DefaultOptions() Options { return Options{} }

// Ledger is the fold of everything that says what exists and where it went.
// It is a function of the set of facts: the order in which they come and how
// often they come change nothing. It belongs to the loop that calls Add and
// is not safe for use from several goroutines.
type Ledger struct {
	suffices []Grade
	defaults index
	lines    registers
	fresh    map[mesh.Kind]func() any
	reader   reader
	moved    Moved // read into again and again
	end      Ended
	by       *mesh.By // who recorded the last movement

	moves   moves
	waiting map[mesh.Ref]*named // what names a movement that has not come
	shelves map[Place]*shelf
	batches batches
	counts  map[mesh.Ref]*count
	ended   map[mesh.Ref]*Ended
	reopens map[mesh.Ref]*reopenings // by the Ended that they name
	forMark map[mesh.Ref]*move       // of another entry than they: the last that came
	atDoor  map[mesh.Ref]*move       // hand-overs that are open or in conflict

	issues  map[mesh.Ref]*issue
	byIssue map[mesh.Ref][]*move
	shut    map[mesh.Ref][]noted[IssueShut] // by the issue they close
	trays   trays

	known  map[mesh.Ref]mesh.Kind // parts taken, movements and ends apart
	unread map[mesh.Ref]Unreadable

	spare spares
}

// Unreadable is a part of this package's kinds that could not be read. It
// stays in the log and changes no quantity.
type Unreadable struct {
	Ref   mesh.Ref
	Kind  mesh.Kind
	Newer bool // the kind is from a newer version; else the body is malformed
}

// NewLedger begins an empty ledger. It keeps the slices of o, which must not
// be changed afterwards.
func NewLedger(o Options) *Ledger {
	return &Ledger{
		suffices: o.Suffices,
		defaults: indexDefaults(o.Defaults),
		fresh:    KitsKinds(),
		reader:   reader{texts: texts{}},
		moves:    moves{byTap: make(map[uint64]*move, max(o.Expect, 0))},
		waiting:  map[mesh.Ref]*named{},
		shelves:  map[Place]*shelf{},
		batches:  batches{ids: map[batch]int32{}},
		counts:   map[mesh.Ref]*count{},
		ended:    map[mesh.Ref]*Ended{},
		reopens:  map[mesh.Ref]*reopenings{},
		forMark:  map[mesh.Ref]*move{},
		atDoor:   map[mesh.Ref]*move{},
		issues:   map[mesh.Ref]*issue{},
		byIssue:  map[mesh.Ref][]*move{},
		shut:     map[mesh.Ref][]noted[IssueShut]{},
		trays:    newTrays(),
		known:    map[mesh.Ref]mesh.Kind{},
		unread:   map[mesh.Ref]Unreadable{},
	}
}

// kindsLow and kindsHigh bound the kinds that belong to this package.
const (
	kindsLow  mesh.Kind = 0x0200
	kindsHigh mesh.Kind = 0x02ff
)

// Add takes one fact. Facts of other packages' kinds and repeats change
// nothing; the same Ref never comes with another body (the log sees to that).
// The cost does not depend on how many movements there are; only a count walks
// through the movements of its place.
func (l *Ledger) Add(f mesh.Fact) {
	switch { // first the two that come most often
	case f.Kind == KindMoved:
		if l.moves.get(f.Ref) == nil && l.reader.moved(f.Body, &l.moved) {
			l.addMove(l.newMove(f, &l.moved))
			return
		}
	case f.Kind == KindEnded:
		if l.ended[f.Ref] == nil && l.reader.ended(f.Body, &l.end) {
			body := l.spare.bodies.one()
			*body = l.end
			l.addEnd(f, body)
			return
		}
	case f.Kind < kindsLow || f.Kind > kindsHigh:
		return
	}
	if !l.has(f.Ref) {
		l.addSeldom(f)
	}
}

// has tells whether the part r was taken.
func (l *Ledger) has(r mesh.Ref) bool {
	return l.moves.get(r) != nil || l.ended[r] != nil || l.known[r] != 0
}

// addSeldom takes a fact of any kind.
func (l *Ledger) addSeldom(f mesh.Fact) {
	fresh, ours := l.fresh[f.Kind]
	if !ours {
		l.refuse(f, true)
		return
	}
	body := l.reader.body(f.Body, fresh)
	if body == nil {
		l.refuse(f, false)
		return
	}
	if m := l.newMove(f, body); m != nil {
		l.addMove(m)
		return
	}
	if b, ok := body.(*Ended); ok {
		l.addEnd(f, b)
		return
	}
	l.known[f.Ref] = f.Kind
	l.addOther(f, body)
}

func (l *Ledger) refuse(f mesh.Fact, newer bool) {
	l.known[f.Ref] = f.Kind
	l.unread[f.Ref] = Unreadable{Ref: f.Ref, Kind: f.Kind, Newer: newer}
}

// addOther takes everything that is no movement and no end.
func (l *Ledger) addOther(f mesh.Fact, body any) {
	switch b := body.(type) {
	case *Reversed:
		l.addReversed(f, b)
	case *Reopened:
		l.addReopened(f, b)
	case *Witnessed:
		l.addWitnessed(f, b)
	case *Counted:
		l.addCount(f, b)
	case *Issued:
		l.issues[f.Ref] = &issue{ref: f.Ref, at: f.At, wall: f.When(), by: f.By, body: b}
	case *IssueShut:
		l.shut[b.Issue] = append(l.shut[b.Issue], note(f, b))
	default:
		l.trays.add(f, body)
		l.lines.add(f, body)
	}
}

// Unreadable lists the parts that could not be read, in the order of their refs.
func (l *Ledger) Unreadable() []Unreadable {
	return slices.SortedFunc(maps.Values(l.unread), func(a, b Unreadable) int { return a.Ref.Compare(b.Ref) })
}

// shelfAt is the shelf of p, made when it is first needed.
func (l *Ledger) shelfAt(p Place) *shelf {
	s := l.shelves[p]
	if s == nil {
		s = &shelf{place: p, held: map[int32]int64{}, known: &l.batches}
		l.shelves[p] = s
	}
	return s
}

// Compare orders places by sort and id.
func (p Place) Compare(q Place) int {
	if c := cmp.Compare(p.Sort, q.Sort); c != 0 {
		return c
	}
	return cmp.Compare(p.ID, q.ID)
}
