package inside

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

// Windows in dp: a desktop, a large tablet, one of 10 inches, a small one, a
// phone, a small one, and a broad one.
func windows() map[string]fyne.Size {
	return map[string]fyne.Size{
		"desktop": fyne.NewSize(1600, 900), "tablet": fyne.NewSize(1280, 800), "ten": fyne.NewSize(1085, 680), "small": fyne.NewSize(800, 480),
		"tall": fyne.NewSize(350, 740), "phone": fyne.NewSize(320, 480), "broad": fyne.NewSize(520, 890),
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
	n := byte(100 + len(f.acts))
	r := station.Result{Saved: true, Tap: mesh.Tap{n}, Ref: ref(n)}
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

// scene is one screen with everything around it.
type scene struct {
	t      *testing.T
	look   *look.Look
	taps   *fakeTaps
	screen *Screen
	now    time.Time
	window fyne.Size
}

func newScene(t *testing.T, shade look.Shade, window fyne.Size) *scene {
	o := look.Defaults()
	o.Shade = shade
	l, err := look.New(o)
	require.NoError(t, err)
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	s := &scene{t: t, look: l, taps: &fakeTaps{}, now: time.UnixMilli(1_800_000_000_000), window: window}
	s.screen = New(Options{
		Look: l, Words: words.English(), Taps: s.taps, Board: starter.Board, Now: func() time.Time { return s.now },
		Explain: func(error) (string, string) { return "The disk is full.", "Ask by voice." },
	})
	s.screen.Set(calm(t))
	s.screen.Object().Resize(window)
	s.screen.Paint()
	return s
}

// again puts everything back to where it began.
func (s *scene) again() {
	s.now = time.UnixMilli(1_800_000_000_000)
	*s.taps = fakeTaps{}
	s.screen.hand = hand{urgency: requests.RightNow}
	s.screen.Set(calm(s.t))
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

// calm is a room with two runners in reach and nothing open.
func calm(t *testing.T) Snapshot {
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	v := station.Read(mesh.GroupID{}, nil, nil, starter).View
	s := Snapshot{
		Now: 1_800_000_000_000, Held: true, By: mesh.By{Role: "lead", Tag: "L1"}, Room: "A1", RoomName: "A1",
		Runners: []Runner{
			{Tag: "R1", Health: mesh.Connected, Doing: requests.Here}, {Tag: "R2", Health: mesh.Connected, Doing: requests.Fetching, Room: "A2"},
		},
		Items: items(v), Sets: sets(v.Ledger), State: stateOf(v, "A1", "L1"),
	}
	s.Case, s.Tags, s.Battery = true, []mesh.Tag{"D1", "L1"}, 81
	return s
}

// open is a request of this device for n of an item, 42 seconds old.
func open(s Snapshot, n byte, item mesh.Number, count requests.Count, shown requests.Shown, acts ...requests.Act) Request {
	i, _ := s.item(item)
	return Request{
		Ref: ref(n), Code: requests.Code(ref(n)), Urgency: requests.RightNow, Shown: shown, Own: true, Acts: acts,
		Thing: Thing{Thing: requests.Thing{Item: item, Strength: mesh.Label(i.Detail), Count: count, Measure: mesh.Each}, Name: i.Name},
		Reach: words.Reach{Saved: true, Copies: 2, OnRunner: true}, Since: s.Now - mesh.Wall(42+int(n))*1000, order: mesh.Order{Turn: mesh.Turn(n)},
	}
}

// asking are the acts of somebody inside for what was just asked.
func asking() []requests.Act { return []requests.Act{requests.ActChange, requests.ActWithdraw} }
