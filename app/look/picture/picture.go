package picture

import (
	"bytes"
	"image"
	_ "image/jpeg" // the form of photos

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"lintel/app/look"
	"lintel/app/picture"
	"lintel/mesh"
)

// SideLeast is the side from which an outline is recognised, in mm.
const SideLeast = 15.0

// Source has the bytes of pictures. Picture never blocks; false: this device
// does not have them, or not yet. The UI goroutine calls it.
type Source interface {
	Picture(mesh.Hash) ([]byte, bool)
}

// Face is what a Picture shows.
type Face struct {
	Hash   mesh.Hash // of the bytes; zeros: nothing
	Drawer string    // to be marked on a map: kits.ItemLine.KeptWords
}

// Picture is one picture, fitted to its box. The UI goroutine owns it.
type Picture struct {
	widget.BaseWidget
	look *look.Look
	src  Source
	face Face
	kind picture.Kind // 0: nothing is held
	svg  []byte       // of an outline
	plan picture.Map

	image *canvas.Image // of a photo or an outline
	inked inked         // what image shows
	sheet *sheet        // of a map
}

// New makes an empty one. Without a Source it stays empty.
func New(l *look.Look, src Source) *Picture {
	p := &Picture{look: l, src: src, image: &canvas.Image{FillMode: canvas.ImageFillContain}, sheet: newSheet()}
	p.image.Hide()
	p.ExtendBaseWidget(p)
	return p
}

// Of makes a Picture of an item; false if its bytes are not held.
func Of(l *look.Look, src Source, hash mesh.Hash) (*Picture, bool) {
	return Map(l, src, hash, "")
}

// Map makes a Picture of a place with one drawer marked; false if its bytes are
// not held.
func Map(l *look.Look, src Source, hash mesh.Hash, drawer string) (*Picture, bool) {
	p := New(l, src)
	p.Set(Face{Hash: hash, Drawer: drawer})
	return p, p.Held()
}

// Object is the picture, for those who lay out objects.
func (p *Picture) Object() fyne.CanvasObject { return p }

// Held tells whether there is something to show.
func (p *Picture) Held() bool { return p.kind != 0 }

// IsMap tells whether what is shown is a map.
func (p *Picture) IsMap() bool { return p.kind == picture.KindMap }

// Marks tells whether what is shown is a map that has the drawer.
func (p *Picture) Marks() bool {
	_, there := p.plan.Find(p.face.Drawer)
	return there && p.IsMap()
}

// Set shows another picture, or the same that was not held before.
func (p *Picture) Set(f Face) {
	same := f == p.face
	if same && (p.Held() || f.Hash == mesh.Hash{}) {
		return
	}
	if again := f.Hash != p.face.Hash || !p.Held(); again {
		p.face = f
		p.take()
		if same && !p.Held() {
			return
		}
	}
	p.face = f
	p.Refresh()
}

// take reads the bytes. What is no picture is not shown, whoever sent it.
func (p *Picture) take() {
	p.kind, p.svg, p.plan, p.inked = 0, nil, picture.Map{}, inked{}
	if p.src == nil || p.face.Hash == (mesh.Hash{}) {
		return
	}
	b, held := p.src.Picture(p.face.Hash)
	if !held {
		return
	}
	kind, err := picture.Check(b)
	if err != nil {
		return
	}
	switch kind {
	case picture.KindOutline:
		p.svg = b
	case picture.KindMap:
		p.plan, _ = picture.ReadMap(b) // Check has read it
	case picture.KindPhoto:
		photo, _, err := image.Decode(bytes.NewReader(b))
		if err != nil {
			return
		}
		p.image.Resource, p.image.Image = nil, photo
		p.image.Refresh()
	}
	p.kind = kind
}
