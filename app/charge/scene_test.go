package charge

import (
	"fmt"
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
	"lintel/kits"
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

// Things of the scenes.
const (
	bougie   mesh.Number = 1108
	fentanyl mesh.Number = 3102
)

// second is when the scenes begin: 2027-01-15, 08:00 UTC.
const second = 1_800_000_000

var (
	mainStore = kits.Place{Sort: kits.Store, ID: "main"}
	trolley   = kits.Place{Sort: kits.Trolley, ID: "airway"}
	inside    = kits.Place{Sort: kits.InRoom, ID: "A1"}
)

// unit is a folded unit whose device somebody in charge has.
type unit struct {
	*stage.Folded
	t     *testing.T
	n     int
	of    mesh.Ref // the case in A1
	issue mesh.Ref
}

// do records an act a second after the one before.
func (u *unit) do(act station.Act) mesh.Ref {
	u.n = max(u.n, int(u.Now.Wall/1000)-second) + 1
	return u.Do(second+u.n, act)
}

func newUnit(t *testing.T) *unit {
	u := &unit{t: t, Folded: stage.NewFolded(t, "charge", "C1")}
	u.do(station.Hold{Holds: requests.Holds{Role: "charge", Tag: "C1"}})
	return u
}

// stocked is a unit with a template, stock of known lots where things are kept,
// and pars.
func stocked(t *testing.T) *unit {
	u := newUnit(t)
	tray, known := u.Ledger.Bundle(117)
	require.True(t, known)
	u.do(station.Catalogue{
		Templates: []kits.Template{{ID: "first-tray", Name: "First tray", Lines: tray.Value.Lines}},
		Pars:      []kits.ParLine{{Place: trolley, Item: bougie, Par: 4}, {Place: mainStore, Item: bougie, Par: 10}},
	})
	for n, x := range tray.Value.Lines {
		lot := mesh.Label(fmt.Sprintf("L%d", x.Item))
		expiry := uint32(20280630)
		if n < 3 {
			expiry = 20270215 + uint32(n)
		}
		item, _ := u.Ledger.Item(x.Item)
		to := item.Value.KeptAt
		if to.Sort == 0 {
			to = mainStore
		}
		u.do(station.Receive{Item: x.Item, Count: 4 * x.Count, Lot: lot, Expiry: expiry, How: kits.ByScanner, To: to})
	}
	u.do(station.Receive{Item: bougie, Count: 6, Lot: "B7", Expiry: 20290101, How: kits.Assumed, To: mainStore})
	return u
}

// fill prepares a kit as proposed.
func (u *unit) fill(kit mesh.ID, checked mesh.Tag) {
	f, err := u.FillKit(kit, "first-tray")
	require.NoError(u.t, err)
	f.CheckedBy = checked
	for _, act := range f.Entries() {
		u.do(act)
	}
}

// busy has a sealed kit, one that nobody checked and that lacks something, and a
// case with about forty lines inside, one of them a controlled drug.
func busy(t *testing.T) *unit {
	u := stocked(t)
	u.fill("first-tray-1", "O1")
	u.do(station.SealKit{Kit: "first-tray-1", Seal: "4711"})
	u.fill("first-tray-2", "")
	u.do(station.BreakDown{Kit: "first-tray-2"})
	u.do(station.PrepareKit{Kit: "first-tray-2", Template: "first-tray", Lines: []kits.Line{kits.Containers(bougie, 1)}})
	u.of = u.do(station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation", Label: "C 12"}})
	u.do(station.TakeRole{Case: u.of, Tag: "L1", Role: "lead"})
	u.do(station.TakeRole{Case: u.of, Tag: "A1", Role: "assistant"})
	for _, n := range []mesh.Number{117, 229} {
		b, _ := u.Ledger.Bundle(n)
		var lines []kits.Line
		for _, x := range b.Value.Lines {
			lines = append(lines, kits.Containers(x.Item, x.Count))
		}
		u.do(station.Move{Movements: []kits.Moved{{From: kits.Place{Sort: kits.Supplier}, To: inside, Lines: lines, Case: u.of}}})
	}
	mark := u.do(station.Ask{Room: "A1", Thing: requests.Thing{Item: bougie, Count: 1}, Urgency: requests.RightNow})
	for _, n := range []mesh.Number{bougie, 3009, 3080, 3153, 3190, 3038, 4001, 4025, 4208, 4224, 4235, 4243, 2070} {
		if _, known := u.Ledger.Item(n); known {
			u.do(station.Move{Movements: []kits.Moved{{From: kits.Place{Sort: kits.Supplier}, To: inside, Lines: []kits.Line{kits.Containers(n, 1)}, Case: u.of, For: mark}}})
		}
	}
	u.do(station.Withdraw{Request: mark})
	u.issue = u.do(station.IssueDrug{Case: u.of, Room: "A1", Thing: requests.Thing{Item: fentanyl, Count: 2}, CheckedBy: "O1", Register: "p. 12"})
	u.do(station.GiveDrug{Case: u.of, Room: "A1", Portion: station.Portion{Item: fentanyl, VolumeUL: 1500}})
	return u
}

// scene is one screen with everything around it. Its taps are folded at once.
type scene struct {
	*stage.Scene
	t      *testing.T
	unit   *unit
	screen *Screen
	acts   []station.Act
	taps   int
	err    error
	files  *files
	after  int // how many acts are recorded before err
}

func newScene(t *testing.T, glass string, shade look.Shade, u *unit, shown ...held) *scene {
	s := &scene{Scene: stage.New(t, shade, stage.Glasses()[glass]), t: t, unit: u, files: &files{}}
	fyne.CurrentApp().Settings().SetTheme(s.Look.Theme())
	var pictures held
	for _, h := range shown {
		pictures = h
	}
	s.screen = New(Options{
		Pictures: pictures,
		Look:     s.Look, Words: words.English(), Taps: folding{s}, Explain: s.Explain, Typing: glass == "desk",
		Now: func() time.Time { return time.UnixMilli(int64(u.Now.Wall)) }, Zone: time.UTC,
		Want: func(Wanted) {}, Lists: s.files,
	})
	s.Show(s.screen.Object())
	s.look()
	return s
}

// look brings the newest snapshot of what is wanted, as often as something else is
// wanted when it comes.
func (s *scene) look() {
	for range 3 {
		at := s.screen.Wants()
		snap := Look(s.unit.View, at)
		snap.InMemory = false // a folded unit has no disk
		s.screen.Set(snap)
		if s.screen.Wants() == at {
			return
		}
	}
}

// folding takes the acts of a scene.
type folding struct{ scene *scene }

func (f folding) Tap(_ mesh.By, act station.Act, done func(station.Result, error)) bool {
	s := f.scene
	if s.acts = append(s.acts, act); s.err != nil && s.after <= 0 {
		done(station.Result{}, s.err)
		return true
	}
	s.after--
	done(station.Result{Saved: true, Ref: s.unit.do(act)}, nil)
	return true
}

// find taps one thing after the other, each as soon as it is seen: pages are
// turned until it is. A moment passes between taps.
func (s *scene) find(names ...string) {
	s.t.Helper()
	for _, name := range names {
		turns := 0
		for !s.Try(name) {
			s.taps++
			if turns++; turns == 1 && s.Try("what can be done") {
				continue // where it is narrow
			}
			require.True(s.t, turns < 30 && s.Try("more"), "never shown: %s\n%s", name, s.Text())
		}
		s.taps++
		s.unit.Now.Wall += 1000
		s.look()
	}
}

// keys types digits, and says that they are all.
func (s *scene) keys(digits string) {
	s.t.Helper()
	for _, d := range digits {
		s.find(string(d))
	}
	s.find(s.screen.opt.Words.Say("keys.done-short"))
}

// page goes to a page of the screen at once.
func (s *scene) page(at Wanted) *scene {
	s.screen.open(at)
	s.look()
	return s
}
