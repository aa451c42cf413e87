package proof

import (
	"image/color"

	"fyne.io/fyne/v2/canvas"

	"lintel/app/look"
)

// inked is a drawing that tells its colour.
type inked interface{ Ink() color.NRGBA }

// edges judges borders and icons. A field is told apart by its edge or by
// itself, whichever stands out more.
func (a *audit) edges(all []seen) {
	for _, s := range all {
		switch o := s.object.(type) {
		case *canvas.Rectangle:
			if o.StrokeWidth <= 0 || !opaque(o.StrokeColor) {
				continue
			}
			ratio := look.Contrast(o.StrokeColor, s.ground)
			if opaque(o.FillColor) {
				ratio = max(ratio, look.Contrast(o.FillColor, s.ground))
			}
			if ratio < look.ContrastEdge {
				a.complain(RuleContrast, "edge", s.at, ratio, look.ContrastEdge)
			}
		case *canvas.Image:
			drawn, is := o.Resource.(inked)
			if !is {
				continue
			}
			if ratio := look.Contrast(drawn.Ink(), s.ground); ratio < look.ContrastEdge {
				a.complain(RuleContrast, "icon "+o.Resource.Name(), s.at, ratio, look.ContrastEdge)
			}
		}
	}
}
