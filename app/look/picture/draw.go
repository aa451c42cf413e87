package picture

import (
	"encoding/hex"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"lintel/app/look"
	"lintel/app/picture"
	"lintel/mesh"
)

// inked is an outline in one colour.
type inked struct {
	hash mesh.Hash
	ink  color.NRGBA
}

// CreateRenderer is part of fyne.Widget.
func (p *Picture) CreateRenderer() fyne.WidgetRenderer { return &renderer{p} }

type renderer struct{ *Picture }

// Destroy is part of fyne.WidgetRenderer.
func (r *renderer) Destroy() {}

// MinSize is part of fyne.WidgetRenderer.
func (r *renderer) MinSize() fyne.Size { return fyne.NewSquareSize(r.look.MM(SideLeast)) }

// Objects is part of fyne.WidgetRenderer.
func (r *renderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.image}, r.sheet.objects()...)
}

// Refresh is part of fyne.WidgetRenderer.
func (r *renderer) Refresh() {
	r.Layout(r.Size())
	canvas.Refresh(r.Picture)
}

// Layout is part of fyne.WidgetRenderer.
func (r *renderer) Layout(size fyne.Size) {
	if r.kind == picture.KindMap {
		r.image.Hide()
		r.sheet.lay(r.look, planOf(r.look, r.plan, r.face.Drawer, size))
		return
	}
	r.sheet.hide()
	if r.kind == 0 {
		r.image.Hide()
		return
	}
	r.paint(r.look.Palette().Ink)
	r.image.Move(fyne.Position{})
	r.image.Resize(size)
	r.image.Show()
}

// paint gives an outline its colour, where it has another one.
func (r *renderer) paint(ink color.NRGBA) {
	want := inked{r.face.Hash, ink}
	if r.kind != picture.KindOutline || r.inked == want {
		return
	}
	name := "outline-" + hex.EncodeToString(want.hash[:8])
	r.inked = want
	r.image.Image, r.image.Resource = nil, look.StrokesInk(name, r.svg, picture.FieldSide, ink)
	r.image.Refresh()
}
