package look

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// Measures that all parts share, in mm.
const (
	paddingMM = 1.5 // between an edge and what stands inside
	innerMM   = 3.5 // around the words on a button of the toolkit: makes it a target at a desk
	cornerMM  = 1.5 // radius
	edgeMM    = 0.4 // width of an edge
	focusMM   = 0.8 // width of the edge that has the focus
	barMM     = 3.0 // width of the bar that shows a tone
)

// painted draws a part: lay puts the face into the named lines and places
// them, for a size; least is the part's least size.
type painted struct {
	owner   fyne.CanvasObject
	objects []fyne.CanvasObject
	lay     func(fyne.Size)
	least   func() fyne.Size
}

// Layout is part of fyne.WidgetRenderer.
func (p *painted) Layout(size fyne.Size) { p.lay(size) }

// MinSize is part of fyne.WidgetRenderer.
func (p *painted) MinSize() fyne.Size { return p.least() }

// Objects is part of fyne.WidgetRenderer.
func (p *painted) Objects() []fyne.CanvasObject { return p.objects }

// Destroy is part of fyne.WidgetRenderer.
func (p *painted) Destroy() {}

// Refresh is part of fyne.WidgetRenderer.
func (p *painted) Refresh() {
	p.lay(p.owner.Size())
	for _, o := range p.objects {
		if _, is := o.(*canvas.Image); !is { // paintIcon does, when the drawing is another one: it is read again each time
			o.Refresh()
		}
	}
}

// setFace keeps a face and paints it, if it is another one.
func setFace[F comparable](held *F, next F, paint func()) {
	if *held != next {
		*held = next
		paint()
	}
}

func place(o fyne.CanvasObject, x, y, width, height float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(width, height))
}

// panel is the field that a part stands on.
func (l *Look) paintPanel(r *canvas.Rectangle, f Fill, size fyne.Size) {
	r.FillColor, r.StrokeColor = f.Ground, f.Edge
	r.StrokeWidth, r.CornerRadius = l.MM(edgeMM), l.MM(cornerMM)
	place(r, 0, 0, size.Width, size.Height)
}
