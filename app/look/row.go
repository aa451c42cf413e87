package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// RowFace is one line of a list: a line to be read, a person, a step.
type RowFace struct {
	Word   string // what it is; two rows at most
	Detail string // in plain letters below it; may be empty
	State  string // how it stands, at the right: "said", "not yet", "4:10"
	Icon   Icon
	Tone   Tone // a bar at its edge
	Chosen bool // of several the one in force: its tone colours it all
	Off    bool // shown in its place, does nothing
}

// Row is a line of a list that is tapped as a whole. Word and detail have what
// the state leaves, and the state never has more than StateShareMax of the row.
type Row struct {
	widget.BaseWidget
	touch
	writing
	use                 Use
	face                RowFace
	field, bar          *canvas.Rectangle
	image               *canvas.Image
	word, detail, state *lines
}

// StateShareMax is how much of a Row its state may take.
const StateShareMax = 0.45

// NewRow makes an empty one; tapped as with NewTile.
func NewRow(l *Look, u Use, tapped func()) *Row {
	w, r := newWriting(l), u.Reads()
	row := &Row{
		writing: w, use: u, field: canvas.NewRectangle(color.Transparent), bar: canvas.NewRectangle(color.Transparent), image: newIconImage(),
		word: w.lines(r, true, 2), detail: w.lines(r, false, 2), state: w.lines(r, true, 2),
	}
	row.touch = touch{look: l, tapped: tapped, repaint: row.Refresh}
	row.ExtendBaseWidget(row)
	return row
}

// Set shows another face.
func (r *Row) Set(f RowFace) {
	r.off = f.Off
	setFace(&r.face, f, r.Refresh)
}

// Face is what it shows.
func (r *Row) Face() RowFace { return r.face }

// Use is what it is for.
func (r *Row) Use() Use { return r.use }

// CreateRenderer is part of fyne.Widget.
func (r *Row) CreateRenderer() fyne.WidgetRenderer {
	objects := []fyne.CanvasObject{r.field, r.bar, r.image}
	for _, l := range []*lines{r.word, r.detail, r.state} {
		objects = append(objects, l.objects()...)
	}
	return &painted{owner: r, objects: objects, lay: r.lay, least: func() fyne.Size {
		l := r.touch.look
		high := lineHeight(l.Letters(r.use.Reads(), Small), 1) + l.MM(2*paddingMM)
		return fyne.NewSize(l.MM(2*r.use.Side()), max(l.MM(r.use.Side()), high))
	}}
}

func (r *Row) lay(size fyne.Size) {
	l, f := r.touch.look, r.face
	fill := l.palette.Fill(TonePlain)
	if f.Chosen {
		fill = l.palette.Fill(f.Tone)
	}
	fill, edge := r.touch.field(l, fill)
	l.paintPanel(r.field, fill, size)
	r.field.StrokeWidth = edge
	pad, letter := l.MM(paddingMM), l.Letters(r.use.Reads(), Small)
	left := l.paintBar(r.bar, f.Tone, !f.Chosen, size) + pad
	first, second := fill.Ink, l.palette.Quiet
	if f.Chosen && !r.pressed {
		second = fill.Ink
	}
	if f.Off {
		first, second = l.palette.Quiet, l.palette.Quiet
	}
	l.paintIcon(r.image, f.Icon, first)
	if f.Icon != IconNone {
		side := lineHeight(letter, 1)
		place(r.image, left, (size.Height-side)/2, side, side)
		left += side + pad
	}
	right := r.layState(ink{letter, first, fyne.TextAlignTrailing}, size, size.Width-pad, size.Width-pad-left)
	r.layWords(box{left, pad, right - left, size.Height - 2*pad}, ink{size: letter, color: first}, second)
}

// layState puts the state at the right, in the middle, and gives where the
// words end.
func (r *Row) layState(k ink, size fyne.Size, right, room float32) float32 {
	width := min(r.state.measure(k.size)(r.face.State)+1, room*StateShareMax)
	most := rowsIn(size.Height, k.size)
	high := lineHeight(k.size, min(max(1, most), len(wrap(r.face.State, width, len(r.state.texts), r.state.measure(k.size)))))
	r.state.writeRows(r.face.State, k, right-width, (size.Height-high)/2, width, most)
	if r.face.State == "" {
		return right
	}
	return right - width - r.touch.look.MM(2)
}

// layWords puts word and detail into the rest, in the middle: in large letters
// if both fit on one row each; of a rest that is too low, the word has its rows first.
func (r *Row) layWords(in box, k ink, second color.NRGBA) {
	large := r.touch.look.Letters(r.use.Reads(), Large)
	detail := wrappedHeight(r.detail, r.face.Detail, k.size, in.width)
	word := k
	if wrappedHeight(r.word, r.face.Word, large, in.width) <= lineHeight(large, 1) && r.word.whole(r.face.Word, large, in.width) &&
		lineHeight(large, 1)+detail <= in.height {
		word.size = large
	}
	high := min(wrappedHeight(r.word, r.face.Word, word.size, in.width), lineHeight(word.size, max(1, rowsIn(in.height, word.size))))
	if left := rowsIn(in.height-high, k.size); lineHeight(k.size, left) < detail {
		detail = lineHeight(k.size, max(0, left))
	}
	y := in.y + max(0, (in.height-high-detail)/2)
	y += r.word.writeRows(r.face.Word, word, in.x, y, in.width, rowsIn(in.height, word.size))
	said := r.face.Detail
	if detail <= 0 {
		said = ""
	}
	r.detail.writeRows(said, ink{size: k.size, color: second}, in.x, y, in.width, rowsIn(detail, k.size))
}
