package scribe

import (
	"os"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"

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
}

func newScene(t *testing.T, shade look.Shade, g stage.Glass) *scene {
	s := &scene{Scene: stage.New(t, shade, g), t: t}
	s.screen = New(Options{
		Look: s.Look, Words: words.English(), Taps: s.Taps, Explain: s.Explain, Now: s.Clock, Zone: time.UTC,
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

// folded is the unit of the scenes, read once.
var folded *Snapshot

func unit(t *testing.T) Snapshot {
	if folded == nil {
		s := Look(stage.NewFolded(t, "scribe", "S1").View)
		folded = &s
	}
	return *folded
}

// calm is a scribe for two doors, with nothing noted.
func calm(t *testing.T) Snapshot {
	s := unit(t)
	s.Now, s.By, s.InMemory = noon, mesh.By{Role: "scribe", Tag: "S1"}, false
	s.Rooms = []Room{{ID: "A1", Case: stage.Ref(1), Open: true, Label: "C 12"}, {ID: "A2"}}
	return s
}

// busy has times noted, in and out of order, late and put right.
func busy(t *testing.T) Snapshot {
	s := calm(t)
	note := func(n byte, what mesh.ID, ago time.Duration, alter func(*Moment)) {
		at := noon - mesh.Wall(ago.Milliseconds())
		m := Moment{Ref: stage.Ref(n), What: what, By: "S1", Here: at, On: requests.Placed{Wall: at, Known: true}}
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
