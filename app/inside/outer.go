package inside

import "lintel/app/station"

// SetBoard takes another layout of the board. Places are learned by hands: let
// nobody call it while a case is open in the room.
func (s *Screen) SetBoard(b station.BoardLayout) {
	s.opt.Board = b
	s.Paint()
}
