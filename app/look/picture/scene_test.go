package picture_test

import (
	"crypto/sha256"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/picture"
	"lintel/app/look/proof"
	"lintel/assets"
	"lintel/mesh"
)

// held is what a device holds.
type held map[mesh.Hash][]byte

func (h held) Picture(hash mesh.Hash) ([]byte, bool) { b, ok := h[hash]; return b, ok }

func (h held) add(b []byte) mesh.Hash {
	hash := mesh.Hash(sha256.Sum256(b))
	h[hash] = b
	return hash
}

func newLook(t *testing.T, shade look.Shade) *look.Look {
	t.Helper()
	o := look.Defaults()
	o.Shade, o.Reads = shade, look.RunnerLine
	l, err := look.New(o)
	require.NoError(t, err)
	test.NewTempApp(t).Settings().SetTheme(l.Theme())
	return l
}

// draw writes what is drawn into LINTEL_PICTURES, where that is set.
func draw(t *testing.T, l *look.Look, name string, screen fyne.CanvasObject, size fyne.Size) {
	t.Helper()
	folder := os.Getenv("LINTEL_PICTURES")
	if folder == "" {
		return
	}
	file, err := os.Create(filepath.Join(folder, name+".png"))
	require.NoError(t, err)
	require.NoError(t, png.Encode(file, proof.Picture(l, screen, size, 1)))
	require.NoError(t, file.Close())
}

// Goal: every outline can be drawn, dark and light. Method: lay all of them out
// at the least side and have the proof judge what is laid out; with
// LINTEL_PICTURES=DIR they can be looked at.
func TestOutlinesAreDrawnAtTheLeastSide(t *testing.T) {
	for shade, name := range map[look.Shade]string{look.Dark: "dark", look.Light: "light"} {
		l, src := newLook(t, shade), held{}
		ground := canvas.NewRectangle(l.Palette().Ground)
		objects := []fyne.CanvasObject{ground}
		var all []*picture.Picture
		for _, n := range assets.OutlineNames() {
			svg, _ := assets.Outline(n)
			p, ok := picture.Of(l, src, src.add(svg))
			require.True(t, ok, n)
			all, objects = append(all, p), append(objects, p)
		}
		require.NotEmpty(t, all)
		screen := look.NewFree(l, func(put look.Put, w, h float32) {
			put(ground, 0, 0, w, h)
			for i, p := range all {
				put(p, 3+float32(i%10)*19, 3+float32(i/10)*19, picture.SideLeast, picture.SideLeast)
			}
		}, objects...)
		size := fyne.NewSize(l.MM(196), l.MM(3+19*float32((len(all)+9)/10)))
		draw(t, l, fmt.Sprintf("outlines-%s", name), screen, size)
	}
}

// Goal: a map marks the drawer of an item, leaves out words that do not fit, and
// stays within its box. Method: a starter map in three sizes, its plan and what
// the Picture says of it.
func TestMapsMarkTheDrawer(t *testing.T) {
	l, src := newLook(t, look.Dark), held{}
	b, ok := assets.ShelfMap("airway")
	require.True(t, ok)
	hash := src.add(b)
	p, shown := picture.Map(l, src, hash, "drawer 2")
	require.True(t, shown && p.IsMap() && p.Marks())
	for name, size := range map[string]fyne.Size{
		"small": {Width: l.MM(40), Height: l.MM(30)}, "middle": {Width: l.MM(80), Height: l.MM(60)}, "large": {Width: l.MM(150), Height: l.MM(110)},
	} {
		draw(t, l, "map-"+name, look.NewFree(l, func(put look.Put, w, h float32) { put(p, 0, 0, w, h) }, p), size)
		p.Resize(size)
		for _, o := range test.WidgetRenderer(p).Objects() {
			if o.Visible() {
				require.LessOrEqual(t, o.Position().X+o.Size().Width, size.Width+1, name)
				require.LessOrEqual(t, o.Position().Y+o.Size().Height, size.Height+l.MM(3), name)
			}
		}
	}
	p.Set(picture.Face{Hash: hash, Drawer: "fridge"})
	require.False(t, p.Marks())
	tube, _ := assets.Outline("tube")
	p.Set(picture.Face{Hash: src.add(tube)})
	require.True(t, p.Held() && !p.IsMap())
}

// Goal: what is missing is not shown, is shown once it came, and bytes that are
// no picture never are. Method: a source that gets them later.
func TestPicturesAppearWhenTheyCame(t *testing.T) {
	l, src := newLook(t, look.Light), held{}
	tube, _ := assets.Outline("tube")
	hash := held{}.add(tube)
	p, shown := picture.Of(l, src, hash)
	require.False(t, shown)
	src.add(tube)
	p.Set(picture.Face{Hash: hash})
	require.True(t, p.Held())
	p.Set(picture.Face{})
	require.False(t, p.Held())
	p.Set(picture.Face{Hash: src.add([]byte("<svg onload=x>"))})
	require.False(t, p.Held())
	_, shown = picture.Of(l, nil, hash)
	require.False(t, shown)
}
