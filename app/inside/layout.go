package inside

import (
	"lintel/app/look"
)

// Measures of the board, in mm.
const (
	edge      = 2.5   // between the screen's edge and what stands at it
	gap       = 3.0   // between targets
	sideOf    = 20.0  // of a target inside
	rescueOf  = 25.0  // of a rescue set
	fromTop   = 15.0  // of rescue sets, so that they are away from the corners
	columnOf  = 30.0  // the column of rescue sets
	shelfOf   = 24.0  // least width of the way to a shelf: seven letters
	shelfHigh = 28.0  // least, of an item on a shelf: four rows of words
	shelfTile = 24.0  // of the way to a shelf: three rows
	tileWidth = 46.0  // least, of a tile with its words
	tileHigh  = 21.5  // least, of number, word and detail
	stripHigh = 31.0  // two rows that are read from 1.5 m
	openWide  = 28.0  // what opens the strip
	listWidth = 46.0  // least, of a line of the catalogue
	listHigh  = 37.0  // least: number, two rows of its name, two of its size
	stripWide = 150.0 // least, of a strip with age and what opens it
)

// wideFrom and narrowBelow part the three plans, in mm of width.
const (
	wideFrom    = 200.0
	narrowBelow = 140.0
)

// Heights of plans, in mm.
const (
	wideHighFrom = 142.0 // the column of rescue sets keeps away from the corners
	withdrawWide = 32.0
	undoFrom     = 20.0 // below it there is room for undo
)

// lay puts the parts of the page that is open.
func (s *Screen) lay(put look.Put, width, height float32) {
	p := &s.parts
	s.all, s.shelves = s.all[:0], nil
	s.phone = width < narrowBelow
	if s.rows.Drill {
		put(p.bands[0], 0, 0, width, bandOf)
		put(p.bands[1], 0, height-bandOf, width, bandOf)
	}
	if s.rows.Lock != (look.LockFace{}) {
		face := s.rows.Lock
		if s.phone && s.rows.CalledBy.IsZero() {
			face.Sentence = s.opt.Words.Say("inside.lock-short")
		}
		p.lock.Set(face)
		put(p.lock, 0, 0, width, height)
	}
	switch {
	case s.hand.page == pageSign && p.sign.shown:
		s.laySign(put, width, height)
	case width >= wideFrom && height >= wideHighFrom:
		s.layWide(put, width, height)
	case s.phone:
		s.layPhone(put, width, height)
	default:
		s.laySmall(put, width, height)
	}
}

// layOver puts what stands over every page, and tells whether anything does.
func (s *Screen) layOver(put look.Put, area look.Box) bool {
	if s.rows.Lock != (look.LockFace{}) { // the lock's own banner stands there
		return true
	}
	if s.rows.CalledBy.IsZero() {
		return false
	}
	area.Put(put, s.parts.called)
	return true
}

// layWide is for a tablet: rescue sets in a column, how soon in a row, board,
// strip.
func (s *Screen) layWide(put look.Put, width, height float32) {
	p := &s.parts
	if s.rows.Lock == (look.LockFace{}) {
		put(p.room, edge, edge, columnOf, fromTop-edge-gap)
	}
	column := look.At(edge, fromTop, columnOf, 4*rescueOf+3*gap)
	for i, b := range column.Cells(1, setsMax) {
		b.Put(put, p.sets[i])
	}
	x := float32(edge + columnOf + gap)
	right := width - edge - x
	if top := look.At(x, edge, right, sideOf); !s.layOver(put, top) {
		link := right * 0.25
		put(p.link, x, edge, link, sideOf)
		four := look.At(x+link+gap, edge, right-link-gap, sideOf).Cells(4, 1)
		for i := range p.urgency {
			four[i].Put(put, p.urgency[i])
		}
		four[3].Put(put, p.other)
	}
	area := look.At(x, edge+sideOf+gap, right, height-2*edge-sideOf-gap)
	under := look.At(edge, column.Y+column.H+gap, columnOf, height-edge-column.Y-column.H-gap)
	if under.H < undoFrom { // then it stands before the strip
		under = look.At(x, area.Y+area.H-stripHigh, columnOf, stripHigh)
		s.inset = columnOf + gap
	}
	under.Put(put, p.undo)
	s.shelve(area)
	s.layArea(put, area, true)
	s.inset = 0
}

// layArea puts the page that is open where the board is.
func (s *Screen) layArea(put look.Put, area look.Box, keys bool) {
	if s.inset > 0 && s.hand.page != pageBoard {
		area.H -= stripHigh + gap
	}
	switch {
	case s.hand.page == pageOther:
		s.layList(put, area, keys)
	case s.hand.page == pageShelf:
		s.layShelf(put, area)
	case s.rows.Page != nil:
		s.layPage(put, area)
	default:
		s.layBoard(put, area)
	}
}

// layBoard puts tiles and strip, or the panel over their lower part.
func (s *Screen) layBoard(put look.Put, area look.Box) {
	p := &s.parts
	tiles := look.At(area.X, area.Y, area.W, area.H-stripHigh-gap)
	if len(s.shelves) > 0 {
		tiles.H -= shelfTile + gap
		if p.panel.now == nil {
			s.layShelves(put, look.At(tiles.X, tiles.Y+tiles.H+gap, tiles.W, shelfTile))
		}
	}
	columns, rows := look.Fitting(tiles.W, tileWidth), look.Fitting(tiles.H, tileHigh)
	s.setFront(columns * rows)
	cells := tiles.Cells(columns, rows)
	bottom := area.Y + area.H
	panel := p.panel.now != nil
	if panel {
		row := rows / 2
		if len(s.shelves) > 0 { // the ways to them go too
			row = min((rows+1)/2, rows-1)
		}
		if p.panel.now.Label != nil { // a label needs more room than words
			row = max(0, row-1)
		}
		half := cells[columns*row].Y
		if area.H < 125 {
			half = area.Y
		}
		bottom = half - gap
		s.layPanel(put, look.At(area.X, half, area.W, area.Y+area.H-half-s.panelUp()))
	}
	for i, b := range cells {
		if i < len(p.tiles) && b.Y+b.H <= bottom+0.1 {
			b.Put(put, p.tiles[i])
		}
	}
	if panel {
		return
	}
	strip := look.At(area.X+s.inset, area.Y+area.H-stripHigh, area.W-s.inset, stripHigh)
	small := area.W < stripWide+openWide+gap
	if !small {
		strip.W -= openWide + gap
		put(p.open, strip.X+strip.W+gap, strip.Y, openWide, stripHigh)
	}
	if !s.rows.More.Off && p.fault.Face().Sentence == "" {
		strip.W -= openWide + gap
		put(p.oneMore, strip.X+strip.W+gap, strip.Y, openWide, stripHigh)
	}
	switch {
	case p.fault.Face().Sentence != "":
		strip.Put(put, p.fault)
	case small:
		strip.Put(put, p.holdIn)
	default:
		strip.Put(put, p.hold)
	}
}

// setFront notes how many places the front page has.
func (s *Screen) setFront(n int) { s.front = n }

// panelUp is how much of the panel's place undo takes.
func (s *Screen) panelUp() float32 {
	if s.inset > 0 {
		return stripHigh + gap
	}
	return 0
}

// layPanel puts a request's panel: its head, large words, and what can be done.
func (s *Screen) layPanel(put look.Put, area look.Box) {
	p := &s.parts.panel
	now := p.now
	const headHigh, tellHigh = 9.0, 15.5
	high, lines := float32(28.0), 1
	wide := area.W
	if now.Withdraw != nil {
		wide -= withdrawWide + look.GapWithdraw
	}
	columns := max(len(now.Buttons), 3)
	if wide/float32(columns) < iconFrom && area.H > 90 { // as words need more room than a row has
		columns, lines, high = (columns+1)/2, 2, 2*sideOf+gap
	}
	put(p.head, area.X, area.Y, area.W, headHigh)
	words := look.At(area.X, area.Y+headHigh+1, area.W, area.H-headHigh-tellHigh-high-gap-2)
	s.layWords(put, words, len(now.Others), 1)
	put(p.tell, area.X, words.Y+words.H+1, area.W, tellHigh)
	row := look.At(area.X, area.Y+area.H-high, area.W, high)
	if now.Withdraw != nil {
		put(p.withdraw, row.X+row.W-withdrawWide, row.Y, withdrawWide, high)
	}
	row.W = wide
	for i, b := range row.Cells(columns, lines) {
		if i < len(now.Buttons) {
			b.Put(put, p.buttons[i])
		}
	}
}

// layWords puts what the panel is about, or the alternatives to choose from.
func (s *Screen) layWords(put look.Put, area look.Box, columns, rows int) {
	p := &s.parts.panel
	switch {
	case len(p.now.Others) > 0:
		for i, b := range area.Cells(columns, rows) {
			b.Put(put, p.others[i])
		}
	case p.now.Label != nil:
		area.Put(put, p.label)
	case s.phone:
		area.Put(put, p.wordIn)
	default:
		area.Put(put, p.word)
	}
}

// layList puts groups or items, and the keys where there is room for them.
func (s *Screen) layList(put look.Put, area look.Box, keys bool) {
	p := &s.parts.list
	left := area
	if keys {
		const wide, typedHigh = 66.0, 15.0
		right := look.At(area.X+area.W-wide, area.Y, wide, area.H)
		left.W -= wide + 2*gap
		put(p.typed, right.X, right.Y, wide, typedHigh)
		high := float32(4*sideOf + 3*gap)
		put(p.tell, right.X, right.Y+typedHigh+1, wide, right.H-typedHigh-high-gap-1)
		put(p.keys, right.X, right.Y+right.H-high, wide, high)
	}
	columns, rows := look.Fitting(left.W, listWidth), look.Fitting(left.H, listHigh)
	cells := left.Cells(columns, rows)
	if s.hand.group < 0 {
		for i, b := range left.Cells(3, 4) {
			if i < len(p.now.Groups) {
				b.Put(put, p.groups[i])
			}
		}
		return
	}
	last := len(cells)
	if s.hand.from == 0 && len(p.now.Items) < last { // all of them are seen at once
		cells[last-1].Put(put, p.groupsOf)
		s.shown = min(last-1, listMax)
	} else {
		for i, t := range []*look.Tile{p.groupsOf, p.prev, p.next} {
			if last-3+i >= 0 {
				cells[last-3+i].Put(put, t)
			}
		}
		s.shown = max(1, min(last-3, listMax))
	}
	for i := range min(s.shown, len(p.now.Items)-s.hand.from) {
		cells[i].Put(put, p.items[i])
	}
}

// laySign puts the sign for the glass, which is read from 2 m.
func (s *Screen) laySign(put look.Put, width, height float32) {
	p := &s.parts.sign
	top := float32(edge)
	if s.layOver(put, look.At(edge, edge, width-2*edge, sideOf)) {
		top += sideOf + gap
	}
	row := height - edge - rescueOf
	code := height * 0.25
	put(p.word, edge, top, width-2*edge, row-code-2*gap-top)
	put(p.code, edge, row-code-gap, width-2*edge, code)
	low := look.At(edge, row, width-2*edge, rescueOf)
	if width < signBroad { // whoever reads it stands before the door
		p.code.Set(look.BigWordFace{Word: p.digits})
		cells := low.Cells(2, 1)
		cells[0].Put(put, p.back)
		cells[1].Put(put, p.next)
		return
	}
	cells := low.Cells(3, 1)
	cells[0].Put(put, p.back)
	cells[1].Put(put, p.room)
	cells[2].Put(put, p.next)
}

// signBroad is the width in mm from which a sign for the glass has the door's
// name beside its keys, and a space between the digits of its code.
const signBroad = 95
