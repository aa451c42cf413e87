package charge

import (
	"fyne.io/fyne/v2"

	"lintel/app/look"
)

// Measures of the screen, in mm.
const (
	edge      = 2.0
	gap       = look.GapMin
	broadFrom = 200.0 // from here on lines stand in two columns
	wideFrom  = 130.0
	headHigh  = 13.0
	emptyHigh = 16.5
	tellHigh  = 13.0
	tellLong  = 16.5
	entryHigh = 18.0
	rowHigh   = 27.0
	denseHigh = 16.5 // three rows of a line to be read nearer
	tightHigh = 21.5 // four, where it is narrow
	tapHigh   = 13.0
	tapWide   = 28.0 // least, of a way to somewhere
	undoWide  = 26.0
	nameWide  = 62.0 // of what an issue is, in the table
	cellGap   = 1.0
	tableHigh = 21.5 // of one issue
	mapHigh   = 60.0 // of the shelves of a place
	mapWide   = 110.0
	mapFrom   = 120.0 // height from which there is room for them
)

// lay puts the page, or the question, into a size.
func (s *Screen) lay(put look.Put, width, height float32) {
	if x := (shape{width >= broadFrom, width < wideFrom}); s.shape != x {
		s.shape = x
		s.word() // another view suits it
	}
	area := look.At(edge, edge, width-2*edge, height-2*edge)
	area = s.layNotice(put, area)
	if s.view.Sheet != nil {
		if s.hand.step.everywhere() || s.hand.step.words() && s.opt.Typing {
			area = s.layEntry(put, area)
		}
		s.sheet.Lay(put, area)
		return
	}
	area = s.layHead(put, area)
	if s.view.Search && s.opt.Typing {
		area = s.layEntry(put, area)
	}
	rest := s.layButtons(nil, area, false)
	turns := s.fit(rest) < s.lines()
	if turns {
		rest = s.layButtons(nil, area, true)
		s.fit(rest)
	}
	s.layButtons(put, area, turns)
	switch {
	case s.lines() == 0:
		put(s.parts.empty, rest.X, rest.Y, rest.W, min(rest.H, emptyHigh))
	case s.view.Table != nil:
		s.layTable(put, rest)
	default:
		s.layLines(put, rest)
	}
}

// cut takes a piece from the upper end of an area.
func cut(area look.Box, high float32) (piece, rest look.Box) {
	return look.At(area.X, area.Y, area.W, high), look.At(area.X, area.Y+high+gap, area.W, area.H-high-gap)
}

// layNotice puts what was recorded last, and the way to take it back.
func (s *Screen) layNotice(put look.Put, area look.Box) look.Box {
	p := &s.parts
	if p.notice.Face().Sentence == "" {
		return area
	}
	piece, rest := cut(area, headHigh)
	if !s.hand.last.IsZero() && s.opt.Now().Before(s.hand.until) && s.hand.step == stepNone && s.hand.fault[0] == "" {
		put(p.undo.hold, piece.X+piece.W-undoWide, piece.Y, undoWide, piece.H)
		piece.W -= undoWide + gap
	}
	piece.Put(put, p.notice)
	return rest
}

func (s *Screen) layHead(put look.Put, area look.Box) look.Box {
	p := &s.parts
	var piece look.Box
	wide := area.W >= wideFrom
	head, tell, told := p.head, p.tell, float32(tellHigh)
	if !wide {
		head, tell, told = p.long, p.tells, tellLong
	}
	shows := p.shown.Held() && s.view.Tell.Sentence != ""
	beside := shows && !p.shown.IsMap()
	side := told // beside what has to be known, or beside both where it is wide
	if wide {
		side = headHigh + gap + told
	}
	piece, area = cut(area, headHigh)
	if beside && wide {
		put(p.shown, piece.X+piece.W-side, piece.Y, side, side)
		piece.W -= side + gap
	}
	piece.Put(put, head)
	if s.view.Tell.Sentence != "" {
		piece, area = cut(area, told)
		if beside {
			if !wide {
				put(p.shown, piece.X+piece.W-side, piece.Y, side, side)
			}
			piece.W -= side + gap
		}
		piece.Put(put, tell)
	}
	if shows && !beside && area.H >= mapFrom {
		piece, area = cut(area, mapHigh)
		put(p.shown, piece.X, piece.Y, min(piece.W, mapWide), piece.H)
	}
	return area
}

func (s *Screen) layEntry(put look.Put, area look.Box) look.Box {
	piece, rest := cut(area, entryHigh)
	piece.Put(put, s.parts.entry)
	return rest
}

// layButtons puts the ways at the bottom, the way back first and the way to
// further lines last, and gives what is left above them. Without put it only
// measures.
func (s *Screen) layButtons(put look.Put, area look.Box, turns bool) look.Box {
	var all []fyne.CanvasObject
	if s.hand.at != (Wanted{}) {
		all = append(all, s.parts.back.hold)
	}
	for _, b := range s.parts.buttons[:min(len(s.view.Buttons), buttonsMax)] {
		all = append(all, b.hold)
	}
	if turns {
		all = append(all, s.parts.more.hold)
	}
	if len(all) == 0 {
		return area
	}
	columns := min(look.Fitting(area.W, tapWide), len(all))
	rows := (len(all) + columns - 1) / columns
	columns = (len(all) + rows - 1) / rows
	high := float32(rows)*(tapHigh+gap) - gap
	piece := look.At(area.X, area.Y+area.H-high, area.W, high)
	if put != nil {
		for i, b := range piece.Cells(columns, rows) {
			if i < len(all) {
				b.Put(put, all[i])
			}
		}
	}
	area.H -= high + gap
	return area
}

// grid is in how many columns lines stand, and how high each is. A list that
// fits is read from further away; a longer one stands denser.
func (s *Screen) grid(area look.Box) (columns int, high float32) {
	s.dense = area.W < broadFrom || len(s.view.Lines) > look.Fitting(area.H, rowHigh)
	switch {
	case !s.dense:
		return 1, rowHigh
	case area.W >= broadFrom:
		return 2, denseHigh
	case area.W >= wideFrom:
		return 2, tightHigh
	}
	return 1, tightHigh
}

// tall is which sort of part a line of a height takes.
func (s *Screen) tall(high float32) lineSort {
	switch {
	case !s.dense:
		return lineFar
	case high < tightHigh:
		return lineNear
	}
	return lineTight
}

// fit is how many lines are seen at once.
func (s *Screen) fit(area look.Box) int {
	if s.view.Table != nil {
		s.shown = max(1, min(look.Fitting(area.H-headHigh-cellGap, tableHigh), rowsMax))
		return s.shown
	}
	columns, high := s.grid(area)
	s.shown = max(1, min(columns*look.Fitting(area.H, high), linesMax))
	return s.shown
}

// layLines puts the lines of the page, down the first column before the second.
func (s *Screen) layLines(put look.Put, area look.Box) {
	columns, high := s.grid(area)
	n := min(s.shown, len(s.view.Lines)-s.from)
	deep := (s.shown + columns - 1) / columns
	wide := (area.W - gap*float32(columns-1)) / float32(columns)
	for i := range n {
		put(s.parts.line(i, s.view.Lines[s.from+i], s.tall(high)), area.X+float32(i/deep)*(wide+gap), area.Y+float32(i%deep)*(high+gap), wide, high)
	}
	s.sayMore(n)
}

// sayMore says on the way to further lines how many there are.
func (s *Screen) sayMore(n int) {
	s.parts.more.face.Set(look.BannerFace{Icon: look.IconMore, Sentence: s.opt.Words.Say("door.turn", s.from+n, s.lines())})
}

// layTable puts one line for each issue, with its slots beside it.
func (s *Screen) layTable(put look.Put, area look.Box) {
	t, p := s.view.Table, &s.parts
	n := min(len(t.Columns), slotsMax)
	wide := (area.W-nameWide)/float32(n) - cellGap
	left := func(k int) float32 { return area.X + nameWide + cellGap + float32(k)*(wide+cellGap) }
	for k, word := range t.Columns[:n] {
		p.columns[k].Set(look.BannerFace{Sentence: word})
		put(p.columns[k], left(k), area.Y, wide, headHigh)
	}
	rows := t.Rows[s.from:min(len(t.Rows), s.from+s.shown)]
	for i, r := range rows {
		y := area.Y + headHigh + cellGap + float32(i)*(tableHigh+gap)
		put(p.line(i, Line{r.Face, r.Pick}, lineTight), area.X, y, nameWide, tableHigh)
		for k, cell := range r.Slots[:n] {
			p.slots[i][k].Set(cell)
			put(p.slots[i][k], left(k), y, wide, tableHigh)
		}
	}
	s.sayMore(len(rows))
}
