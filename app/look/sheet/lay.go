package sheet

import "lintel/app/look"

// Measures of a sheet, in mm.
const (
	wideFrom   = 200.0 // width of two columns of lines with three rows each
	broadFrom  = 130.0 // width from which there is room beside each other
	headHigh   = 11.5
	tellHigh   = 16.5
	lineHigh   = 16.5 // three rows
	narrowLine = 21.5 // four
	tinyLine   = 26.5 // five, also of what has to be known
	tinyBelow  = 64.0
	rowHigh    = 13.0 // of the way back
	backWide   = 34.0
	turnWide   = 50.0
	keysWide   = 75.0
	typedHigh  = 11.5
	choiceWide = 58.0 // least, of a word or two
	longWide   = 75.0 // least, of more
	veryLong   = 24   // letters of a word that needs three rows
	threeRows  = 33.0
	longFrom   = 14   // letters of a word that need it
	choiceHigh = 23.0 // least of two rows
	choiceMost = 34.0
	wordShare  = 0.4 // of the height, for the largest letters over choices
	wordLeast  = 20.0
)

// Rows of the parts that say something.
const (
	headRows = 2
	tellRows = 3
	lineRows = 3
)

// Lay puts the page into an area, in mm.
func (s *Sheet[P]) Lay(put look.Put, area look.Box) {
	if s.face.Keys != nil {
		s.layKeys(put, area)
		return
	}
	area = s.layBar(put, s.layHead(put, area))
	if s.face.Word.Word != "" {
		area = s.layWord(put, area)
	}
	if len(s.face.Lines) > 0 {
		area = s.layLines(put, area)
	}
	s.layChoices(put, area)
	s.copy() // how many are seen is known now
}

// take cuts a piece from the upper end of an area.
func take(area look.Box, high, gap float32) (piece, rest look.Box) {
	piece = look.At(area.X, area.Y, area.W, high)
	return piece, look.At(area.X, area.Y+high+gap, area.W, area.H-high-gap)
}

func (s *Sheet[P]) layHead(put look.Put, area look.Box) look.Box {
	var piece look.Box
	if s.face.Head != "" {
		piece, area = take(area, headHigh, 1)
		if area.W >= broadFrom {
			piece.Put(put, s.title)
		} else {
			piece.Put(put, s.head)
		}
	}
	if s.face.Tell.Sentence != "" {
		high := float32(tellHigh)
		if area.W < tinyBelow {
			high = tinyLine
		}
		piece, area = take(area, high, 1)
		piece.Put(put, s.tell)
	}
	area.Y, area.H = area.Y+1, area.H-1
	return area
}

// layBar puts the way back, and gives what is left above it. Whether there is
// more to see is known once the rest was put; the place beside is kept for it.
func (s *Sheet[P]) layBar(put look.Put, area look.Box) look.Box {
	put(s.back, area.X, area.Y+area.H-rowHigh, min(backWide, (area.W-look.GapMin)/2), rowHigh)
	area.H -= rowHigh + look.GapMin
	return area
}

// layTurn puts the way to what did not fit beside the way back.
func (s *Sheet[P]) layTurn(put look.Put, above look.Box) {
	wide := min(turnWide, (above.W-look.GapMin)/2)
	s.narrow = wide < turnWide
	put(s.turn, above.X+above.W-wide, above.Y+above.H+look.GapMin, wide, rowHigh)
}

func (s *Sheet[P]) layWord(put look.Put, area look.Box) look.Box {
	high := area.H
	if len(s.face.Choices)+len(s.face.Lines) > 0 {
		high = max(wordLeast, area.H*wordShare)
		if len(s.face.Lines) == 0 {
			_, wide := s.needs()
			columns := look.Fitting(area.W, wide)
			rows := (len(s.face.Choices) + columns - 1) / columns
			high = max(high, area.H-float32(rows)*(choiceHigh+look.GapMin))
		}
	}
	piece, rest := take(area, high, look.GapMin)
	piece.Put(put, s.word)
	return rest
}

// layLines puts lines in as many columns as are broad enough, and gives what is
// left below for the tiles. Where both have no room, the tiles are the page
// after the last line.
func (s *Sheet[P]) layLines(put look.Put, area look.Box) look.Box {
	below, all := look.Box{}, area
	columns, least := 1, float32(narrowLine)
	switch {
	case area.W >= wideFrom:
		columns, least = 2, lineHigh
	case area.W >= broadFrom:
		columns = 2
	case area.W < tinyBelow:
		least = tinyLine
	}
	s.tight = false
	if n := len(s.face.Choices); n > 0 {
		tile, wide := s.needs()
		across := look.Fitting(area.W, wide)
		rows := (n + across - 1) / across
		high := float32(rows)*(tile+look.GapMin) - look.GapMin
		if s.tight = area.H-high-look.GapMin < least; !s.tight {
			below = look.At(area.X, area.Y+area.H-high, area.W, high)
			area.H -= high + look.GapMin
		}
	}
	rows := look.Fitting(area.H, least)
	s.shown = min(columns*rows, LinesMax)
	if s.tight || len(s.face.Lines) > s.shown {
		s.layTurn(put, all)
	}
	if s.from >= len(s.face.Lines) {
		s.shown = 1
		return all
	}
	rows = min(rows, (len(s.face.Lines)+columns-1)/columns)
	area.H = min(area.H, float32(rows)*(least+look.GapMin)-look.GapMin)
	cells := area.Cells(columns, rows)
	for i := range min(s.shown, len(s.face.Lines)-s.from) {
		x := s.face.Lines[s.line(i)]
		if x.Still {
			s.still[i].Set(x.Face)
			cells[i].Put(put, s.still[i])
			continue
		}
		s.says[i].Set(x.Face)
		cells[i].Put(put, s.lines[i])
	}
	return below
}

// layChoices puts tiles: as many as fit, each as high as its words need.
func (s *Sheet[P]) layChoices(put look.Put, area look.Box) {
	all := s.face.Choices
	if len(all) == 0 || area.H <= 0 {
		return
	}
	under := len(s.face.Lines) > 0
	least, wide := s.needs()
	columns := look.Fitting(area.W, wide)
	rows := min(look.Fitting(area.H, least), (len(all)+columns-1)/columns)
	if !under {
		if s.shown = min(columns*rows, ChoicesMax); len(all) > s.shown {
			s.layTurn(put, area)
		}
	}
	full := area
	full.H = min(area.H, float32(rows)*(choiceMost+look.GapMin)-look.GapMin)
	for i, cell := range full.Cells(columns, rows) {
		if n := s.choice(i); n < len(all) && i < ChoicesMax {
			s.choices[i].Set(all[n].Face)
			cell.Put(put, s.choices[i])
		}
	}
}

// needs is the least size of a tile for the words that stand on them.
func (s *Sheet[P]) needs() (high, wide float32) {
	high, wide = rowHigh, choiceWide
	for _, c := range s.face.Choices {
		if c.Face.Detail != "" || c.Face.Note != "" || len(c.Face.Word) > longFrom {
			high, wide = max(high, choiceHigh), longWide
		}
		if len(c.Face.Word) > veryLong {
			high = threeRows
		}
	}
	return high, wide
}

// layKeys puts what is asked, what was typed, and the keys: beside each other
// on a broad screen.
func (s *Sheet[P]) layKeys(put look.Put, area look.Box) {
	if area.W >= broadFrom {
		left := look.At(area.X, area.Y, area.W-keysWide-look.GapMin, area.H)
		put(s.keys, left.X+left.W+look.GapMin, area.Y, keysWide, area.H)
		s.layHead(put, left)
		y := left.Y + headHigh + tellHigh + 3
		put(s.typed, left.X, y, left.W, left.Y+left.H-y)
		return
	}
	piece, rest := take(area, tellHigh, 1)
	piece.Put(put, s.tell)
	piece, rest = take(rest, typedHigh, 1)
	piece.Put(put, s.typed)
	rest.Put(put, s.keys)
}
