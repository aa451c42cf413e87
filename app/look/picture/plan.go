package picture

import (
	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/app/picture"
)

// Measures of maps, in mm.
const (
	mapGap  = 0.8 // between boxes that touch in the file
	mapEdge = 0.4
)

// plan is a map as it is drawn, in dp.
type plan struct {
	title string // empty: it does not fit
	size  float32
	boxes []planBox
}

// planBox is one drawer of it.
type planBox struct {
	at     fyne.Position
	size   fyne.Size
	words  string // empty: they do not fit
	marked bool
}

// planOf decides where a map's boxes stand in a size, and which words fit.
func planOf(l *look.Look, m picture.Map, drawer string, size fyne.Size) plan {
	letters := l.Letters(l.Reads(), look.Small)
	p := plan{size: letters}
	row, top := textSize(m.Cupboard, letters).Height, float32(0)
	if title := m.Room + " · " + m.Cupboard; textSize(title, letters).Width <= size.Width && size.Height >= 4*row {
		p.title, top = title, row
	} else if textSize(m.Cupboard, letters).Width <= size.Width && size.Height >= 4*row {
		p.title, top = m.Cupboard, row
	}
	gap, unit := l.MM(mapGap), fyne.NewSize(size.Width/picture.MapSide, (size.Height-top)/picture.MapSide)
	marked, there := m.Find(drawer)
	for i, b := range m.Boxes {
		x := planBox{
			at:     fyne.NewPos(float32(b.Left)*unit.Width+gap/2, top+float32(b.Top)*unit.Height+gap/2),
			size:   fyne.NewSize(max(float32(b.Width)*unit.Width-gap, gap), max(float32(b.Height)*unit.Height-gap, gap)),
			marked: there && i == marked,
		}
		if need := textSize(b.Words, letters); need.Width+2*gap <= x.size.Width && need.Height <= x.size.Height+letters/4 {
			x.words = b.Words
		}
		p.boxes = append(p.boxes, x)
	}
	return p
}

// textSize is what a text takes in the theme's font.
func textSize(text string, letters float32) fyne.Size {
	return fyne.MeasureText(text, letters, fyne.TextStyle{})
}
