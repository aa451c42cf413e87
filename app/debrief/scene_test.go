package debrief

import (
	"maps"
	"os"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/stage"
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

// glasses are those of every screen, and a large one on a desk.
func glasses() map[string]stage.Glass {
	all := map[string]stage.Glass{"desktop": {Size: fyne.NewSize(1600, 900), Density: look.DensityDesktop}}
	maps.Copy(all, stage.Glasses())
	return all
}

// narrow tells whether a glass is a phone.
func narrow(glass string) bool { return glass == "phone" || glass == "tiny" }

// on is the newest case of a full unit on a glass.
func on(t *testing.T, glass string, shade look.Shade) (*scene, mesh.Ref) {
	u, of := full(t)
	return newScene(t, glass, shade, u, of), of
}

// scene is one screen with everything around it. Its taps are folded at once.
type scene struct {
	*stage.Scene
	t      *testing.T
	unit   *unit
	of     mesh.Ref // the case that is brought
	screen *Screen
	acts   []station.Act
	papers []mesh.Ref
	err    error
}

func newScene(t *testing.T, glass string, shade look.Shade, u *unit, of mesh.Ref) *scene {
	s := &scene{Scene: stage.New(t, shade, glasses()[glass]), t: t, unit: u, of: of}
	fyne.CurrentApp().Settings().SetTheme(s.Look.Theme())
	s.screen = New(Options{
		Look: s.Look, Words: words.English(), Taps: folding{s}, Explain: s.Explain, Typing: !narrow(glass),
		Now: func() time.Time { return time.UnixMilli(int64(u.Now.Wall)) }, Zone: time.UTC,
		Choose: func(of mesh.Ref) { s.of = of },
		Paper: func(kind string, of mesh.Ref, done func(string, error)) {
			s.papers = append(s.papers, of)
			done("C12-"+kind+".pdf", s.err)
		},
	})
	s.Show(s.screen.Object())
	s.look()
	return s
}

// look brings the newest snapshot.
func (s *scene) look() { s.screen.Set(s.unit.look(s.of)) }

// folding takes the acts of a scene.
type folding struct{ scene *scene }

func (f folding) Tap(_ mesh.By, act station.Act, done func(station.Result, error)) bool {
	s := f.scene
	s.acts = append(s.acts, act)
	if s.err != nil {
		done(station.Result{}, s.err)
		return true
	}
	ref, err := s.unit.try(desk, act)
	done(station.Result{Saved: true, Ref: ref}, err)
	return true
}

// find taps one thing after the other, each as soon as it is seen: pages are
// turned until it is.
func (s *scene) find(names ...string) {
	s.t.Helper()
	for _, name := range names {
		turns := 0
		for !s.Try(name) {
			turns++
			require.True(s.t, turns < 30 && s.Try("more"), "never shown: %s\n%s", name, s.Text())
		}
		s.look()
	}
}
