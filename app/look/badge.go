package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// BadgeFace is what a Badge shows: an icon, and the word that it stands for.
type BadgeFace struct {
	Icon Icon
	Word string
	Tone Tone // TonePlain while all is well
}

// Badge tells of link, sound, battery, shade. Its room follows its words: keep
// it where nothing else moves.
type Badge struct {
	widget.BaseWidget
	writing
	role  Role
	face  BadgeFace
	field *canvas.Rectangle
	image *canvas.Image
	word  *lines
}

// NewBadge makes an empty one, read from where the role reads.
func NewBadge(l *Look, r Role) *Badge {
	w := newWriting(l)
	b := &Badge{writing: w, role: r, field: canvas.NewRectangle(color.Transparent), image: newIconImage(), word: w.lines(r, false, 1)}
	b.ExtendBaseWidget(b)
	return b
}

// Set shows another face.
func (b *Badge) Set(f BadgeFace) { setFace(&b.face, f, b.Refresh) }

// CreateRenderer is part of fyne.Widget.
func (b *Badge) CreateRenderer() fyne.WidgetRenderer {
	objects := append([]fyne.CanvasObject{b.field, b.image}, b.word.objects()...)
	return &painted{owner: b, objects: objects, lay: b.lay, least: func() fyne.Size {
		letter, pad := b.look.Letters(b.role, Small), b.look.MM(paddingMM)
		row := lineHeight(letter, 1)
		width := b.word.measure(letter)(b.face.Word) + 1 + 2*pad
		if b.face.Icon != IconNone {
			width += row + pad
		}
		return fyne.NewSize(width, row+pad)
	}}
}

func (b *Badge) lay(size fyne.Size) {
	l, pad := b.look, b.look.MM(paddingMM)
	fill := l.palette.Fill(b.face.Tone)
	l.paintPanel(b.field, fill, size)
	letter := l.Letters(b.role, Small)
	row := lineHeight(letter, 1)
	x, y := pad, (size.Height-row)/2
	l.paintIcon(b.image, b.face.Icon, fill.Ink)
	if b.face.Icon != IconNone {
		place(b.image, x, y+row*0.05, row*0.9, row*0.9)
		x += row + pad
	}
	b.word.write(b.face.Word, ink{size: letter, color: fill.Ink}, x, y, size.Width-x-pad+1)
}
