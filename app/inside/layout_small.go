package inside

import "lintel/app/look"

// fourFrom is the height under the square of rescue sets, in mm, from which on
// four targets stand there.
const fourFrom = 2*sideOf + gap

// laySmall is for a small tablet: rescue sets in a square, few tiles, the rest
// behind "other item".
func (s *Screen) laySmall(put look.Put, width, height float32) {
	p := &s.parts
	square := look.At(edge, fromTop, 2*rescueOf+gap, 2*rescueOf+gap)
	under := look.At(edge, square.Y+square.H+gap, square.W, height-edge-square.Y-square.H-gap)
	s.layHead(put, look.At(edge, edge, square.W, fromTop-edge-gap), under.H < fourFrom)
	for i, b := range square.Cells(2, 2) {
		b.Put(put, p.sets[i])
	}
	if under.H >= fourFrom {
		four := under.Cells(2, 2)
		four[0].Put(put, p.say)
		four[1].Put(put, p.room)
		under = look.At(under.X, four[2].Y, under.W, four[2].H)
	}
	two := under.Cells(2, 1)
	two[0].Put(put, p.undo)
	two[1].Put(put, p.other)
	x := edge + square.W + gap
	right := width - edge - x
	if !s.layOver(put, look.At(x, edge, right, sideOf)) {
		for i, b := range look.At(x, edge, right, sideOf).Cells(3, 1) {
			b.Put(put, p.urgency[i])
		}
	}
	s.layArea(put, look.At(x, edge+sideOf+gap, right, height-2*edge-sideOf-gap), false)
}

// tallFrom is the height of a phone, in mm, from which on more than six
// targets stand on it.
const tallFrom = 120.0

// layPhone shows six tiles at a time on a small phone: rescue sets, then two
// ways on; behind the first the board, behind the second the requests. A tall
// one has room for undo, for what can be said, and for the state of the first
// request as well.
func (s *Screen) layPhone(put look.Put, width, height float32) {
	p := &s.parts
	s.layHead(put, look.At(edge, edge, width-2*edge, fromTop-edge-gap), true)
	below := look.At(edge, fromTop, width-2*edge, height-edge-fromTop)
	panel := p.panel.now != nil && s.hand.page == pageBoard
	if panel || s.hand.page != pageBoard {
		if !s.rows.CalledBy.IsZero() {
			put(p.called, below.X, below.Y, below.W, sideOf)
			below.Y, below.H = below.Y+sideOf+gap, below.H-sideOf-gap
		}
	}
	switch {
	case panel:
		s.layPhonePanel(put, below)
	case s.rows.Page != nil:
		s.layPage(put, below)
	case s.hand.page == pageSmall:
		s.layPhoneTiles(put, below, height)
	case s.hand.page == pageOther:
		s.layRows(put, below, p.list.now.choices(s.hand.group))
	default:
		s.layPhoneHome(put, below, height)
	}
}

// layHead puts the row at the top of a small screen: what went wrong, else the
// link; beside it, where it stands nowhere else, that this is an exercise. The
// lock has its own words there.
func (s *Screen) layHead(put look.Put, top look.Box, drill bool) {
	p := &s.parts
	switch {
	case s.rows.Lock != (look.LockFace{}):
	case p.fault.Face().Sentence != "" && top.W > 2*rescueOf+gap:
		top.Put(put, p.fault)
	case s.rows.Drill && drill && top.W < 2*rescueOf+2*gap:
		top.Put(put, p.room)
	case s.rows.Drill && drill:
		two := top.Cells(2, 1)
		two[0].Put(put, p.room)
		two[1].Put(put, p.linkIn)
	default:
		p.linkIn.Set(s.rows.LinkIn)
		if said := s.rows.Say.Detail; said != "" && top.W > 2*rescueOf+2*gap {
			p.linkIn.Set(withHint(s.rows.LinkIn, said))
		}
		top.Put(put, p.linkIn)
	}
}

// layPhoneHome puts rescue sets, the ways on, and on a tall phone the state.
func (s *Screen) layPhoneHome(put look.Put, below look.Box, height float32) {
	p := &s.parts
	sets := look.At(below.X, below.Y, below.W, 2*rescueOf+gap)
	for i, b := range sets.Cells(2, 2) {
		b.Put(put, p.sets[i])
	}
	rest := look.At(below.X, sets.Y+sets.H+gap, below.W, below.H-sets.H-gap)
	if height < tallFrom {
		if !s.rows.CalledBy.IsZero() {
			rest.Put(put, p.called)
			return
		}
		two := rest.Cells(2, 1)
		two[0].Put(put, p.more)
		two[1].Put(put, p.open)
		return
	}
	four := look.At(rest.X, rest.Y, rest.W, fourFrom).Cells(2, 2)
	four[0].Put(put, p.more)
	four[1].Put(put, p.open)
	p.say.Set(look.TileFace{Word: s.rows.Say.Word}) // the rest stands beside the link
	four[2].Put(put, p.say)
	four[3].Put(put, p.undo)
	low := look.At(rest.X, rest.Y+fourFrom+gap, rest.W, rest.H-fourFrom-gap)
	switch {
	case low.H < sideOf:
	case !s.rows.CalledBy.IsZero():
		low.Put(put, p.called)
	case !s.rows.More.Off:
		low.W -= openWide + gap
		low.Put(put, p.now)
		put(p.oneMore, low.X+low.W+gap, low.Y, openWide, low.H)
	default:
		low.Put(put, p.now)
	}
}

// layPhoneTiles puts some of the board's places, what leads to other items, and
// ways on. On a small phone undo and what can be said come after the places.
func (s *Screen) layPhoneTiles(put look.Put, area look.Box, height float32) {
	p := &s.parts
	cells := area.Cells(2, look.Fitting(area.H, tileHigh))
	tiles := append(p.tiles[:len(p.tiles):len(p.tiles)], p.other)
	if height < tallFrom {
		tiles = append(tiles, p.say, p.undo)
	}
	last := len(cells) - 3
	s.shown, s.turns = last, len(tiles)
	for i := range last {
		if n := s.hand.from + i; n < len(tiles) {
			cells[i].Put(put, tiles[n])
		}
	}
	cells[last].Put(put, p.soon)
	cells[last+1].Put(put, p.home)
	cells[last+2].Put(put, p.turn)
}

// layPhonePanel puts a panel without its head. What withdraws needs a place far
// from the rest, which only a tall phone has.
func (s *Screen) layPhonePanel(put look.Put, area look.Box) {
	p := &s.parts.panel
	if p.now.Withdraw != nil && area.H >= 100 {
		put(p.withdraw, area.X, area.Y+area.H-sideOf, area.W, sideOf)
		area.H -= sideOf + look.GapWithdraw
	}
	rows := max(1, min(2, (len(p.now.Buttons)+1)/2))
	if len(p.now.Buttons) > 4 && area.H > 95 {
		rows = 3
	}
	high := float32(rows)*(sideOf+gap) - gap
	words := look.At(area.X, area.Y, area.W, area.H-high-gap)
	s.layWords(put, words, 1, len(p.now.Others))
	cells := look.At(area.X, words.Y+words.H+gap, area.W, high).Cells(2, rows)
	for i := range min(len(p.now.Buttons), len(cells)) {
		cells[i].Put(put, p.buttons[i])
	}
}
