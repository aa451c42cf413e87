package picture

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"lintel/app/look"
)

// sheet holds the parts that a map is drawn with: as many as the largest map
// so far needed.
type sheet struct {
	title *canvas.Text
	boxes []boxParts
}

// boxParts is one drawer.
type boxParts struct {
	field *canvas.Rectangle
	words *canvas.Text
}

func newSheet() *sheet {
	s := &sheet{title: canvas.NewText("", color.Transparent)}
	s.title.Hide()
	return s
}

func (s *sheet) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{s.title}
	for _, b := range s.boxes {
		all = append(all, b.field, b.words)
	}
	return all
}

func (s *sheet) hide() {
	for _, o := range s.objects() {
		o.Hide()
	}
}

// lay copies a plan into the parts.
func (s *sheet) lay(l *look.Look, p plan) {
	palette := l.Palette()
	for len(s.boxes) < len(p.boxes) {
		s.boxes = append(s.boxes, boxParts{canvas.NewRectangle(color.Transparent), canvas.NewText("", color.Transparent)})
	}
	s.hide()
	write(s.title, p.title, p.size, palette.Quiet)
	s.title.Alignment = fyne.TextAlignLeading
	s.title.Move(fyne.Position{})
	s.title.Resize(textSize(p.title, p.size))
	for i, b := range p.boxes {
		field, words := s.boxes[i].field, s.boxes[i].words
		field.FillColor, field.StrokeColor, field.StrokeWidth = palette.Surface, palette.Edge, l.MM(mapEdge)
		ink := palette.Ink
		if b.marked { // told apart by the fullest contrast there is: no colour stands for it
			field.FillColor, field.StrokeColor, ink = palette.Ink, palette.Ink, palette.Surface
		}
		field.Move(b.at)
		field.Resize(b.size)
		field.Show()
		write(words, b.words, p.size, ink)
		words.Alignment = fyne.TextAlignCenter
		high := textSize(b.words, p.size).Height
		words.Move(b.at.AddXY(0, (b.size.Height-high)/2))
		words.Resize(fyne.NewSize(b.size.Width, high))
	}
}

// write puts a text into a part; an empty one stays hidden.
func write(t *canvas.Text, text string, size float32, ink color.NRGBA) {
	t.Text, t.TextSize, t.Color = text, size, ink
	if text != "" {
		t.Show()
	}
}
