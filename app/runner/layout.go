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

// box is a place in mm.
type box struct{ x, y, w, h float32 }

func (b box) cells(columns, rows int) (out []box) {
	w := (b.w - gap*float32(columns-1)) / float32(columns)
	h := (b.h - gap*float32(rows-1)) / float32(rows)
	for r := range rows {
		for c := range columns {
			out = append(out, box{b.x + float32(c)*(w+gap), b.y + float32(r)*(h+gap), w, h})
		}
	}
	return out
}

// fitting is how many of a least size stand beside each other.
func fitting(room, least float32) int { return max(1, int((room+gap)/(least+gap))) }

// lay puts the list, or the question that is asked.
func (s *Screen) lay(put look.Put, width, height float32) {
	rim := float32(edge)
	if width < phoneWide {
		rim = phoneEdge
	}
	area := box{rim, rim, width - 2*rim, height - 2*rim}
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
func (s *Screen) layList(put look.Put, area box) {
	p := &s.parts
	list := box{area.x, area.y + barHigh + gap, area.w, area.h - barHigh - gap}
	columns, rows := fitting(list.w, cardWide), fitting(list.h, cardHigh+gap+rowHigh)
	s.shown = min(columns*rows, entriesMax)
	s.layBar(put, box{area.x, area.y, area.w, barHigh})
	if len(s.rows.Entries) == 0 {
		put(p.empty, list.x, list.y, list.w, min(list.h, 44))
		return
	}
	for i, b := range list.cells(columns, rows) {
		if i < s.shown && s.hand.from+i < len(s.rows.Entries) {
			s.parts.entries[i].lay(put, b)
		}
	}
}

// layBar puts the row over the list. Where it is short, what was asked by voice
// and what was passed in are behind "open", unless nothing is open.
func (s *Screen) layBar(put look.Put, bar box) {
	p := &s.parts
	if p.fault.Face().Sentence != "" {
		put(p.fault, bar.x, bar.y, bar.w, bar.h+gap)
		return
	}
	const side = 46.0
	right := []*look.Tile{p.voice, p.passed}
	if len(s.rows.Entries) > 0 && bar.w < 200 {
		right = nil
	}
	if len(s.rows.Entries) > s.shown {
		right = append([]*look.Tile{p.turn}, right...)
	}
	for i, t := range right {
		put(t, bar.x+bar.w-float32(len(right)-i)*(side+gap)+gap, bar.y, side, bar.h)
	}
	put(p.link, bar.x, bar.y, bar.w-float32(len(right))*(side+gap), bar.h)
}

// lay puts a card and its acts under it.
func (e *entryParts) lay(put look.Put, b box) {
	high := max(rowHigh, min(22, b.h-cardHigh-gap))
	put(e.hold, b.x, b.y, b.w, b.h-high-gap)
	open := min(b.w*0.3, 34)
	put(e.primary, b.x, b.y+b.h-high, b.w-open-gap, high)
	put(e.open, b.x+b.w-open, b.y+b.h-high, open, high)
}

// layPhone puts one request: its door, what and how many, what comes next.
func (s *Screen) layPhone(put look.Put, area box) {
	p, e := &s.parts, &s.parts.entries[0]
	s.shown = 1
	const top, bottom = 22.5, 22.5
	middle := box{area.x, area.y + top + gap, area.w, area.h - top - bottom - 2*gap}
	half := (area.w - gap) / 2
	low := area.y + area.h - bottom
	switch {
	case p.fault.Face().Sentence != "":
		put(p.fault, area.x, middle.y, area.w, middle.h)
	case len(s.rows.Entries) == 0:
		put(p.empty, area.x, middle.y, area.w, middle.h)
	default:
		put(e.door, area.x, area.y, half, top)
		put(e.tile, middle.x, middle.y, middle.w, middle.h)
		put(e.primary, area.x, low, area.w, bottom)
		if len(s.rows.Entries) > 1 {
			put(p.turn, area.x+half+gap, area.y, half, top)
		}
		return
	}
	put(p.voice, area.x, area.y, area.w, top)
	put(p.passed, area.x, low, area.w, bottom)
}

// layChoices puts what is asked, and tiles to choose from: a row of tiles is
// as high as its words need.
func (s *Screen) layChoices(put look.Put, area box) {
	p, phone := &s.parts, area.w < phoneWide
	put(p.head, area.x, area.y, area.w, headHigh)
	y := area.y + headHigh + gap
	if s.page.Word != "" {
		high := min(max(area.h*0.2, headHigh), 30)
		if !phone || s.page.TellIn.Sentence == "" {
			put(p.word, area.x, y, area.w, high)
			y += high + gap
		}
	}
	switch {
	case phone && s.page.TellIn.Sentence != "":
		put(p.tellPhone, area.x, y, area.w, fourRows)
		y += fourRows + gap
	case !phone && s.page.Tell.Sentence != "":
		high := float32(fourRows)
		if area.h < listHigh+20 {
			high = twoRows
		}
		t := p.tell
		if high == twoRows {
			t = p.tellIn
		}
		put(t, area.x, y, area.w, high)
		y += high + gap
	}
	s.layTiles(put, box{area.x, y, area.w, area.y + area.h - y})
}

// layTiles puts as many choices as fit, and the way to the others.
func (s *Screen) layTiles(put look.Put, rest box) {
	p, all := &s.parts, s.page.Choices
	least, wide := float32(13.0), float32(choiceMin)
	for _, c := range all {
		if c.Face.Detail != "" || len(c.Face.Word) > rowLetters {
			least, wide = 23, choiceWide
		}
	}
	columns := fitting(rest.w, wide)
	rows := min(fitting(rest.h, least), (len(all)+columns-1)/columns)
	rest.h = min(rest.h, float32(rows)*(choiceHigh+gap)-gap)
	cells := rest.cells(columns, rows)
	s.shown = min(len(cells), choicesMax)
	if len(all) > s.shown {
		s.shown--
		last := cells[s.shown]
		put(p.turn, last.x, last.y, last.w, last.h)
	}
	for i := range min(s.shown, len(all)-s.hand.from) {
		put(p.choices[i], cells[i].x, cells[i].y, cells[i].w, cells[i].h)
	}
}

// layKeys puts what is asked, what was typed, and the keys: beside each other
// on a broad screen.
func (s *Screen) layKeys(put look.Put, area box) {
	p := &s.parts
	if area.w >= phoneWide {
		left := box{area.x, area.y, area.w - keyWide - gap, area.h}
		put(p.head, left.x, left.y, left.w, headHigh)
		put(p.tellIn, left.x, left.y+headHigh+1, left.w, twoRows)
		y := left.y + headHigh + twoRows + 2
		put(p.word, left.x, y, left.w, left.y+left.h-y)
		put(p.keys, left.x+left.w+gap, area.y, keyWide, area.h)
		return
	}
	put(p.tellIn, area.x, area.y, area.w, twoRows)
	put(p.word, area.x, area.y+twoRows+0.7, area.w, headHigh)
	y := area.y + twoRows + headHigh + 1.4
	put(p.keys, area.x, y, area.w, area.y+area.h-y)
}
