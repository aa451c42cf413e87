package inside

import "lintel/app/look"

// laySmall is for a small tablet: rescue sets in a square, few tiles, the rest
// behind "other item".
func (s *Screen) laySmall(put look.Put, width, height float32) {
	p := &s.parts
	square := look.At(edge, fromTop, 2*rescueOf+gap, 2*rescueOf+gap)
	put(p.linkIn, edge, edge, square.W, fromTop-edge-gap)
	for i, b := range square.Cells(2, 2) {
		b.Put(put, p.sets[i])
	}
	under := look.At(edge, square.Y+square.H+gap, square.W, height-edge-square.Y-square.H-gap)
	two := under.Cells(2, 1)
	two[0].Put(put, p.undo)
	two[1].Put(put, p.other)
	x := edge + square.W + gap
	right := width - edge - x
	for i, b := range look.At(x, edge, right, sideOf).Cells(3, 1) {
		b.Put(put, p.urgency[i])
	}
	area := look.At(x, edge+sideOf+gap, right, height-2*edge-sideOf-gap)
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
	top := look.At(edge, edge, width-2*edge, fromTop-edge-gap)
	if p.fault.Face().Sentence != "" {
		top.Put(put, p.fault)
	} else {
		top.Put(put, p.linkIn)
	}
	sets := look.At(edge, fromTop, width-2*edge, 2*rescueOf+gap)
	rest := look.At(edge, sets.Y+sets.H+gap, sets.W, height-edge-sets.Y-sets.H-gap)
	switch {
	case p.panel.now != nil && s.hand.page == pageBoard:
		s.layPhonePanel(put, look.At(edge, fromTop, sets.W, height-edge-fromTop))
	case s.hand.page == pageSmall || s.hand.page == pageOther:
		s.layPhoneTiles(put, look.At(edge, fromTop, sets.W, height-edge-fromTop))
	default:
		for i, b := range sets.Cells(2, 2) {
			b.Put(put, p.sets[i])
		}
		two := rest.Cells(2, 1)
		two[0].Put(put, p.more)
		two[1].Put(put, p.open)
	}
}

// layPhoneTiles puts four of the board's places or of a list, and two ways on.
func (s *Screen) layPhoneTiles(put look.Put, area look.Box) {
	p := &s.parts
	cells := area.Cells(2, 3)
	s.shown = 3
	for i := range s.shown {
		if s.hand.page == pageSmall && s.hand.from+i < len(p.tiles) {
			cells[i].Put(put, p.tiles[s.hand.from+i])
		}
	}
	cells[3].Put(put, p.soon)
	cells[4].Put(put, p.home)
	cells[5].Put(put, p.turn)
}

// layPhonePanel puts a panel without its head and what withdraws, for which a
// phone has no room apart from the rest; four buttons at most.
func (s *Screen) layPhonePanel(put look.Put, area look.Box) {
	p := &s.parts.panel
	const rows = 2*sideOf + gap
	words := look.At(area.X, area.Y, area.W, area.H-rows-gap)
	if n := len(p.now.Others); n > 0 {
		for i, b := range words.Cells(1, n) {
			b.Put(put, p.others[i])
		}
	} else {
		words.Put(put, p.word)
	}
	cells := look.At(area.X, words.Y+words.H+gap, area.W, rows).Cells(2, 2)
	for i := range min(len(p.now.Buttons), len(cells)) {
		cells[i].Put(put, p.buttons[i])
	}
}
