package inside

import (
	"fyne.io/fyne/v2"

	"lintel/app/look"
)

// Measures of the board, in mm.
const (
	edge      = 2.5   // between the screen's edge and what stands at it
	gap       = 3.0   // between targets
	sideOf    = 20.0  // of a target inside
	rescueOf  = 25.0  // of a rescue set
	fromTop   = 15.0  // of rescue sets, so that they are away from the corners
	columnOf  = 30.0  // the column of rescue sets
	tileWidth = 42.0  // least, of a tile with its words
	tileHigh  = 21.5  // least, of number, word and detail
	stripHigh = 31.0  // two rows that are read from 1.5 m
	openWide  = 28.0  // what opens the strip
	listWidth = 46.0  // least, of a line of the catalogue
	listHigh  = 37.0  // least: number, two rows of its name, two of its size
	stripWide = 150.0 // least, of a strip with age and what opens it
)

// wideFrom and narrowBelow part the three plans, in mm of width.
const (
	wideFrom    = 200.0
	narrowBelow = 140.0
)

// box is a place in mm.
type box struct{ x, y, w, h float32 }

// put places an object in a box.
func (b box) put(put look.Put, o fyne.CanvasObject) { put(o, b.x, b.y, b.w, b.h) }

// cells divides a box into columns and rows with gaps between, row by row.
func (b box) cells(columns, rows int) (out []box) {
	w := (b.w - gap*float32(columns-1)) / float32(columns)
	h := (b.h - gap*float32(rows-1)) / float32(rows)
	for r := range rows {
		for c := range columns {
			out = append(out, box{b.x + float32(c)*(w+gap), b.y + float32(r)*(h+gap), w, h})
		}
	}
	return out
}

// lay puts the parts of the page that is open.
func (s *Screen) lay(put look.Put, width, height float32) {
	p := &s.parts
	if s.hand.page == pageSign && p.sign.shown {
		p.sign.lay(put, width, height)
		return
	}
	switch {
	case width >= wideFrom && height >= 125:
		s.layWide(put, width, height)
	case width >= narrowBelow:
		s.laySmall(put, width, height)
	default:
		s.layPhone(put, width, height)
	}
}

// layWide is for a tablet: rescue sets in a column, how soon in a row, board,
// strip.
func (s *Screen) layWide(put look.Put, width, height float32) {
	p := &s.parts
	put(p.room, edge, edge, columnOf, fromTop-edge-gap)
	column := box{edge, fromTop, columnOf, 4*rescueOf + 3*gap}
	for i, b := range column.cells(1, setsMax) {
		b.put(put, p.sets[i])
	}
	under := column.y + column.h + gap
	put(p.undo, edge, under, columnOf, height-edge-under)
	x := float32(edge + columnOf + gap)
	right := width - edge - x
	link := right * 0.25
	put(p.link, x, edge, link, sideOf)
	four := box{x + link + gap, edge, right - link - gap, sideOf}.cells(4, 1)
	for i := range p.urgency {
		four[i].put(put, p.urgency[i])
	}
	four[3].put(put, p.other)
	area := box{x, edge + sideOf + gap, right, height - 2*edge - sideOf - gap}
	if s.hand.page == pageOther {
		s.layList(put, area, true)
		return
	}
	s.layBoard(put, area)
}

// layBoard puts tiles and strip, or the panel over their lower part.
func (s *Screen) layBoard(put look.Put, area box) {
	p := &s.parts
	tiles := box{area.x, area.y, area.w, area.h - stripHigh - gap}
	columns, rows := fitting(tiles.w, tileWidth), fitting(tiles.h, tileHigh)
	s.setFront(columns * rows)
	cells := tiles.cells(columns, rows)
	bottom := area.y + area.h
	panel := p.panel.now != nil
	if panel {
		half := cells[columns*(rows/2)].y
		if area.h < 100 {
			half = area.y
		}
		bottom = half - gap
		p.panel.lay(put, box{area.x, half, area.w, area.y + area.h - half})
	}
	for i, b := range cells {
		if i < len(p.tiles) && b.y+b.h <= bottom+0.1 {
			b.put(put, p.tiles[i])
		}
	}
	if panel {
		return
	}
	strip := box{area.x, area.y + area.h - stripHigh, area.w, stripHigh}
	small := area.w < stripWide
	if !small {
		strip.w -= openWide + gap
		put(p.open, strip.x+strip.w+gap, strip.y, openWide, stripHigh)
	}
	switch {
	case p.fault.Face().Sentence != "":
		strip.put(put, p.fault)
	case small:
		strip.put(put, p.holdIn)
	default:
		strip.put(put, p.hold)
	}
}

// fitting is how many of a least size stand beside each other.
func fitting(room, least float32) int { return max(1, int((room+gap)/(least+gap))) }

// setFront notes how many places the front page has.
func (s *Screen) setFront(n int) { s.front = n }

// lay puts a request's panel: its head, large words, and what can be done.
func (p *panelParts) lay(put look.Put, area box) {
	now := p.now
	const headHigh, tellHigh = 9.0, 15.5
	high := float32(28.0)
	put(p.head, area.x, area.y, area.w, headHigh)
	words := box{area.x, area.y + headHigh + 1, area.w, area.h - headHigh - tellHigh - high - gap - 2}
	if len(now.Others) > 0 {
		for i, b := range words.cells(len(now.Others), 1) {
			b.put(put, p.others[i])
		}
	} else {
		words.put(put, p.word)
	}
	put(p.tell, area.x, words.y+words.h+1, area.w, tellHigh)
	row := box{area.x, area.y + area.h - high, area.w, high}
	if now.Withdraw != nil {
		const wide = 32.0
		put(p.withdraw, row.x+row.w-wide, row.y, wide, high)
		row.w -= wide + look.GapWithdraw
	}
	for i, b := range row.cells(max(len(now.Buttons), 3), 1) {
		if i < len(now.Buttons) {
			b.put(put, p.buttons[i])
		}
	}
}

// layList puts groups or items, and the keys where there is room for them.
func (s *Screen) layList(put look.Put, area box, keys bool) {
	p := &s.parts.list
	left := area
	if keys {
		const wide, typedHigh = 66.0, 15.0
		right := box{area.x + area.w - wide, area.y, wide, area.h}
		left.w -= wide + 2*gap
		put(p.typed, right.x, right.y, wide, typedHigh)
		high := float32(4*sideOf + 3*gap)
		put(p.tell, right.x, right.y+typedHigh+1, wide, right.h-typedHigh-high-gap-1)
		put(p.keys, right.x, right.y+right.h-high, wide, high)
	}
	columns, rows := fitting(left.w, listWidth), fitting(left.h, listHigh)
	cells := left.cells(columns, rows)
	if s.hand.group < 0 {
		for i, b := range left.cells(3, 4) {
			if i < len(p.now.Groups) {
				b.put(put, p.groups[i])
			}
		}
		return
	}
	last := len(cells)
	for i, t := range []*look.Tile{p.groupsOf, p.prev, p.next} {
		if last-3+i >= 0 {
			cells[last-3+i].put(put, t)
		}
	}
	s.shown = max(1, min(last-3, listMax))
	for i := range min(s.shown, len(p.now.Items)-s.hand.from) {
		cells[i].put(put, p.items[i])
	}
}

// lay puts the sign for the glass, which is read from 2 m.
func (p *signParts) lay(put look.Put, width, height float32) {
	row := height - edge - rescueOf
	code := height * 0.25
	put(p.word, edge, edge, width-2*edge, row-code-2*gap-edge)
	put(p.code, edge, row-code-gap, width-2*edge, code)
	third := (width - 2*edge - 2*gap) / 3
	put(p.back, edge, row, third, rescueOf)
	put(p.room, edge+third+gap, row, third, rescueOf)
	put(p.next, edge+2*(third+gap), row, third, rescueOf)
}
