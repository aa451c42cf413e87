package runner

import (
	"lintel/app/look"
	"lintel/app/look/picture"
	"lintel/app/words"
)

// lookPage shows what a thing looks like and where it lies, under its words: a
// picture alone names nothing.
func lookPage(w words.Words, r Request) Page {
	p := Page{Head: fitting(r.Kept, phoneText, 1), Whole: r.Kept}
	p.Word = w.Thing(int64(r.Thing.Count), r.Thing.Name, words.Measured(string(r.Thing.Strength)))
	return p
}

// Measures of pictures beside the words of a request, in mm.
const (
	besideLooks = 36.0
	besideShelf = 58.0
	besideWords = 66.0 // left for the words, at least
)

// layBeside puts what the open request's thing looks like, and where it lies, at the
// right end of a row, as far as the words keep their room, and gives what is left.
func (s *Screen) layBeside(put look.Put, row look.Box, a areas) look.Box {
	if s.hand.step != stepRequest || a.phone {
		return row
	}
	p := &s.parts
	for _, x := range []struct {
		picture *picture.Picture
		wide    float32
	}{{p.shelf, besideShelf}, {p.looks, besideLooks}} {
		if left := row.W - x.wide - gap; x.picture.Held() && left >= besideWords {
			put(x.picture, row.X+left+gap, row.Y, x.wide, row.H)
			row.W = left
		}
	}
	return row
}

// layLook puts both pictures, beside each other where that leaves them larger.
func (s *Screen) layLook(put look.Put, a areas) {
	p, area := &s.parts, a.main
	low := look.At(area.X, area.Y+area.H-barHigh, area.W, barHigh).Cells(2, 1)
	low[0].Put(put, p.back)
	area.H -= barHigh + gap
	s.layHead(put, take(&area, headHigh))
	if area.H > phoneTall-2*headHigh || !a.phone {
		take(&area, twoRows).Put(put, p.word)
	}
	switch looks, shelf := p.looks.Held(), p.shelf.Held(); {
	case looks && shelf && a.phone:
		cells := area.Cells(1, 2)
		cells[0].Put(put, p.looks)
		cells[1].Put(put, p.shelf)
	case looks && shelf:
		put(p.looks, area.X, area.Y, area.W/3, area.H)
		put(p.shelf, area.X+area.W/3+gap, area.Y, area.W*2/3-gap, area.H)
	case looks:
		area.Put(put, p.looks)
	case shelf:
		area.Put(put, p.shelf)
	}
}
