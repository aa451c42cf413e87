package debrief

import (
	"fyne.io/fyne/v2"

	"lintel/app/look"
)

// Bounds of what the screen has parts for.
const (
	buttonsMax = 11
	zoomsMax   = 4
	figuresMax = 16
	columnsMax = 10 // of cases beside each other, all together not counted
	shortRows  = 2
	legendRows = 3
	longRows   = 4
)

// button is a way, read at a desk.
type button struct {
	face *look.Banner
	hold *look.Press
}

// column is one case of the table.
type column struct {
	head  *look.Banner
	cells [figuresMax]*look.Banner
}

// parts are the widgets, by name.
type parts struct {
	head    *look.Banner
	long    *look.Banner // the same where it is narrow
	notice  *look.Banner
	undo    button
	chart   *look.Chart
	ruler   *look.Chart // never seen: how high a picture becomes
	legend  *look.Banner
	brief   *look.Banner // in its place where it is narrow
	answer  *look.Banner
	entry   *look.Entry
	record  button
	labels  [figuresMax]*look.Banner
	columns [columnsMax + 1]column // the last one is all cases
	more    button                 // to further columns, or lanes
	zooms   [zoomsMax]button
	buttons [buttonsMax]button
}

func (s *Screen) newButton(tapped func()) button {
	b := button{face: look.NewBanner(s.opt.Look, look.DeskLine, shortRows)}
	b.hold = look.NewPress(s.opt.Look, look.UseOutside, b.face, tapped)
	return b
}

func (b button) set(x Button) {
	b.face.Set(x.Face)
	b.hold.SetOff(x.Off)
}

func (s *Screen) newParts() parts {
	l := s.opt.Look
	says := func(rows int) *look.Banner { return look.NewBanner(l, look.DeskLine, rows) }
	p := parts{head: says(shortRows), long: says(longRows), notice: says(shortRows), chart: look.NewChart(l), ruler: look.NewChart(l), legend: says(legendRows), brief: says(longRows), answer: says(shortRows), entry: look.NewEntry(l)}
	p.undo = s.newButton(func() { s.pick(pick{what: picksUndo}) })
	p.more = s.newButton(func() { s.pick(pick{what: picksTurn}) })
	p.record = s.newButton(func() {
		if r := s.page.Record; r != nil && !r.Off {
			s.pick(r.pick)
		}
	})
	p.entry.OnChanged = s.typed
	for i := range p.labels {
		p.labels[i] = says(1)
	}
	for i := range p.columns {
		p.columns[i].head = says(shortRows)
		for n := range p.columns[i].cells {
			p.columns[i].cells[n] = says(1)
		}
	}
	for i := range p.zooms {
		p.zooms[i] = s.newButton(func() { s.press(s.page.Zooms, i) })
	}
	for i := range p.buttons {
		p.buttons[i] = s.newButton(func() { s.press(s.page.Buttons, i) })
	}
	return p
}

// press does what one of some buttons is for.
func (s *Screen) press(all []Button, i int) {
	if i < len(all) && !all[i].Off {
		s.pick(all[i].pick)
	}
}

// all are the parts in the order of painting.
func (p *parts) all() (all []fyne.CanvasObject) {
	all = append(all, p.head, p.long, p.notice, p.undo.hold, p.chart, p.legend, p.brief, p.answer, p.entry, p.record.hold)
	for i := range p.labels {
		all = append(all, p.labels[i])
	}
	for i := range p.columns {
		all = append(all, p.columns[i].head)
		for _, c := range p.columns[i].cells {
			all = append(all, c)
		}
	}
	all = append(all, p.more.hold)
	for _, b := range append(p.zooms[:], p.buttons[:]...) {
		all = append(all, b.hold)
	}
	return all
}

// set copies the page into the parts. Columns are set where they are put.
func (p *parts) set(s *Screen) {
	w := s.opt.Words
	p.head.Set(s.page.Head)
	p.long.Set(s.page.Head)
	p.notice.Set(s.page.Notice)
	p.undo.face.Set(look.BannerFace{Icon: look.IconUndo, Sentence: w.Say("brief.undo")})
	p.legend.Set(look.BannerFace{Hint: w.Say("debrief.legend")})
	p.brief.Set(look.BannerFace{Hint: w.Say("debrief.legend-short")})
	p.answer.Set(s.page.Answer)
	p.entry.SetPlaceHolder(w.Say("debrief.typed"))
	if s.page.Record != nil {
		p.record.set(*s.page.Record)
	}
	if c := s.page.Compare; c != nil {
		for i, label := range c.Labels[:min(len(c.Labels), figuresMax)] {
			p.labels[i].Set(look.BannerFace{Sentence: label})
		}
	}
	for i, b := range s.page.Zooms {
		p.zooms[i].set(b)
	}
	for i, b := range s.page.Buttons[:min(len(s.page.Buttons), buttonsMax)] {
		p.buttons[i].set(b)
	}
}

// set copies a case into a column of the table.
func (c *column) set(x Column) {
	c.head.Set(x.Head)
	for i, cell := range x.Cells[:min(len(x.Cells), figuresMax)] {
		c.cells[i].Set(look.BannerFace{Sentence: cell})
	}
}
