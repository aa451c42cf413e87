package charge

import (
	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/app/look/picture"
)

// Bounds of what the screen has parts for.
const (
	linesMax   = 24
	buttonsMax = 9
	slotsMax   = 8
	rowsMax    = 8 // of the table
	shortRows  = 2
	nearRows   = 3
	longRows   = 4
)

// button is a way, read at a desk.
type button struct {
	face *look.Banner
	hold *look.Press
}

// parts are the widgets, by name.
type parts struct {
	head    *look.Banner
	long    *look.Banner // the same where it is narrow
	tell    *look.Banner
	tells   *look.Banner // the same where it is narrow
	notice  *look.Banner
	empty   *look.Banner
	undo    button
	back    button
	more    button
	entry   *look.Entry
	shown   *picture.Picture // of the item, or of the shelves of a place
	rows    [linesMax]*look.Row
	near    [linesMax]dense // lines where there are many, in smaller letters
	tight   [linesMax]dense // the same with more rows, where it is narrow
	buttons [buttonsMax]button
	columns [slotsMax]*look.Banner
	slots   [rowsMax][slotsMax]*look.Banner
}

func (s *Screen) newButton(tapped func()) button {
	b := button{face: look.NewBanner(s.opt.Look, look.DeskLine, shortRows)}
	b.hold = look.NewPress(s.opt.Look, look.UseOutside, b.face, tapped)
	return b
}

func (s *Screen) newParts() parts {
	l := s.opt.Look
	says := func(rows int) *look.Banner { return look.NewBanner(l, look.DeskLine, rows) }
	p := parts{head: says(shortRows), long: says(shortRows), tell: says(shortRows), tells: says(nearRows), notice: says(shortRows), empty: says(nearRows), entry: look.NewEntry(l)}
	p.shown = picture.New(l, s.opt.Pictures)
	p.undo, p.back, p.more = s.newButton(s.undo), s.newButton(s.back), s.newButton(s.turn)
	p.entry.OnChanged = s.typed
	for i := range p.rows {
		p.rows[i] = look.NewRow(l, look.UseOutside, func() { s.rowNth(i) })
		p.near[i], p.tight[i] = s.newDense(i, nearRows), s.newDense(i, longRows)
	}
	for i := range p.buttons {
		p.buttons[i] = s.newButton(func() { s.buttonNth(i) })
	}
	for i := range p.columns {
		p.columns[i] = says(shortRows)
		for n := range p.slots {
			p.slots[n][i] = says(longRows)
		}
	}
	return p
}

func (s *Screen) rowNth(i int) {
	n := s.from + i
	switch {
	case s.view.Sheet != nil:
	case s.view.Table != nil && n < len(s.view.Table.Rows):
		s.pick(s.view.Table.Rows[n].Pick)
	case n < len(s.view.Lines):
		s.pick(s.view.Lines[n].Pick)
	}
}

func (s *Screen) buttonNth(i int) {
	if s.view.Sheet == nil && i < len(s.view.Buttons) {
		s.pick(s.view.Buttons[i].Pick)
	}
}

// all are the parts in the order of painting.
func (p *parts) all() (all []fyne.CanvasObject) {
	all = append(all, p.head, p.long, p.tell, p.tells, p.notice, p.undo.hold, p.empty, p.entry, p.shown)
	for _, c := range p.columns {
		all = append(all, c)
	}
	for i, r := range p.rows {
		all = append(all, r, p.near[i].hold, p.near[i].still, p.tight[i].hold, p.tight[i].still)
		if i < rowsMax {
			for _, c := range p.slots[i] {
				all = append(all, c)
			}
		}
	}
	for _, b := range p.buttons {
		all = append(all, b.hold)
	}
	return append(all, p.more.hold, p.back.hold)
}

// set copies the view into the parts; lines are copied when they are put.
func (p *parts) set(s *Screen) {
	w, v := s.opt.Words, s.view
	p.head.Set(v.Head)
	p.long.Set(look.BannerFace{Icon: v.Head.Icon, Sentence: v.Head.Sentence})
	p.tell.Set(v.Tell)
	p.tells.Set(v.Tell)
	p.empty.Set(look.BannerFace{Sentence: v.Empty})
	p.notice.Set(s.notice())
	p.shown.Set(s.pictured())
	p.undo.face.Set(look.BannerFace{Icon: look.IconUndo, Sentence: w.Say("brief.undo")})
	p.back.face.Set(look.BannerFace{Sentence: w.Say("inside.back")})
	switch s.hand.step {
	case stepWhy:
		p.entry.SetPlaceHolder(w.Say("charge.why.type"))
	case stepSeal, stepBoxSeal:
		p.entry.SetPlaceHolder(w.Say("charge.seal.type"))
	case stepWords, stepRead, stepFile:
		p.entry.SetPlaceHolder(w.Say("charge.form.type"))
	default:
		p.entry.SetPlaceHolder(w.Say("charge.search"))
	}
	for i, b := range v.Buttons[:min(len(v.Buttons), buttonsMax)] {
		p.buttons[i].face.Set(b.Face)
		p.buttons[i].hold.SetOff(b.Off)
	}
}

// notice is what went wrong, what is not saved, or what was recorded last.
func (s *Screen) notice() look.BannerFace {
	w := s.opt.Words
	switch {
	case s.hand.fault[0] != "":
		return look.BannerFace{Icon: look.IconNotSaved, Sentence: s.hand.fault[0], Hint: s.hand.fault[1], Tone: look.ToneFault}
	case s.snap.InMemory:
		return look.BannerFace{Icon: look.IconNotSaved, Sentence: w.Say("brief.memory"), Tone: look.ToneFault}
	case s.hand.said != "" && s.hand.step == stepNone:
		return look.BannerFace{Icon: look.IconSaved, Sentence: s.hand.said}
	}
	return look.BannerFace{}
}

// lineSort is how a line is read.
type lineSort int

const (
	lineFar lineSort = iota
	lineNear
	lineTight
)

// dense is a line in smaller letters, to be tapped or only read.
type dense struct {
	button
	still *look.Banner
}

func (s *Screen) newDense(i, rows int) dense {
	d := dense{still: look.NewBanner(s.opt.Look, look.DeskLine, rows)}
	d.face = look.NewBanner(s.opt.Look, look.DeskLine, rows)
	d.hold = look.NewPress(s.opt.Look, look.UseOutside, d.face, func() { s.rowNth(i) })
	return d
}

// line gives a line its part, and the part.
func (p *parts) line(i int, x Line, sort lineSort) fyne.CanvasObject {
	f := x.Face
	if sort == lineFar {
		p.rows[i].Set(f)
		return p.rows[i]
	}
	d := p.near[i]
	if sort == lineTight {
		d = p.tight[i]
	}
	b := look.BannerFace{Sentence: joined(f.Word, f.State), Hint: f.Detail}
	if f.Off {
		b.Tone = f.Tone
		d.still.Set(b)
		return d.still
	}
	d.face.Set(b)
	return d.hold
}
