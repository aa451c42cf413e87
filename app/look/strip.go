package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// StripFace is one open request as it is read from the bed: what, how far, how
// long. One word says the state; the icon repeats it.
type StripFace struct {
	Word  string // what was asked for
	State string // the honest state
	Age   string // since when, ClockText or "at least …"
	Icon  Icon
	Tone  Tone // urgency, or ToneFault when it could not be saved
}

// Strip is one row of the open requests, read from 1.5 m. With one row State
// and Age stand beside Word, with two below it.
type Strip struct {
	widget.BaseWidget
	writing
	rows  int
	face  StripFace
	field *canvas.Rectangle
	bar   *canvas.Rectangle
	image *canvas.Image
	word  *lines
	state *lines
	age   *lines
}

// NewStrip makes an empty one, of one row or, for narrow screens, two.
func NewStrip(l *Look, rows int) *Strip {
	w := newWriting(l)
	s := &Strip{
		writing: w, rows: min(max(rows, 1), 2), field: canvas.NewRectangle(color.Transparent), bar: canvas.NewRectangle(color.Transparent),
		image: newIconImage(), word: w.lines(StripLine, true, 1), state: w.lines(StripLine, false, 1), age: w.lines(StripLine, false, 1),
	}
	s.ExtendBaseWidget(s)
	return s
}

// Set shows another face.
func (s *Strip) Set(f StripFace) { setFace(&s.face, f, s.Refresh) }

// Face is what it shows.
func (s *Strip) Face() StripFace { return s.face }

// CreateRenderer is part of fyne.Widget.
func (s *Strip) CreateRenderer() fyne.WidgetRenderer {
	objects := []fyne.CanvasObject{s.field, s.bar, s.image}
	for _, l := range []*lines{s.word, s.state, s.age} {
		objects = append(objects, l.objects()...)
	}
	return &painted{owner: s, objects: objects, lay: s.lay, least: func() fyne.Size {
		size := s.look.Letters(StripLine, Small)
		return fyne.NewSize(s.look.MM(SideInside), lineHeight(size, s.rows)+s.look.MM(paddingMM))
	}}
}

func (s *Strip) lay(size fyne.Size) {
	l, f := s.look, s.face
	fill := l.palette.Fill(TonePlain)
	first, second := fill.Ink, l.palette.Quiet
	if f.Tone == ToneFault {
		fill = l.palette.Fill(ToneFault)
		first, second = fill.Ink, fill.Ink
	}
	l.paintPanel(s.field, fill, size)
	left := l.paintBar(s.bar, f.Tone, f.Tone != ToneFault, size) + l.MM(paddingMM)
	letter := l.Letters(StripLine, Small)
	row := lineHeight(letter, 1)
	top := (size.Height - lineHeight(letter, s.rows)) / 2
	l.paintIcon(s.image, f.Icon, first)
	right := size.Width - l.MM(paddingMM)
	if f.Icon != IconNone {
		place(s.image, left, top+row*0.1, row*0.8, row*0.8)
		left += row*0.8 + l.MM(paddingMM)
	}
	age := s.age.measure(letter)(f.Age)
	lower := top + row*float32(s.rows-1)
	s.age.write(f.Age, ink{letter, second, fyne.TextAlignTrailing}, right-age, lower, age+1)
	if age > 0 {
		right -= age + l.MM(4)
	}
	if s.rows == 2 {
		s.word.write(f.Word, ink{letter, first, fyne.TextAlignLeading}, left, top, size.Width-l.MM(paddingMM)-left)
		s.state.write(f.State, ink{letter, second, fyne.TextAlignLeading}, left, lower, right-left)
		return
	}
	s.layOneRow(ink{size: letter, color: first}, second, left, top, right)
}

// layOneRow shares the row: the state has its room first, but never more than
// two thirds while the word needs it.
func (s *Strip) layOneRow(k ink, second color.NRGBA, left, top, right float32) {
	gap := s.look.MM(3)
	word, state := s.word.measure(k.size)(s.face.Word)+1, s.state.measure(k.size)(s.face.State)+1
	room := right - left - gap
	if word+state > room {
		state = min(state, max(room-word, room*2/3))
	}
	word = room - state
	s.word.write(s.face.Word, k, left, top, word)
	s.state.write(s.face.State, ink{k.size, second, fyne.TextAlignTrailing}, right-state, top, state)
}
