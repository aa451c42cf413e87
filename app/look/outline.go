package look

import (
	"bytes"
	"fmt"
	"image/color"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"github.com/fyne-io/oksvg"
	"github.com/srwiley/rasterx"
	"golang.org/x/image/math/fixed"
)

// The toolkit draws a stroke as wide on a large icon as on a small one. So the
// strokes of our drawings become fields before it sees them: each piece a
// rectangle, each end and corner a round.
const (
	drawingSide = 24   // of the field that icons stand in
	strokeWidth = 2.0  // of icons, and of all that is drawn with strokes
	pointUnits  = 64.0 // of a fixed point in one unit of a drawing
	roundSides  = 20   // of the polygon that stands for a round
)

// outline turns the pieces of a path into fields, all turning the same way so
// that none takes away from another. It is a rasterx.Adder.
type outline struct {
	fields    strings.Builder
	at, first fixed.Point26_6
}

// Start is part of rasterx.Adder.
func (o *outline) Start(a fixed.Point26_6) {
	o.at, o.first = a, a
	o.round(a)
}

// Line is part of rasterx.Adder.
func (o *outline) Line(b fixed.Point26_6) {
	ax, ay, bx, by := units(o.at.X), units(o.at.Y), units(b.X), units(b.Y)
	if length := math.Hypot(bx-ax, by-ay); length > 0 {
		nx, ny := (ay-by)/length*strokeWidth/2, (bx-ax)/length*strokeWidth/2
		fmt.Fprintf(&o.fields, "M%.3f %.3fL%.3f %.3fL%.3f %.3fL%.3f %.3fZ", ax+nx, ay+ny, ax-nx, ay-ny, bx-nx, by-ny, bx+nx, by+ny)
	}
	o.at = b
	o.round(b)
}

// QuadBezier is part of rasterx.Adder.
func (o *outline) QuadBezier(b, c fixed.Point26_6) {
	rasterx.QuadTo(float32(o.at.X), float32(o.at.Y), float32(b.X), float32(b.Y), float32(c.X), float32(c.Y), o.lineTo)
}

// CubeBezier is part of rasterx.Adder.
func (o *outline) CubeBezier(b, c, d fixed.Point26_6) {
	rasterx.CubeTo(float32(o.at.X), float32(o.at.Y), float32(b.X), float32(b.Y), float32(c.X), float32(c.Y), float32(d.X), float32(d.Y), o.lineTo)
}

// Stop is part of rasterx.Adder.
func (o *outline) Stop(closed bool) {
	if closed {
		o.Line(o.first)
	}
}

func (o *outline) lineTo(x, y float32) {
	o.Line(fixed.Point26_6{X: fixed.Int26_6(x), Y: fixed.Int26_6(y)})
}

// round sets one around a point, turning as the rectangles do.
func (o *outline) round(p fixed.Point26_6) {
	for i := range roundSides {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / roundSides)
		step := "L"
		if i == 0 {
			step = "M"
		}
		fmt.Fprintf(&o.fields, "%s%.3f %.3f", step, units(p.X)+cos*strokeWidth/2, units(p.Y)+sin*strokeWidth/2)
	}
	o.fields.WriteString("Z")
}

func units(v fixed.Int26_6) float64 { return float64(v) / pointUnits }

// outlined turns a drawing of strokes in a square field into one of fields in a
// colour such as #F4F7FA.
func outlined(svg []byte, side int, hex string) ([]byte, error) {
	icon, err := oksvg.ReadIconStream(bytes.NewReader(svg), oksvg.StrictErrorMode)
	if err != nil {
		return nil, err
	}
	var o outline
	for _, path := range icon.SVGPaths {
		path.Path.AddTo(&o)
	}
	return fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d" viewBox="0 0 %d %d"><path fill="%s" d="%s"/></svg>`,
		side, side, side, side, hex, o.fields.String()), nil
}

// StrokesInk gives a drawing of strokes as wide as those of icons, in a square
// field of this side, in a colour, as the toolkit takes it; nil for what is no
// such drawing. Whoever calls it keeps what it gives: it takes a while.
func StrokesInk(name string, svg []byte, side int, ink color.NRGBA) fyne.Resource {
	hex := fmt.Sprintf("#%02X%02X%02X", ink.R, ink.G, ink.B)
	fields, err := outlined(svg, side, hex)
	if err != nil {
		return nil
	}
	return &drawing{fyne.NewStaticResource(name+hex+".svg", fields), ink}
}
