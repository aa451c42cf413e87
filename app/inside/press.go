package inside

// Places beyond those of the board that a key can be bound to: the rescue sets,
// in their order.
const PlaceOfSets = 101

// Press asks for what stands at a place of the board, as a tap there does: 1 and
// on as on the printed card, PlaceOfSets and on for the rescue sets. False: there
// is no such place. Call it on the UI goroutine.
func (s *Screen) Press(place int) bool {
	if n := place - PlaceOfSets; n >= 0 {
		if n >= len(s.snap.Sets) {
			return false
		}
		s.tapSet(n)
		return true
	}
	for i, t := range s.opt.Board.Tiles {
		if int(t.Place) == place {
			s.show(pageBoard)
			s.tapTile(i)
			return true
		}
	}
	return false
}
