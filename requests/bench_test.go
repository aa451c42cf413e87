package requests

import (
	"encoding/binary"
	"fmt"
	"testing"

	"lintel/mesh"
)

// BenchmarkAdd adds one mark to a board that holds many requests: it must cost
// the same however many there are.
func BenchmarkAdd(b *testing.B) {
	for _, held := range []int{1_000, 100_000} {
		b.Run(fmt.Sprintf("held=%d", held), func(b *testing.B) {
			s := newScene(b)
			asked := s.ask()
			f := s.facts[len(s.facts)-1]
			board := fold(s.facts)
			for i := range held {
				f.Ref = numbered(f.Ref, uint64(i)+1)
				board.Add(f)
			}
			s.going(runner1, asked)
			mark := s.facts[len(s.facts)-1]
			b.ReportAllocs()
			n := uint64(0)
			for b.Loop() {
				n++
				mark.Ref = numbered(mark.Ref, n<<24)
				board.Add(mark)
			}
		})
	}
}

// BenchmarkRequests derives all requests anew, and then again with nothing changed.
func BenchmarkRequests(b *testing.B) {
	s := newScene(b)
	for range 200 {
		s.served(runner1, s.ask())
	}
	b.Run("derived", func(b *testing.B) {
		board := fold(s.facts)
		for b.Loop() {
			board.forgetAll()
			board.Requests()
		}
	})
	b.Run("kept", func(b *testing.B) {
		board := fold(s.facts)
		for b.Loop() {
			board.Requests()
		}
	})
}

// numbered gives the name of another tap of the same device.
func numbered(r mesh.Ref, n uint64) mesh.Ref {
	var tap mesh.Tap
	binary.BigEndian.PutUint64(tap[:], n)
	return mesh.MakeRef(r.Author(), tap, 0)
}
