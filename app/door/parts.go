package door

import (
	"strings"

	"fyne.io/fyne/v2"

	"lintel/app/look"
)

// Bounds of what the first page has parts for.
const (
	peopleMax = 12
	actsMax   = 8
)

// parts are the widgets of the first page and of the sign, by name.
type parts struct {
	head   *look.Banner
	place  *look.Banner // the door, on a phone
	notice *look.Banner // on a phone, in place of the people
	fault  *look.Fault
	heard  *look.Tile
	relief *look.Tile
	undo   *look.Tile
	turn   *look.Tile
	others *look.Tile // on a phone, to what else the observer does
	empty  *look.Banner
	people [peopleMax]*look.Tile
	says   [peopleMax]*look.Banner
	lines  [peopleMax]*look.Press // people, where there is less room
	acts   [actsMax]*look.Tile

	signHead *look.Banner
	alone    *look.Banner
	nearly   *look.Sign
	clear    *look.Sign
	until    *look.BigWord // in place of clear, where it is narrow
	before   *look.Banner
	tell     *look.Banner
	brief    *look.Banner
	leave    *look.Tile
}

func (s *Screen) newParts() parts {
	l := s.opt.Look
	tile := func(tapped func()) *look.Tile { return look.NewTile(l, look.UseOutside, tapped) }
	p := parts{
		head: look.NewBanner(l, look.RunnerLine, 2), place: look.NewBanner(l, look.DeskLine, 2), notice: look.NewBanner(l, look.RunnerLine, 4), fault: look.NewFault(l, look.DeskLine, 4),
		heard: tile(s.hear), relief: tile(s.relief), undo: tile(s.undo), turn: tile(s.turn),
		others: tile(func() { s.pick(pick{what: picksStep, step: stepActs}) }), empty: look.NewBanner(l, look.RunnerLine, 3),
		signHead: look.NewBanner(l, look.DeskLine, 1), alone: look.NewBanner(l, look.DeskLine, 1), nearly: look.NewSign(l), clear: look.NewSign(l), until: look.NewBigWord(l, look.WallWord),
		before: look.NewBanner(l, look.DeskLine, 1), tell: look.NewBanner(l, look.DeskLine, 4), brief: look.NewBanner(l, look.DeskLine, 4),
		leave: tile(s.back),
	}
	for i := range p.people {
		p.people[i] = tile(func() { s.personNth(i) })
		p.says[i] = look.NewBanner(l, look.DeskLine, 2)
		p.lines[i] = look.NewPress(l, look.UseOutside, p.says[i], func() { s.personNth(i) })
	}
	for i := range p.acts {
		p.acts[i] = tile(func() { s.actNth(i) })
	}
	return p
}

func (s *Screen) personNth(i int) {
	if n := s.from + i; s.hand.step == stepHome && n < len(s.rows.People) {
		s.pick(s.rows.People[n].Pick)
	}
}

func (s *Screen) actNth(i int) {
	if s.hand.step == stepHome && i < len(s.rows.Acts) {
		s.pick(s.rows.Acts[i].Pick)
	}
}

// all are the parts in the order of painting.
func (p *parts) all() (all []fyne.CanvasObject) {
	all = append(all, p.head, p.place, p.notice, p.fault, p.heard, p.relief, p.undo, p.turn, p.others, p.empty)
	for i, t := range p.people {
		all = append(all, t, p.lines[i])
	}
	for _, t := range p.acts {
		all = append(all, t)
	}
	return append(all, p.signHead, p.alone, p.nearly, p.clear, p.until, p.before, p.tell, p.brief, p.leave)
}

// set copies rows and sign into the parts; people are copied when they are put.
func (p *parts) set(s *Screen) {
	w := s.opt.Words
	p.head.Set(s.rows.Head)
	p.place.Set(s.rows.Head)
	p.notice.Set(s.rows.Head)
	p.fault.Say(s.hand.fault[0], s.hand.fault[1])
	p.heard.Set(s.rows.Heard)
	p.relief.Set(s.rows.Relief)
	p.undo.Set(s.rows.Undo)
	p.empty.Set(s.rows.Empty)
	p.others.Set(look.TileFace{Word: w.Say("door.others")})
	for i := range p.acts {
		if i < len(s.rows.Acts) {
			p.acts[i].Set(s.rows.Acts[i].Face)
		}
	}
	p.signHead.Set(s.sign.Head)
	p.alone.Set(s.sign.Alone)
	p.nearly.Set(s.sign.Nearly)
	p.clear.Set(s.sign.Clear)
	p.until.Set(look.BigWordFace{Word: strings.TrimSpace(s.sign.Clear.Word + " " + s.sign.Clear.Detail), Tone: s.sign.Clear.Tone})
	p.before.Set(s.sign.Before)
	p.tell.Set(s.sign.Tell)
	p.brief.Set(s.sign.Brief)
	p.leave.Set(look.TileFace{Word: w.Say("inside.back")})
}
