package runner

import (
	"lintel/app/look"
)

// Measures of the list, in mm.
const (
	edge       = 2.5
	phoneEdge  = 1.5
	gap        = 3.0
	barHigh    = 13.0  // the row over the list
	cardWide   = 112.0 // least, of a card with the door beside the item
	cardHigh   = 51.5
	rowHigh    = 12.5  // least, of the acts under a card
	phoneWide  = 112.0 // below it, one request at a time
	listHigh   = 85.0  // least height of a list with cards
	headHigh   = 11.5  // one row
	twoRows    = 21.0
	fourRows   = 41.0
	choiceMin  = 58.0 // least width of a choice of a word or two
	choiceWide = 75.0 // of an item with its size or strength
	choiceHigh = 36.0 // at most
	rowLetters = 14   // of the longest words that fit choiceMin
	keyWide    = 75.0 // where there is room beside the keys
)

// lay puts the list, or the question that is asked.
func (s *Screen) lay(put look.Put, width, height float32) {
	rim := float32(edge)
	if width < phoneWide {
		rim = phoneEdge
	}
	area := look.At(rim, rim, width-2*rim, height-2*rim)
	switch {
	case s.hand.step != stepList && s.page.Keys != nil:
		s.layKeys(put, area)
	case s.hand.step != stepList:
		s.layChoices(put, area)
	case width < phoneWide || height < listHigh:
		s.layPhone(put, area)
	default:
		s.layList(put, area)
	}
}

// layList puts a row with link and voice, and cards in as many columns as fit.
func (s *Screen) layList(put look.Put, area look.Box) {
	p := &s.parts
	list := look.At(area.X, area.Y+barHigh+gap, area.W, area.H-barHigh-gap)
	columns, rows := look.Fitting(list.W, cardWide), look.Fitting(list.H, cardHigh+gap+rowHigh)
	s.shown = min(columns*rows, entriesMax)
	s.layBar(put, look.At(area.X, area.Y, area.W, barHigh))
	if len(s.rows.Entries) == 0 {
		put(p.empty, list.X, list.Y, list.W, min(list.H, 44))
		return
	}
	for i, b := range list.Cells(columns, rows) {
		if i < s.shown && s.hand.from+i < len(s.rows.Entries) {
			s.parts.entries[i].lay(put, b)
		}
	}
}

// layBar puts the row over the list. Where it is short, what was asked by voice
// and what was passed in are behind "open", unless nothing is open.
func (s *Screen) layBar(put look.Put, bar look.Box) {
	p := &s.parts
	if p.fault.Face().Sentence != "" {
		put(p.fault, bar.X, bar.Y, bar.W, bar.H+gap)
		return
	}
	const side = 46.0
	right := []*look.Tile{p.voice, p.passed}
	if len(s.rows.Entries) > 0 && bar.W < 200 {
		right = nil
	}
	if len(s.rows.Entries) > s.shown {
		right = append([]*look.Tile{p.turn}, right...)
	}
	for i, t := range right {
		put(t, bar.X+bar.W-float32(len(right)-i)*(side+gap)+gap, bar.Y, side, bar.H)
	}
	put(p.link, bar.X, bar.Y, bar.W-float32(len(right))*(side+gap), bar.H)
}

// lay puts a card and its acts under it.
func (e *entryParts) lay(put look.Put, b look.Box) {
	high := max(rowHigh, min(22, b.H-cardHigh-gap))
	put(e.hold, b.X, b.Y, b.W, b.H-high-gap)
	open := min(b.W*0.3, 34)
	put(e.primary, b.X, b.Y+b.H-high, b.W-open-gap, high)
	put(e.open, b.X+b.W-open, b.Y+b.H-high, open, high)
}

// layPhone puts one request: its door, what and how many, what comes next.
func (s *Screen) layPhone(put look.Put, area look.Box) {
	p, e := &s.parts, &s.parts.entries[0]
	s.shown = 1
	const top, bottom = 22.5, 22.5
	middle := look.At(area.X, area.Y+top+gap, area.W, area.H-top-bottom-2*gap)
	half := (area.W - gap) / 2
	low := area.Y + area.H - bottom
	switch {
	case p.fault.Face().Sentence != "":
		put(p.fault, area.X, middle.Y, area.W, middle.H)
	case len(s.rows.Entries) == 0:
		put(p.empty, area.X, middle.Y, area.W, middle.H)
	default:
		put(e.door, area.X, area.Y, half, top)
		put(e.tile, middle.X, middle.Y, middle.W, middle.H)
		put(e.primary, area.X, low, area.W, bottom)
		if len(s.rows.Entries) > 1 {
			put(p.turn, area.X+half+gap, area.Y, half, top)
		}
		return
	}
	put(p.voice, area.X, area.Y, area.W, top)
	put(p.passed, area.X, low, area.W, bottom)
}

// layChoices puts what is asked, and tiles to choose from: a row of tiles is
// as high as its words need.
func (s *Screen) layChoices(put look.Put, area look.Box) {
	p, phone := &s.parts, area.W < phoneWide
	put(p.head, area.X, area.Y, area.W, headHigh)
	y := area.Y + headHigh + gap
	if s.page.Word != "" {
		high := min(max(area.H*0.2, headHigh), 30)
		if !phone || s.page.TellIn.Sentence == "" {
			put(p.word, area.X, y, area.W, high)
			y += high + gap
		}
	}
	switch {
	case phone && s.page.TellIn.Sentence != "":
		put(p.tellPhone, area.X, y, area.W, fourRows)
		y += fourRows + gap
	case !phone && s.page.Tell.Sentence != "":
		high := float32(fourRows)
		if area.H < listHigh+20 {
			high = twoRows
		}
		t := p.tell
		if high == twoRows {
			t = p.tellIn
		}
		put(t, area.X, y, area.W, high)
		y += high + gap
	}
	s.layTiles(put, look.At(area.X, y, area.W, area.Y+area.H-y))
}

// layTiles puts as many choices as fit, and the way to the others.
func (s *Screen) layTiles(put look.Put, rest look.Box) {
	p, all := &s.parts, s.page.Choices
	least, wide := float32(13.0), float32(choiceMin)
	for _, c := range all {
		if c.Face.Detail != "" || len(c.Face.Word) > rowLetters {
			least, wide = 23, choiceWide
		}
	}
	columns := look.Fitting(rest.W, wide)
	rows := min(look.Fitting(rest.H, least), (len(all)+columns-1)/columns)
	rest.H = min(rest.H, float32(rows)*(choiceHigh+gap)-gap)
	cells := rest.Cells(columns, rows)
	s.shown = min(len(cells), choicesMax)
	if len(all) > s.shown {
		s.shown--
		last := cells[s.shown]
		put(p.turn, last.X, last.Y, last.W, last.H)
	}
	for i := range min(s.shown, len(all)-s.hand.from) {
		put(p.choices[i], cells[i].X, cells[i].Y, cells[i].W, cells[i].H)
	}
}

// layKeys puts what is asked, what was typed, and the keys: beside each other
// on a broad screen.
func (s *Screen) layKeys(put look.Put, area look.Box) {
	p := &s.parts
	if area.W >= phoneWide {
		left := look.At(area.X, area.Y, area.W-keyWide-gap, area.H)
		put(p.head, left.X, left.Y, left.W, headHigh)
		put(p.tellIn, left.X, left.Y+headHigh+1, left.W, twoRows)
		y := left.Y + headHigh + twoRows + 2
		put(p.word, left.X, y, left.W, left.Y+left.H-y)
		put(p.keys, left.X+left.W+gap, area.Y, keyWide, area.H)
		return
	}
	put(p.tellIn, area.X, area.Y, area.W, twoRows)
	put(p.word, area.X, area.Y+twoRows+0.7, area.W, headHigh)
	y := area.Y + twoRows + headHigh + 1.4
	put(p.keys, area.X, y, area.W, area.Y+area.H-y)
}
