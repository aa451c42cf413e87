package brief

import (
	"unicode/utf8"

	"fyne.io/fyne/v2"

	"lintel/app/look"
)

// Measures of the pages, in mm.
const (
	edge       = 2.0
	lineShare  = 1.16 // from one line of letters to the next
	padding    = 2.0  // around the letters of a row, and a little
	undoWide   = 22.0
	sideWide   = 34.0 // of what stands beside a row
	columnWide = 118.0
	broadFrom  = 130.0
	tileWide   = 26.0
	tileHigh   = 13.5
	tileMost   = 24.0
	entryHigh  = 14.0
	wordHigh   = 16.0
	keyWide    = 19.5
	narrowTap  = 19.0 // of a button with a short word
	wideTap    = 30.0
	fullTap    = 46.0
	shortWord  = 7 // letters of a word that a narrow button holds
)

// rowsHigh is how high a part of so many rows of letters is.
func (s *Screen) rowsHigh(n int) float32 {
	l := s.opt.Look
	letter := l.Scale().Millimetres(l.Letters(s.reads(), look.Small))
	return max(letter*lineShare*float32(n)+padding, s.use().Side())
}

// lay puts the page: what it is about, rows or tiles, and buttons below.
func (s *Screen) lay(put look.Put, width, height float32) {
	area := look.At(edge, edge, width-2*edge, height-2*edge)
	area = s.layHead(put, area)
	area = s.layButtons(put, area)
	if s.page.Entry {
		put(s.parts.entry, area.X, area.Y, area.W, entryHigh)
		area.Y, area.H = area.Y+entryHigh+look.GapMin, area.H-entryHigh-look.GapMin
	}
	switch {
	case s.page.Stepper != nil:
		put(s.parts.stepper, area.X, area.Y, min(area.W, broadFrom), min(area.H, 2*s.rowsHigh(3)))
	case len(s.page.Tiles) > 0:
		s.layTiles(put, area)
	default:
		s.layRows(put, area)
	}
}

// layHead puts what stands over every page, and gives what is left.
func (s *Screen) layHead(put look.Put, area look.Box) look.Box {
	p := &s.parts
	take := func(o fyne.CanvasObject, width, high float32) {
		put(o, area.X, area.Y, width, high)
		area.Y, area.H = area.Y+high+look.GapMin, area.H-high-look.GapMin
	}
	say := func(x saying, f look.BannerFace, width float32) {
		rows, long := s.textRows(f, width)
		take(x.says(f, long), width, s.rowsHigh(rows))
	}
	head := area.W
	if s.canUndo() {
		head -= undoWide + look.GapMin
		put(p.undo.hold, area.X+head+look.GapMin, area.Y, undoWide, s.rowsHigh(shortRows))
	}
	say(p.head, s.page.Head, head)
	switch {
	case p.fault.Face().Sentence != "":
		take(p.fault, area.W, s.rowsHigh(longRows))
	case s.page.Tell.Sentence != "":
		say(p.tell, s.page.Tell, area.W)
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
		all = append(all, p.buttons[i].hold)
		wide = max(wide, widthOf(b.Face))
	}
	wide = min(wide, area.W)
	columns := look.Fitting(area.W, wide)
	high := s.rowsHigh(2)
	under := func(n int) float32 {
		rows := (n + columns - 1) / columns
		return float32(rows)*(high+look.GapMin) - look.GapMin
	}
	shown, more := s.fitting(look.At(area.X, area.Y, area.W, area.H-under(len(all))-look.GapMin))
	if more {
		all = append(all, p.turn.hold)
		shown, _ = s.fitting(look.At(area.X, area.Y, area.W, area.H-under(len(all))-look.GapMin))
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

// widthOf is how wide a button has to be for its words on two rows.
func widthOf(f look.BannerFace) float32 {
	letters := utf8.RuneCountInString(f.Sentence) + utf8.RuneCountInString(f.Hint)
	if f.Icon != look.IconNone {
		letters += 3
	}
	switch {
	case letters <= shortWord:
		return narrowTap
	case letters <= 2*shortWord+4:
		return wideTap
	}
	return fullTap
}

// beside tells whether what a row has besides stands at its side, not under it.
func beside(width float32) bool { return width >= broadFrom/2+12 }

// rowHigh is how high one row is, with what stands under it, and whether the
// rows of this page need the room of long sentences.
func (s *Screen) rowHigh(width float32) (row, all float32, long bool) {
	most, aside := shortRows, false
	for _, r := range s.page.Rows {
		here := width
		if r.Does.what != picksNothing {
			if aside = true; beside(width) {
				here -= sideWide + look.GapMin
			}
		}
		rows, much := s.textRows(r.Face, here)
		most, long = max(most, rows), long || much
	}
	if long {
		most = max(most, longRows)
	}
	row = s.rowsHigh(most)
	if all = row; aside && !beside(width) {
		all += look.GapMin + s.rowsHigh(shortRows)
	}
	return row, all, long
}

// textRows is how many rows of letters a sentence needs with what stands behind
// it, and whether one of both needs the room of a long one.
func (s *Screen) textRows(f look.BannerFace, width float32) (rows int, long bool) {
	l := s.opt.Look
	letter := l.Scale().Millimetres(l.Letters(s.reads(), look.Small))
	width -= 2 * padding
	if f.Icon != look.IconNone {
		width -= letter*lineShare + padding
	}
	perRow := max(1, int(width/(letter*letterShare)))
	need := func(text string) int { return (utf8.RuneCountInString(text) + perRow - 1) / perRow }
	sentence, hint := need(f.Sentence), need(f.Hint)
	if utf8.RuneCountInString(f.Sentence)+utf8.RuneCountInString(f.Hint)+3 <= perRow {
		return shortRows, false
	}
	rows = max(sentence+hint, shortRows)
	if long = sentence > shortRows || hint > shortRows; long {
		rows = max(rows, longRows)
	}
	return rows, long
}

// letterShare is how wide a letter is at most on average, by its size; a word
// that goes to the next row leaves some of its row empty.
const letterShare = 0.62

// columnsOf is how many columns of rows stand beside each other.
func (s *Screen) columnsOf(width float32) int {
	if len(s.page.Rows) < 4 {
		return 1
	}
	return look.Fitting(width, columnWide)
}

// fitting is how many rows an area holds, and whether there are more.
func (s *Screen) fitting(area look.Box) (shown int, more bool) {
	if len(s.page.Tiles) > 0 || s.page.Stepper != nil {
		return max(1, len(s.page.Tiles)), false
	}
	if s.page.Entry {
		area.H -= entryHigh + look.GapMin
	}
	columns := s.columnsOf(area.W)
	_, high, _ := s.rowHigh((area.W - look.GapMin*float32(columns-1)) / float32(columns))
	shown = min(look.Fitting(area.H, high)*columns, rowsMax)
	return shown, len(s.page.Rows) > shown
}

// layRows puts as many rows as fit, column by column.
func (s *Screen) layRows(put look.Put, area look.Box) {
	columns := s.columnsOf(area.W)
	wide := (area.W - look.GapMin*float32(columns-1)) / float32(columns)
	row, high, long := s.rowHigh(wide)
	deep := max(1, s.shown/columns)
	for i := range min(s.shown, max(0, len(s.page.Rows)-s.hand.from)) {
		b := look.At(area.X+float32(i/deep)*(wide+look.GapMin), area.Y+float32(i%deep)*(high+look.GapMin), wide, row)
		s.layRow(put, i, b, long)
	}
}

// layRow puts one row, with what stands beside it, or under it where it is narrow.
func (s *Screen) layRow(put look.Put, i int, b look.Box, long bool) {
	x, r := &s.parts.lines[i], s.page.Rows[s.hand.from+i]
	if r.Does.what != picksNothing {
		x.side.Set(r.Side)
		if beside(b.W) {
			b.W -= sideWide + look.GapMin
			put(x.aside, b.X+b.W+look.GapMin, b.Y, sideWide, b.H)
		} else {
			put(x.aside, b.X, b.Y+b.H+look.GapMin, b.W, s.rowsHigh(2))
		}
	}
	if r.Pick.what == picksNothing {
		b.Put(put, x.read.says(r.Face, long))
		return
	}
	x.tapped.says(r.Face, long)
	hold := x.short
	if long {
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
