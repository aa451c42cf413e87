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
