package requests

import (
	"testing"
	"time"

	"lintel/mesh"
)

// yearOfCases is a scene of many cases with a few requests each, all over but
// the last.
func yearOfCases(b *testing.B, cases int) *timed {
	s := newTimed(b)
	s.compare(lead, runner1, 10*time.Millisecond, mesh.ClockFirst)
	for range cases {
		of := s.open("A1")
		for range 15 {
			s.served(runner1, s.asked(of, NextOpening))
		}
		s.shut(of)
	}
	of := s.open("A1")
	s.going(runner1, s.asked(of, NextOpening))
	s.at(60)
	return s
}

// BenchmarkCallsAfterAYear asks what calls, once a second and after every tap,
// on a board of a thousand cases.
func BenchmarkCallsAfterAYear(b *testing.B) {
	s := yearOfCases(b, 1000)
	board := s.quick()
	board.Calls(s.elapsed)
	b.ReportAllocs()
	for b.Loop() {
		board.Calls(s.elapsed)
	}
}

// BenchmarkFiguresOfAThousandCases sums all of them up.
func BenchmarkFiguresOfAThousandCases(b *testing.B) {
	s := yearOfCases(b, 1000)
	board := s.quick()
	b.ReportAllocs()
	for b.Loop() {
		board.Figures(mesh.Ref{})
	}
}
