package runner

import (
	"lintel/app/look"
)

// Measures of the list, in mm.
const (
	edge       = 2.0
	phoneEdge  = 1.5
	gap        = 3.0
	barHigh    = 12.0 // under the list
	toolWide   = 46.0
	cardWide   = 112.0 // least, of a column
	cardHigh   = 51.5
	rowHigh    = 12.0  // least, of the acts under a card
	openWide   = 34.0  // of the way to all acts
	actWide    = 40.0  // of the act beside a short line
	doorWide   = 29.0  // of the door in a head
	sayWide    = 20.0  // of what can be said there
	phoneWide  = 112.0 // below it, one request at a time
	listHigh   = 85.0  // least height of a list with cards
	phoneTall  = 110.0 // from it on a phone has room for a door's words
	headHigh   = 12.0  // one row
	twoRows    = 21.0
	threeRows  = 31.0
	fourRows   = 41.0
	choiceMin  = 58.0 // least width of a choice of a word or two
	choiceWide = 75.0 // of an item with its size or strength
	choiceHigh = 36.0 // at most
	rowLetters = 14   // of the longest words that fit choiceMin
	keyWide    = 75.0 // where there is room beside the keys
	tileEdges  = 6.0  // around the words on a tile with a bar
	answerWide = 46.0
	labelHigh  = 43.5 // least, of a drug's label
	labelWide  = 62.0
	apartHigh  = 22.5 // of what stands apart
	rowLow     = 13.0 // of a choice in one row
)

// areas are the parts of a page.
type areas struct {
	phone, tall bool
	line        look.Box // over everything; no height: nothing is said
	notice      look.Box
	main        look.Box
	bar         look.Box // under a wide list; no height: there is none
}

// areas divides a page of a size in mm.
func (s *Screen) areas(width, height float32) (a areas) {
	a.phone = width < phoneWide || height < listHigh
	rim := float32(edge)
	if a.phone {
		rim = phoneEdge
	}
	a.main = look.At(rim, rim, width-2*rim, height-2*rim)
	a.tall = a.main.H >= phoneTall
	list, says := s.hand.step == stepList, s.says()
	if s.rows.Line.Sentence != "" && (a.tall || !a.phone || list && !says) {
		a.line = take(&a.main, s.lineHigh(a))
	}
	switch {
	case !list || !says:
	case a.phone && a.tall && s.hand.fault[0] != "":
		a.notice = take(&a.main, faultPhone)
	case a.phone && a.tall:
		a.notice = take(&a.main, alertTall)
	default:
		a.notice = take(&a.main, alertLow)
	}
	if list && !a.phone && a.main.H >= headLow+gap+fullHigh+gap+barHigh {
		a.bar = look.At(a.main.X, a.main.Y+a.main.H-barHigh, a.main.W, barHigh)
		a.main.H -= barHigh + gap
	}
	return a
}

// lineHigh is how much room what stands over every page takes.
func (s *Screen) lineHigh(a areas) float32 {
	if a.tall && rowsOf(s.rows.Line.Sentence, a.main.W-headIcon) > 1 {
		return twoRows
	}
	return headHigh
}

// take cuts a row from the upper edge of a box.
func take(b *look.Box, high float32) look.Box {
	row := look.At(b.X, b.Y, b.W, high)
	b.Y, b.H = b.Y+high+gap, b.H-high-gap
	return row
}

// says tells whether something stands above the list.
func (s *Screen) says() bool { return len(s.rows.Notices) > 0 || s.hand.fault[0] != "" }

// flow decides what the list shows for the size that the screen has.
func (s *Screen) flow() {
	a := s.areas(s.width, s.height)
	if a.phone {
		s.seen = planPhone(s.rows, s.page0())
		return
	}
	s.seen = plan(s.rows, a.main, s.page0())
}

// page0 is the page of the list that is shown.
func (s *Screen) page0() int {
	if s.hand.step != stepList {
		return 0
	}
	return s.hand.from
}

// lay puts the list, or the question that is asked.
func (s *Screen) lay(put look.Put, width, height float32) {
	if s.width != width || s.height != height {
		s.width, s.height = width, height
		s.flow()
		s.parts.set(s)
	}
	a := s.areas(width, height)
	if a.line.H > 0 {
		if a.line.H > headHigh {
			a.line.Put(put, s.parts.lineTall)
		} else {
			a.line.Put(put, s.parts.line)
		}
	}
	switch {
	case s.hand.step == stepList && a.phone:
		s.layPhone(put, a)
	case s.hand.step == stepList:
		s.layList(put, a)
	case s.page.Keys != nil:
		s.layKeys(put, a)
	case s.page.Counts:
		s.layCounts(put, a)
	case s.hand.step == stepLook:
		s.layLook(put, a)
	case s.page.Held != nil:
		s.layHeld(put, a)
	default:
		s.layChoices(put, a)
	}
}

// layList puts doors with their requests in as many columns as fit.
func (s *Screen) layList(put look.Put, a areas) {
	p := &s.parts
	s.layNotice(put, a.notice)
	turns := s.seen.pages > 1 && a.bar.H == 0
	for i, h := range s.seen.heads {
		p.heads[i].lay(put, h.box, i == 0 && turns, p.turn)
	}
	for i, x := range s.seen.slots {
		if x.full {
			p.entries[i].layFull(put, x.box, s.rows.Entries[x.entry].Drug.Name != "")
		} else {
			p.entries[i].layShort(put, x.box)
		}
	}
	if len(s.rows.Entries) == 0 {
		y := max(a.main.Y, s.seen.ends+gap)
		if room := a.main.Y + a.main.H - y; room >= twoRows {
			put(p.empty, a.main.X, y, a.main.W, min(room, fourRows))
		}
	}
	if a.bar.H > 0 {
		s.layBar(put, a.bar)
	}
}

// layNotice puts what went wrong, or the gravest notice with its answers.
func (s *Screen) layNotice(put look.Put, box look.Box) {
	p := &s.parts
	switch {
	case box.H == 0:
	case p.fault.Face().Sentence != "":
		box.Put(put, p.fault)
	default:
		answers := s.rows.Notices[0].Answers
		said := box.W - float32(len(answers))*(answerWide+gap)
		put(p.notice, box.X, box.Y, said, box.H)
		for i := range answers {
			put(p.answers[i], box.X+said+gap+float32(i)*(answerWide+gap), box.Y, answerWide, box.H)
		}
	}
}

// layBar puts what is not about one request under the list.
func (s *Screen) layBar(put look.Put, bar look.Box) {
	p := &s.parts
	tools := []*look.Tile{p.voice, p.passed}
	if bar.W < 3*(toolWide+gap)+toolWide {
		tools = nil
	}
	if s.snap.Silence > 0 {
		tools = append(tools, p.silence)
	}
	if s.seen.pages > 1 {
		tools = append(tools, p.turn)
	}
	x := bar.X
	for _, t := range tools {
		put(t, x, bar.Y, toolWide, bar.H)
		x += toolWide + gap
	}
	if left := bar.X + bar.W - x; s.rows.Away.Sentence != "" && left >= toolWide {
		put(p.away, x, bar.Y, left, bar.H)
	}
}

// lay puts a door, what is said about it, and what can be said there.
func (h *headParts) lay(put look.Put, b look.Box, turns bool, turn *look.Tile) {
	put(h.door, b.X, b.Y, doorWide, b.H)
	right := b.X + b.W
	if turns {
		right -= toolWide
		put(turn, right, b.Y, toolWide, b.H)
		right -= gap
	}
	right -= sayWide
	put(h.say, right, b.Y, sayWide, b.H)
	left := b.X + doorWide + gap
	if b.H < twoRows {
		put(h.aboutLow, left, b.Y, right-gap-left, b.H)
		return
	}
	put(h.about, left, b.Y, right-gap-left, b.H)
}

// layFull puts a card, or a drug's label and how far it is, and the acts under it.
func (e *entryParts) layFull(put look.Put, b look.Box, drug bool) {
	if high := b.H - rowHigh - gap; drug {
		wide := labelOf(b.W)
		put(e.drug, b.X, b.Y, wide, high)
		put(e.beside, b.X+wide+gap, b.Y, b.W-wide-gap, high)
	} else {
		put(e.hold, b.X, b.Y, b.W, high)
	}
	y := b.Y + b.H - rowHigh
	put(e.primary, b.X, y, b.W-openWide-gap, rowHigh)
	put(e.open, b.X+b.W-openWide, y, openWide, rowHigh)
}

// labelOf is how much of a width a drug's label takes.
func labelOf(width float32) float32 { return max(labelWide, (width-gap)*0.6) }

// layShort puts a request in few words, and its act beside it.
func (e *entryParts) layShort(put look.Put, b look.Box) {
	put(e.tile, b.X, b.Y, b.W-actWide-gap, b.H)
	put(e.primary, b.X+b.W-actWide, b.Y, actWide, b.H)
}
