package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// CalibrationFace is what a Calibration shows: the width, in dp, that somebody
// made equal to a card's.
type CalibrationFace struct{ WidthDP float32 }

// CalibrationStart is the width in dp to begin with, that of a card at the
// density in use.
func (l *Look) CalibrationStart() CalibrationFace { return CalibrationFace{l.MM(CardWidth)} }

// Calibration draws the outline of an ID-1 card to hold a card against. The
// screen around it has a Stepper, and hands WidthDP to ScaleOfCard when the two
// are equally wide.
type Calibration struct {
	widget.BaseWidget
	look    *Look
	face    CalibrationFace
	outline *canvas.Rectangle
}

// NewCalibration makes one at the density in use.
func NewCalibration(l *Look) *Calibration {
	c := &Calibration{look: l, face: l.CalibrationStart(), outline: canvas.NewRectangle(color.Transparent)}
	c.ExtendBaseWidget(c)
	return c
}

// Set draws another width.
func (c *Calibration) Set(f CalibrationFace) { setFace(&c.face, f, c.Refresh) }

// cardCorner is the radius of a card's corners in mm.
const cardCorner = 3.18

// CreateRenderer is part of fyne.Widget.
func (c *Calibration) CreateRenderer() fyne.WidgetRenderer {
	card := func() fyne.Size { return fyne.NewSize(c.face.WidthDP, c.face.WidthDP*CardHeight/CardWidth) }
	return &painted{
		owner: c, objects: []fyne.CanvasObject{c.outline}, least: card,
		lay: func(size fyne.Size) {
			c.outline.FillColor, c.outline.StrokeColor = color.Transparent, c.look.palette.Ink
			c.outline.StrokeWidth, c.outline.CornerRadius = 2, c.face.WidthDP*cardCorner/CardWidth
			place(c.outline, 0, 0, card().Width, card().Height)
		},
	}
}
