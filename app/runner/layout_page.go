package runner

import (
	"lintel/app/look"
)

// layHead puts the question, or, while something is said above everything, the
// way to it: in the same place, so that nothing below moves.
func (s *Screen) layHead(put look.Put, box look.Box) {
	if len(s.rows.Notices) > 0 && s.hand.step != stepNotice {
		box.Put(put, s.parts.short)
		return
	}
	if s.rows.Line.Sentence != "" && s.areas(s.width, s.height).line.H == 0 {
		box.Put(put, s.parts.line)
		return
	}
	box.Put(put, s.parts.head)
}

// layChoices puts what is asked, and tiles to choose from: a row of tiles is
// as high as its words need.
func (s *Screen) layChoices(put look.Put, a areas) {
	area := a.main
	s.layHead(put, take(&area, headHigh))
	s.laySubject(put, &area, a)
	if s.page.Apart != nil {
		put(s.parts.apart, area.X, area.Y+area.H-apartHigh, area.W, apartHigh)
		area.H -= apartHigh + look.GapWithdraw
	}
	s.layTiles(put, area)
}

// laySubject puts what a page is about, and what has to be known of it.
func (s *Screen) laySubject(put look.Put, area *look.Box, a areas) {
	p, told := &s.parts, s.page.TellIn.Sentence != ""
	switch {
	case s.page.Drug.Is && area.H >= labelHigh+twoRows+2*gap:
		s.layBeside(put, take(area, labelHigh), a).Put(put, p.drug)
		if area.H >= fourRows+4*headHigh {
			s.layTell(put, area, a)
		}
	case a.phone && s.hand.step == stepNotice:
		if !a.tall || !told {
			take(area, twoRows+1).Put(put, p.word)
			return
		}
		take(area, apartHigh).Put(put, p.word)
		take(area, fourRows).Put(put, p.tellPhone)
	case a.phone && told && (s.page.Word != "" && a.tall || area.H < phoneTall-2*headHigh):
		if a.tall {
			take(area, twoRows).Put(put, p.word)
		}
		take(area, twoRows).Put(put, p.tellIn)
	case s.page.Word != "" && !(a.phone && told):
		take(area, min(max(area.H*0.28, twoRows), threeRows)).Put(put, p.word)
		fallthrough
	default:
		s.layTell(put, area, a)
	}
}

// layWord puts what a page is about in the largest letters: a drug as on its
// label, where there is room.
func (s *Screen) layWord(put look.Put, box look.Box) {
	if s.page.Drug.Is && box.H >= labelHigh {
		box.Put(put, s.parts.drug)
		return
	}
	box.Put(put, s.parts.word)
}

// layTell puts what has to be known for the answer.
func (s *Screen) layTell(put look.Put, area *look.Box, a areas) {
	p := &s.parts
	switch phone := a.phone; {
	case phone && s.page.TellIn.Sentence != "":
		take(area, fourRows).Put(put, p.tellPhone)
	case phone || s.page.Tell.Sentence == "":
	case area.H < listHigh:
		take(area, twoRows).Put(put, p.tellIn)
	default:
		box := take(area, fourRows)
		if !s.page.Drug.Is {
			box = s.layBeside(put, box, a)
		}
		box.Put(put, p.tell)
	}
}

// least is how high and how wide the choices of a page have to be.
func (p Page) least(phone bool) (high, wide float32) {
	high, wide = rowLow, choiceMin
	for _, c := range p.Choices {
		switch {
		case c.Face.Number != "" && phone:
			return 51, choiceWide
		case c.Face.Number != "":
			high, wide = max(high, fourRows+1), cardWide
		case c.Face.Detail != "" || len(c.Face.Word) > rowLetters:
			high, wide = max(high, 23), max(wide, choiceWide)
		}
	}
	return high, wide
}

// layTiles puts as many choices as fit, and the way to the others.
func (s *Screen) layTiles(put look.Put, rest look.Box) {
	if s.page.Plain {
		s.layPlain(put, rest)
		return
	}
	p, all := &s.parts, s.page.Choices
	least, wide := s.page.least(rest.W < phoneWide)
	columns := look.Fitting(rest.W, wide)
	rows := min(look.Fitting(rest.H, least), (len(all)+columns-1)/columns)
	rest.H = min(rest.H, float32(rows)*(max(choiceHigh, least)+gap)-gap)
	cells := rest.Cells(columns, rows)
	s.shown = min(len(cells), choicesMax)
	if len(all) > s.shown {
		s.shown = max(1, s.shown-1)
		last := cells[len(cells)-1]
		put(p.turn, last.X, last.Y, last.W, last.H)
	}
	for i := range min(s.shown, len(all)-s.hand.from) {
		put(p.choices[i], cells[i].X, cells[i].Y, cells[i].W, cells[i].H)
	}
}

// layPlain puts as many choices as fit, and under them the way back and to the
// others.
func (s *Screen) layPlain(put look.Put, rest look.Box) {
	p, all := &s.parts, s.page.Choices
	low := look.At(rest.X, rest.Y+rest.H-barHigh, rest.W, barHigh).Cells(2, 1)
	low[0].Put(put, p.back)
	rest.H -= barHigh + gap
	if s.page.Lead != nil {
		take(&rest, rowLow).Put(put, p.lead)
	}
	least, wide := s.page.least(rest.W < phoneWide)
	columns := look.Fitting(rest.W, wide)
	if columns == 1 && least < fourRows {
		s.layRows(put, rest, low[1])
		return
	}
	rows := look.Fitting(rest.H, least)
	s.shown = min(columns*rows, choicesMax)
	if len(all) > s.shown {
		low[1].Put(put, p.turn)
	}
	rows = min(rows, max(1, (len(all)+columns-1)/columns))
	rest.H = min(rest.H, float32(rows)*(max(choiceHigh, least)+gap)-gap)
	for i, c := range rest.Cells(columns, rows) {
		if i < s.shown && s.hand.from+i < len(all) {
			c.Put(put, p.choices[i])
		}
	}
}

// layRows puts choices of a word or a few under each other, each as high as its
// words need, and the way to the others.
func (s *Screen) layRows(put look.Put, rest, turn look.Box) {
	all := s.page.Choices
	s.shown = 0
	for n := s.hand.from; n < len(all) && s.shown < choicesMax; n++ {
		high := float32(rowLow)
		if rowsOf(all[n].Face.Word, rest.W-tileEdges+2*phoneEdge) > 1 {
			high = apartHigh
		}
		if s.shown > 0 && high > rest.H {
			break
		}
		take(&rest, high).Put(put, s.parts.choices[s.shown])
		s.shown++
	}
	if s.shown < len(all) {
		turn.Put(put, s.parts.turn)
	}
}

// layCounts puts the counts as on keys, three beside each other.
func (s *Screen) layCounts(put look.Put, a areas) {
	const across, down = 3, 4
	area := a.main
	if !a.phone {
		left := look.At(area.X, area.Y, area.W-keyWide-gap, area.H)
		s.layHead(put, take(&left, headHigh))
		s.layWord(put, look.At(left.X, left.Y, left.W, min(left.H, labelHigh+gap)))
		area = look.At(area.X+area.W-keyWide, area.Y, keyWide, area.H)
	} else {
		if area.H >= phoneTall {
			s.layHead(put, take(&area, headHigh))
		}
		s.layWord(put, take(&area, max(headHigh, min(area.H-4*headHigh-4*gap, labelHigh))))
	}
	s.shown = len(s.page.Choices)
	for i, c := range area.Cells(across, down) {
		if i < len(s.page.Choices) {
			c.Put(put, s.parts.choices[i])
		}
	}
}

// layKeys puts what is asked, what was typed, and the keys: beside each other
// on a broad screen.
func (s *Screen) layKeys(put look.Put, a areas) {
	p, area := &s.parts, a.main
	if !a.phone {
		left := look.At(area.X, area.Y, area.W-keyWide-gap, area.H)
		s.layHead(put, take(&left, headHigh))
		take(&left, twoRows).Put(put, p.tellIn)
		put(p.word, left.X, left.Y, left.W, min(left.H, 60))
		put(p.keys, area.X+area.W-keyWide, area.Y, keyWide, min(area.H, 110))
		return
	}
	if a.tall {
		s.layHead(put, take(&area, headHigh))
	}
	put(p.tellIn, area.X, area.Y, area.W, twoRows)
	put(p.word, area.X, area.Y+twoRows+0.7, area.W, headHigh)
	y := area.Y + twoRows + headHigh + 1.4
	put(p.keys, area.X, y, area.W, area.Y+area.H-y)
}
