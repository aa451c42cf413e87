package door

import (
	"os"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/stage"
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

// noon is when the scenes are.
const noon = stage.Noon

// scene is the screen on a glass.
type scene struct {
	*stage.Scene
	t      *testing.T
	screen *Screen
	papers []mesh.Ref
}

func newScene(t *testing.T, shade look.Shade, g stage.Glass) *scene {
	s := &scene{Scene: stage.New(t, shade, g), t: t}
	s.screen = New(Options{
		Look: s.Look, Words: words.English(), Taps: s.Taps, Explain: s.Explain, Now: s.Clock, Zone: time.UTC,
		Paper: func(of mesh.Ref, done func(string, error)) {
			s.papers = append(s.papers, of)
			done("L1-exposure.pdf", nil)
		},
	})
	s.Show(s.screen.Object())
	return s
}

// newBusy is a scene in which something goes on.
func newBusy(t *testing.T, g stage.Glass) *scene {
	s := newScene(t, look.Dark, g)
	s.screen.Set(busy(t))
	return s
}

// find taps a choice, turning pages until it is there.
func (s *scene) find(name string) {
	s.t.Helper()
	for range 30 {
		if s.Try(name) || s.Try("inside "+name) {
			return // a person's tile begins with the zone
		}
		if s.screen.hand.step != stepHome || !s.Try("what else") {
			s.Tap("more")
		}
	}
	require.Fail(s.t, "never shown", name)
}

// folded is the unit of the scenes, read once.
var folded *Snapshot

func unit(t *testing.T) Snapshot {
	if folded == nil {
		s := Look(stage.NewFolded(t, "observer", "O1").View)
		folded = &s
	}
	return *folded
}

// calm is an observer for two doors, with nobody inside.
func calm(t *testing.T) Snapshot {
	s := unit(t)
	s.Now, s.By, s.InMemory = noon, mesh.By{Role: "observer", Tag: "O1"}, false
	s.Tags = []mesh.Tag{"O1", "R1", "L1"}
	zones := []Zone{{"inside", "inside", requests.Inside}, {"anteroom", "anteroom", requests.Anteroom}}
	s.Rooms = []Room{
		{ID: "A1", Case: stage.Ref(1), Open: true, Label: "C 12", Zones: zones, Air: Air{Milli: 12_000}},
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
		{Ref: stage.Ref(7), Room: "A1", Tag: "A1", Words: "Glove torn", Harm: true, Since: noon - 12_000},
		{Ref: stage.Ref(8), Room: "A1", Tag: "L1", Words: "Coming out", Since: noon - 4_000},
	}
	return s
}
