package brief

import (
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
	"lintel/requests"
)

// TestMain gives every test the same application: the toolkit has one only.
func TestMain(m *testing.M) {
	a := test.NewApp()
	code := m.Run()
	a.Quit()
	os.Exit(code)
}

// glasses are those of every screen's tests, and a desktop.
func glasses() map[string]stage.Glass {
	all := stage.Glasses()
	all["desktop"] = stage.Glass{Size: fyne.NewSize(1600, 900), Density: look.DensityDesktop}
	return all
}

// folded is a unit that tests write into without a device. The device that
// looks is number 0.
type folded struct {
	t *testing.T
	station.View
	layout station.BoardLayout
	n      byte
}

// firstAt is when a test's unit begins.
const firstAt mesh.Wall = 1_800_000_000_000

func newFolded(t *testing.T) *folded {
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	f := &folded{t: t, layout: starter.Board, View: station.Read(mesh.GroupID{}, nil, nil, starter).View}
	f.Now.Wall = firstAt
	var rooms []requests.RoomLine
	for _, id := range []mesh.ID{"A1", "A2", "A3"} {
		rooms = append(rooms, requests.RoomLine{ID: id, Name: mesh.Label(id), Zones: []requests.Zone{
			{ID: "corridor", Name: "corridor", Side: requests.Outside}, {ID: "anteroom", Name: "anteroom", Side: requests.Anteroom},
			{ID: "inside", Name: "inside", Side: requests.Inside},
		}})
	}
	f.do(9, mesh.By{}, station.Lines{Rooms: rooms})
	return f
}

// do records an act of a device, seven seconds after the one before.
func (f *folded) do(device byte, by mesh.By, act station.Act) mesh.Ref {
	f.t.Helper()
	ref, err := f.try(device, by, act)
	require.NoError(f.t, err)
	return ref
}

func (f *folded) try(device byte, by mesh.By, act station.Act) (mesh.Ref, error) {
	f.n++
	f.Now.Wall += 7000
	key, tap := mesh.Key{device}, mesh.Tap{f.n}
	parts, err := station.Compose(f.View, key, tap, by, act)
	if err != nil {
		return mesh.Ref{}, err
	}
	for i, p := range parts {
		fact := mesh.Fact{Ref: mesh.MakeRef(key, tap, i), At: mesh.Order{Turn: mesh.Turn(f.n)}, Wall: f.Now.Wall, By: by, Kind: p.Kind, Body: p.Body}
		f.Board.Add(fact)
		f.Ledger.Add(fact)
	}
	return mesh.MakeRef(key, tap, 1), nil
}

// hold says who has a device.
func (f *folded) hold(device byte, role mesh.ID, tag mesh.Tag, rooms ...mesh.ID) {
	f.do(device, mesh.By{Role: role, Tag: tag}, station.Hold{Holds: requests.Holds{Role: role, Tag: tag, Rooms: rooms}})
}

// look is what the device with number 0 shows.
func (f *folded) look() Snapshot {
	s := Look(f.View)
	s.InMemory = false // the test's peer has no disk at all
	return s
}

// scene is one screen with everything around it. Its taps are folded at once.
type scene struct {
	*stage.Scene
	t      *testing.T
	unit   *folded
	screen *Screen
	acts   []station.Act
	boards []mesh.ID // where "to the board" led
	taps   int
	err    error
}

func newScene(t *testing.T, shade look.Shade, glass string, inside bool) *scene {
	s := &scene{Scene: stage.New(t, shade, glasses()[glass]), t: t, unit: newFolded(t)}
	fyne.CurrentApp().Settings().SetTheme(s.Look.Theme())
	s.screen = New(Options{
		Look: s.Look, Words: words.English(), Taps: s, Layout: s.unit.layout, Inside: inside, Explain: s.Explain,
		Board:  func(room mesh.ID) { s.boards = append(s.boards, room) },
		Health: func() Health { return Health{Battery: 81, DiskMB: 3200} },
	})
	s.Show(s.screen.Object())
	s.show()
	return s
}

// show brings the newest snapshot.
func (s *scene) show() { s.screen.Set(s.unit.look()) }

// Tap is part of Taps.
func (s *scene) Tap(by mesh.By, act station.Act, done func(station.Result, error)) bool {
	s.acts = append(s.acts, act)
	if s.err != nil {
		done(station.Result{}, s.err)
		return true
	}
	ref, err := s.unit.try(0, by, act)
	done(station.Result{Saved: true, Ref: ref}, err)
	return true
}

// tap taps what is visible, and brings what became of it.
func (s *scene) tap(name string) {
	s.t.Helper()
	s.Scene.Tap(name)
	s.taps++
	s.show()
}

// find taps something, turning pages until it is there. Turning is a tap too.
func (s *scene) find(name string) {
	s.t.Helper()
	for range rowsMax {
		if s.Try(name) {
			s.taps++
			s.show()
			return
		}
		s.tap("more")
	}
	require.Fail(s.t, "never shown", name)
}

// team has the device that looks with a lead outside, a runner, and two devices
// inside A1, one of which nobody has asked anything yet.
func (s *scene) team() {
	u := s.unit
	u.hold(0, "runner", "R1")
	u.hold(2, "lead", "L1", "A1")
	u.hold(3, "assistant", "D1", "A1")
	s.show()
}

// lead gives the device that looks to a charge nurse, who may start drills.
func (s *scene) lead() {
	s.unit.hold(0, "charge", "C1")
	s.show()
}

// begun has a case open in A1, with four people.
func (s *scene) begun() {
	u, by := s.unit, mesh.By{Role: "runner", Tag: "R1"}
	u.do(0, by, station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation"}})
	for role, tag := range map[mesh.ID]mesh.Tag{"lead": "L1", "assistant": "D1", "observer": "O1", "runner": "R1"} {
		u.do(0, by, station.TakeRole{Tag: tag, Role: role, Case: s.caseRef()})
	}
	s.show()
	s.screen.AskCase("A1")
}

func (s *scene) caseRef() mesh.Ref {
	c, _ := s.unit.Board.CaseIn("A1")
	return c.Ref
}

// intubation opens a case in A1 by taps, with its roles.
func (s *scene) intubation() {
	s.find("A1")
	s.find("Intubation")
	for _, role := range []string{"Airway lead", "Airway assistant", "Runner", "PPE observer"} {
		s.find(role)
	}
}

// tested has device 2 send a test request, which device 0 heard.
func (s *scene) tested() {
	ref := s.unit.do(2, mesh.By{Role: "lead", Tag: "L1"}, station.TestComms{Room: "A1", Battery: 64, Charging: false, DiskMB: 5120, ScreenOn: true, Door: "A1"})
	s.unit.do(0, mesh.By{Role: "runner", Tag: "R1"}, station.HearTest{Test: ref, Sound: true, RoundTripMS: 4})
	s.show()
}

// linked gives the devices of a snapshot a link, which a view without network
// has not.
func linked(s Snapshot) Snapshot {
	for i := range s.Rooms {
		for j := range s.Rooms[i].Devices {
			d := &s.Rooms[i].Devices[j]
			d.Name, d.Health, d.RoundTrip, d.OffsetMS, d.WithinMS = []string{"inside tablet", "spare tablet"}[j%2], mesh.Connected, 4*time.Millisecond, 180, 12
		}
	}
	return s
}
