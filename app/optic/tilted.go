package optic

import (
	"image"
	"math"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/datamatrix"
	"github.com/makiuchi-d/gozxing/oned"
	"golang.org/x/image/draw"
	"golang.org/x/image/math/f64"
)

// A barcode of bars is read along lines across the picture, which cross every bar
// only where it is tilted by less than half a step. Squares are read at most tilts.
const (
	tiltSide = 800.0 // pixels: the most of a picture's longer side that is tilted
	tiltStep = 15    // degrees
)

// tryTilted looks for one barcode in a picture that was held askew.
func tryTilted(p *image.Gray) (Code, bool) {
	for _, steps := range []int{1, 5, 2, 4, 3} { // people aim at upright
		tilt := tilted(p, steps*tiltStep)
		for _, upright := range []*image.Gray{tilt, turned(tilt)} {
			if c, found := try(upright, false, tiltReaders()); found {
				return c, true
			}
		}
	}
	return Code{}, false
}

// tiltReaders are the readers that a tilt hinders.
func tiltReaders() []gozxing.Reader {
	return []gozxing.Reader{
		datamatrix.NewDataMatrixReader(), oned.NewCode128Reader(), oned.NewEAN13Reader(), oned.NewITFReader(), oned.NewCode39Reader(),
	}
}

// tilted is a grey picture turned about its middle by some degrees, with white
// where it leaves corners, and no larger than tiltSide before it is turned.
func tilted(p *image.Gray, degrees int) *image.Gray {
	b := p.Bounds()
	w, h := float64(b.Dx()), float64(b.Dy())
	scale := min(1, tiltSide/max(w, h))
	sin, cos := math.Sincos(float64(degrees) * math.Pi / 180)
	sin, cos = scale*sin, scale*cos
	wide, high := w*math.Abs(cos)+h*math.Abs(sin), w*math.Abs(sin)+h*math.Abs(cos)
	out := image.NewGray(image.Rect(0, 0, int(math.Ceil(wide)), int(math.Ceil(high))))
	draw.Draw(out, out.Bounds(), image.White, image.Point{}, draw.Src)
	about := f64.Aff3{cos, -sin, (wide - w*cos + h*sin) / 2, sin, cos, (high - w*sin - h*cos) / 2}
	draw.CatmullRom.Transform(out, about, p, b, draw.Over, nil)
	return out
}
