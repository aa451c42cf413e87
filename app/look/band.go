package look

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// Band is the colour of a class of drugs with its word; the zero value is none.
// Colours follow ISO 26825, their values on a screen are ours. A colour never
// stands without its word.
type Band struct {
	Word    string      // the class: "relaxant"
	Colour  color.NRGBA // of the class; BandInk can be read on it
	Striped bool        // an antagonist: 45° stripes of white and the colour
}

// BandInk is what words on a Band are written in.
func BandInk() color.NRGBA { return color.NRGBA{A: 0xFF} }

// stripeMM is how wide one stripe is, in mm.
const stripeMM = 2

// bandPart draws a Band: a field in its colour, striped for an antagonist, and
// words on plain patches of the colour, so that no letter stands on a stripe.
type bandPart struct {
	look    *Look
	band    Band
	field   *canvas.Rectangle
	stripes *canvas.Raster
	patches [2]*canvas.Rectangle
	words   [2]*lines // at the leading and at the trailing end
}

// band makes one whose words are read from where a role reads.
func (w writing) band(r Role) *bandPart {
	b := &bandPart{look: w.look, field: canvas.NewRectangle(color.Transparent)}
	b.stripes = canvas.NewRaster(b.draw)
	b.stripes.Hide()
	for i := range b.patches {
		b.patches[i] = canvas.NewRectangle(color.Transparent)
		b.words[i] = w.lines(r, true, 1)
	}
	return b
}

// objects are in the order of painting.
func (b *bandPart) objects() (all []fyne.CanvasObject) {
	all = append(all, b.field, b.stripes)
	for i, p := range b.patches {
		all = append(append(all, p), b.words[i].objects()...)
	}
	return all
}

// draw paints the stripes into so many pixels.
func (b *bandPart) draw(w, h int) image.Image {
	out := image.NewNRGBA(image.Rect(0, 0, w, h))
	period := max(2, int(float32(w)/max(1, b.stripes.Size().Width)*b.look.MM(2*stripeMM)*1.414))
	white := color.NRGBA{R: 0xFF, G: 0xFF, B: 0xFF, A: 0xFF}
	for y := range h {
		for x := range w {
			if (x+y)%period < period/2 {
				out.SetNRGBA(x, y, white)
			} else {
				out.SetNRGBA(x, y, b.band.Colour)
			}
		}
	}
	return out
}

// lay puts a band and its two words into a box. The leading word is cut where
// it has no room, the trailing one is left out. No band: nothing is shown.
func (b *bandPart) lay(f Band, lead, trail string, size float32, in box) {
	l := b.look
	shown := f != (Band{})
	for i, said := range []string{lead, trail} {
		b.patches[i].FillColor = color.Transparent
		place(b.patches[i], 0, 0, 0, 0)
		b.words[i].write("", ink{size: size}, 0, 0, 0)
		if !shown || said == "" {
			continue
		}
		wide := min(b.words[i].measure(size)(said)+1, in.width-l.MM(2*paddingMM))
		x := in.x + l.MM(paddingMM)
		if i == 1 {
			x = in.x + in.width - l.MM(paddingMM) - wide
			if lead != "" && x < b.patches[0].Position().X+b.patches[0].Size().Width+l.MM(1) || x < in.x {
				continue
			}
		}
		b.patches[i].FillColor = f.Colour
		place(b.patches[i], x-l.MM(1), in.y, wide+l.MM(2), in.height)
		b.words[i].write(said, ink{size: size, color: BandInk()}, x, in.y+(in.height-lineHeight(size, 1))/2, wide)
	}
	b.field.FillColor, b.field.StrokeWidth = color.Transparent, 0
	b.field.CornerRadius = l.MM(cornerMM)
	if !shown {
		b.stripes.Hide()
		place(b.field, 0, 0, 0, 0)
		return
	}
	b.field.FillColor = f.Colour
	place(b.field, in.x, in.y, in.width, in.height)
	b.layStripes(f, in)
}

func (b *bandPart) layStripes(f Band, in box) {
	changed := b.band != f
	b.band = f
	if !f.Striped {
		b.stripes.Hide()
		return
	}
	b.stripes.Show()
	place(b.stripes, in.x, in.y, in.width, in.height)
	if changed {
		b.stripes.Refresh()
	}
}
