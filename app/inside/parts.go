package inside

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"lintel/app/look"
)

// Bounds of what a screen has parts for.
const (
	setsMax    = 4
	buttonsMax = 6
	othersMax  = 3
	listMax    = 24 // items shown at once behind "other item"
	groupsMax  = 12
	waysMax    = 7
	choicesMax = 31 // choices of a page seen at once
	logMax     = 6  // what was said, seen at once
)

// parts are the widgets, by name.
type parts struct {
	room    *look.BigWord
	link    *look.Tile   // in words; leads to what can be said
	linkIn  *look.Banner // one row
	urgency [3]*look.Tile
	soon    *look.Tile // the chosen urgency, where there is room for one tile
	other   *look.Tile
	undo    *look.Tile
	sets    [setsMax]*look.Tile
	tiles   []*look.Tile
	strip   *look.Strip
	hold    *look.Press // the strip, tapped
	stripIn *look.Strip // of a small screen
	holdIn  *look.Press
	open    *look.Tile
	fault   *look.Fault
	more    *look.Tile // the other six tiles of a phone
	home    *look.Tile
	turn    *look.Tile // the next places of a phone
	say     *look.Tile // to what can be said, where the link is no target
	oneMore *look.Tile
	now     *look.Banner // the strip in small letters, on a phone
	called  *look.Tile   // what was said inwards, over everything
	lock    *look.Lock
	bands   [2]*canvas.Rectangle // above and below, during an exercise

	page  pageParts
	panel panelParts
	list  listParts
	sign  signParts

	shelves [shelvesMax]*look.Tile
}

type panelParts struct {
	head     *look.Banner
	word     *look.BigWord // by the bed
	wordIn   *look.BigWord // in the hand
	label    *look.DrugLabel
	tell     *look.Banner
	buttons  [buttonsMax]*look.Tile
	others   [othersMax]*look.Tile
	withdraw *look.Tile
	now      *Panel // what is shown
}

type pageParts struct {
	tell    *look.Banner // a row
	tellIn  *look.Banner // two rows
	clock   *look.BigClock
	choices [choicesMax]*look.Tile
	log     [logMax]*look.Banner
	real    *look.Tile
	now     *Page // what is shown
}

type listParts struct {
	groups   [groupsMax]*look.Tile
	items    [listMax]*look.Tile
	prev     *look.Tile
	next     *look.Tile
	groupsOf *look.Tile // back to which groups there are
	typed    *look.BigWord
	tell     *look.Banner
	keys     *look.Keypad
	now      List
}

type signParts struct {
	word   *look.BigWord
	code   *look.BigWord
	room   *look.BigWord
	back   *look.Tile
	next   *look.Tile
	shown  bool
	digits string // of the joining code
}

func (s *Screen) newParts() parts {
	l := s.opt.Look
	inside := func(tapped func()) *look.Tile { return look.NewTile(l, look.UseInside, s.unlocked(tapped)) }
	p := parts{
		room: look.NewBigWord(l, look.InsideTile), link: inside(s.tapSay), linkIn: look.NewBanner(l, look.InsideTile, 1),
		other: inside(s.tapOther), undo: inside(s.tapUndo), strip: look.NewStrip(l, 2),
		open: inside(func() { s.tapStrip(true) }), fault: look.NewFault(l, look.InsideTile, 3),
		soon: inside(s.nextUrgency), more: inside(func() { s.show(pageSmall) }), home: inside(func() { s.show(pageBoard) }), turn: inside(s.turnTiles),
		say: inside(s.tapSay), oneMore: inside(s.tapMore), now: look.NewBanner(l, look.InsideTile, 3), called: inside(s.tapCalled),
		lock: look.NewLock(l, look.InsideTile),
	}
	for i := range p.bands {
		p.bands[i] = canvas.NewRectangle(l.Palette().Fill(look.ToneDrill).Edge)
	}
	p.hold = look.NewPress(l, look.UseInside, p.strip, s.unlocked(func() { s.tapStrip(false) }))
	p.stripIn = look.NewStrip(l, 2)
	p.holdIn = look.NewPress(l, look.UseInside, p.stripIn, s.unlocked(func() { s.tapStrip(true) }))
	for i := range p.urgency {
		p.urgency[i] = inside(func() { s.tapUrgency(i) })
	}
	for i := range p.sets {
		p.sets[i] = look.NewTile(l, look.UseRescue, s.unlocked(func() { s.tapSet(i) }))
	}
	for i := range s.opt.Board.Tiles {
		p.tiles = append(p.tiles, inside(func() { s.tapTile(i) }))
	}
	for i := range p.shelves {
		p.shelves[i] = inside(func() { s.tapShelf(i) })
	}
	p.panel = s.newPanelParts(inside)
	p.list = s.newListParts(inside)
	p.page = s.newPageParts(inside)
	p.sign = signParts{
		word: look.NewBigWord(l, look.WallWord), code: look.NewBigWord(l, look.WallWord), room: look.NewBigWord(l, look.WallWord),
		back: inside(func() { s.hand.page = pageBoard; s.Paint() }),
		next: inside(func() { s.hand.open = s.snap.next(s.hand.open); s.Paint() }),
	}
	return p
}

func (s *Screen) newPageParts(inside func(func()) *look.Tile) pageParts {
	l := s.opt.Look
	p := pageParts{
		tell: look.NewBanner(l, look.InsideTile, 1), tellIn: look.NewBanner(l, look.InsideTile, 2), clock: look.NewBigClock(l),
		real: look.NewTile(l, look.UseWithdraw, s.unlocked(func() {
			if now := s.rows.Page; now != nil && now.Real != nil {
				s.pick(now.Real.Pick)
			}
		})),
	}
	for i := range p.choices {
		p.choices[i] = inside(func() { s.pickNth(s.all, i) })
	}
	for i := range p.log {
		p.log[i] = look.NewBanner(l, look.InsideTile, 3)
	}
	return p
}

func (s *Screen) newPanelParts(inside func(func()) *look.Tile) panelParts {
	l := s.opt.Look
	p := panelParts{
		head: look.NewBanner(l, look.InsideTile, 1), word: look.NewBigWord(l, look.StripLine), wordIn: look.NewBigWord(l, look.InsideTile),
		label: look.NewDrugLabel(l, look.InsideTile), tell: look.NewBanner(l, look.InsideTile, 2),
		withdraw: look.NewTile(l, look.UseWithdraw, s.unlocked(func() { s.pressNth(-1) })),
	}
	for i := range p.buttons {
		p.buttons[i] = inside(func() { s.pressNth(i) })
	}
	for i := range p.others {
		p.others[i] = inside(func() { s.pressNth(buttonsMax + i) })
	}
	return p
}

// pressNth presses what stands on a button of the panel: -1 is what withdraws,
// from buttonsMax on come the alternatives.
func (s *Screen) pressNth(n int) {
	p := s.parts.panel.now
	switch {
	case p == nil:
	case n < 0:
		if p.Withdraw != nil {
			s.press(*p.Withdraw)
		}
	case n >= buttonsMax:
		if n -= buttonsMax; n < len(p.Others) {
			s.press(p.Others[n])
		}
	case n < len(p.Buttons):
		s.press(p.Buttons[n])
	}
}

// all are the parts in the order of painting.
func (p *parts) all() (all []fyne.CanvasObject) {
	all = append(all, p.bands[0], p.bands[1], p.room, p.link, p.linkIn, p.soon, p.other, p.undo, p.hold, p.holdIn, p.open, p.fault, p.more, p.home, p.turn, p.say, p.oneMore, p.now)
	add := func(tiles []*look.Tile) {
		for _, t := range tiles {
			all = append(all, t)
		}
	}
	add(p.urgency[:])
	add(p.sets[:])
	add(p.tiles)
	all = append(all, p.panel.head, p.panel.word, p.panel.wordIn, p.panel.label, p.panel.tell, p.panel.withdraw)
	add(p.panel.buttons[:])
	add(p.panel.others[:])
	add(p.shelves[:])
	add(p.list.groups[:])
	add(p.list.items[:])
	all = append(all, p.list.prev, p.list.next, p.list.groupsOf, p.list.typed, p.list.tell, p.list.keys)
	all = append(all, p.page.tell, p.page.tellIn, p.page.clock, p.page.real)
	add(p.page.choices[:])
	for _, b := range p.page.log {
		all = append(all, b)
	}
	all = append(all, p.sign.word, p.sign.code, p.sign.room, p.sign.back, p.sign.next)
	return append(all, p.called, p.lock)
}

// set copies rows into the parts.
func (p *parts) set(r Rows, s *Screen) {
	w := s.opt.Words
	p.room.Set(r.Room)
	p.link.Set(r.Link)
	p.linkIn.Set(r.LinkIn)
	for i, f := range r.Urgency {
		p.urgency[i].Set(f)
		if f.Chosen {
			p.soon.Set(f)
		}
	}
	p.other.Set(r.Other)
	p.undo.Set(r.Undo)
	for i := range p.sets {
		if i < len(r.Sets) {
			p.sets[i].Set(r.Sets[i])
		}
	}
	for i, f := range r.Tiles {
		p.tiles[i].Set(f)
	}
	p.strip.Set(r.Strip)
	p.hold.SetOff(r.First.IsZero())
	p.stripIn.Set(r.StripIn)
	p.holdIn.SetOff(r.First.IsZero())
	p.open.Set(r.Open)
	p.fault.Say(r.Fault[0], r.Fault[1])
	p.more.Set(look.TileFace{Word: w.Say("inside.more")})
	p.turn.Set(look.TileFace{Word: w.Say("list.after")})
	p.home.Set(look.TileFace{Word: w.Say("inside.back")})
	p.panel.set(r.Panel)
	p.say.Set(r.Say)
	p.oneMore.Set(r.More)
	p.now.Set(r.Now)
	p.called.Set(r.Called)
	p.page.set(r.Page)
	p.list.set(list(w, s.opt.Board, s.snap, s.hand, s.front), s)
	p.setSign(s)
}

func (p *panelParts) set(now *Panel) {
	p.now = now
	if now == nil {
		return
	}
	p.head.Set(now.Head)
	p.word.Set(look.BigWordFace{Word: now.Word})
	p.wordIn.Set(look.BigWordFace{Word: now.Word})
	if now.Label != nil {
		p.label.Set(*now.Label)
	}
	p.tell.Set(now.Tell)
	for i, b := range now.Buttons {
		p.buttons[i].Set(b.Face)
	}
	for i, b := range now.Others {
		p.others[i].Set(b.Face)
	}
	if now.Withdraw != nil {
		p.withdraw.Set(now.Withdraw.Face)
	}
}

// set copies what does not depend on the room that there is; the layout puts
// choices on tiles.
func (p *pageParts) set(now *Page) {
	p.now = now
	if now == nil {
		return
	}
	for i, f := range now.Log {
		if i < len(p.log) {
			p.log[i].Set(f)
		}
	}
	if now.Real != nil {
		p.real.Set(now.Real.Face)
	}
}

// setSign fills the sign for the glass: item, count, door and joining code.
func (p *parts) setSign(s *Screen) {
	w := s.opt.Words
	r, there := s.snap.request(s.hand.open)
	p.sign.shown = there
	if !there {
		return
	}
	p.sign.word.Set(look.BigWordFace{Word: signWord(w, r)})
	p.sign.digits = r.Code
	p.sign.code.Set(look.BigWordFace{Word: spaced(r.Code)})
	p.sign.room.Set(look.BigWordFace{Word: s.snap.RoomName})
	p.sign.back.Set(look.TileFace{Word: w.Say("inside.back")})
	p.sign.next.Set(look.TileFace{Word: w.Say("inside.next"), Off: len(s.snap.Requests) < 2})
}
