package runner

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

// windows in dp: a tablet, a desk, a small tablet, a phone, a narrow one, a short one.
// The bar of the program takes the lowest 15 mm.
func windows() map[string]fyne.Size {
	return map[string]fyne.Size{
		"desk": fyne.NewSize(1280, 724), "wide": fyne.NewSize(1600, 824), "small": fyne.NewSize(800, 480),
		"phone": fyne.NewSize(350, 664), "narrow": fyne.NewSize(300, 615), "short": fyne.NewSize(320, 480),
	}
}

// mostUsed are the windows of a tablet and of a phone.
func mostUsed() map[string]fyne.Size {
	return map[string]fyne.Size{"desk": windows()["desk"], "phone": windows()["phone"]}
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

// embedded has the starter's pictures.
type embedded struct{}

func (embedded) Picture(h mesh.Hash) ([]byte, bool) {
	b, ok := station.EmbeddedPictures()[h]
	return b, ok
}

// errTest is what a failing act answers.
var errTest = errors.New("test")

// scene is one screen with everything around it.
type scene struct {
	t      *testing.T
	now    time.Time
	quiet  []time.Time
	look   *look.Look
	taps   *fakeTaps
	screen *Screen
	window fyne.Size
}

func newScene(t *testing.T, shade look.Shade, window fyne.Size) *scene {
	o := look.Defaults()
	o.Shade, o.Reads = shade, look.RunnerLine
	l, err := look.New(o)
	require.NoError(t, err)
	s := &scene{t: t, look: l, taps: &fakeTaps{}, window: window, now: time.UnixMilli(1_800_000_000_000)}
	s.screen = New(Options{
		Pictures: embedded{},
		Look:     l, Words: words.English(), Taps: s.taps, Now: func() time.Time { return s.now },
		Silence: func(until time.Time) { s.quiet = append(s.quiet, until) },
		Explain: func(error) (string, string) { return "The disk is full.", "Call it in." },
	})
	s.screen.Set(calm(t))
	s.screen.Object().Resize(window)
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

// calm is a runner for two doors, with nothing open.
func calm(t *testing.T) Snapshot {
	f := newFolded(t)
	s := Look(f.View)
	s.Now, s.By, s.Others = 1_800_000_000_000, mesh.By{Role: "runner", Tag: "R1"}, []mesh.Tag{"R2", "R3"}
	s.InMemory = false
	s.Doors = []mesh.ID{"A1", "A2", "A3"}
	here := func(tag mesh.Tag, doing requests.Doing, at mesh.ID) Runner {
		return Runner{Tag: tag, Doing: doing, At: at}
	}
	s.Rooms = []Room{
		{ID: "A1", InReach: true, Runners: []Runner{here("R1", requests.Here, "")}},
		{ID: "A2", Runners: []Runner{{Tag: "R1", Doing: requests.AtADoor, At: "A1", Next: true}}},
	}
	return s
}

// busy has several requests in different states.
func busy(t *testing.T) Snapshot {
	s := calm(t)
	s.Elsewhere = 2
	f := newFolded(t)
	make := func(n byte, item mesh.Number, count requests.Count, shown requests.Shown, acts ...requests.Act) Request {
		i, _ := s.item(item)
		r := Request{
			Looks: looks(f, item), Map: shelves(f, item), Drawer: drawer(f, item),
			Ref: ref(n), Room: "A1", Kept: i.Kept, Urgency: requests.RightNow, Shown: shown, Acts: acts, Choices: choices(f.Ledger, item),
			Thing: Thing{Thing: requests.Thing{Item: item, Strength: mesh.Label(i.Detail), Count: count, Measure: mesh.Each}, Name: i.Name, Drug: i.Drug},
			Since: s.Now - mesh.Wall(42+int(n))*1000, order: mesh.Order{Turn: mesh.Turn(n)},
		}
		return r
	}
	set := make(1, 553, 1, requests.ShownAsked, requests.ActAcknowledge, requests.ActOffer, requests.ActCouldNot)
	set.Rescue, set.Kept, set.Ringing = true, "outside the door, resuscitation trolley", true
	set.Bring = []Thing{make(9, 3211, 3, 1).Thing, make(9, 4513, 1, 1).Thing}
	asked := make(2, 3046, 2, requests.ShownAsked, requests.ActAcknowledge, requests.ActOffer, requests.ActCouldNot)
	mine := make(3, 1108, 1, requests.ShownAcknowledged, requests.ActReadBack, requests.ActOffer, requests.ActCouldNot, requests.ActPassOn)
	mine.Mine, mine.Going, mine.Urgency = true, []string{"R1"}, requests.NextOpening
	held := make(4, 1029, 1, requests.ShownInHand, requests.ActPutAtDoor, requests.ActReadBack)
	held.Mine, held.Loop, held.Room = true, requests.LoopMatches, "A2"
	door := make(5, 4025, 1, requests.ShownAtDoor, requests.ActTakeInSeen, requests.ActTakeBack)
	back := make(6, 3009, 1, requests.ShownTakeBack, requests.ActTakeBack)
	s.Requests = []Request{back, set, asked, door, mine, held}
	s.Rooms[0].Bag = []mesh.Ref{ref(3), ref(2), ref(5)}
	s.Rooms[0].Low = []Low{{Tag: "L1", Battery: 12}}
	s.Carrying = Carrying{InHand: []mesh.Ref{ref(4)}, Promised: []mesh.Ref{ref(3)}, AtDoor: []mesh.Ref{ref(5)}}
	return s
}

// called has notices of every kind, over a busy list.
func called(t *testing.T, why ...requests.CallWhy) Snapshot {
	s := busy(t)
	thing := s.Requests[2].Thing
	for i, x := range why {
		n := Notice{
			Why: x, Ref: ref(byte(2 + i)), Room: "A1", Level: requests.LevelFirst, Thing: thing, Tag: "R2", Urgency: requests.RightNow,
			Doors: []mesh.ID{"A1", "A2"}, Elapsed: 130 * time.Second, Usual: 100 * time.Second, Battery: 81, Words: "Tube in",
		}
		switch x {
		case requests.CallStill:
			n.Self = true
		case NoticeInject:
			n.Words, n.Thing = "Second patient at another door", Thing{}
		case requests.CallBreach:
			n.Tag, n.Words = "L1", "Glove torn"
		}
		s.Notices = append(s.Notices, n)
		s.Calls = append(s.Calls, Call{Call: requests.Call{Ref: n.Ref, Why: x, Level: n.Level}, Mine: true})
	}
	return s
}

// looks, shelves and drawer are what the starter catalogue shows of an item.
func looks(f *folded, item mesh.Number) mesh.Hash {
	i, _ := f.Ledger.Item(item)
	return i.Value.Picture
}

func shelves(f *folded, item mesh.Number) mesh.Hash {
	i, _ := f.Ledger.Item(item)
	at, _ := f.Ledger.Place(i.Value.KeptAt)
	return at.Value.Map
}

func drawer(f *folded, item mesh.Number) string {
	i, _ := f.Ledger.Item(item)
	return string(i.Value.KeptWords)
}
