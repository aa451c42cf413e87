package inside

import "lintel/app/look"

// shelve decides what is on the shelves, from how many ways to them there are
// under the front page, and from the room that one has.
func (s *Screen) shelve(area look.Box) {
	room := look.Fitting(area.W, tileWidth) * look.Fitting(area.H, shelfHigh)
	s.shelves = shelves(s.opt.Words, s.snap, min(room, choicesMax-waysMax), min(look.Fitting(area.W, shelfOf), shelvesMax))
}

// layShelves puts the ways to the shelves in a row.
func (s *Screen) layShelves(put look.Put, row look.Box) {
	for i, b := range row.Cells(min(look.Fitting(row.W, shelfOf), shelvesMax), 1) {
		if i < len(s.shelves) {
			s.parts.shelves[i].Set(s.shelves[i].face(s.opt.Words))
			b.Put(put, s.parts.shelves[i])
		}
	}
}

// layShelf puts the items of the open shelf, each in its place. Pages are turned
// only where a unit has more than all shelves hold.
func (s *Screen) layShelf(put look.Put, area look.Box) {
	if s.hand.shelf >= len(s.shelves) {
		s.hand.shelf = 0
	}
	if len(s.shelves) == 0 {
		return
	}
	x := s.shelves[s.hand.shelf]
	var all []Choice
	for i, f := range shelfFaces(x) {
		all = append(all, Choice{f, pick{does: picksItem, item: x.items[i].Number}})
	}
	cells := area.Cells(look.Fitting(area.W, tileWidth), look.Fitting(area.H, shelfHigh))
	s.layCells(put, cells, all)
}

// tapShelf opens a shelf.
func (s *Screen) tapShelf(n int) {
	s.show(pageShelf)
	s.hand.shelf = n
	s.Paint()
}
