package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// box is a place inside a part, in dp.
type box struct{ x, y, width, height float32 }

// wrappedHeight is how high a text becomes in a width.
func wrappedHeight(t *lines, text string, size, width float32) float32 {
	return lineHeight(size, len(wrap(text, width, len(t.texts), t.measure(size))))
}

// rowsIn is how many rows of a size a height holds; the last may reach a little
// into the padding.
func rowsIn(height, size float32) int { return int(height/lineHeight(size, 1) + 0.1) }

// paintBar puts the bar of a tone at the leading edge and tells how wide it is.
// A plain tone has none.
func (l *Look) paintBar(r *canvas.Rectangle, t Tone, shown bool, size fyne.Size) float32 {
	if t == TonePlain || !shown {
		r.FillColor, r.StrokeColor, r.StrokeWidth = color.Transparent, color.Transparent, 0
		place(r, 0, 0, 0, 0)
		return 0
	}
	f, edge := l.palette.Fill(t), l.MM(edgeMM)
	r.FillColor, r.StrokeColor, r.StrokeWidth = f.Ground, f.Edge, edge
	r.CornerRadius = l.MM(cornerMM)
	place(r, 0, 0, l.MM(barMM), size.Height)
	return l.MM(barMM)
}
