package door

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
	papers []mesh.Ref
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
		Paper: func(of mesh.Ref, done func(string, error)) {
			s.papers = append(s.papers, of)
			done("L1-exposure.pdf", nil)
		},
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

// find taps a choice, turning pages until it is there.
func (s *scene) find(name string) {
	s.t.Helper()
	for range 30 {
		if proof.Tap(s.look, s.screen.Object(), s.window, name) || proof.Tap(s.look, s.screen.Object(), s.window, "inside "+name) {
			return // a person's tile begins with the zone
		}
		if s.screen.hand.step != stepHome || !proof.Tap(s.look, s.screen.Object(), s.window, "what else") {
			s.tap("more")
		}
	}
	require.Fail(s.t, "never shown", name)
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

// calm is an observer for two doors, with nobody inside.
func calm(t *testing.T) Snapshot {
	s := Look(newFolded(t).View)
	s.Now, s.By, s.InMemory = noon, mesh.By{Role: "observer", Tag: "O1"}, false
	s.Tags = []mesh.Tag{"O1", "R1", "L1"}
	zones := []Zone{{"inside", "inside", requests.Inside}, {"anteroom", "anteroom", requests.Anteroom}}
	s.Rooms = []Room{
		{ID: "A1", Case: ref(1), Open: true, Label: "C 12", Zones: zones, Air: Air{Milli: 12_000}},
		{ID: "A2", Zones: zones},
	}
	return s
}

// busy has people inside, one of them over the prompt, one with a breach.
func busy(t *testing.T) Snapshot {
	s := calm(t)
	s.Prompt = 40 * time.Minute
	r := &s.Rooms[0]
	ago := func(d time.Duration) mesh.Wall { return noon - mesh.Wall(d.Milliseconds()) }
	r.Tags, r.Checked = []mesh.Tag{"L1", "A1", "A2"}, map[mesh.Tag]mesh.Tag{"A2": "L1", "R1": "A1"}
	r.People = []Person{
		{Tag: "L1", Zone: r.Zones[0], Since: ago(42*time.Minute + 10*time.Second), Checker: "O1"},
		{Tag: "A1", Zone: r.Zones[0], Since: ago(12*time.Minute + 5*time.Second), Checker: "O1", Harm: "Glove torn"},
		{Tag: "A2", Zone: r.Zones[1], Since: ago(95 * time.Second)},
	}
	r.Door = Seen{true, true, ago(35 * time.Second)}
	r.Spent = []Spent{
		{Tag: "A1", In: requests.Inside, Since: ago(12*time.Minute + 5*time.Second), Times: 1, Harms: []string{"Glove torn"}},
		{Tag: "A2", Anteroom: time.Minute, In: requests.Anteroom, Since: ago(95 * time.Second)},
		{Tag: "L1", Inside: 5 * time.Minute, In: requests.Inside, Since: ago(42*time.Minute + 10*time.Second), Times: 2, Least: true},
	}
	r.Air.Event, r.Air.Since = "Disconnection", ago(15*time.Minute)
	r.Ticks = map[Ticked]Tick{{listTransfer, "destination"}: {"O1", ago(time.Minute)}, {listTransfer, "oxygen"}: {"L1", ago(3 * time.Minute)}}
	r.Doffed = map[mesh.Tag][]Step{"A2": {{"policy", true, "O1"}, {"slow", true, "O1"}, {"look", false, "O1"}}}
	return s
}

// told is busy with a breach and a phrase that nobody has heard.
func told(t *testing.T) Snapshot {
	s := busy(t)
	s.Rooms[0].Notices = []Notice{
		{Ref: ref(7), Tag: "A1", Words: "Glove torn", Harm: true, Since: noon - 12_000},
		{Ref: ref(8), Tag: "L1", Words: "Coming out", Since: noon - 4_000},
	}
	return s
}
