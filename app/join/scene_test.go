package join

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

// windows in dp: a desk or a tablet, a small tablet, a phone.
func windows() map[string]fyne.Size {
	return map[string]fyne.Size{"desk": fyne.NewSize(1280, 800), "small": fyne.NewSize(800, 480), "phone": fyne.NewSize(320, 480)}
}

// fakeUnit notes what is asked of the device and answers when told to.
type fakeUnit struct {
	asked  []string
	done   func(error)
	showed func(Invitation, error)
	acts   []station.Act
	by     mesh.By
}

func (f *fakeUnit) Found(name mesh.Label, done func(error)) {
	f.asked, f.done = append(f.asked, "found "+string(name)), done
}

func (f *fakeUnit) Join(address, code string, done func(error)) {
	f.asked, f.done = append(f.asked, "join "+address+" "+code), done
}

func (f *fakeUnit) Invite(done func(Invitation, error)) {
	f.asked, f.showed = append(f.asked, "invite"), done
}

func (f *fakeUnit) Cancel() { f.asked = append(f.asked, "cancel") }

func (f *fakeUnit) Tap(by mesh.By, act station.Act, done func(station.Result, error)) bool {
	f.acts, f.by = append(f.acts, act), by
	done(station.Result{Saved: true}, nil)
	return true
}

// errTest is what a failing device answers.
var errTest = errors.New("test")

// scene is one screen with everything around it.
type scene struct {
	t      *testing.T
	look   *look.Look
	unit   *fakeUnit
	screen *Screen
	held   int
	window fyne.Size
}

func newScene(t *testing.T, shade look.Shade, window fyne.Size) *scene {
	o := look.Defaults()
	o.Shade, o.Reads = shade, look.DeskLine
	l, err := look.New(o)
	require.NoError(t, err)
	fyne.CurrentApp().Settings().SetTheme(l.Theme())
	s := &scene{t: t, look: l, unit: &fakeUnit{}, window: window}
	w := words.English()
	s.screen = New(Options{
		Look: l, Words: w, Unit: s.unit, Taps: s.unit, Held: func() { s.held++ },
		Explain: func(error) (string, string) { return w.Say("fault.code-wrong"), w.ScreenHint("code-wrong", 1) },
	})
	s.screen.Set(alone())
	s.screen.Object().Resize(window)
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
	for range choicesMax {
		if proof.Tap(s.look, s.screen.Object(), s.window, name) {
			return
		}
		s.tap("more")
	}
	require.Fail(s.t, "never shown", name)
}

func (s *scene) typed(digits string) {
	for _, d := range digits {
		s.tap(string(d))
	}
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

// alone is a device that belongs to no unit, with two others nearby.
func alone() Snapshot {
	return Snapshot{
		Now: 1_800_000_000_000, Name: "tablet-3", Address: "192.0.2.7:29460",
		Near: []Near{{Address: "192.0.2.20:29460", Way: "beacon"}, {Address: "192.0.2.31:29461", Way: "mDNS"}},
	}
}

// member is a device of a unit with devices in every state of their links.
func member() Snapshot {
	s := alone()
	s.Unit, s.Held = "Anvil unit", true
	s.Roles = []Role{{"lead", "Airway lead"}, {"assistant", "Airway assistant, drugs"}, {"scribe", "Scribe"}, {"runner", "Runner"}, {"observer", "PPE observer"}, {"charge", "Charge nurse"}}
	s.Rooms = []mesh.ID{"A1", "A2", "A3"}
	holds := func(role mesh.ID, tag mesh.Tag, rooms ...mesh.ID) requests.Holds {
		return requests.Holds{Role: role, Tag: tag, Rooms: rooms}
	}
	s.Devices = []Device{
		{Name: "tablet-3", Self: true, Held: true, Holds: holds("lead", "L1", "A1"), RoleName: "Airway lead", Battery: BatteryUnknown},
		{Name: "phone-1", Held: true, Holds: holds("runner", "R1"), RoleName: "Runner", Health: mesh.Connected, Via: mesh.OverQUIC, RoundTrip: 3 * time.Millisecond, OffsetMS: -1234, WithinMS: 40, Battery: 80},
		{Name: "phone-2", Health: mesh.Doubtful, Via: mesh.OverTCP, Battery: BatteryUnknown},
		{Name: "desk", Battery: BatteryUnknown},
	}
	return s
}

// code is seven digits that fit together.
const code = "1234566"
