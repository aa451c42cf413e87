package mesh

import (
	"maps"
	"slices"
)

// factSet remembers which parts the folds already have, so that the same name
// with the same body counts once, wherever it was written.
type factSet struct {
	known     map[Ref]factMark
	conflicts map[Ref]bool // the same name with another body
	unknown   map[Kind]int // parts from a newer version
}

type factMark struct {
	at  Order
	sum Hash // of kind and body
}

// offered is what became of a fact.
type offered uint8

const (
	factNew    offered = 1 // the folds must learn it
	factKnown  offered = 2 // they have it
	factBefore offered = 3 // they have it from a later place, or with another body that loses: fold again
)

func newFactSet() *factSet {
	return &factSet{known: map[Ref]factMark{}, conflicts: map[Ref]bool{}, unknown: map[Kind]int{}}
}

// offer takes one fact. Of two with one name the one with the lower order is used.
func (s *factSet) offer(f Fact) offered {
	sum := hashOf("lintel part 1", be8(uint64(f.Kind)), f.Body)
	old, ok := s.known[f.Ref]
	if !ok {
		s.known[f.Ref] = factMark{at: f.At, sum: sum}
		return factNew
	}
	if old.sum != sum {
		s.conflicts[f.Ref] = true
	}
	if f.At.Compare(old.at) < 0 {
		s.known[f.Ref] = factMark{at: f.At, sum: sum}
		return factBefore
	}
	return factKnown
}

// chosen tells whether f is the one that the folds use.
func (s *factSet) chosen(f Fact) bool { return s.known[f.Ref].at == f.At }

func (s *factSet) conflicting() []Ref {
	return slices.SortedFunc(maps.Keys(s.conflicts), Ref.Compare)
}

// factsOf turns an entry into facts. The By of the entry goes with each.
func factsOf(e *Entry, h Hash) []Fact {
	at := Order{Turn: e.Turn, Feed: e.Feed(), Seq: e.Seq, Hash: h}
	var by By
	for _, p := range e.Parts {
		if p.Kind == KindBy {
			by = byOf(p.Body)
		}
	}
	out := make([]Fact, 0, len(e.Parts))
	for i, p := range e.Parts {
		out = append(out, Fact{Ref: e.Ref(i), At: at, Wall: e.Wall, By: by, Kind: p.Kind, Body: p.Body})
	}
	return out
}

// byOf reads a By; one that cannot be read says nothing.
func byOf(body []byte) By {
	if by, ok := readBy(body); ok {
		return by
	}
	var by By
	if Decode(body, &by) != nil {
		return By{}
	}
	return by
}
