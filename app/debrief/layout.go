package debrief

import (
	"fyne.io/fyne/v2"

	"lintel/app/look"
)

// Measures of the screen, in mm.
const (
	edge       = 2.0
	gap        = look.GapMin
	broadFrom  = 130.0 // from here on the picture comes first
	roomyFrom  = 128.0 // height from which cases stand beside each other
	headHigh   = 13.0
	longHigh   = 23.0
	tapHigh    = 13.0
	zoomWide   = 20.0
	tapWide    = 28.0 // least, of a way to somewhere
	undoWide   = 26.0
	recordWide = 34.0
	entryHigh  = 18.0
	entryShare = 0.64 // of the row that it stands in
	labelWide  = 84.0
	columnWide = 27.0
	cellHigh   = 7.0
	cellGap    = 0.8
	legendHigh = 16.5
	legendLong = 23.0
	chartLeast = 12.0
)

// lay puts the page that is asked for into a size.
func (s *Screen) lay(put look.Put, width, height float32) {
	broad, roomy := width >= broadFrom, width >= broadFrom && height >= roomyFrom
	if s.shape.broad != broad || s.shape.roomy != roomy {
		s.shape.broad, s.shape.roomy = broad, roomy
		s.word() // other pages suit it
	}
	area := s.layTop(put, look.At(edge, edge, width-2*edge, height-2*edge))
	if s.page.Record != nil {
		area = s.layRecord(put, area)
	}
	area = s.layButtons(put, area)
	switch {
	case s.page.Sheet != nil:
		s.sheet.Lay(put, area)
	case s.page.Compare != nil:
		s.layCompare(put, area)
	case s.page.Chart:
		s.layChart(put, area)
	}
}

// cut takes a piece from the upper end of an area.
func cut(area look.Box, high float32) (piece, rest look.Box) {
	return look.At(area.X, area.Y, area.W, high), look.At(area.X, area.Y+high+gap, area.W, area.H-high-gap)
}

// layTop puts what has to be known first, and gives what is left below it. A
// sheet with a head of its own needs no other.
func (s *Screen) layTop(put look.Put, rest look.Box) look.Box {
	p := &s.parts
	var piece look.Box
	if s.page.Notice.Sentence != "" {
		piece, rest = cut(rest, headHigh)
		if s.page.Undo {
			put(p.undo.hold, piece.X+piece.W-undoWide, piece.Y, undoWide, piece.H)
			piece.W -= undoWide + gap
		}
		piece.Put(put, p.notice)
	}
	switch {
	case s.page.Sheet != nil && s.page.Sheet.Head != "":
	case s.page.Notice.Sentence != "" && s.page.Sheet == nil && !s.shape.roomy: // in place of it
	case s.shape.broad, s.page.Chart:
		piece, rest = cut(rest, headHigh)
		if len(s.page.Zooms) > 0 {
			wide := float32(zoomsMax * (zoomWide + gap))
			right := look.At(piece.X+piece.W-wide+gap, piece.Y, wide-gap, piece.H)
			for i, b := range right.Cells(zoomsMax, 1) {
				if !s.page.Zooms[i].Off {
					b.Put(put, p.zooms[i].hold)
				}
			}
			piece.W -= wide
		}
		piece.Put(put, p.head)
	default:
		piece, rest = cut(rest, longHigh)
		piece.Put(put, p.long)
	}
	return rest
}

// layRecord puts what was chosen, where to type, and the way to record it. Where
// it is narrow, the tiles that are chosen say so themselves.
func (s *Screen) layRecord(put look.Put, area look.Box) look.Box {
	p := &s.parts
	if !s.shape.broad {
		piece, rest := cut(area, tapHigh)
		piece.Put(put, p.record.hold)
		return rest
	}
	piece, rest := cut(area, entryHigh)
	put(p.record.hold, piece.X+piece.W-recordWide, piece.Y, recordWide, piece.H)
	piece.W -= recordWide + gap
	if s.page.Typing {
		wide := piece.W * entryShare
		put(p.entry, piece.X+piece.W-wide, piece.Y, wide, piece.H)
		piece.W -= wide + gap
	}
	piece.Put(put, p.answer)
	return rest
}

// layButtons puts the ways at the bottom, or, where nothing else is shown, from
// the top down; and gives what is left above them.
func (s *Screen) layButtons(put look.Put, area look.Box) look.Box {
	n := min(len(s.page.Buttons), buttonsMax)
	all := make([]fyne.CanvasObject, 0, n+1)
	for _, b := range s.parts.buttons[:n] {
		all = append(all, b.hold)
	}
	if s.turns(area, n) {
		all = append(all, s.parts.more.hold)
	}
	if len(all) == 0 {
		return area
	}
	columns, rows := s.grid(area.W, len(all))
	high := underHigh(rows)
	piece := look.At(area.X, area.Y+area.H-high, area.W, high)
	if !s.page.Chart && s.page.Compare == nil {
		piece.Y = area.Y
	}
	for i, b := range piece.Cells(columns, rows) {
		if i < len(all) {
			b.Put(put, all[i])
		}
	}
	area.H -= high + gap
	return area
}

// grid is in how many columns and rows so many ways stand. Those around a
// picture have few letters.
func (s *Screen) grid(width float32, n int) (columns, rows int) {
	least := float32(tapWide)
	if s.page.Chart && !s.shape.broad {
		least = zoomWide
	}
	columns = min(look.Fitting(width, least), n)
	rows = (n + columns - 1) / columns
	return (n + rows - 1) / rows, rows
}

func underHigh(rows int) float32 { return float32(rows)*(tapHigh+gap) - gap }

// turns tells whether there is more than one page of the table, or of the
// picture over n ways, and says so on the way there. The picture is divided
// for the room that is left when that way stands among the others.
func (s *Screen) turns(area look.Box, n int) bool {
	more, said := false, s.opt.Words.Say("list.after")
	switch {
	case s.page.Compare != nil:
		more = s.fit(area) < len(s.page.Compare.Others)
	case s.page.Chart:
		_, rows := s.grid(area.W, n+1)
		area.H -= underHigh(rows) + gap
		s.paint(area)
		more = len(s.drawn.pages) > 1
		said = s.opt.Words.Say("door.turn", s.hand.from+1, len(s.drawn.pages))
	}
	s.parts.more.face.Set(look.BannerFace{Icon: look.IconMore, Sentence: said})
	return more
}

// layChart puts a page of the picture, and what its signs mean where there is
// room below it.
func (s *Screen) layChart(put look.Put, area look.Box) {
	p := &s.parts
	if n := len(s.drawn.pages); n > 0 {
		face := s.drawn.pages[min(s.hand.from, n-1)]
		if s.drawn.shown != s.hand.from+1 {
			p.chart.Set(face)
			s.drawn.shown = s.hand.from + 1
		}
		high := min(area.H, max(chartLeast, s.parts.chart.High(area.W)))
		put(p.chart, area.X, area.Y, area.W, high)
		area.Y, area.H = area.Y+high+1, area.H-high-1
	}
	legend, high := p.legend, float32(legendHigh)
	if !s.shape.broad {
		legend, high = p.brief, legendLong
	}
	if area.H >= high {
		put(legend, area.X, area.Y, area.W, high)
	}
}

// paint divides the picture into pages that fit an area, unless it is what was
// divided before.
func (s *Screen) paint(area look.Box) {
	now := drawing{area.W, area.H, s.hand.zoom, s.hand.at, s.snaps}
	if s.drawn.of == now {
		return
	}
	f := picture(s.opt.Words, s.snap.Course, s.snap.Course.whole().part(s.hand.zoom, s.hand.at), s.opt.Zone, roomFor(s.shape.broad))
	s.drawn.of, s.drawn.shown = now, 0
	s.drawn.pages = paged(f, func(f look.ChartFace) bool {
		s.parts.ruler.Set(f)
		return s.parts.ruler.High(area.W) <= area.H
	})
	if s.hand.from >= len(s.drawn.pages) {
		s.hand.from = 0
	}
}

// fit is how many other cases stand beside the one that is looked at.
func (s *Screen) fit(area look.Box) int {
	return min(int((area.W-labelWide)/(columnWide+cellGap))-2, columnsMax-1)
}

// layCompare puts the table: labels, the case itself, others, all.
func (s *Screen) layCompare(put look.Put, area look.Box) {
	p, c := &s.parts, s.page.Compare
	s.shown = s.fit(area)
	others := c.Others[min(s.hand.from, len(c.Others)):]
	all := append([]Column{c.Own}, others[:min(len(others), s.shown)]...)
	all = append(all, c.All)
	y := func(i int) float32 { return area.Y + headHigh + cellGap + float32(i)*(cellHigh+cellGap) }
	n, wide := min(len(c.Labels), figuresMax), (area.W-labelWide)/float32(len(all))-cellGap
	for i := range n {
		put(p.labels[i], area.X, y(i), labelWide, cellHigh)
	}
	for k, x := range all {
		column := &p.columns[k]
		column.set(x)
		left := area.X + labelWide + cellGap + float32(k)*(wide+cellGap)
		put(column.head, left, area.Y, wide, headHigh)
		for i := range n {
			put(column.cells[i], left, y(i), wide, cellHigh)
		}
	}
}
