package kits

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// Ask says why a line is asked for singly at the count.
type Ask uint8

// Reasons to ask. What is not asked is accepted with one tap, all together.
const (
	AskNothing     Ask = 0
	AskControlled  Ask = 1 // a controlled drug
	AskReprocessed Ask = 2 // not single-use: is it there, and whole?
	AskSeen        Ask = 3 // a guidewire, a sharp: it must be seen
	AskBelowZero   Ask = 4 // more came out than went in: N is below 0, and no end mends that
	AskDispute     Ask = 5 // its hand-over was ended differently
)

// Sharps is the class of waste whose items must be seen at the count.
const Sharps mesh.ID = "sharps"

// Why something not used comes to an end, in Moved.Why.
const (
	WhyOpened       mesh.Label = "opened-unused"
	WhyContaminated mesh.Label = "unopened-contaminated"
	WhyExpired      mesh.Label = "expired"
)

// ProposedEnd is what a count proposes for one line; whoever counts may change
// To, Why, N, Unit and ReceivedBy, or make several ends of one.
type ProposedEnd struct {
	Cell       Cell // what, and where it is
	Item       ItemLine
	N          int64 // in the cell's measure
	To         Place // zero: nothing can be proposed
	Why        mesh.Label
	Issue      mesh.Ref // the controlled-drug issue that it belongs to; zero: none
	Exercise   mesh.Ref // the case of an exercise that it came in for; zero: it is no exercise's
	HandOver   mesh.Ref // it lies at the door in this hand-over; zero: it is inside
	Taken      []int64  // of a hand-over: what of each line goes on
	Unit       mesh.Label
	ReceivedBy mesh.Tag
	Ask        Ask
}

// Proposal is the count by exception of a room: an end for everything inside
// and for what still lies at its door.
//
// What was asked for is proposed as used, and what came in a kit that was opened
// too, drugs apart; what was drawn up as given. What else is inside ends by its
// exit policy: it is thrown away, cleaned or held back; what lies at the door
// goes back. Remains of controlled drugs are proposed as wasted, their whole containers as destroyed unopened.
func (l *Ledger) Proposal(room mesh.ID) []ProposedEnd { return l.ProposalApart(room, nil) }

// ProposalApart is Proposal with the cases that are exercises told apart: what
// came in for one of them ends in it, whatever case the count belongs to.
func (l *Ledger) ProposalApart(room mesh.ID, drill func(mesh.Ref) bool) []ProposedEnd {
	p := &proposer{l: l, place: Place{InRoom, room}, drill: drill}
	p.look()
	for _, h := range l.AtDoor(room) {
		p.handOver(h)
	}
	for _, b := range l.BalancesAt(p.place) {
		p.line(b)
	}
	slices.SortStableFunc(p.out, func(a, b ProposedEnd) int {
		return cmp.Or(cmp.Compare(b.Ask, a.Ask), cmp.Compare(a.Cell.Item, b.Cell.Item))
	})
	return p.out
}

// Decisions is how many taps a count takes as it is proposed: one for each item
// that is asked singly, and one for all others together.
func Decisions(ends []ProposedEnd) int {
	type asked struct {
		item mesh.Number
		ask  Ask
	}
	singly := map[asked]bool{}
	rest := 0
	for _, e := range ends {
		if e.Ask == AskNothing {
			rest = 1
			continue
		}
		singly[asked{e.Cell.Item, e.Ask}] = true
	}
	return len(singly) + rest
}

// proposer makes one proposal.
type proposer struct {
	l         *Ledger
	place     Place
	drill     func(mesh.Ref) bool // nil: no case is an exercise
	asked     map[batch]int64     // came in for a request, and was not used yet
	opened    map[batch]int64     // came in from a kit, and was not used yet
	shares    map[batch][]share
	exercises map[batch]map[mesh.Ref]int64 // by the exercise that it came in for
	out       []ProposedEnd
}

// look finds what came in for a request, from a kit, for an issue and in an exercise.
func (p *proposer) look() {
	p.asked, p.opened, p.exercises = map[batch]int64{}, map[batch]int64{}, map[batch]map[mesh.Ref]int64{}
	used := map[batch]int64{}
	if s := p.l.shelves[p.place]; s != nil {
		for _, m := range s.moves {
			m.postings(nil, func(x posting) {
				switch {
				case x.to == p.place:
					if !m.mark.IsZero() {
						p.asked[x.what] += x.n
					} else if m.from.Sort == Kit {
						p.opened[x.what] += x.n
					}
					p.exercised(m, x.what, x.n)
				case x.from == p.place:
					if usedUp(x.to.Sort) {
						used[x.what] += x.n
					}
					p.exercised(m, x.what, -x.n)
				}
			})
		}
	}
	for b, n := range used {
		over := max(0, n-p.asked[b])
		p.asked[b] = max(0, p.asked[b]-n)
		p.opened[b] = max(0, p.opened[b]-over)
	}
	p.shares = p.l.sharesAt(p.place)
}

// handOver proposes that what lies at the door goes where it was meant to go if
// it is on its way out, and back if it never went in.
func (p *proposer) handOver(h HandOver) {
	x := h.Lines[0]
	item, _ := p.l.Item(x.Item)
	item.Value.Number = x.Item
	e := ProposedEnd{Cell: x.batch().at(h.To), Item: item.Value, N: x.Quantity.N, To: h.From, Issue: h.Issue, HandOver: h.Ref}
	e.Taken = make([]int64, len(h.Lines))
	if h.From == p.place {
		e.To = h.Then
		for i, x := range h.Lines {
			e.Taken[i] = x.Quantity.N
		}
	}
	for _, x := range h.Lines {
		if c, ok := p.l.Item(x.Item); ok && c.Value.Has(Controlled) {
			e.Ask = AskControlled
		}
	}
	if h.State == HandOverConflict {
		e.Ask = AskDispute
	}
	p.out = append(p.out, e)
}

// line proposes the ends of one balance, split by issue and by what was asked for.
func (p *proposer) line(b Balance) {
	item, _ := p.l.Item(b.Cell.Item)
	item.Value.Number = b.Cell.Item
	e := ProposedEnd{Cell: b.Cell, Item: item.Value, N: b.N}
	if b.N < 0 {
		e.Ask = AskBelowZero
		p.out = append(p.out, e)
		return
	}
	e.Ask = askFor(item.Value)
	what, left := b.Cell.batch(), b.N
	take := func(n int64, issue, exercise mesh.Ref) {
		if n = min(n, left); n > 0 {
			left -= n
			e.Issue, e.Exercise = issue, exercise
			p.split(e, n)
		}
	}
	apart := p.exercises[what]
	for _, s := range p.shares[what] {
		var exercise mesh.Ref
		if apart[s.inCase] > 0 {
			exercise = s.inCase
			apart[s.inCase] -= s.n
		}
		take(s.n, s.issue, exercise)
	}
	for _, c := range sortedRefs(apart) {
		take(apart[c], mesh.Ref{}, c)
	}
	take(left, mesh.Ref{}, mesh.Ref{})
}

func askFor(i ItemLine) Ask {
	switch {
	case i.Has(Controlled):
		return AskControlled
	case i.Has(Reprocessed):
		return AskReprocessed
	case i.Has(MustBeSeen), i.Waste == Sharps:
		return AskSeen
	}
	return AskNothing
}

// split proposes one end for what was asked for, one for what came in a kit and
// one for the rest.
func (p *proposer) split(e ProposedEnd, n int64) {
	what := e.Cell.batch()
	for i, came := range [...]map[batch]int64{p.asked, p.opened, nil} {
		part, opened := n, i == 0 || i == 1 && !e.Item.Has(IsDrug)
		if came != nil {
			part = min(n, came[what])
			came[what] -= part
		}
		if part == 0 {
			continue
		}
		n -= part
		e.N = part
		var end PlaceSort
		end, e.Why = proposedEnd(e, opened)
		e.To = Place{end, p.place.ID}
		p.out = append(p.out, e)
	}
}

// proposedEnd is where a line goes, and why.
func proposedEnd(e ProposedEnd, opened bool) (PlaceSort, mesh.Label) {
	whole := e.Cell.Syringe.IsZero() && e.Cell.Measure == mesh.Each
	switch {
	case e.Item.Has(Controlled) && whole:
		return DestroyedUnopened, WhyContaminated
	case e.Item.Has(Controlled):
		return Wasted, WhyOpened
	case e.Item.Has(Reprocessed):
		return Reprocessing, ""
	case e.Item.Has(IsDrug) && !whole:
		return Given, ""
	case opened:
		return Used, ""
	}
	switch e.Item.Exit {
	case Decontaminate:
		return Reprocessing, ""
	case QuarantineDays:
		return Quarantined, ""
	}
	if e.Item.Has(IsDrug) {
		return DestroyedUnopened, WhyContaminated
	}
	return Wasted, WhyContaminated
}
