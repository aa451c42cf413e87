package inside

import "lintel/app/look"

// laySmall is for a small tablet: rescue sets in a square, few tiles, the rest
// behind "other item".
func (s *Screen) laySmall(put look.Put, width, height float32) {
	p := &s.parts
	square := box{edge, fromTop, 2*rescueOf + gap, 2*rescueOf + gap}
	put(p.linkIn, edge, edge, square.w, fromTop-edge-gap)
	for i, b := range square.cells(2, 2) {
		b.put(put, p.sets[i])
	}
	under := box{edge, square.y + square.h + gap, square.w, height - edge - square.y - square.h - gap}
	two := under.cells(2, 1)
	two[0].put(put, p.undo)
	two[1].put(put, p.other)
	x := edge + square.w + gap
	right := width - edge - x
	for i, b := range (box{x, edge, right, sideOf}).cells(3, 1) {
		b.put(put, p.urgency[i])
	}
	area := box{x, edge + sideOf + gap, right, height - 2*edge - sideOf - gap}
	if s.hand.page == pageOther {
		s.layList(put, area, false)
		return
	}
	s.layBoard(put, area)
}

// layPhone shows six tiles at a time: rescue sets, then two ways on; behind the
// first the board, behind the second the requests.
func (s *Screen) layPhone(put look.Put, width, height float32) {
	p := &s.parts
	top := box{edge, edge, width - 2*edge, fromTop - edge - gap}
	if p.fault.Face().Sentence != "" {
		top.put(put, p.fault)
	} else {
		top.put(put, p.linkIn)
	}
	sets := box{edge, fromTop, width - 2*edge, 2*rescueOf + gap}
	rest := box{edge, sets.y + sets.h + gap, sets.w, height - edge - sets.y - sets.h - gap}
	switch {
	case p.panel.now != nil && s.hand.page == pageBoard:
		s.layPhonePanel(put, box{edge, fromTop, sets.w, height - edge - fromTop})
	case s.hand.page == pageSmall || s.hand.page == pageOther:
		s.layPhoneTiles(put, box{edge, fromTop, sets.w, height - edge - fromTop})
	default:
		for i, b := range sets.cells(2, 2) {
			b.put(put, p.sets[i])
		}
		two := rest.cells(2, 1)
		two[0].put(put, p.more)
		two[1].put(put, p.open)
	}
}

// layPhoneTiles puts four of the board's places or of a list, and two ways on.
func (s *Screen) layPhoneTiles(put look.Put, area box) {
	p := &s.parts
	cells := area.cells(2, 3)
	s.shown = 3
	for i := range s.shown {
		if s.hand.page == pageSmall && s.hand.from+i < len(p.tiles) {
			cells[i].put(put, p.tiles[s.hand.from+i])
		}
	}
	cells[3].put(put, p.soon)
	cells[4].put(put, p.home)
	cells[5].put(put, p.turn)
}

// layPhonePanel puts a panel without its head and what withdraws, for which a
// phone has no room apart from the rest; four buttons at most.
func (s *Screen) layPhonePanel(put look.Put, area box) {
	p := &s.parts.panel
	const rows = 2*sideOf + gap
	words := box{area.x, area.y, area.w, area.h - rows - gap}
	if n := len(p.now.Others); n > 0 {
		for i, b := range words.cells(1, n) {
			b.put(put, p.others[i])
		}
	} else {
		words.put(put, p.word)
	}
	cells := (box{area.x, words.y + words.h + gap, area.w, rows}).cells(2, 2)
	for i := range min(len(p.now.Buttons), len(cells)) {
		cells[i].put(put, p.buttons[i])
	}
}
