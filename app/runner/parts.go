package runner

import (
	"fyne.io/fyne/v2"

	"lintel/app/look"
)

// Bounds of what a screen has parts for.
const (
	entriesMax = 8
	choicesMax = 24
)

// parts are the widgets, by name.
type parts struct {
	link    *look.Banner
	voice   *look.Tile
	passed  *look.Tile
	turn    *look.Tile
	empty   *look.Banner
	fault   *look.Fault
	entries [entriesMax]entryParts

	head      *look.Banner
	tell      *look.Banner // four rows
	tellIn    *look.Banner // two rows
	tellPhone *look.Banner // four rows
	word      *look.BigWord
	choices   [choicesMax]*look.Tile
	keys      *look.Keypad
}

type entryParts struct {
	card    *look.Card
	hold    *look.Press
	door    *look.BigWord
	tile    *look.Tile
	primary *look.Tile
	open    *look.Tile
}

func (s *Screen) newParts() parts {
	l := s.opt.Look
	outside := func(tapped func()) *look.Tile { return look.NewTile(l, look.UseOutside, tapped) }
	p := parts{
		link: look.NewBanner(l, look.RunnerLine, 1), voice: outside(func() { s.begin(toVoice) }), passed: outside(func() { s.begin(toPassIn) }),
		turn: outside(s.turn), empty: look.NewBanner(l, look.RunnerLine, 4), fault: look.NewFault(l, look.RunnerLine, 2),
		head: look.NewBanner(l, look.RunnerLine, 1), tell: look.NewBanner(l, look.RunnerLine, 4), tellIn: look.NewBanner(l, look.RunnerLine, 2),
		word: look.NewBigWord(l, look.RunnerLine), tellPhone: look.NewBanner(l, look.RunnerLine, 4),
	}
	p.keys = look.NewKeypad(l, look.UseOutside, look.KeypadKeys{Digit: s.typeDigit, Erase: s.erase, Done: s.done})
	for i := range p.entries {
		e := entryParts{card: look.NewCard(l), door: look.NewBigWord(l, look.RunnerLine)}
		e.hold = look.NewPress(l, look.UseOutside, e.card, func() { s.openNth(i) })
		e.tile = outside(func() { s.openNth(i) })
		e.open = outside(func() { s.openNth(i) })
		e.primary = outside(func() { s.primaryNth(i) })
		p.entries[i] = e
	}
	for i := range p.choices {
		p.choices[i] = outside(func() { s.pickNth(i) })
	}
	return p
}

func (s *Screen) openNth(i int) {
	if n := s.hand.from + i; s.hand.step == stepList && n < len(s.rows.Entries) {
		s.pick(pick{what: picksOpen, ref: s.rows.Entries[n].Ref})
	}
}

func (s *Screen) primaryNth(i int) {
	if n := s.hand.from + i; s.hand.step == stepList && n < len(s.rows.Entries) {
		s.pick(s.rows.Entries[n].Does)
	}
}

func (s *Screen) pickNth(i int) {
	if n := s.hand.from + i; s.hand.step != stepList && n < len(s.page.Choices) {
		s.pick(s.page.Choices[n].Pick)
	}
}

// all are the parts in the order of painting.
func (p *parts) all() (all []fyne.CanvasObject) {
	all = append(all, p.link, p.voice, p.passed, p.empty, p.fault, p.head, p.tell, p.tellIn, p.tellPhone, p.word, p.keys)
	for _, e := range p.entries {
		all = append(all, e.hold, e.door, e.tile, e.primary, e.open)
	}
	for _, t := range p.choices {
		all = append(all, t)
	}
	return append(all, p.turn)
}

// set copies rows and page into the parts.
func (p *parts) set(s *Screen) {
	w := s.opt.Words
	p.link.Set(s.rows.Link)
	p.voice.Set(s.rows.Voice)
	p.passed.Set(s.rows.Passed)
	p.empty.Set(s.rows.Empty)
	p.fault.Say(s.hand.fault[0], s.hand.fault[1])
	p.turn.Set(look.TileFace{Word: w.Say("list.after")})
	if s.hand.step == stepList {
		p.setList(s)
		return
	}
	p.head.Set(look.BannerFace{Sentence: s.page.Head})
	p.tell.Set(s.page.Tell)
	p.tellIn.Set(s.page.TellIn)
	p.tellPhone.Set(s.page.TellIn)
	p.word.Set(look.BigWordFace{Word: s.page.Word})
	for i := range p.choices {
		if n := s.hand.from + i; n < len(s.page.Choices) {
			p.choices[i].Set(s.page.Choices[n].Face)
		}
	}
	if s.page.Keys != nil {
		p.keys.Set(*s.page.Keys)
	}
}

func (p *parts) setList(s *Screen) {
	w := s.opt.Words
	all := s.rows.Entries
	if len(all) > s.shown {
		p.turn.Set(look.TileFace{Word: w.Say("runner.turn", min(s.hand.from+s.shown, len(all)), len(all))})
	}
	for i, e := range p.entries {
		n := s.hand.from + i
		if n >= len(all) {
			continue
		}
		e.card.Set(all[n].Card)
		e.door.Set(all[n].Door)
		e.tile.Set(all[n].Tile)
		e.primary.Set(all[n].Primary)
		e.open.Set(look.TileFace{Word: w.Say("runner.open")})
	}
}
