package scribe

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
	"lintel/requests"
)

// TestMain gives every test the same application: the toolkit has one only.
func TestMain(m *testing.M) {
	a := test.NewApp()
	code := m.Run()
	a.Quit()
	os.Exit(code)
}

// glass is a screen in dp, with its density.
type glass struct {
	size    fyne.Size
	density float32
}

// glasses are a desk or a tablet, a small tablet, a phone, a small phone.
func glasses() map[string]glass {
	return map[string]glass{
		"desk": {fyne.NewSize(1280, 800), look.DensityDesktop}, "small": {fyne.NewSize(800, 480), look.DensityDesktop},
		"phone": {fyne.NewSize(455, 800), look.DensityMobile}, "tiny": {fyne.NewSize(320, 480), look.DensityDesktop},
	}
}

// fakeTaps notes the acts and answers at once.
type fakeTaps struct {
	acts []station.Act
	by   mesh.By
	err  error
}

func (f *fakeTaps) Tap(by mesh.By, act station.Act, done func(station.Result, error)) bool {
	f.acts, f.by = append(f.acts, act), by
	r := station.Result{Saved: true, Ref: ref(byte(100 + len(f.acts)))}
	if f.err != nil {
		r = station.Result{}
	}
	if done != nil {
		done(r, f.err)
	}
	return true
}

// errTest is what a failing act answers.
var errTest = errors.New("test")

// noon is when the scenes are.
const noon mesh.Wall = 1_800_000_000_000

// scene is one screen with everything around it.
type scene struct {
	t      *testing.T
	look   *look.Look
	taps   *fakeTaps
	screen *Screen
	window fyne.Size
	now    time.Time
}

func newScene(t *testing.T, shade look.Shade, g glass) *scene {
	o := look.Defaults()
	o.Shade, o.Reads, o.Density = shade, look.RunnerLine, g.density
	l, err := look.New(o)
	require.NoError(t, err)
	s := &scene{t: t, look: l, taps: &fakeTaps{}, window: g.size, now: time.UnixMilli(int64(noon))}
	s.screen = New(Options{
		Look: l, Words: words.English(), Taps: s.taps, Now: func() time.Time { return s.now }, Zone: time.UTC,
		Explain: func(error) (string, string) { return "The disk is full.", "Call it in." },
	})
	s.screen.Set(busy(t))
	s.screen.Object().Resize(g.size)
	s.screen.Paint()
	return s
}

func (s *scene) tap(name string) {
	s.t.Helper()
	require.True(s.t, proof.Tap(s.look, s.screen.Object(), s.window, name), "nothing to tap says %q:\n%s", name, s.text())
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

func ref(n byte) mesh.Ref { return mesh.MakeRef(mesh.Key{n}, mesh.Tap{n}, 1) }

// calm is a scribe for two doors, with nothing noted.
func calm(t *testing.T) Snapshot {
	s := Look(newFolded(t).View)
	s.Now, s.By, s.InMemory = noon, mesh.By{Role: "scribe", Tag: "S1"}, false
	s.Rooms = []Room{{ID: "A1", Case: ref(1), Open: true, Label: "C 12"}, {ID: "A2"}}
	return s
}

// busy has times noted, in and out of order, late and put right.
func busy(t *testing.T) Snapshot {
	s := calm(t)
	note := func(n byte, what mesh.ID, ago time.Duration, alter func(*Moment)) {
		at := noon - mesh.Wall(ago.Milliseconds())
		m := Moment{Ref: ref(n), What: what, By: "S1", Here: at, On: requests.Placed{Wall: at, Known: true}}
		for _, x := range s.Times {
			if x.ID == what {
				m.Words, m.Aerosol = x.Words, x.Aerosol
			}
		}
		monitor := requests.Placed{Wall: at + 63_000, Within: 1400 * time.Millisecond, Known: true}
		m.Monitor = &monitor
		if alter != nil {
			alter(&m)
		}
		s.Rooms[0].Noted = append(s.Rooms[0].Noted, m)
	}
	s.Rooms[0].Tied = true
	note(30, "first-ventilation", 5*time.Second, func(m *Moment) { m.Against = []string{"Cuff up"} })
	note(31, "co2-seen", 20*time.Second, func(m *Moment) { m.By, m.On.Within = "L1", 1800*time.Millisecond })
	note(32, "attempt", 70*time.Second, func(m *Moment) { m.Attempt = 2 })
	note(33, "relaxant", 150*time.Second, func(m *Moment) { m.Late, m.First = true, m.Here+60_000 })
	note(34, "attempt", 160*time.Second, func(m *Moment) { m.Attempt, m.Late = 1, true })
	note(35, preOxygenation, 200*time.Second, nil)
	return s
}
