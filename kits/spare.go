package kits

// spare has room for values of one sort that are made by the million and stay
// for as long as the ledger: many share one piece of memory.
type spare[T any] struct{ room []T }

// spareLen is how many values are made room for at a time.
const spareLen = 256

// one gives a zero value.
func (s *spare[T]) one() *T {
	if len(s.room) == 0 {
		s.room = make([]T, spareLen)
	}
	v := &s.room[0]
	s.room = s.room[1:]
	return v
}
