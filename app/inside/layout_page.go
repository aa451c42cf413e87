package inside

import (
	"strings"
	"time"
	"unicode/utf8"

	"lintel/app/look"
)

// Measures of the pages behind the board, in mm.
const (
	tellOf     = 9.5  // a row of what has to be known
	tellPhone  = 16.5 // two rows of it
	besideOf   = 66.0 // what was said
	besideFrom = 200.0
	narrowOf   = 40.0 // least, of a choice where there is little room
	logOf      = 22.5 // three rows
	realOf     = 34.0
	clockOf    = 43.0 // a clock that is read from 2 m, with its marks
	clockPhone = 26.0 // without marks
	rowOf      = 23.5 // of a phone: three rows of words
	iconFrom   = 36.0 // width of a target with words and an icon beside them
	bandOf     = 1.6  // of an exercise, above and below
)

// layPage puts the open page where the board is. Where there is no room for what
// was said beside the choices, the newest of it stands above them.
func (s *Screen) layPage(put look.Put, area look.Box) {
	p, now := &s.parts.page, s.rows.Page
	least := float32(tileWidth)
	tell := now.Tell
	if area.W < besideFrom {
		least = narrowOf
		if tell.Sentence == "" && len(now.Log) > 0 {
			tell = now.Log[0]
		}
	}
	if tell.Sentence != "" {
		banner, high := p.tell, float32(tellOf)
		if area.W < narrowBelow-2*edge {
			banner, high = p.tellIn, tellPhone
		}
		banner.Set(tell)
		put(banner, area.X, area.Y, area.W, high)
		area.Y, area.H = area.Y+high+gap, area.H-high-gap
	}
	if area.W < narrowBelow-2*edge {
		s.layFlat(put, area)
		return
	}
	if len(now.Ways) > 0 {
		row := look.At(area.X, area.Y+area.H-sideOf, area.W, sideOf)
		area.H -= sideOf + gap
		if now.Real != nil && area.W < besideFrom {
			area.W -= s.layReal(put, area)
		}
		for i, b := range row.Cells(len(now.Ways), 1) {
			s.putChoice(put, b, now.Ways[i], choicesMax-1-i)
		}
	}
	if now.Clock != nil {
		s.layClock(put, look.At(area.X, area.Y, area.W, clockOf), now.Clock.Marks)
		area.Y, area.H = area.Y+clockOf+gap, area.H-clockOf-gap
	}
	if len(now.Log) > 0 && area.W >= besideFrom {
		s.layBeside(put, look.At(area.X+area.W-besideOf, area.Y, besideOf, area.H))
		area.W -= besideOf + gap
	}
	if now.Tight {
		least = amountKeysWide
	}
	s.layChoices(put, area, now.Choices, least)
}

// layReal puts what ends an exercise beside an area, far from everything else,
// and tells how much of its width that takes.
func (s *Screen) layReal(put look.Put, area look.Box) float32 {
	put(s.parts.page.real, area.X+area.W-realOf, area.Y, realOf, min(area.H-look.GapWithdraw+gap, 2*sideOf))
	return realOf + look.GapWithdraw
}

// putChoice puts a choice on the n-th tile.
func (s *Screen) putChoice(put look.Put, b look.Box, c Choice, n int) {
	if b.W < iconFrom {
		c.Face.Icon = look.IconNone
	}
	for len(s.all) <= n {
		s.all = append(s.all, Choice{})
	}
	s.all[n] = c
	s.parts.page.choices[n].Set(c.Face)
	b.Put(put, s.parts.page.choices[n])
}

// layClock puts the running clock with the marks that there is room for.
func (s *Screen) layClock(put look.Put, area look.Box, marks [2]time.Duration) {
	face := *s.rows.Page.Clock
	face.Marks = marks
	s.parts.page.clock.Set(face)
	area.Put(put, s.parts.page.clock)
}

// layBeside puts what was said, and what ends an exercise.
func (s *Screen) layBeside(put look.Put, area look.Box) {
	p, now := &s.parts.page, s.rows.Page
	if now.Real != nil {
		const apart = look.GapWithdraw - gap
		put(p.real, area.X+apart, area.Y+area.H-sideOf-apart, area.W-apart, sideOf)
		area.H -= sideOf + 2*apart
	}
	for i := range min(len(now.Log), logMax, look.Fitting(area.H, logOf)) {
		put(p.log[i], area.X, area.Y+float32(i)*(logOf+gap), area.W, logOf)
	}
}

// layChoices puts choices into cells, in pages when there are more.
func (s *Screen) layChoices(put look.Put, area look.Box, all []Choice, wide float32) {
	columns, rows := look.Fitting(area.W, wide), look.Fitting(area.H, sideOf)
	rows = min(rows, max(2, (len(all)+columns-1)/columns))
	cells := look.At(area.X, area.Y, area.W, min(area.H, float32(rows)*(openWide+gap)-gap)).Cells(columns, rows)
	s.layCells(put, cells, all)
}

// layCells puts choices into cells, in pages when there are more.
func (s *Screen) layCells(put look.Put, cells []look.Box, all []Choice) {
	l := &s.parts.list
	room := min(len(cells), choicesMax-waysMax)
	if s.hand.from >= len(all) {
		s.hand.from = 0
	}
	if s.shown = room; len(all) > room {
		s.shown = room - 2
		cells[room-2].Put(put, l.prev)
		cells[room-1].Put(put, l.next)
		l.prev.Set(look.TileFace{Word: s.opt.Words.Say("list.before"), Off: s.hand.from == 0})
		l.next.Set(look.TileFace{Word: s.opt.Words.Say("list.after"), Off: s.hand.from+s.shown >= len(all)})
	}
	for i := range min(s.shown, len(all)-s.hand.from) {
		s.putChoice(put, cells[i], all[s.hand.from+i], i)
	}
}

// layFlat is for screens without room for two lists beside each other.
func (s *Screen) layFlat(put look.Put, area look.Box) {
	p, now := &s.parts.page, s.rows.Page
	if now.Clock != nil && area.H > 100 {
		s.layClock(put, look.At(area.X, area.Y, area.W, clockPhone), [2]time.Duration{})
		area.Y, area.H = area.Y+clockPhone+gap, area.H-clockPhone-gap
	}
	if now.Real != nil && area.H > 100 {
		put(p.real, area.X, area.Y+area.H-sideOf, area.W, sideOf)
		area.H -= sideOf + look.GapWithdraw
	}
	if s.phone {
		s.layRows(put, area, now.flat())
		return
	}
	s.layChoices(put, area, now.flat(), narrowOf)
}

// Letters and rows that a tile of half a phone's width has for its words.
const (
	halfLetters = 8
	halfRows    = 3
)

// layRows puts choices on a phone: two in a row, those with more words alone,
// and in the last row the ways back and on.
func (s *Screen) layRows(put look.Put, area look.Box, all []Choice) {
	rows := look.Fitting(area.H, rowOf)
	cells := area.Cells(1, rows)
	if s.turns = len(all); s.hand.from >= len(all) {
		s.hand.from = 0
	}
	n := s.hand.from
	for _, row := range cells[:rows-1] {
		two := row.Cells(2, 1)
		for i, b := range two {
			if n == len(all) {
				break
			}
			long := wide(all[n].Face)
			switch {
			case long && i == 0:
				s.putChoice(put, row, all[n], n-s.hand.from)
			case long:
			default:
				s.putChoice(put, b, all[n], n-s.hand.from)
			}
			if long && i == 1 {
				break
			}
			n++
			if long {
				break
			}
		}
	}
	s.shown = max(1, n-s.hand.from)
	two := cells[rows-1].Cells(2, 1)
	two[0].Put(put, s.parts.home)
	two[1].Put(put, s.parts.turn)
}

// wide tells whether a face needs a whole row of a phone.
func wide(f look.TileFace) bool {
	rows := wraps(f.Word, halfLetters) + wraps(f.Detail, halfLetters)
	if f.Note != "" || f.Number != "" || f.Band.Word != "" {
		rows++
	}
	return rows > halfRows
}

// wraps is about how many rows a text takes in so many letters.
func wraps(text string, letters int) (rows int) {
	room := 0
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		if n < room {
			room -= n + 1
			continue
		}
		rows += (n + letters - 1) / letters
		room = letters - n%letters
		if n%letters == 0 {
			room = 0
		}
	}
	return rows
}
