package sheet

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
)

// TestMain gives every test the same application: the toolkit has one only.
func TestMain(m *testing.M) {
	a := test.NewApp()
	code := m.Run()
	a.Quit()
	os.Exit(code)
}

// page is a sheet alone on a screen.
type page struct {
	look   *look.Look
	sheet  *Sheet[string]
	root   *fyne.Container
	window fyne.Size
	picked []string
	typed  string
	left   int
}

func newPage(t *testing.T, width, height float32) *page {
	l, err := look.New(look.Defaults())
	require.NoError(t, err)
	p := &page{look: l, window: fyne.NewSize(l.MM(width), l.MM(height))}
	p.sheet = New(Options[string]{
		Look: l, Back: "back", More: func(to, of int) string { return fmt.Sprintf("more %d/%d", to, of) }, Next: "more",
		Pick: func(s string) { p.picked = append(p.picked, s) }, Leave: func() { p.left++ }, Changed: func() { look.Arrange(p.root) },
		Keys: look.KeypadKeys{Digit: func(d rune) { p.typed += string(d) }, Erase: func() {}, Done: func() {}},
	})
	p.root = look.NewFree(l, func(put look.Put, w, h float32) { p.sheet.Lay(put, look.At(2, 2, w-4, h-4)) }, p.sheet.Objects()...)
	p.root.Resize(p.window)
	return p
}

func (p *page) set(f Face[string]) {
	p.sheet.Set(f)
	look.Arrange(p.root)
}

func (p *page) tap(name string) bool { return proof.Tap(p.look, p.root, p.window, name) }

// faces are a page of each sort, some of more than fits.
func faces() map[string]Face[string] {
	var tiles, some []Choice[string]
	var lines, read []Line[string]
	for n := range 40 {
		name := fmt.Sprintf("tile %d", n)
		tiles = append(tiles, Tile(look.TileFace{Word: name}, name))
		name = fmt.Sprintf("line %d", n)
		lines = append(lines, Line[string]{Face: look.BannerFace{Sentence: name, Hint: "not done"}, Pick: name})
		read = append(read, Line[string]{Face: look.BannerFace{Sentence: name, Tone: look.ToneNext}, Still: true})
	}
	some = append(some, Tile(look.TileFace{Word: "done", Detail: "by O1"}, "done"), Tile(look.TileFace{Word: "not done"}, "not"))
	keys := &look.KeypadFace{Erase: "←", Done: "OK"}
	return map[string]Face[string]{
		"tiles": {Head: "Which?", Choices: tiles}, "few": {Head: "Which?", Tell: look.BannerFace{Sentence: "One of two."}, Choices: some},
		"lines": {Head: "Which line?", Lines: lines, Choices: some}, "read": {Lines: read},
		"word": {Head: "step 1 of 2", Word: look.BigWordFace{Word: "Disinfect the gloves."}, Choices: some},
		"keys": {Head: "At what time?", Tell: look.BannerFace{Sentence: "Four digits."}, Word: look.BigWordFace{Word: "12:–"}, Keys: keys},
	}
}

// Goal: a sheet keeps the design in every shape. Method: audit each sort of page
// on a tablet, a phone and a small phone.
func TestSheetKeepsTheDesign(t *testing.T) {
	for _, size := range [][2]float32{{256, 140}, {160, 90}, {70, 124}, {64, 96}} {
		for name, f := range faces() {
			p := newPage(t, size[0], size[1])
			p.set(f)
			require.Empty(t, proof.Audit(p.look, p.root, p.window), "%s, %v", name, size)
		}
	}
}

// Goal: everything can be reached by turning pages, and is picked as what it
// is; what is only read picks nothing. Method: turn until each was seen, tap it.
func TestEverythingIsReachedByTurning(t *testing.T) {
	for _, size := range [][2]float32{{256, 140}, {70, 124}, {64, 96}} {
		for name, sort := range map[string]string{"tiles": "tile", "lines": "line"} {
			p := newPage(t, size[0], size[1])
			p.set(faces()[name])
			for n := range 40 {
				want := fmt.Sprintf("%s %d", sort, n)
				for !seen(p, want) {
					require.True(t, p.tap("more"), "%s is never shown", want)
				}
				require.True(t, p.tap(want))
				require.Equal(t, want, p.picked[n])
			}
			p.sheet.Begin()
			p.set(faces()[name])
			require.True(t, seen(p, sort+" 0"))
		}
	}
	p := newPage(t, 256, 140)
	p.set(faces()["read"])
	require.False(t, p.tap("line 0"))
	require.Empty(t, p.picked)
	require.True(t, p.tap("back"))
	require.Equal(t, 1, p.left)
}

// seen tells whether a target begins with a text and a space, or is it.
func seen(p *page, name string) bool {
	for _, h := range proof.Hands(p.look, p.root, p.window) {
		if h.Name == name || strings.HasPrefix(h.Name, name+" ") {
			return true
		}
	}
	return false
}

// Goal: what is gone cannot be picked. Method: show the last page of many, then
// a face of fewer.
func TestFewerChoicesBeginAgain(t *testing.T) {
	p := newPage(t, 64, 96)
	p.set(faces()["tiles"])
	p.tap("more")
	p.set(faces()["few"])
	require.True(t, p.tap("done"))
	require.Equal(t, []string{"done"}, p.picked)
	p.set(faces()["keys"])
	require.True(t, p.tap("7"))
	require.Equal(t, "7", p.typed)
}
