package scribe

import "lintel/app/look"

// Measures of the screen, in mm.
const (
	edge       = 2.5
	phoneEdge  = 1.5
	gap        = look.GapMin
	broadFrom  = 130.0
	topHigh    = 13.0 // what the next tap counts as, or what can be taken back
	lowHigh    = 12.5
	leftShare  = 0.665
	tileWide   = 53.0 // least: the longest word of the front page
	tileHigh   = 30.0 // least: when, and two rows
	tileMost   = 44.0
	tilesMin   = 9 // as many as stand on tiles, or else on lines
	lineWide   = 44.0
	lineHigh   = 12.5
	labelHigh  = 7.5
	clockHigh  = 24.0
	markedHigh = 44.0 // of a clock with its marks
	faultHigh  = 23.0
	lateWide   = 29.0
)

// lay puts the first page, or the question that is asked.
func (s *Screen) lay(put look.Put, width, height float32) {
	rim := float32(edge)
	if width < broadFrom {
		rim = phoneEdge
	}
	area := look.At(rim, rim, width-2*rim, height-2*rim)
	switch {
	case s.hand.step != stepHome && s.parts.fault.Face().Sentence != "":
		put(s.parts.fault, area.X, area.Y, area.W, faultHigh)
		s.sheet.Lay(put, look.At(area.X, area.Y+faultHigh+1, area.W, area.H-faultHigh-1))
	case s.hand.step != stepHome:
		s.sheet.Lay(put, area)
	case width < broadFrom:
		s.layPhone(put, area)
	default:
		s.layBroad(put, area)
	}
}

// layBroad puts the times on the left, what is running on the right, and late
// entry below.
func (s *Screen) layBroad(put look.Put, area look.Box) {
	low := look.At(area.X, area.Y+area.H-lowHigh, area.W, lowHigh)
	area.H -= lowHigh + gap
	left := look.At(area.X, area.Y, area.W*leftShare, area.H)
	right := look.At(area.X+left.W+gap, area.Y, area.W-left.W-gap, area.H)
	s.layTimes(put, left)
	right = s.layTop(put, right)
	for i := range s.rows.Clocks {
		if i < clocksMax {
			right = s.layClock(put, i, right)
		}
	}
	s.layLow(put, low)
}

// layLow puts late entry, where there is room, the way to what was noted and
// to the times that did not fit.
func (s *Screen) layLow(put look.Put, low look.Box) {
	p := &s.parts
	tiles := []*look.Tile{p.noted, p.turn}
	if all := float32(lateMax+len(tiles))*(lateWide+gap) - gap; low.W < all {
		tiles = []*look.Tile{p.other, p.turn}
	} else {
		tiles = append(append([]*look.Tile{}, p.late[:]...), tiles...)
	}
	for i, b := range low.Cells(len(tiles), 1) {
		if tiles[i] != p.turn || len(s.rows.Tiles) > s.shown {
			b.Put(put, tiles[i])
		}
	}
}

// layTop puts a fault, what can be taken back, or what the next tap counts as.
func (s *Screen) layTop(put look.Put, area look.Box) (rest look.Box) {
	p, high := &s.parts, float32(topHigh)
	top := look.At(area.X, area.Y, area.W, topHigh)
	switch {
	case p.fault.Face().Sentence != "":
		high = faultHigh
		put(p.fault, area.X, area.Y, area.W, high)
	case s.rows.Undo.Sentence != "":
		top.Put(put, p.undo)
	default:
		top.Put(put, p.head)
	}
	return look.At(area.X, area.Y+high+gap, area.W, area.H-high-gap)
}

// layClock puts a clock with its label, with its marks where there is room.
func (s *Screen) layClock(put look.Put, i int, area look.Box) (rest look.Box) {
	high := float32(clockHigh)
	if m := s.rows.Clocks[i].Clock.Marks; m[0]+m[1] > 0 {
		high = markedHigh
	}
	if area.H < labelHigh+1+high {
		return look.At(area.X, area.Y, area.W, 0)
	}
	put(s.parts.labels[i], area.X, area.Y, area.W, labelHigh)
	put(s.parts.clocks[i], area.X, area.Y+labelHigh+1, area.W, high)
	used := labelHigh + 1 + high + gap
	return look.At(area.X, area.Y+used, area.W, area.H-used)
}

// layTimes puts as many times as fit: on tiles where that are many.
func (s *Screen) layTimes(put look.Put, area look.Box) {
	columns, rows := look.Fitting(area.W, tileWide), look.Fitting(area.H, tileHigh)
	most, lines := float32(tileMost), columns*rows < tilesMin
	if lines {
		columns, rows, most = look.Fitting(area.W, lineWide), look.Fitting(area.H, lineHigh), lineHigh+3
	}
	area.H = min(area.H, float32(rows)*(most+gap)-gap)
	cells := area.Cells(columns, rows)
	s.shown = min(len(cells), timesMax)
	for i := range min(s.shown, len(s.rows.Tiles)-s.from) {
		if lines {
			s.parts.says[i].Set(s.rows.Lines[s.from+i])
			cells[i].Put(put, s.parts.lines[i])
			continue
		}
		s.parts.tiles[i].Set(s.rows.Tiles[s.from+i])
		cells[i].Put(put, s.parts.tiles[i])
	}
}

// layPhone puts one clock over the times.
func (s *Screen) layPhone(put look.Put, area look.Box) {
	p := &s.parts
	low := look.At(area.X, area.Y+area.H-lowHigh, area.W, lowHigh)
	area.H -= lowHigh + gap
	area = s.layTop(put, area)
	if len(s.rows.Clocks) > 0 && p.fault.Face().Sentence == "" {
		put(p.labels[0], area.X, area.Y-gap+1, area.W, labelHigh)
		area.Y, area.H = area.Y+labelHigh-1, area.H-labelHigh+1
		put(p.clock, area.X, area.Y, area.W, clockHigh)
	}
	area.Y, area.H = area.Y+clockHigh+gap, area.H-clockHigh-gap
	s.layTimes(put, area)
	s.layLow(put, low)
}
