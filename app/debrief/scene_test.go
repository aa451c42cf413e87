package debrief

import (
	"errors"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
)

// TestMain gives every test the same application: the toolkit has one only.
func TestMain(m *testing.M) {
	a := test.NewApp()
	code := m.Run()
	a.Quit()
	os.Exit(code)
}

// windows in dp: a desktop, a tablet, a small tablet, a phone.
func windows() map[string]fyne.Size {
	return map[string]fyne.Size{
		"desktop": fyne.NewSize(1600, 900), "tablet": fyne.NewSize(1280, 800), "small": fyne.NewSize(800, 480), "phone": fyne.NewSize(350, 660),
	}
}

// errTest is what a failing act answers.
var errTest = errors.New("test")

// scene is one screen with everything around it. Its taps are folded at once.
type scene struct {
	t      *testing.T
	look   *look.Look
	unit   *unit
	of     mesh.Ref // the case that is brought
	screen *Screen
	window fyne.Size
	acts   []station.Act
	papers []mesh.Ref
	taps   int
	err    error
}

func newScene(t *testing.T, shade look.Shade, window fyne.Size, u *unit, of mesh.Ref) *scene {
	o := look.Defaults()
	o.Shade, o.Reads = shade, look.DeskLine
	l, err := look.New(o)
	require.NoError(t, err)
	fyne.CurrentApp().Settings().SetTheme(l.Theme())
	s := &scene{t: t, look: l, unit: u, of: of, window: window}
	s.screen = New(Options{
		Look: l, Words: words.English(), Taps: s, Now: func() time.Time { return time.UnixMilli(int64(s.unit.Now.Wall)) }, Zone: time.UTC,
		Explain: func(error) (string, string) { return "The disk is full.", "Call it in." }, Typing: window.Width > 400,
		Choose: func(of mesh.Ref) { s.of = of },
		Paper: func(kind string, of mesh.Ref, done func(string, error)) {
			s.papers = append(s.papers, of)
			done("C12-"+kind+".pdf", s.err)
		},
	})
	s.screen.Object().Resize(window)
	s.show()
	return s
}

// show brings the newest snapshot.
func (s *scene) show() { s.screen.Set(s.unit.look(s.of)) }

// Tap is part of Taps.
func (s *scene) Tap(_ mesh.By, act station.Act, done func(station.Result, error)) bool {
	s.acts = append(s.acts, act)
	if s.err != nil {
		done(station.Result{}, s.err)
		return true
	}
	ref, err := s.unit.try(desk, act)
	done(station.Result{Saved: true, Ref: ref}, err)
	return true
}

// tap taps what is visible, and brings what became of it.
func (s *scene) tap(name string) {
	s.t.Helper()
	require.True(s.t, proof.Tap(s.look, s.screen.Object(), s.window, name), "nothing to tap says %q:\n%s", name, s.text())
	s.taps++
	s.show()
}

// find taps something, turning pages until it is there.
func (s *scene) find(name string) {
	s.t.Helper()
	for range 30 {
		if proof.Tap(s.look, s.screen.Object(), s.window, name) {
			s.taps++
			s.show()
			return
		}
		if !proof.Tap(s.look, s.screen.Object(), s.window, "more") {
			break
		}
		s.taps++
	}
	require.Fail(s.t, "never shown", "%s:\n%s", name, s.text())
}

func (s *scene) text() string { return proof.Text(s.look, s.screen.Object(), s.window) }

// draw puts a picture into the folder that LINTEL_PICTURES names, if any.
func (s *scene) draw(name string) {
	folder := os.Getenv("LINTEL_PICTURES")
	if folder == "" {
		return
	}
	file, err := os.Create(filepath.Join(folder, name+".png"))
	require.NoError(s.t, err)
	require.NoError(s.t, png.Encode(file, proof.Picture(s.look, s.screen.Object(), s.window, 1)))
	require.NoError(s.t, file.Close())
}
