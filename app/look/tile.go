package look

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// TileFace is what a Tile shows. Empty lines take no room.
type TileFace struct {
	Number string // its place on the board, as on the printed card
	Word   string // what it asks for or does
	Detail string // size or strength; never cut before Word
	Note   string // state and age, or where it lies
	Icon   Icon
	Band   Band // of a drug: behind number and note, its word beside the number; no icon then
	Tone   Tone // a bar at its edge; ToneRescue and ToneDrill colour it all
	Chosen bool // of several the one in force: its tone colours it all
	Off    bool // shown in its place, does nothing
}

// Tile is what gloved hands tap. See the package comment for how.
type Tile struct {
	widget.BaseWidget
	touch
	writing
	use    Use
	face   TileFace
	field  *canvas.Rectangle
	bar    *canvas.Rectangle
	image  *canvas.Image
	number *lines
	note   *lines
	word   *lines
	detail *lines
	band   *bandPart
}

// NewTile makes an empty tile. tapped runs on the UI goroutine and must not
// wait; it is called once for each press and may be called again at once.
func NewTile(l *Look, u Use, tapped func()) *Tile {
	w, r := newWriting(l), u.Reads()
	t := &Tile{
		writing: w, use: u, field: canvas.NewRectangle(nil), bar: canvas.NewRectangle(nil), image: newIconImage(),
		number: w.lines(r, true, 1), note: w.lines(r, false, 1), word: w.lines(r, true, 3), detail: w.lines(r, true, 2), band: w.band(r),
	}
	t.touch = touch{look: l, tapped: tapped, repaint: t.Refresh}
	t.ExtendBaseWidget(t)
	return t
}

// Set shows another face.
func (t *Tile) Set(f TileFace) {
	t.off = f.Off
	setFace(&t.face, f, t.Refresh)
}

// Face is what it shows.
func (t *Tile) Face() TileFace { return t.face }

// Use is what it is for.
func (t *Tile) Use() Use { return t.use }

// CreateRenderer is part of fyne.Widget.
func (t *Tile) CreateRenderer() fyne.WidgetRenderer {
	objects := append([]fyne.CanvasObject{t.field, t.bar, t.image}, t.band.objects()...)
	for _, l := range []*lines{t.number, t.note, t.word, t.detail} {
		objects = append(objects, l.objects()...)
	}
	return &painted{
		owner: t, objects: objects, lay: t.lay,
		least: func() fyne.Size { return fyne.NewSquareSize(t.touch.look.MM(t.use.Side())) },
	}
}

func (t *Tile) lay(size fyne.Size) {
	l, f := t.touch.look, t.face
	fill := l.palette.Fill(TonePlain)
	whole := f.Tone == ToneRescue || f.Tone == ToneDrill || f.Chosen
	if whole {
		fill = l.palette.Fill(f.Tone)
	}
	fill, edge := t.touch.field(l, fill)
	l.paintPanel(t.field, fill, size)
	t.field.StrokeWidth = edge
	left := l.paintBar(t.bar, f.Tone, !whole, size)
	pad := l.MM(paddingMM)
	inside := box{left + pad, pad, size.Width - left - 2*pad, size.Height - 2*pad}
	first, second := fill.Ink, l.palette.Quiet
	if whole && !t.pressed {
		second = fill.Ink
	}
	if f.Off {
		first, second = l.palette.Off, l.palette.Off
	}
	small := l.Letters(t.use.Reads(), Small)
	k := ink{size: small, color: second}
	top := f
	if f.Band != (Band{}) {
		top.Number, top.Note, top.Icon = "", "", IconNone
	}
	middle := t.layTop(inside, top, k, first)
	middle = t.layBand(middle, k, left, size.Width)
	t.layWords(middle, ink{size: small, color: first}, f)
}

// layTop puts number, note and icon into the first row, or the icon alone
// before the words, and gives what is left.
func (t *Tile) layTop(in box, f TileFace, k ink, iconInk color.NRGBA) box {
	l := t.touch.look
	l.paintIcon(t.image, f.Icon, iconInk)
	row, x, width := lineHeight(k.size, 1), in.x, in.width
	if f.Number == "" && f.Note == "" {
		t.number.write("", k, 0, 0, 0)
		t.note.write("", k, 0, 0, 0)
		if f.Icon != IconNone {
			place(t.image, in.x, in.y+(in.height-row)/2, row, row)
			in.x, in.width = in.x+row+l.MM(1), in.width-row-l.MM(1)
		}
		return in
	}
	if f.Icon != IconNone {
		place(t.image, in.x+in.width-row, in.y, row, row)
		width -= row + l.MM(1)
	}
	taken := t.number.measure(k.size)(f.Number)
	t.number.write(f.Number, k, x, in.y, min(width, taken+1))
	if f.Number != "" {
		taken += l.MM(2)
	}
	t.note.write(f.Note, k, x+taken, in.y, max(0, width-taken))
	return box{in.x, in.y + row, in.width, in.height - row}
}

// layBand puts the band of a drug into the first row, with number and class word
// at its leading end and the note at its trailing one, and gives what is left.
// Where there is no room for all three the note has the next row; in a tile too
// low for that the number gives way, for its place says as much, and only then
// the class word: state comes before it.
func (t *Tile) layBand(in box, k ink, left, width float32) box {
	l, f := t.touch.look, t.face
	if f.Band == (Band{}) {
		t.band.lay(Band{}, "", "", k.size, box{})
		return in
	}
	row, rim := lineHeight(k.size, 1), l.MM(focusMM)
	lead, note := strings.Trim(f.Number+"\u00a0\u00a0"+f.Band.Word, "\u00a0"), f.Note
	rest := box{in.x, in.y + row, in.width, in.height - row}
	measure := t.number.measure(k.size)
	room := width - left - 2*rim - l.MM(2*paddingMM)
	fits := func(lead string) bool { return measure(lead)+measure(f.Note)+l.MM(3) <= room }
	switch {
	case f.Note == "" || fits(lead):
	case t.bearsRow(rest, k.size):
		rest.y, rest.height = rest.y+l.MM(paddingMM-focusMM), rest.height-l.MM(paddingMM-focusMM)
		t.note.write(f.Note, k, rest.x, rest.y, rest.width)
		rest.y, rest.height, note = rest.y+row, rest.height-row, ""
	case fits(f.Band.Word):
		lead = f.Band.Word
	default:
		lead = f.Number
	}
	t.band.lay(f.Band, lead, note, k.size, box{left + rim, rim, width - left - 2*rim, row + l.MM(paddingMM) - rim})
	return rest
}

// bearsRow tells whether words and detail are whole in what a row leaves of a box,
// and the note in that row.
func (t *Tile) bearsRow(in box, size float32) bool {
	f := t.face
	words := wrappedHeight(t.word, f.Word, size, in.width) + wrappedHeight(t.detail, f.Detail, size, in.width)
	return t.note.measure(size)(f.Note) <= in.width && words+lineHeight(size, 1)+t.touch.look.MM(paddingMM-focusMM) <= in.height
}

// closerMost is by how much of a letter's size the rows of a tile that is a
// little too low are moved together: the rows keep a gap between their letters.
const closerMost = 0.5

// layWords puts the words into the rest: in large letters if all of them fit.
// Rows that are a little too high move together; of a rest that is still too
// low, the detail has its rows first.
func (t *Tile) layWords(in box, k ink, f TileFace) {
	centred := f.Number == "" && f.Note == "" && f.Band == (Band{})
	if centred {
		k.align = fyne.TextAlignCenter
	}
	detail := wrappedHeight(t.detail, f.Detail, k.size, in.width)
	word := k
	large := t.touch.look.Letters(t.use.Reads(), Large)
	if t.word.whole(f.Word, large, in.width) && wrappedHeight(t.word, f.Word, large, in.width)+detail <= in.height {
		word.size = large
	}
	high := wrappedHeight(t.word, f.Word, word.size, in.width)
	y := in.y
	if centred {
		y += max(0, (in.height-detail-high)/2)
	}
	over, rows := high+detail-in.height, rowsIn(in.height-detail, word.size)
	if closer := over > 0 && over <= k.size*closerMost && detail > 0; closer {
		y, rows = y-over/2, rowsIn(high, word.size)
		y += t.word.writeRows(f.Word, word, in.x, y, in.width, rows) - over/2
		t.detail.writeRows(f.Detail, k, in.x, y, in.width, rowsIn(detail, k.size))
		return
	}
	y += t.word.writeRows(f.Word, word, in.x, y, in.width, rows)
	t.detail.writeRows(f.Detail, k, in.x, y, in.width, rowsIn(in.y+in.height-y, k.size))
}
