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

// Row is a line of a list that is tapped as a whole. The state stands beside
// word and detail and never has more than StateShareMax of the width; where
// they have no room beside it, it stands below them, if the row is high enough.
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
	in := box{left, pad, size.Width - pad - left, size.Height - 2*pad}
	k := ink{size: letter, color: first}
	if r.stacks(in, letter) {
		row := lineHeight(letter, 1)
		r.state.writeRows(f.State, ink{letter, first, fyne.TextAlignTrailing}, in.x, in.y+in.height-row, in.width, 1)
		in.height -= row
	} else {
		in.width = r.layState(ink{letter, first, fyne.TextAlignTrailing}, in) - in.x
	}
	r.layWords(in, k, second)
}

// stacks tells whether the state goes below: where word or detail have no room
// beside it, and there is one more row.
func (r *Row) stacks(in box, letter float32) bool {
	f := r.face
	if f.State == "" || rowsIn(in.height, letter) < 3 {
		return false
	}
	beside := in.width - r.stateWidth(letter, in.width) - r.touch.look.MM(2)
	return !r.word.whole(f.Word, letter, beside) || !r.detail.whole(f.Detail, letter, beside)
}

func (r *Row) stateWidth(letter, room float32) float32 {
	return min(r.state.measure(letter)(r.face.State)+1, room*StateShareMax)
}

// layState puts the state at the right, in the middle, and gives where the
// words end.
func (r *Row) layState(k ink, in box) float32 {
	right, width := in.x+in.width, r.stateWidth(k.size, in.width)
	if r.face.State == "" {
		r.state.write("", k, 0, 0, 0)
		return right
	}
	most := max(1, rowsIn(in.height, k.size))
	high := lineHeight(k.size, min(most, len(wrap(r.face.State, width, len(r.state.texts), r.state.measure(k.size)))))
	r.state.writeRows(r.face.State, k, right-width, in.y+(in.height-high)/2, width, most)
	return right - width - r.touch.look.MM(2)
}

// layWords puts word and detail into the rest, in the middle. All lines of a
// list have letters of one size. Of a rest that is too low the word has its
// rows first, and a detail without a whole row is left out.
func (r *Row) layWords(in box, k ink, second color.NRGBA) {
	most := max(1, rowsIn(in.height, k.size))
	rows := func(t *lines, text string) int { return len(wrap(text, in.width, len(t.texts), t.measure(k.size))) }
	word := min(rows(r.word, r.face.Word), most)
	detail := min(rows(r.detail, r.face.Detail), most-word)
	said := r.face.Detail
	if detail == 0 {
		said = ""
	}
	y := in.y + max(0, (in.height-lineHeight(k.size, word+detail))/2)
	y += r.word.writeRows(r.face.Word, k, in.x, y, in.width, word)
	r.detail.writeRows(said, ink{size: k.size, color: second}, in.x, y, in.width, detail)
}
