package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// BigWordFace is what a BigWord shows.
type BigWordFace struct {
	Word string
	Tone Tone
}

// BigWord fills its box with the largest letters that fit on at most four
// rows: a door, a sign for the glass, a code. They are never smaller than the
// small letters of its role; what does not fit then ends with "…".
type BigWord struct {
	widget.BaseWidget
	writing
	role  Role
	face  BigWordFace
	field *canvas.Rectangle
	word  *lines
}

// NewBigWord makes an empty one.
func NewBigWord(l *Look, r Role) *BigWord {
	w := newWriting(l)
	b := &BigWord{writing: w, role: r, field: canvas.NewRectangle(color.Transparent), word: w.lines(r, true, 4)}
	b.ExtendBaseWidget(b)
	return b
}

// Set shows another word.
func (b *BigWord) Set(f BigWordFace) { setFace(&b.face, f, b.Refresh) }

// CreateRenderer is part of fyne.Widget.
func (b *BigWord) CreateRenderer() fyne.WidgetRenderer {
	return &painted{
		owner: b, objects: append([]fyne.CanvasObject{b.field}, b.word.objects()...), lay: b.lay,
		least: func() fyne.Size {
			size := b.look.Letters(b.role, Small)
			return fyne.NewSize(size*2, lineHeight(size, 1)+b.look.MM(paddingMM))
		},
	}
}

func (b *BigWord) lay(size fyne.Size) {
	l, pad := b.look, b.look.MM(paddingMM)
	fill := l.palette.Fill(b.face.Tone)
	l.paintPanel(b.field, fill, size)
	width, height := size.Width-2*pad, size.Height-pad
	letter := b.largest(width, height)
	high := min(wrappedHeight(b.word, b.face.Word, letter, width), lineHeight(letter, max(1, rowsIn(height, letter))))
	b.word.writeRows(b.face.Word, ink{letter, fill.Ink, fyne.TextAlignCenter}, pad, (size.Height-high)/2, width, rowsIn(height, letter))
}

// largest halves its way to the largest size that fits, within a dp.
func (b *BigWord) largest(width, height float32) float32 {
	least := b.look.Letters(b.role, Small)
	most := max(least, height)
	for most-least > 1 {
		middle := (least + most) / 2
		if b.word.whole(b.face.Word, middle, width) && wrappedHeight(b.word, b.face.Word, middle, width) <= height {
			least = middle
		} else {
			most = middle
		}
	}
	return least
}
