package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Press makes one target of another part: a Strip, a Card, a Badge. The edge
// around it shows finger, mouse and keyboard.
type Press struct {
	widget.BaseWidget
	touch
	use     Use
	content fyne.CanvasObject
	around  *canvas.Rectangle
}

// NewPress puts hands on a part; tapped as with NewTile.
func NewPress(l *Look, u Use, content fyne.CanvasObject, tapped func()) *Press {
	p := &Press{use: u, content: content, around: canvas.NewRectangle(color.Transparent)}
	p.touch = touch{look: l, tapped: tapped, repaint: p.Refresh}
	p.ExtendBaseWidget(p)
	return p
}

// SetOff shows it in its place without doing anything.
func (p *Press) SetOff(off bool) { setFace(&p.off, off, p.Refresh) }

// Use is what it is for.
func (p *Press) Use() Use { return p.use }

// CreateRenderer is part of fyne.Widget.
func (p *Press) CreateRenderer() fyne.WidgetRenderer {
	return &painted{
		owner: p, objects: []fyne.CanvasObject{p.content, p.around},
		least: func() fyne.Size {
			return p.content.MinSize().Max(fyne.NewSquareSize(p.look.MM(p.use.Side())))
		},
		lay: func(size fyne.Size) {
			place(p.content, 0, 0, size.Width, size.Height)
			fill, edge := p.field(p.look, p.look.palette.Fill(TonePlain))
			p.around.FillColor, p.around.CornerRadius = color.Transparent, p.look.MM(cornerMM)
			p.around.StrokeColor, p.around.StrokeWidth = fill.Edge, edge
			place(p.around, 0, 0, size.Width, size.Height)
		},
	}
}
