package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// BannerFace is what a Banner says. An empty sentence leaves its place empty.
type BannerFace struct {
	Icon     Icon
	Sentence string
	Hint     string // in plain letters after the sentence
	Tone     Tone
}

// Banner says one thing across a screen: an exercise, no runner in reach, the
// sound is off until 14:05. Its place stays when it says nothing, so that
// nothing below it moves.
type Banner struct {
	widget.BaseWidget
	writing
	role     Role
	rows     int
	face     BannerFace
	field    *canvas.Rectangle
	image    *canvas.Image
	sentence *lines
	hint     *lines
}

// NewBanner makes an empty one with room for some rows of a role.
func NewBanner(l *Look, r Role, rows int) *Banner {
	b := newBanner(l, r, rows)
	b.ExtendBaseWidget(&b)
	return &b
}

func newBanner(l *Look, r Role, rows int) Banner {
	w := newWriting(l)
	return Banner{
		writing: w, role: r, rows: max(rows, 1), field: canvas.NewRectangle(color.Transparent), image: newIconImage(),
		sentence: w.lines(r, true, max(rows, 1)), hint: w.lines(r, false, max(rows, 1)),
	}
}

// Set says another thing.
func (b *Banner) Set(f BannerFace) { setFace(&b.face, f, b.Refresh) }

// Face is what it says.
func (b *Banner) Face() BannerFace { return b.face }

// CreateRenderer is part of fyne.Widget.
func (b *Banner) CreateRenderer() fyne.WidgetRenderer {
	objects := []fyne.CanvasObject{b.field, b.image}
	objects = append(objects, b.sentence.objects()...)
	objects = append(objects, b.hint.objects()...)
	return &painted{owner: b, objects: objects, lay: b.lay, least: func() fyne.Size {
		return fyne.NewSize(b.look.MM(SideInside), lineHeight(b.look.Letters(b.role, Small), b.rows)+b.look.MM(paddingMM))
	}}
}

func (b *Banner) lay(size fyne.Size) {
	l, f, pad := b.look, b.face, b.look.MM(paddingMM)
	fill := l.palette.Fill(f.Tone)
	l.paintPanel(b.field, fill, size)
	l.paintIcon(b.image, f.Icon, fill.Ink)
	if f.Sentence == "" && f.Hint == "" {
		b.image.Hide()
		b.field.FillColor, b.field.StrokeColor, b.field.StrokeWidth = color.Transparent, color.Transparent, 0
	}
	letter := l.Letters(b.role, Small)
	row, x := lineHeight(letter, 1), pad
	k := ink{size: letter, color: fill.Ink}
	width := size.Width - 2*pad
	if b.image.Visible() {
		x += row + pad
		width -= row + pad
	}
	high := wrappedHeight(b.sentence, f.Sentence, letter, width)
	beside := b.sentence.measure(letter)(f.Sentence) + l.MM(2)
	oneRow := f.Hint != "" && beside+b.hint.measure(letter)(f.Hint) <= width
	below := wrappedHeight(b.hint, f.Hint, letter, width)
	if oneRow {
		below = 0
	}
	y := (size.Height - high - below) / 2
	place(b.image, pad, y+row*0.05, row*0.9, row*0.9)
	b.sentence.write(f.Sentence, k, x, y, width+1)
	if oneRow {
		b.hint.write(f.Hint, k, x+beside, y, width-beside+1)
		return
	}
	b.hint.write(f.Hint, k, x, y+high, width)
}
