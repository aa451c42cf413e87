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

func (s *Screen) newSaying(r look.Role) saying {
	return saying{look.NewBanner(s.opt.Look, r, shortRows), look.NewBanner(s.opt.Look, r, longRows)}
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

// button is what can be done: a tile, or where there is little room a sentence
// that is tapped.
type button struct {
	tile *look.Tile
	face *look.Banner
	hold *look.Press
}

func (s *Screen) newButton(tapped func()) button {
	l := s.opt.Look
	b := button{tile: look.NewTile(l, look.UseInside, tapped), face: look.NewBanner(l, s.near(), shortRows)}
	b.hold = look.NewPress(l, s.use(), b.face, tapped)
	return b
}

// set shows a face, and gives the part that fits the page.
func (b button) set(f look.BannerFace, off, roomy bool) fyne.CanvasObject {
	if roomy {
		b.tile.Set(look.TileFace{Word: f.Sentence, Detail: f.Hint, Icon: f.Icon, Off: off})
		return b.tile
	}
	b.face.Set(f)
	b.hold.SetOff(off)
	return b.hold
}

// line is one row of a page: a row with its state at the right, or where there
// is little room a sentence, tapped as a whole or only read.
type line struct {
	row    *look.Row
	read   saying
	tapped saying
	short  *look.Press
	long   *look.Press
	side   button
}

// parts are the widgets, by name.
type parts struct {
	head    [2]saying // from near, and from arm's length
	tell    [2]saying
	undo    button
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

// near is from how far a small page is read: from the hand; inside at arm's length.
func (s *Screen) near() look.Role {
	if s.opt.Inside {
		return look.InsideTile
	}
	return look.DeskLine
}

// reads is from how far the page is read.
func (s *Screen) reads() look.Role {
	if s.roomy {
		return look.InsideTile
	}
	return s.near()
}

func (s *Screen) use() look.Use {
	if s.opt.Inside || s.roomy {
		return look.UseInside
	}
	return look.UseOutside
}

func (s *Screen) newParts() parts {
	l := s.opt.Look
	p := parts{
		head: [2]saying{s.newSaying(s.near()), s.newSaying(look.InsideTile)}, tell: [2]saying{s.newSaying(s.near()), s.newSaying(look.InsideTile)},
		fault: look.NewFault(l, s.near(), longRows), word: look.NewBigWord(l, s.near()), entry: widget.NewEntry(),
		stepper: look.NewStepper(l, s.use(), s.step), turning: look.NewTile(l, s.use(), s.turn),
		undo: s.newButton(s.undoLast), turn: s.newButton(s.turn),
	}
	for i := range p.lines {
		tapped := func() { s.pickRow(i) }
		x := line{row: look.NewRow(l, look.UseInside, tapped), read: s.newSaying(s.near()), tapped: s.newSaying(s.near())}
		x.short = look.NewPress(l, s.use(), x.tapped.short, tapped)
		x.long = look.NewPress(l, s.use(), x.tapped.long, tapped)
		x.side = s.newButton(func() { s.pickSide(i) })
		p.lines[i] = x
	}
	for i := range p.tiles {
		p.tiles[i] = look.NewTile(l, s.use(), func() { s.pickTile(i) })
	}
	for i := range p.buttons {
		p.buttons[i] = s.newButton(func() { s.pickButton(i) })
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
	say := func(sayings ...saying) {
		for _, x := range sayings {
			all = append(all, x.short, x.long)
		}
	}
	tap := func(buttons ...button) {
		for _, b := range buttons {
			all = append(all, b.tile, b.hold)
		}
	}
	say(p.head[:]...)
	tap(p.undo)
	say(p.tell[:]...)
	all = append(all, p.fault, p.word, p.entry, p.stepper)
	for _, x := range p.lines {
		all = append(all, x.row, x.short, x.long)
		say(x.read)
		tap(x.side)
	}
	for _, t := range p.tiles {
		all = append(all, t)
	}
	all = append(all, p.turning)
	tap(p.buttons[:]...)
	tap(p.turn)
	return all
}

// set copies the page into the parts. Rows, buttons and what stands over them
// are set where they are put: only what is seen is painted.
func (p *parts) set(s *Screen) {
	p.fault.Say(s.hand.fault[0], s.hand.fault[1])
	p.word.Set(look.BigWordFace{Word: s.page.Word})
	p.entry.SetPlaceHolder(s.page.Hint)
	p.turning.Set(look.TileFace{Word: s.opt.Words.Say("list.after")})
	if s.page.Stepper != nil {
		p.stepper.Set(*s.page.Stepper)
	}
	for i := range p.tiles {
		if n := s.hand.from + i; n < len(s.page.Tiles) {
			t := s.page.Tiles[n]
			p.tiles[i].Set(look.TileFace{Word: t.Face.Sentence, Detail: t.Face.Hint, Icon: t.Face.Icon, Off: t.Off})
		}
	}
}
