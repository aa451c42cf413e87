package look

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Put places an object, in mm from the upper left corner.
type Put func(o fyne.CanvasObject, left, top, width, height float32)

// NewFree makes a screen whose parts stand where one function puts them, for a
// size in mm. What it does not put is not shown. It asks for no least size, so
// that a window is never made larger than the screen. Arrange it when other
// parts are to be shown.
func NewFree(l *Look, lay func(put Put, width, height float32), objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&free{look: l, lay: lay}, objects...)
}

// Arrange puts the parts of a screen that NewFree made again. Parts that stand
// where they stood are left alone, so that it costs little.
func Arrange(screen *fyne.Container) { screen.Layout.Layout(screen.Objects, screen.Size()) }

type free struct {
	look *Look
	lay  func(put Put, width, height float32)
}

// MinSize is part of fyne.Layout.
func (f *free) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

// Layout is part of fyne.Layout.
func (f *free) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	shown := make(map[fyne.CanvasObject]bool, len(objects))
	put := func(o fyne.CanvasObject, left, top, width, height float32) {
		shown[o] = true
		place(o, f.look.MM(left), f.look.MM(top), f.look.MM(width), f.look.MM(height))
		if !o.Visible() {
			o.Show()
		}
	}
	if size.Width > 0 && size.Height > 0 {
		f.lay(put, f.look.scale.Millimetres(size.Width), f.look.scale.Millimetres(size.Height))
	}
	for _, o := range objects {
		if !shown[o] && o.Visible() {
			o.Hide()
		}
	}
}

// Box is a place on a screen, in mm from its upper left corner.
type Box struct{ X, Y, W, H float32 }

// At makes a box.
func At(left, top, width, height float32) Box { return Box{left, top, width, height} }

// Put places an object in the box.
func (b Box) Put(put Put, o fyne.CanvasObject) { put(o, b.X, b.Y, b.W, b.H) }

// Cells divides the box into columns and rows, row by row, with GapMin between.
func (b Box) Cells(columns, rows int) (out []Box) {
	w := (b.W - GapMin*float32(columns-1)) / float32(columns)
	h := (b.H - GapMin*float32(rows-1)) / float32(rows)
	for r := range rows {
		for c := range columns {
			out = append(out, Box{b.X + float32(c)*(w+GapMin), b.Y + float32(r)*(h+GapMin), w, h})
		}
	}
	return out
}

// Fitting is how many parts of a least size, in mm, stand beside each other
// with GapMin between; at least one.
func Fitting(room, least float32) int { return max(1, int((room+GapMin)/(least+GapMin))) }
