package brief

import (
	"fyne.io/fyne/v2"

	"lintel/app/look"
)

// Measures of the pages, in mm.
const (
	edge       = 2.0
	undoWide   = 24.0
	sideNear   = 34.0 // of what stands beside a row
	sideRoomy  = 50.0
	sideFrom   = 77.0 // of a row that has it at its side
	columnWide = 118.0
	broadFrom  = 130.0
	highFrom   = 120.0 // from these on a page is roomy
	tileWide   = 26.0
	tileHigh   = 13.5
	tileMost   = 24.0
	keyWide    = 17.9
	tightTo    = 106.0 // of height, below which a narrow page says one thing only over its rows
	keysFrom   = 112.0 // of height, where keys leave room for what is asked
	entryHigh  = 18.0
	wordHigh   = 16.0
	narrowTap  = 20.0 // of a button with a short word
	wideTap    = 28.5
	fullTap    = 46.0
	roomyTap   = 58.0
)

// lay puts the page: what it is about, rows or tiles, and buttons below.
func (s *Screen) lay(put look.Put, width, height float32) {
	s.roomy = width >= broadFrom && height >= highFrom
	area := look.At(edge, edge, width-2*edge, height-2*edge)
	area = s.layHead(put, area)
	area = s.layButtons(put, area)
	if s.page.Entry {
		put(s.parts.entry, area.X, area.Y, area.W, entryHigh)
		area.Y, area.H = area.Y+entryHigh+look.GapMin, area.H-entryHigh-look.GapMin
	}
	switch {
	case s.page.Stepper != nil:
		put(s.parts.stepper, area.X, area.Y, min(area.W, broadFrom), min(area.H, 34))
	case len(s.page.Tiles) > 0:
		s.layTiles(put, area)
	default:
		s.layRows(put, area)
	}
}

// layHead puts what stands over every page, and gives what is left.
func (s *Screen) layHead(put look.Put, area look.Box) look.Box {
	p, from := &s.parts, 0
	if s.roomy {
		from = 1
	}
	take := func(o fyne.CanvasObject, width, high float32) {
		put(o, area.X, area.Y, width, high)
		area.Y, area.H = area.Y+high+look.GapMin, area.H-high-look.GapMin
	}
	say := func(x saying, f look.BannerFace, width float32) {
		rows, long := s.textRows(f, width)
		take(x.says(f, long), width, s.rowsHigh(rows))
	}
	if area.W < broadFrom && area.H < tightTo && !s.page.Typing {
		f, x := look.BannerFace{Icon: s.page.Head.Icon, Sentence: s.page.Head.Sentence, Tone: s.page.Head.Tone}, p.head[from]
		switch {
		case p.fault.Face().Sentence != "":
			take(p.fault, area.W, s.rowsHigh(longRows))
			return area
		case s.page.Tell.Sentence != "":
			f, x = s.page.Tell, p.tell[from]
		}
		say(x, f, area.W)
		return area // there is room for one thing only
	}
	head := area.W
	if s.canUndo() && !s.page.Typing {
		head -= undoWide + look.GapMin
		undo := p.undo.set(look.BannerFace{Icon: look.IconUndo, Sentence: s.opt.Words.Say("brief.undo")}, false, false)
		put(undo, area.X+head+look.GapMin, area.Y, undoWide, max(s.rowsHigh(shortRows), s.parts.undo.hold.Use().Side()))
	}
	if !s.page.Typing || area.H >= keysFrom || area.W >= broadFrom {
		say(p.head[from], s.page.Head, head)
	}
	switch {
	case p.fault.Face().Sentence != "":
		take(p.fault, area.W, s.rowsHigh(longRows))
	case s.page.Tell.Sentence != "":
		say(p.tell[from], s.page.Tell, area.W)
	}
	if s.page.Typing {
		take(p.word, area.W, wordHigh)
	}
	return area
}

// layButtons puts the buttons, and the way to further rows, at the bottom in as
// few rows as their words need, and gives what is left.
func (s *Screen) layButtons(put look.Put, area look.Box) look.Box {
	p := &s.parts
	var all []fyne.CanvasObject
	wide := float32(narrowTap)
	for i, b := range s.page.Buttons[:min(len(s.page.Buttons), buttonsMax)] {
		all = append(all, p.buttons[i].set(b.Face, b.Off, s.roomy))
		wide = max(wide, widthOf(b.Face))
	}
	if s.roomy {
		wide = roomyTap
	}
	columns := look.Fitting(area.W, min(wide, area.W))
	high := s.tapHigh(shortRows)
	under := func(n int) float32 {
		rows := (n + columns - 1) / columns
		return float32(rows)*(high+look.GapMin) - look.GapMin
	}
	body := func() look.Box { return look.At(area.X, area.Y, area.W, area.H-under(len(all))-look.GapMin) }
	shown, more := s.fitting(body())
	if more {
		face := look.BannerFace{Sentence: s.opt.Words.Say("list.after")}
		all = append(all, p.turn.set(face, false, s.roomy))
		shown, _ = s.fitting(body())
	}
	s.shown = shown
	if len(all) == 0 {
		return area
	}
	columns = min(columns, len(all))
	rows := (len(all) + columns - 1) / columns
	down := under(len(all))
	for i, b := range look.At(area.X, area.Y+area.H-down, area.W, down).Cells(columns, rows) {
		if i < len(all) {
			b.Put(put, all[i])
		}
	}
	area.H -= down + look.GapMin
	return area
}

// fitting is how many rows an area holds, and whether there are more.
func (s *Screen) fitting(area look.Box) (shown int, more bool) {
	if len(s.page.Tiles) > 0 || s.page.Stepper != nil {
		return max(1, len(s.page.Tiles)), false
	}
	if s.page.Entry {
		area.H -= entryHigh + look.GapMin
	}
	r := s.ruled(area.W)
	shown = min(look.Fitting(area.H, r.all)*r.columns, rowsMax)
	return shown, len(s.page.Rows) > shown
}

// layRows puts as many rows as fit, column by column.
func (s *Screen) layRows(put look.Put, area look.Box) {
	r := s.ruled(area.W)
	deep := max(1, s.shown/r.columns)
	for i := range min(s.shown, max(0, len(s.page.Rows)-s.hand.from)) {
		b := look.At(area.X+float32(i/deep)*(r.wide+look.GapMin), area.Y+float32(i%deep)*(r.all+look.GapMin), r.wide, r.row)
		s.layRow(put, i, b, r)
	}
}

// layRow puts one row, with what stands beside it, or under it where it is narrow.
func (s *Screen) layRow(put look.Put, i int, b look.Box, r ruling) {
	x, row := &s.parts.lines[i], s.page.Rows[s.hand.from+i]
	if row.Does.what != picksNothing {
		side := x.side.set(row.Side, false, r.states)
		if r.side > 0 {
			b.W -= r.side + look.GapMin
			put(side, b.X+b.W+look.GapMin, b.Y, r.side, b.H)
		} else {
			put(side, b.X, b.Y+b.H+look.GapMin, b.W, s.tapHigh(shortRows))
		}
	}
	if r.states {
		face := row.Face
		face.Off = face.Off || row.Pick.what == picksNothing
		x.row.Set(face)
		b.Put(put, x.row)
		return
	}
	face := look.BannerFace{Icon: row.Face.Icon, Sentence: row.Face.Word, Hint: joined(row.Face.State, row.Face.Detail)}
	if row.Pick.what == picksNothing {
		b.Put(put, x.read.says(face, r.long))
		return
	}
	x.tapped.says(face, r.long)
	hold := x.short
	if r.long {
		hold = x.long
	}
	b.Put(put, hold)
}

// layTiles puts short words to choose from, and the way to the others.
func (s *Screen) layTiles(put look.Put, area look.Box) {
	p, all := &s.parts, len(s.page.Tiles)
	wide, least := float32(tileWide), max(tileHigh, s.use().Side())
	if s.page.Typing {
		wide = max(keyWide, s.use().Side())
	}
	columns := min(look.Fitting(area.W, wide), all)
	if s.page.Typing && columns > 6 {
		columns = 6
	}
	rows := min(look.Fitting(area.H, least), (all+columns-1)/columns)
	area.H = min(area.H, float32(rows)*(max(tileMost, least)+look.GapMin)-look.GapMin)
	cells := area.Cells(columns, rows)
	s.shown = min(len(cells), tilesMax)
	if all > s.shown {
		s.shown--
		cells[s.shown].Put(put, p.turning)
	}
	for i := range min(s.shown, max(0, all-s.hand.from)) {
		cells[i].Put(put, p.tiles[i])
	}
}
