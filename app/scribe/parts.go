package scribe

import (
	"time"

	"fyne.io/fyne/v2"

	"lintel/app/look"
)

// Bounds of what the first page has parts for.
const (
	timesMax  = 24
	clocksMax = 3
	lateMax   = 4
)

// parts are the widgets of the first page, by name.
type parts struct {
	head   *look.Banner
	fault  *look.Fault
	undo   *look.Press
	undoes *look.Banner
	turn   *look.Tile
	noted  *look.Tile
	other  *look.Tile // on a phone, to what has no tile there
	late   [lateMax]*look.Tile
	tiles  [timesMax]*look.Tile
	says   [timesMax]*look.Banner
	lines  [timesMax]*look.Press // the times, where there is less room
	labels [clocksMax]*look.Banner
	clocks [clocksMax]*look.BigClock
	clock  *look.BigClock // the first without its marks, on a phone
}

func (s *Screen) newParts() parts {
	l := s.opt.Look
	tile := func(tapped func()) *look.Tile { return look.NewTile(l, look.UseOutside, tapped) }
	p := parts{
		head: look.NewBanner(l, look.DeskLine, 2), fault: look.NewFault(l, look.DeskLine, 4), undoes: look.NewBanner(l, look.DeskLine, 2), turn: tile(s.turn), clock: look.NewBigClock(l),
		noted: tile(func() { s.pick(pick{what: picksStep, step: stepNoted}) }), other: tile(func() { s.pick(pick{what: picksStep, step: stepElse}) }),
	}
	p.undo = look.NewPress(l, look.UseOutside, p.undoes, s.undo)
	for i := range p.late {
		p.late[i] = tile(func() { s.lateNth(i) })
	}
	for i := range p.tiles {
		p.tiles[i] = tile(func() { s.note(s.from + i) })
		p.says[i] = look.NewBanner(l, look.DeskLine, 2)
		p.lines[i] = look.NewPress(l, look.UseOutside, p.says[i], func() { s.note(s.from + i) })
	}
	for i := range p.clocks {
		p.labels[i], p.clocks[i] = look.NewBanner(l, look.DeskLine, 1), look.NewBigClock(l)
	}
	return p
}

func (s *Screen) lateNth(i int) {
	if all := lateBy(); i < len(all) {
		s.late(all[i])
		return
	}
	s.pick(pick{what: picksType, to: toLate})
}

// all are the parts in the order of painting.
func (p *parts) all() (all []fyne.CanvasObject) {
	all = append(all, p.head, p.fault, p.clock)
	for i, c := range p.clocks {
		all = append(all, p.labels[i], c)
	}
	for i, t := range p.tiles {
		all = append(all, t, p.lines[i])
	}
	for _, t := range p.late {
		all = append(all, t)
	}
	return append(all, p.undo, p.turn, p.noted, p.other)
}

// set copies rows into the parts; times are copied when they are put.
func (p *parts) set(s *Screen) {
	w := s.opt.Words
	p.head.Set(s.rows.Head)
	p.fault.Say(s.hand.fault[0], s.hand.fault[1])
	p.undoes.Set(s.rows.Undo)
	p.turn.Set(look.TileFace{Word: w.Say("list.after")})
	p.noted.Set(look.TileFace{Word: w.Say("scribe.noted")})
	p.other.Set(look.TileFace{Word: w.Say("scribe.else")})
	for i := range p.late {
		p.late[i].Set(s.rows.Late[i])
	}
	if len(s.rows.Clocks) > 0 {
		f := s.rows.Clocks[0].Clock
		f.Marks = [2]time.Duration{}
		p.clock.Set(f)
	}
	for i := range p.clocks {
		if i < len(s.rows.Clocks) {
			p.labels[i].Set(s.rows.Clocks[i].Label)
			p.clocks[i].Set(s.rows.Clocks[i].Clock)
		}
	}
}
