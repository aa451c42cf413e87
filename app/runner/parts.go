package runner

import (
	"strings"

	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/app/look/picture"
	"lintel/app/words"
	"lintel/mesh"
)

// Bounds of what a screen has parts for.
const (
	entriesMax = columnsMax * (piecesMax + 1)
	headsMax   = columnsMax * (piecesMax + 1)
	choicesMax = 24
	heldMax    = 12
	answersMax = 2
)

// parts are the widgets, by name.
type parts struct {
	line     *look.Banner
	lineTall *look.Banner // two rows
	notice   *look.Banner
	answers  [answersMax]*look.Tile
	alert    *look.Tile // the notice on a phone
	short    *look.Tile // the notice in a word, on a page that asks something
	heads    [headsMax]headParts
	entries  [entriesMax]entryParts
	empty    *look.Banner
	away     *look.Banner
	fault    *look.Fault
	voice    *look.Tile
	passed   *look.Tile
	silence  *look.Tile
	turn     *look.Tile
	back     *look.Tile // under a page of many choices

	head      *look.Banner
	tell      *look.Banner // four rows
	tellIn    *look.Banner // two rows
	tellPhone *look.Banner // four rows
	word      *look.BigWord
	drug      *look.DrugLabel
	choices   [choicesMax]*look.Tile
	held      [heldMax]heldParts
	looks     *picture.Picture // of the thing
	shelf     *picture.Picture // where it is kept
	lead      *look.Tile
	apart     *look.Tile
	keys      *look.Keypad
}

// heldParts are one thing that may be in the hand, with its counts.
type heldParts struct {
	word *look.BigWord
	keys [keysMax]*look.Tile
}

// headParts are a door's head.
type headParts struct {
	word     *look.BigWord
	door     *look.Press
	about    *look.Banner // two rows
	aboutLow *look.Banner // one row
	say      *look.Tile
}

// entryParts are one request, in full and in few words.
type entryParts struct {
	card    *look.Card
	hold    *look.Press
	label   *look.DrugLabel
	drug    *look.Press
	brief   *look.Banner // one row
	beside  *look.Banner // five rows
	tile    *look.Tile
	lines   *look.Banner // three rows
	low     *look.Banner // three rows
	primary *look.Tile
	open    *look.Tile
}

func (s *Screen) newParts() parts {
	l := s.opt.Look
	outside := func(tapped func()) *look.Tile { return look.NewTile(l, look.UseOutside, tapped) }
	said := func(rows int) *look.Banner { return look.NewBanner(l, look.RunnerLine, rows) }
	p := parts{
		line: said(1), lineTall: said(2), notice: said(2), alert: outside(s.alert), short: outside(s.notice),
		empty: said(3), away: said(1), fault: look.NewFault(l, look.RunnerLine, 2),
		voice: outside(func() { s.begin(toVoice, s.here()) }), passed: outside(func() { s.begin(toPassIn, s.here()) }),
		silence: outside(s.silence), turn: outside(s.turn), back: outside(func() { s.pick(pick{what: picksBack}) }),
		head: said(1), tell: said(4), tellIn: said(2), tellPhone: said(4), word: look.NewBigWord(l, look.RunnerLine),
		drug:  look.NewDrugLabel(l, look.RunnerLine),
		lead:  outside(s.pickLead),
		apart: look.NewTile(l, look.UseOutsideWithdraw, s.pickApart),
	}
	p.keys = look.NewKeypad(l, look.UseOutside, look.KeypadKeys{Digit: s.typeDigit, Erase: s.erase, Done: s.done})
	for i := range p.answers {
		p.answers[i] = outside(func() { s.answer(i) })
	}
	for i := range p.heads {
		h := headParts{word: look.NewBigWord(l, look.RunnerLine), about: said(2), aboutLow: said(1)}
		h.door = look.NewPress(l, look.UseOutside, h.word, func() { s.openDoor(s.doorAt(i)) })
		h.say = outside(func() { s.sayTo(s.doorAt(i)) })
		p.heads[i] = h
	}
	for i := range p.entries {
		e := entryParts{
			card: look.NewCard(l), lines: said(3), low: said(3), brief: said(1), beside: said(5), label: look.NewDrugLabel(l, look.RunnerLine),
		}
		e.drug = look.NewPress(l, look.UseOutside, e.label, func() { s.openEntry(s.entryAt(i)) })
		e.hold = look.NewPress(l, look.UseOutside, e.card, func() { s.openEntry(s.entryAt(i)) })
		e.tile = outside(func() { s.openEntry(s.entryAt(i)) })
		e.open = outside(func() { s.openEntry(s.entryAt(i)) })
		e.primary = outside(func() { s.doEntry(s.entryAt(i)) })
		p.entries[i] = e
	}
	for i := range p.choices {
		p.choices[i] = outside(func() { s.pickNth(i) })
	}
	p.looks, p.shelf = picture.New(l, s.opt.Pictures), picture.New(l, s.opt.Pictures)
	for i := range p.held {
		p.held[i].word = look.NewBigWord(l, look.RunnerLine)
		for k := range p.held[i].keys {
			p.held[i].keys[k] = outside(func() { s.pickHeld(i, k) })
		}
	}
	return p
}

// doorAt is the door that the i-th head shows; one beyond all: none.
func (s *Screen) doorAt(i int) int {
	switch {
	case i < len(s.seen.heads):
		return s.seen.heads[i].door
	case i == 0 && s.seen.door >= 0 && len(s.seen.heads) == 0:
		return s.seen.door
	}
	return len(s.rows.Doors)
}

// entryAt is the request that the i-th parts show; one beyond all: none.
func (s *Screen) entryAt(i int) int {
	switch {
	case i < len(s.seen.slots):
		return s.seen.slots[i].entry
	case i == 0 && s.seen.entry >= 0 && len(s.seen.slots) == 0:
		return s.seen.entry
	}
	return len(s.rows.Entries)
}

// here is the door that a phone shows without a request.
func (s *Screen) here() mesh.ID {
	if s.seen.door >= 0 && s.seen.door < len(s.rows.Doors) {
		return s.rows.Doors[s.seen.door].Room
	}
	return ""
}

func (s *Screen) pickNth(i int) {
	if n := s.hand.from + i; s.hand.step != stepList && n < len(s.page.Choices) {
		s.pick(s.page.Choices[n].Pick)
	}
}

func (s *Screen) pickLead() {
	if s.hand.step != stepList && s.page.Lead != nil {
		s.pick(s.page.Lead.Pick)
	}
}

func (s *Screen) pickApart() {
	if s.hand.step != stepList && s.page.Apart != nil {
		s.pick(s.page.Apart.Pick)
	}
}

// all are the parts in the order of painting.
func (p *parts) all() (all []fyne.CanvasObject) {
	all = append(all, p.line, p.lineTall, p.notice, p.alert, p.short, p.empty, p.away, p.fault, p.voice, p.passed, p.silence,
		p.head, p.tell, p.tellIn, p.tellPhone, p.word, p.drug, p.keys, p.lead, p.apart)
	for _, t := range p.answers {
		all = append(all, t)
	}
	for _, h := range p.heads {
		all = append(all, h.door, h.about, h.aboutLow, h.say)
	}
	for _, e := range p.entries {
		all = append(all, e.hold, e.drug, e.tile, e.lines, e.low, e.brief, e.beside, e.primary, e.open)
	}
	for _, t := range p.choices {
		all = append(all, t)
	}
	all = append(all, p.looks, p.shelf)
	for _, h := range p.held {
		all = append(all, h.word)
		for _, t := range h.keys {
			all = append(all, t)
		}
	}
	return append(all, p.back, p.turn)
}

// set copies rows and page into the parts.
func (p *parts) set(s *Screen) {
	w := s.opt.Words
	p.setLine(s)
	p.fault.Say(s.hand.fault[0], s.hand.fault[1])
	p.turn.Set(look.TileFace{Word: w.Say("list.after")})
	p.back.Set(look.TileFace{Word: w.Say("inside.back")})
	p.setNotice(s)
	if s.hand.step == stepList {
		p.setList(s)
		return
	}
	p.head.Set(look.BannerFace{Sentence: s.page.Head})
	if s.page.Whole != "" && !s.areas(s.width, s.height).phone {
		p.head.Set(look.BannerFace{Sentence: s.page.Whole})
	}
	p.tell.Set(s.page.Tell)
	p.tellIn.Set(s.page.TellIn)
	p.tellPhone.Set(s.page.TellIn)
	p.word.Set(look.BigWordFace{Word: s.page.Word, Tone: s.page.Tone})
	if a := s.areas(s.width, s.height); a.line.H == 0 && s.rows.Line.Sentence != "" && (s.page.Keys != nil || s.page.Counts) {
		p.word.Set(look.BigWordFace{Word: s.rows.Line.Sentence + " · " + s.page.Word, Tone: s.rows.Line.Tone})
	}
	p.drug.Set(labelFace(w, s.page.Drug, s.page.Many))
	for i := range p.choices {
		if n := s.hand.from + i; n < len(s.page.Choices) {
			p.choices[i].Set(s.page.Choices[n].face(s.width))
		}
	}
	for i := range p.held {
		if n := s.hand.from + i; n < len(s.page.Held) {
			p.held[i].set(s.page.Held[n], w, s.heldKeys())
		}
	}
	if r, known := s.snap.request(s.hand.ref); known {
		p.looks.Set(picture.Face{Hash: r.Looks})
		p.shelf.Set(picture.Face{Hash: r.Map, Drawer: r.Drawer})
	}
	if s.page.Lead != nil {
		p.lead.Set(s.page.Lead.Face)
	}
	if s.page.Apart != nil {
		p.apart.Set(s.page.Apart.Face)
	}
	if s.page.Keys != nil {
		p.keys.Set(*s.page.Keys)
	}
}

// set copies a line with so many of its keys; the last one leads to more counts.
func (h *heldParts) set(x Held, w words.Words, keys int) {
	h.word.Set(look.BigWordFace{Word: x.Word})
	for i := range heldOne {
		h.keys[i].Set(x.Keys[i].Face)
	}
	h.keys[heldOne].Set(look.TileFace{Word: w.Say("runner.more-than", keys-1)})
}

// besideAt is the room for words beside the label of a drug in the i-th slot, in mm.
func (s *Screen) besideAt(i int) float32 {
	if i >= len(s.seen.slots) {
		return phoneText
	}
	wide := s.seen.slots[i].box.W
	return wide - labelOf(wide) - gap - tileEdges/2
}

// setLine copies what stands over every page; where there is one row too few,
// its gravest part.
func (p *parts) setLine(s *Screen) {
	face := s.rows.Line
	p.lineTall.Set(face)
	if rowsOf(face.Sentence, s.width-headIcon) > 1 {
		face.Sentence, _, _ = strings.Cut(face.Sentence, " · ")
	}
	p.line.Set(face)
}

// setNotice copies the gravest notice.
func (p *parts) setNotice(s *Screen) {
	if len(s.rows.Notices) == 0 {
		return
	}
	n := s.rows.Notices[0]
	room := s.width - headIcon - tileEdges - float32(len(n.Answers))*(answerWide+gap)
	face := n.Face
	if rowsOf(face.Sentence, room) > 2 {
		face.Sentence = n.Alert
	}
	p.notice.Set(Lines(face).within(room, 2))
	said := n.Alert
	if s.areas(s.width, s.height).line.H == 0 && s.rows.Line.Sentence != "" {
		said = s.rows.Line.Sentence + " · " + said
	}
	alert := look.TileFace{Word: said, Tone: n.Face.Tone, Chosen: n.Face.Tone != look.TonePlain}
	p.alert.Set(alert)
	p.short.Set(look.TileFace{Word: n.Short, Icon: n.Face.Icon, Tone: n.Face.Tone, Chosen: n.Face.Tone != look.TonePlain})
	for i, a := range n.Answers {
		p.answers[i].Set(a.Face)
	}
}

func (p *parts) setList(s *Screen) {
	w, r := s.opt.Words, s.rows
	p.voice.Set(r.Voice)
	p.passed.Set(r.Passed)
	p.silence.Set(r.Silence)
	p.empty.Set(r.Empty)
	p.away.Set(r.Away)
	if s.seen.pages > 1 {
		id := words.ID("runner.turn")
		if s.seen.door >= 0 {
			id = "runner.turn-short"
		}
		p.turn.Set(look.TileFace{Word: w.Say(id, s.hand.from%s.seen.pages+1, s.seen.pages)})
	}
	for i := range p.heads {
		if d := s.doorAt(i); d < len(r.Doors) {
			p.heads[i].set(s, r.Doors[d], i)
		}
	}
	for i := range p.entries {
		if n := s.entryAt(i); n < len(r.Entries) {
			p.entries[i].set(r.Entries[n], w.Say("runner.open"), s.seen.door >= 0, s.areas(s.width, s.height).tall, s.besideAt(i))
		}
	}
}

// set copies a door's head: as many of its words as its place has room for.
func (h *headParts) set(s *Screen, d DoorRow, i int) {
	h.word.Set(d.Word)
	h.say.Set(d.Say)
	wide := s.width - 2*phoneEdge
	if i < len(s.seen.heads) {
		wide = s.seen.heads[i].box.W - doorWide - sayWide - 2*gap
		if i == 0 && s.seen.pages > 1 && s.areas(s.width, s.height).bar.H == 0 {
			wide -= toolWide + gap
		}
	}
	h.about.Set(d.about(wide-headIcon, 2))
	h.aboutLow.Set(d.about(wide-headIcon, 1))
}

// headIcon is what an icon and the edges take of a head's width, in mm.
const headIcon = 14.0

// set copies a request; beside a drug's label there is so much room for words, in mm.
func (e *entryParts) set(x Entry, open string, phone, tall bool, beside float32) {
	e.card.Set(x.Card)
	e.tile.Set(x.Short)
	if phone && tall {
		e.tile.Set(x.Tile)
	}
	e.label.Set(x.Drug)
	e.beside.Set(x.Brief.within(beside, 5))
	e.lines.Set(x.Brief.within(phoneText, 3))
	e.brief.Set(look.BannerFace{Sentence: x.Tile.Note, Tone: x.Brief.Tone})
	e.low.Set(x.Lines.within(phoneText, 3))
	e.primary.Set(x.Primary)
	e.open.Set(look.TileFace{Word: open})
}
