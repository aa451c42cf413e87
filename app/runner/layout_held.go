package runner

import (
	"slices"

	"lintel/app/look"
)

// Measures of lines with keys, in mm.
const (
	heldWide  = 98.0 // of a line whose keys stand beside its words
	heldKey   = 14.5 // of a key there, at least
	heldHigh  = 13.0 // of a key
	heldMost  = 22.0 // of one, where there is room
	heldClose = 1.0  // between words and the keys under them
	heldFour  = 70.0 // of a line under which all keys have room, with the edges
)

// heldKeys is how many keys a line has: on a narrow screen one fewer.
func (s *Screen) heldKeys() int {
	if s.width < heldFour {
		return keysMax - 1
	}
	return keysMax
}

// layHeld puts what may be in the hand, each with a key for each count: beside
// its words, or under them where it is narrow. Below stand the way back, what was
// chosen so far, and the way to lines that did not fit.
func (s *Screen) layHeld(put look.Put, a areas) {
	p, area := &s.parts, a.main
	low := look.At(area.X, area.Y+area.H-barHigh, area.W, barHigh)
	area.H -= barHigh + gap
	s.layHead(put, take(&area, headHigh))
	if s.page.Word != "" && area.H > phoneTall-headHigh-barHigh-2*gap {
		take(&area, twoRows).Put(put, p.word)
	}
	if s.page.Lead != nil && a.phone {
		take(&area, rowLow).Put(put, p.lead)
	}
	columns := s.heldColumns(area.W)
	high, beside := s.heldLeast((area.W+gap)/float32(columns) - gap)
	rows := max(1, look.Fitting(area.H, high))
	s.shown = min(columns*rows, heldMax)
	all := len(s.page.Held)
	s.layHeldLow(put, low, s.page.Lead != nil && !a.phone, all > s.shown)
	rows = min(rows, (all+columns-1)/columns)
	area.H = min(area.H, float32(rows)*(high+heldMost-heldHigh+gap)-gap)
	for i, c := range area.Cells(columns, rows) {
		if i < s.shown && s.hand.from+i < all {
			p.held[i].lay(put, c, beside, s.heldKeys())
		}
	}
}

// heldColumns is how many lines stand beside each other: as many as leave room for
// each word and each measure in one piece, because half a strength reads as another.
func (s *Screen) heldColumns(width float32) int {
	columns := max(1, look.Fitting(width, heldWide))
	for ; columns > 1; columns-- {
		line := (width+gap)/float32(columns) - gap
		room := line - keysOf(line) - gap - tileEdges/2
		if !slices.ContainsFunc(s.page.Held, func(x Held) bool { return widest(x.Word) > room }) {
			break
		}
	}
	return columns
}

// heldLeast is how high a line has to be in a column of a width, and whether its
// keys stand beside its words.
func (s *Screen) heldLeast(width float32) (high float32, beside bool) {
	beside = width >= heldWide
	words := width
	if beside {
		words -= keysOf(width) + gap
	}
	for _, x := range s.page.Held {
		high = max(high, []float32{headHigh, headHigh, twoRows, threeRows, fourRows}[min(4, rowsOf(x.Word, words-tileEdges))])
	}
	if beside {
		return max(high, heldHigh), beside
	}
	return high + heldClose + heldHigh, beside
}

// keysOf is how much of a line's width its keys take.
func keysOf(width float32) float32 { return max(keysMax*(heldKey+gap)-gap, width/2) }

// lay puts the words of a line and its keys.
func (h *heldParts) lay(put look.Put, c look.Box, beside bool, shown int) {
	keys := look.At(c.X, c.Y+c.H-heldHigh, c.W, heldHigh)
	words := look.At(c.X, c.Y, c.W, c.H-heldHigh-heldClose)
	if beside {
		wide := keysOf(c.W)
		keys = look.At(c.X+c.W-wide, c.Y, wide, c.H)
		words = look.At(c.X, c.Y, c.W-wide-gap, c.H)
	}
	words.Put(put, h.word)
	for i, k := range keys.Cells(shown, 1) {
		if i == shown-1 {
			i = heldOne
		}
		k.Put(put, h.keys[i])
	}
}

// layHeldLow puts the way back, what was chosen so far, and the way to the rest.
func (s *Screen) layHeldLow(put look.Put, low look.Box, lead, more bool) {
	p := &s.parts
	tiles := []*look.Tile{p.back}
	if lead {
		tiles = append(tiles, p.lead)
	}
	if more {
		tiles = append(tiles, p.turn)
	}
	for i, c := range low.Cells(max(2, len(tiles)), 1) {
		if i < len(tiles) {
			c.Put(put, tiles[i])
		}
	}
}
