package brief

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"lintel/app/look"
)

// Bounds of what a screen has parts for.
const (
	rowsMax    = 24
	tilesMax   = 24
	buttonsMax = 4
	shortRows  = 2 // of a sentence, and of what stands behind it, where they are short
	longRows   = 4 // and where they are not
)

// saying is a sentence that has room for few rows of letters or for many: a part
// asks for the room of all its rows, so a short one is another part.
type saying struct{ short, long *look.Banner }

func (s *Screen) newSaying() saying {
	return saying{look.NewBanner(s.opt.Look, s.reads(), shortRows), look.NewBanner(s.opt.Look, s.reads(), longRows)}
}

// says sets and gives the one that is meant.
func (x saying) says(f look.BannerFace, long bool) *look.Banner {
	b := x.short
	if long {
		b = x.long
	}
	b.Set(f)
	return b
}

// line is one row: tapped as a whole or only read, and what stands beside it.
type line struct {
	read   saying
	tapped saying
	short  *look.Press
	long   *look.Press
	side   *look.Banner
	aside  *look.Press
}

// button is what can be done with the whole page.
type button struct {
	face *look.Banner
	hold *look.Press
}

// parts are the widgets, by name.
type parts struct {
	head    saying
	undo    button
	tell    saying
	fault   *look.Fault
	word    *look.BigWord
	entry   *widget.Entry
	stepper *look.Stepper
	turn    button
	turning *look.Tile // among tiles
	lines   [rowsMax]line
	tiles   [tilesMax]*look.Tile
	buttons [buttonsMax]button
}

// reads is from how far the pages are read: at a desk or from the hand, inside
// at arm's length.
func (s *Screen) reads() look.Role {
	if s.opt.Inside {
		return look.InsideTile
	}
	return look.DeskLine
}

func (s *Screen) use() look.Use {
	if s.opt.Inside {
		return look.UseInside
	}
	return look.UseOutside
}

func (s *Screen) newButton(rows int, tapped func()) button {
	b := button{face: look.NewBanner(s.opt.Look, s.reads(), rows)}
	b.hold = look.NewPress(s.opt.Look, s.use(), b.face, tapped)
	return b
}

func (s *Screen) newParts() parts {
	l, reads := s.opt.Look, s.reads()
	p := parts{
		head: s.newSaying(), tell: s.newSaying(), fault: look.NewFault(l, reads, longRows),
		word: look.NewBigWord(l, reads), entry: widget.NewEntry(), stepper: look.NewStepper(l, s.use(), s.step),
		turning: look.NewTile(l, s.use(), s.turn),
	}
	p.undo = s.newButton(2, s.undoLast)
	p.turn = s.newButton(2, s.turn)
	for i := range p.lines {
		x := line{read: s.newSaying(), tapped: s.newSaying(), side: look.NewBanner(l, reads, shortRows)}
		x.short = look.NewPress(l, s.use(), x.tapped.short, func() { s.pickRow(i) })
		x.long = look.NewPress(l, s.use(), x.tapped.long, func() { s.pickRow(i) })
		x.aside = look.NewPress(l, s.use(), x.side, func() { s.pickSide(i) })
		p.lines[i] = x
	}
	for i := range p.tiles {
		p.tiles[i] = look.NewTile(l, s.use(), func() { s.pickTile(i) })
	}
	for i := range p.buttons {
		p.buttons[i] = s.newButton(2, func() { s.pickButton(i) })
	}
	return p
}

func (s *Screen) pickRow(i int) {
	if n := s.hand.from + i; n < len(s.page.Rows) {
		s.pick(s.page.Rows[n].Pick)
	}
}

func (s *Screen) pickSide(i int) {
	if n := s.hand.from + i; n < len(s.page.Rows) {
		s.pick(s.page.Rows[n].Does)
	}
}

func (s *Screen) pickTile(i int) {
	if n := s.hand.from + i; n < len(s.page.Tiles) {
		s.pick(s.page.Tiles[n].Pick)
	}
}

func (s *Screen) pickButton(i int) {
	if i < len(s.page.Buttons) && !s.page.Buttons[i].Off {
		s.pick(s.page.Buttons[i].Pick)
	}
}

// all are the parts in the order of painting.
func (p *parts) all() (all []fyne.CanvasObject) {
	all = append(all, p.head.short, p.head.long, p.undo.hold, p.tell.short, p.tell.long, p.fault, p.word, p.entry, p.stepper)
	for _, x := range p.lines {
		all = append(all, x.short, x.long, x.read.short, x.read.long, x.aside)
	}
	for _, t := range p.tiles {
		all = append(all, t)
	}
	all = append(all, p.turning, p.turn.hold)
	for _, b := range p.buttons {
		all = append(all, b.hold)
	}
	return all
}

// set copies the page into the parts. A row is set where it is put: only as
// many as are seen are painted.
func (p *parts) set(s *Screen) {
	w := s.opt.Words
	p.fault.Say(s.hand.fault[0], s.hand.fault[1])
	p.word.Set(look.BigWordFace{Word: s.page.Word})
	p.entry.SetPlaceHolder(s.page.Hint)
	p.undo.face.Set(s.undoFace())
	more := look.BannerFace{Icon: look.IconMore, Sentence: w.Say("list.after")}
	p.turn.face.Set(more)
	p.turning.Set(look.TileFace{Word: more.Sentence})
	if s.page.Stepper != nil {
		p.stepper.Set(*s.page.Stepper)
	}
	for i := range p.tiles {
		if n := s.hand.from + i; n < len(s.page.Tiles) {
			t := s.page.Tiles[n]
			p.tiles[i].Set(look.TileFace{Word: t.Face.Sentence, Detail: t.Face.Hint, Icon: t.Face.Icon, Off: t.Off})
		}
	}
	for i := range p.buttons {
		if i < len(s.page.Buttons) {
			p.buttons[i].face.Set(s.page.Buttons[i].Face)
			p.buttons[i].hold.SetOff(s.page.Buttons[i].Off)
		}
	}
}
