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

	moves   map[mesh.Ref]*move
	named   map[mesh.Ref]*named // what names a movement, also before the movement comes
	shelves map[Place]*shelf
	counts  map[mesh.Ref]*count
	ended   map[mesh.Ref]mesh.Ref    // by the Ended: the hand-over that it names
	reopens map[mesh.Ref]*reopenings // by the Ended that they name
	forMark map[mesh.Ref][]*move
	atDoor  map[mesh.Ref]*move // hand-overs that are open or in conflict

	issues  map[mesh.Ref]*issue
	byIssue map[mesh.Ref][]*move
	shut    map[mesh.Ref][]noted[IssueShut] // by the issue they close
	trays   trays

	known  map[mesh.Ref]mesh.Kind // parts taken, movements apart
	unread map[mesh.Ref]Unreadable
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
		moves:    map[mesh.Ref]*move{},
		named:    map[mesh.Ref]*named{},
		shelves:  map[Place]*shelf{},
		counts:   map[mesh.Ref]*count{},
		ended:    map[mesh.Ref]mesh.Ref{},
		reopens:  map[mesh.Ref]*reopenings{},
		forMark:  map[mesh.Ref][]*move{},
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
	if f.Kind < kindsLow || f.Kind > kindsHigh || l.moves[f.Ref] != nil || l.known[f.Ref] != 0 {
		return
	}
	fresh, ours := l.fresh[f.Kind]
	if !ours {
		l.refuse(f, true)
		return
	}
	body := fresh()
	if mesh.Decode(f.Body, body) != nil {
		l.refuse(f, false)
		return
	}
	if m := newMove(f, body); m != nil {
		l.addMove(m)
		return
	}
	l.known[f.Ref] = f.Kind
	l.addOther(f, body)
}

func (l *Ledger) refuse(f mesh.Fact, newer bool) {
	l.known[f.Ref] = f.Kind
	l.unread[f.Ref] = Unreadable{Ref: f.Ref, Kind: f.Kind, Newer: newer}
}

// addOther takes everything that is not a movement.
func (l *Ledger) addOther(f mesh.Fact, body any) {
	switch b := body.(type) {
	case *Reversed:
		l.addNaming(b.Names, func(n *named) { n.reversals = append(n.reversals, reversal{ref: f.Ref, at: f.At, body: b}) })
	case *Ended:
		l.addEnd(f, b)
	case *Reopened:
		l.addReopened(f, b)
	case *Witnessed:
		l.addNaming(b.Names, func(n *named) { n.witnesses = append(n.witnesses, witness{f.Ref, b}) })
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
		s = &shelf{place: p, held: map[batch]int64{}}
		l.shelves[p] = s
	}
	return s
}

// namedAt holds what names the movement r, made when it is first needed.
func (l *Ledger) namedAt(r mesh.Ref) *named {
	n := l.named[r]
	if n == nil {
		n = &named{}
		l.named[r] = n
	}
	return n
}

// reopeningsAt holds what takes back the end r, made when it is first needed.
func (l *Ledger) reopeningsAt(r mesh.Ref) *reopenings {
	n := l.reopens[r]
	if n == nil {
		n = &reopenings{}
		l.reopens[r] = n
	}
	return n
}

// Compare orders places by sort and id.
func (p Place) Compare(q Place) int {
	if c := cmp.Compare(p.Sort, q.Sort); c != 0 {
		return c
	}
	return cmp.Compare(p.ID, q.ID)
}
