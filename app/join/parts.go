package join

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"lintel/app/look"
)

// Bounds of what a screen has parts for.
const (
	linesMax   = 10
	choicesMax = 16
	lineRows   = 3 // of a device's sentence, and of its hint
)

// parts are the widgets, by name.
type parts struct {
	head    *look.Banner
	tell    *look.Banner
	fault   *look.Fault
	word    *look.BigWord // read from 2 m, in one row
	rows    *look.BigWord // the same on a phone, in several
	typed   *look.BigWord
	entry   *widget.Entry
	keys    *look.Keypad
	turn    *look.Tile
	lines   [linesMax]*look.Banner
	choices [choicesMax]*look.Tile
}

func (s *Screen) newParts() parts {
	l := s.opt.Look
	p := parts{
		head: look.NewBanner(l, look.DeskLine, 2), tell: look.NewBanner(l, look.DeskLine, 3), fault: look.NewFault(l, look.DeskLine, 4),
		word: look.NewBigWord(l, look.WallWord), rows: look.NewBigWord(l, look.WallWord), typed: look.NewBigWord(l, look.DeskLine), entry: widget.NewEntry(),
		turn: look.NewTile(l, look.UseOutside, s.turn),
	}
	p.keys = look.NewKeypad(l, look.UseOutside, look.KeypadKeys{Digit: s.typeDigit, Erase: s.erase, Done: s.done})
	for i := range p.lines {
		p.lines[i] = look.NewBanner(l, look.DeskLine, lineRows)
	}
	for i := range p.choices {
		p.choices[i] = look.NewTile(l, look.UseOutside, func() { s.pickNth(i) })
	}
	return p
}

func (s *Screen) pickNth(i int) {
	if n := s.choice(i); n < len(s.page.Choices) {
		s.pick(s.page.Choices[n].Pick)
	}
}

// choice is which choice stands on the i-th tile. Only one of devices and
// choices has more than one page.
func (s *Screen) choice(i int) int {
	if len(s.page.Lines) > 0 {
		return i
	}
	return s.hand.from + i
}

// all are the parts in the order of painting.
func (p *parts) all() (all []fyne.CanvasObject) {
	all = append(all, p.head, p.tell, p.fault, p.word, p.rows, p.typed, p.entry, p.keys, p.turn)
	for _, b := range p.lines {
		all = append(all, b)
	}
	for _, t := range p.choices {
		all = append(all, t)
	}
	return all
}

// set copies the page into the parts.
func (p *parts) set(s *Screen) {
	w := s.opt.Words
	p.head.Set(look.BannerFace{Sentence: s.page.Head})
	p.tell.Set(s.page.Tell)
	p.fault.Say(s.hand.fault[0], s.hand.fault[1])
	p.word.Set(look.BigWordFace{Word: s.page.Word})
	p.rows.Set(look.BigWordFace{Word: strings.ReplaceAll(s.page.Word, "\u00a0", " ")})
	p.typed.Set(look.BigWordFace{Word: s.page.Word})
	p.entry.SetPlaceHolder(s.page.Hint)
	p.turn.Set(look.TileFace{Word: w.Say("list.after")})
	if s.page.Keys != nil {
		p.keys.Set(*s.page.Keys)
	}
	for i := range p.lines {
		if n := s.hand.from + i; n < len(s.page.Lines) {
			p.lines[i].Set(s.page.Lines[n])
		}
	}
	for i := range p.choices {
		if n := s.choice(i); n < len(s.page.Choices) {
			p.choices[i].Set(s.page.Choices[n].Face)
		}
	}
}
