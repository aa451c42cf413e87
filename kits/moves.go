package kits

import (
	"encoding/binary"
	"iter"

	"lintel/mesh"
)

// moves are all movements by their names. The Ledger owns them.
//
// Taps are random, so they are found by the tap alone, which takes a third of
// the memory and time of the whole name. Those of one tap follow each other:
// a device writes at most mesh.PartsMax of them, however it chooses its taps,
// since the log takes a name only from its own author.
type moves struct {
	byTap map[uint64]*move
	n     int
}

func tapOf(r mesh.Ref) uint64 {
	t := r.Tap()
	return binary.BigEndian.Uint64(t[:])
}

// get gives the movement r, or nil.
func (s *moves) get(r mesh.Ref) *move {
	m := s.byTap[tapOf(r)]
	for m != nil && m.ref != r {
		m = m.sameTap
	}
	return m
}

// put takes a movement that is not there.
func (s *moves) put(m *move) {
	t := tapOf(m.ref)
	m.sameTap = s.byTap[t]
	s.byTap[t] = m
	s.n++
}

// all gives every movement, in no special order.
func (s *moves) all() iter.Seq[*move] {
	return func(yield func(*move) bool) {
		for _, m := range s.byTap {
			for ; m != nil; m = m.sameTap {
				if !yield(m) {
					return
				}
			}
		}
	}
}

// each gives those of one tap.
func (s *moves) each(tap uint64) iter.Seq[*move] {
	return func(yield func(*move) bool) {
		for m := s.byTap[tap]; m != nil && yield(m); m = m.sameTap {
		}
	}
}
