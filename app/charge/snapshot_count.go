package charge

import (
	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
)

// Count is what a room's count proposes.
type Count struct {
	Case      mesh.Ref // that is open there, or was last
	Ends      []kits.ProposedEnd
	Amounts   []kits.Measured            // of each end, as people read it
	HandOvers map[mesh.Ref]kits.HandOver // those that lie at the door
}

// counts lists the rooms with how much is inside each.
func (s *Snapshot) counts(v station.View) {
	s.rooms(v)
	for i, r := range s.Rooms {
		s.Rooms[i].Lines = len(v.Proposal(r.ID))
	}
}

func (s *Snapshot) count(v station.View) {
	c, _ := v.CaseAt(s.For.Room)
	s.Count = Count{Case: c.Ref, Ends: v.Proposal(s.For.Room), HandOvers: map[mesh.Ref]kits.HandOver{}}
	for _, e := range s.Count.Ends {
		line := kits.Line{Item: e.Cell.Item, Lot: e.Cell.Lot, Syringe: e.Cell.Syringe, Quantity: kits.Quantity{N: max(0, e.N), Measure: e.Cell.Measure}}
		s.Count.Amounts = append(s.Count.Amounts, v.Ledger.MeasuredLine(line))
		if h, known := v.Ledger.HandOver(e.HandOver); known {
			s.Count.HandOvers[e.HandOver] = h
		}
	}
}

// asked is one question of a count: all that is proposed of one item for one
// reason, as indexes of the ends.
type asked struct {
	item mesh.Number
	ask  kits.Ask
	ends []int
}

// questions are what is asked singly, in the order of the proposal, and the rest.
func (c Count) questions() (singly []asked, rest []int) {
	type key struct {
		item mesh.Number
		ask  kits.Ask
	}
	places := map[key]int{}
	for i, e := range c.Ends {
		if e.Ask == kits.AskNothing {
			rest = append(rest, i)
			continue
		}
		k := key{e.Cell.Item, e.Ask}
		n, there := places[k]
		if !there {
			n = len(singly)
			places[k] = n
			singly = append(singly, asked{item: e.Cell.Item, ask: e.Ask})
		}
		singly[n].ends = append(singly[n].ends, i)
	}
	return singly, rest
}

// entries are what is written when ends are accepted. Of a hand-over it needs
// what the Snapshot has of it, of all else nothing but the ends.
func (c Count) entries(ends []kits.ProposedEnd) []kits.EndEntry {
	return kits.AcceptEnds(ends, func(r mesh.Ref) (kits.HandOver, bool) {
		h, known := c.HandOvers[r]
		return h, known
	}, c.Case)
}
