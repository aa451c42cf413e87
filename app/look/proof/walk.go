package proof

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"lintel/app/look"
)

// area is a rectangle on the screen, in dp.
type area struct{ left, top, right, bottom float32 }

func areaOf(at fyne.Position, size fyne.Size) area {
	return area{at.X, at.Y, at.X + size.Width, at.Y + size.Height}
}

func (a area) holds(b area, slack float32) bool {
	return b.left >= a.left-slack && b.top >= a.top-slack && b.right <= a.right+slack && b.bottom <= a.bottom+slack
}

func (a area) overlaps(b area) bool {
	return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
}

// seen is one object in the order of painting.
type seen struct {
	object   fyne.CanvasObject
	at       area
	within   area // the part it belongs to
	scrolled bool // it may lie outside: somebody can bring it into view
	reads    look.Role
	ground   color.Color // what it is painted on
}

// target is a part that says what it is for.
type target interface{ Use() look.Use }

// lettered is a part that says from where its lines are read.
type lettered interface {
	RoleOf(*canvas.Text) (look.Role, bool)
}

// walk collects what is visible, in the order of painting.
type walk struct {
	look *look.Look
	all  []seen
}

// place is where the walk is.
type place struct {
	at       fyne.Position
	within   area
	scrolled bool
	part     lettered
}

// scrollMax is longer, in dp, than anything that can be brought into view.
const scrollMax = 1e6

func (w *walk) visit(o fyne.CanvasObject, p place) {
	if o == nil || !o.Visible() {
		return
	}
	p.at = p.at.Add(o.Position())
	here := areaOf(p.at, o.Size())
	s := seen{object: o, at: here, within: p.within, scrolled: p.scrolled, reads: w.look.Reads(), ground: w.groundAt(here)}
	if text, is := o.(*canvas.Text); is && p.part != nil {
		if role, known := p.part.RoleOf(text); known {
			s.reads = role
		}
	}
	w.all = append(w.all, s)
	switch o := o.(type) {
	case *fyne.Container:
		for _, child := range o.Objects {
			w.visit(child, p)
		}
	case *container.Scroll:
		p.scrolled = true
		p.within = area{-scrollMax, -scrollMax, scrollMax, scrollMax}
		w.visit(o.Content, p)
	case fyne.Widget:
		p.within = here
		if part, is := o.(lettered); is {
			p.part = part
		}
		for _, child := range test.WidgetRenderer(o).Objects() {
			w.visit(child, p)
		}
	}
}

// groundAt is the colour of the last field that was painted under the middle
// of an area; a field that is not opaque does not count.
func (w *walk) groundAt(a area) color.Color {
	x, y := (a.left+a.right)/2, (a.top+a.bottom)/2
	middle := area{x, y, x, y}
	for i := len(w.all) - 1; i >= 0; i-- {
		field, is := w.all[i].object.(*canvas.Rectangle)
		if is && opaque(field.FillColor) && w.all[i].at.holds(middle, 0) {
			return field.FillColor
		}
	}
	return w.look.Palette().Ground
}

func opaque(c color.Color) bool {
	if c == nil {
		return false
	}
	_, _, _, a := c.RGBA()
	return a == 0xFFFF
}
