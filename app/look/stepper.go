package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// StepperFace is what a Stepper shows.
type StepperFace struct {
	Value   string // the count as it is read; empty while nothing was chosen
	Measure string // of what
	NoLess  bool   // the least is reached
	NoMore  bool   // the most is reached
}

// Stepper is less, a count, more. It holds no count and chooses none: a tap
// calls step with -1 or 1, and whoever owns the count sets the face.
type Stepper struct {
	widget.BaseWidget
	writing
	use        Use
	face       StepperFace
	less, more *Tile
	field      *canvas.Rectangle
	value      *lines
	measure    *lines
}

// NewStepper makes an empty one.
func NewStepper(l *Look, u Use, step func(by int)) *Stepper {
	w := newWriting(l)
	s := &Stepper{
		writing: w, use: u, field: canvas.NewRectangle(color.Transparent),
		less: NewTile(l, u, func() { step(-1) }), more: NewTile(l, u, func() { step(1) }),
		value: w.lines(u.Reads(), true, 1), measure: w.lines(u.Reads(), false, 1),
	}
	s.ExtendBaseWidget(s)
	s.setTiles()
	return s
}

// Set shows another count.
func (s *Stepper) Set(f StepperFace) {
	setFace(&s.face, f, func() { s.setTiles(); s.Refresh() })
}

func (s *Stepper) setTiles() {
	s.less.Set(TileFace{Word: "−", Off: s.face.NoLess})
	s.more.Set(TileFace{Word: "+", Off: s.face.NoMore})
}

// CreateRenderer is part of fyne.Widget.
func (s *Stepper) CreateRenderer() fyne.WidgetRenderer {
	objects := []fyne.CanvasObject{s.field, s.less, s.more}
	objects = append(objects, s.value.objects()...)
	objects = append(objects, s.measure.objects()...)
	return &painted{owner: s, objects: objects, lay: s.lay, least: func() fyne.Size {
		side, gap := s.look.MM(s.use.Side()), s.look.MM(GapMin)
		return fyne.NewSize(3*side+2*gap, max(side, s.high()+s.look.MM(paddingMM)))
	}}
}

func (s *Stepper) high() float32 {
	r := s.use.Reads()
	return lineHeight(s.look.Letters(r, Large), 1) + lineHeight(s.look.Letters(r, Small), 1)
}

func (s *Stepper) lay(size fyne.Size) {
	l, r := s.look, s.use.Reads()
	side, gap := l.MM(s.use.Side()), l.MM(GapMin)
	place(s.less, 0, 0, side, size.Height)
	place(s.more, size.Width-side, 0, side, size.Height)
	x, width := side+gap, size.Width-2*(side+gap)
	l.paintPanel(s.field, l.palette.Fill(TonePlain), fyne.NewSize(width, size.Height))
	place(s.field, x, 0, width, size.Height)
	value := s.face.Value
	if value == "" {
		value = "–"
	}
	y := (size.Height - s.high()) / 2
	y += s.value.write(value, ink{l.Letters(r, Large), l.palette.Ink, fyne.TextAlignCenter}, x, y, width)
	s.measure.write(s.face.Measure, ink{l.Letters(r, Small), l.palette.Quiet, fyne.TextAlignCenter}, x, y, width)
}
