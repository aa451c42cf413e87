package kits

// spare has room for values of one sort that are made by the million and stay
// for as long as the ledger: many share one piece of memory.
type spare[T any] struct {
	room []T
	made int // how many there was room for in the last piece
}

// spares are those of a Ledger.
type spares struct {
	moves  spare[move]
	named  spare[named]
	ends   spare[end]
	bodies spare[Ended]
}

// Room is made for so many values at a time, twice as many as the last time.
const (
	spareLenMin = 8
	spareLenMax = 256
)

// some gives n zero values, without room behind them.
func (s *spare[T]) some(n int) []T {
	if n == 0 {
		return []T{}
	}
	if n > len(s.room) {
		s.made = min(max(2*s.made, spareLenMin), spareLenMax)
		s.room = make([]T, max(n, s.made))
	}
	v := s.room[:n:n]
	s.room = s.room[n:]
	return v
}

// one gives a zero value.
func (s *spare[T]) one() *T { return &s.some(1)[0] }
