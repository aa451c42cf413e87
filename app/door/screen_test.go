package door

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/stage"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// states are what the screen is shown in, each with what was tapped to get there.
func states(t *testing.T) map[string]func(*scene) {
	with := func(s Snapshot, taps ...string) func(*scene) {
		return func(c *scene) {
			c.screen.Set(s)
			for _, name := range taps {
				c.find(name)
			}
		}
	}
	step := func(s Snapshot, st step) func(*scene) {
		return func(c *scene) {
			c.screen.Set(s)
			c.screen.pick(pick{what: picksStep, step: st})
		}
	}
	unknown := busy(t)
	unknown.Rooms[0].Air.Milli = 0
	none := busy(t)
	none.Rooms[0].Air = Air{Milli: 12_000}
	return map[string]func(*scene){
		"calm":       with(calm(t)),
		"busy":       with(busy(t)),
		"told":       with(told(t)),
		"relief":     with(told(t), "relief"),
		"who":        with(busy(t), "goes in"),
		"how":        with(busy(t), "goes in", "R1"),
		"undo":       with(busy(t), "goes in", "R1", "inside"),
		"new-tag":    with(busy(t), "goes in", "other tag", "Airway lead"),
		"person":     func(c *scene) { c.screen.Set(busy(t)); c.screen.pick(pick{what: picksPerson, tag: "L1"}) },
		"harm":       with(busy(t), "breach", "L1"),
		"doff":       with(busy(t), "doffing", "A2"),
		"doffed":     func(c *scene) { c.screen.Set(busy(t)); c.screen.hand.tag = "A2"; c.screen.ask(stepDoffed) },
		"leaving":    step(busy(t), stepLeaving),
		"transfer":   func(c *scene) { c.screen.Set(busy(t)); c.screen.pick(pick{what: picksList, id: listTransfer}) },
		"spent":      step(busy(t), stepSpent),
		"air":        step(busy(t), stepAir),
		"air-none":   step(none, stepAir),
		"air-no-ach": step(unknown, stepAir),
		"door":       step(told(t), stepRoom),
	}
}

// Goal: the screen keeps the design on every glass, dark and light. Method:
// audit each state on each.
func TestScreenKeepsTheDesign(t *testing.T) {
	all := states(t)
	for size, g := range stage.Glasses() {
		for name, arrange := range all {
			for shadeName, shade := range map[string]look.Shade{"dark": look.Dark, "light": look.Light} {
				if shade == look.Light && size != "desk" {
					continue // the shade changes colours only
				}
				s := newScene(t, shade, g)
				arrange(s)
				assert.Empty(t, s.Audit(), "%s, %s, %s", size, name, shadeName)
				s.Draw("door-" + size + "-" + name + "-" + shadeName)
			}
		}
	}
}

// Goal: what a screen says can be reviewed as text. Method: compare each state
// with its file; LINTEL_GOLDEN=1 writes the files again.
func TestScreensReadAsBefore(t *testing.T) {
	all := states(t)
	for _, size := range []string{"desk", "phone"} {
		for name, arrange := range all {
			s := newScene(t, look.Dark, stage.Glasses()[size])
			arrange(s)
			s.Golden(size + "-" + name)
		}
	}
}

// Goal: what is tapped is what is recorded, going in with three taps,
// coming out with two. Method: tap through each on the largest and the smallest
// glass, and compare the acts.
func TestTapsMakeTheActsTheySay(t *testing.T) {
	c := stage.Ref(1)
	for _, x := range []struct {
		taps []string
		want []station.Act
	}{
		{[]string{"goes in", "R1", "inside PPE: A1"}, []station.Act{station.GoIn{Case: c, Tag: "R1", Zone: "inside", Checker: "A1"}}},
		{[]string{"goes in", "R1", "anteroom no PPE check"}, []station.Act{station.GoIn{Case: c, Tag: "R1", Zone: "anteroom"}}},
		{[]string{"goes in", "R1", "other checker", "L1", "inside PPE: L1"}, []station.Act{station.GoIn{Case: c, Tag: "R1", Zone: "inside", Checker: "L1"}}},
		{[]string{"L1 42:10", "comes out seen by O1"}, []station.Act{station.ComeOut{Case: c, Tag: "L1", Zone: "inside", Checker: "O1"}}},
		{[]string{"L1 42:10", "to anteroom"}, []station.Act{station.GoIn{Case: c, Tag: "L1", Zone: "anteroom", Checker: "O1"}}},
		{[]string{"L1 42:10", "breach", "Splash, eyes or face"}, []station.Act{station.ReportBreach{Case: c, Tag: "L1", What: "splash"}}},
		{[]string{"breach", "A2", "I have to get out"}, []station.Act{station.ReportBreach{Case: c, Tag: "A2", What: "out"}}},
		{[]string{"shuts"}, []station.Act{station.MeasureDoor{Room: "A1", Open: false}}},
		{[]string{"leaving", "transfer", "Route fixed"}, []station.Act{station.TickLine{Case: c, List: listTransfer, Line: "route", Done: true}}},
		{[]string{"leaving", "transfer", "✓ Where we go"}, []station.Act{station.TickLine{Case: c, List: listTransfer, Line: "destination"}}},
		{[]string{"doffing", "A2", "not done well"}, []station.Act{station.DoffStep{Case: c, Tag: "A2", Step: "hands-1", Checker: "O1"}}},
	} {
		for _, size := range []string{"desk", "tiny"} {
			s := newBusy(t, stage.Glasses()[size])
			for _, name := range x.taps {
				s.find(name)
			}
			require.Equal(t, x.want, s.Taps.Acts, "%s: %s", size, x.taps)
			require.Equal(t, mesh.By{Role: "observer", Tag: "O1"}, s.Taps.By)
		}
	}
}

// Goal: a breach is on top until somebody says that it was heard, before what
// was said later; whoever sends relief has heard it. Method: tap both.
func TestBreachIsOnTopUntilHeard(t *testing.T) {
	for _, g := range stage.Glasses() {
		s := newBusy(t, g)
		s.screen.Set(told(t))
		require.Equal(t, "A1: Glove torn", s.screen.rows.Head.Sentence)
		s.Tap("heard")
		require.Equal(t, []station.Act{station.Hear{Said: stage.Ref(7)}}, s.Taps.Acts)
		s.Tap("relief")
		helper := s.screen.snap.Reliefs[0]
		s.find(helper.Name)
		want := station.Ask{Case: stage.Ref(1), Room: "A1", Thing: requests.Thing{Item: helper.Number, Count: 1}, Urgency: requests.RightNow}
		require.Equal(t, []station.Act{station.Hear{Said: stage.Ref(7)}, want}, s.Taps.Acts[1:])
		heard := told(t)
		heard.Rooms[0].Notices = heard.Rooms[0].Notices[1:]
		s.screen.Set(heard)
		require.Equal(t, "L1: Coming out", s.screen.rows.Head.Sentence)
		s.screen.Set(busy(t))
		require.NotContains(t, s.Text(), "heard")
	}
}

// Goal: a breach at another door is on top too, with that door, before a phrase
// at this one; relief goes where it is needed; breaches call. Method: two doors.
func TestBreachAtAnotherDoorIsHeardHere(t *testing.T) {
	s := newBusy(t, stage.Glasses()["desk"])
	snap := told(t)
	harm := snap.Rooms[0].Notices[0]
	harm.Room = "A2"
	snap.Rooms[0].Notices, snap.Rooms[1].Notices = snap.Rooms[0].Notices[1:], []Notice{harm}
	s.screen.Set(snap)
	require.Equal(t, "A2 · A1: Glove torn", s.screen.rows.Head.Sentence)
	require.Equal(t, []mesh.Ref{stage.Ref(7)}, snap.Calling())
	s.Tap("relief")
	s.find(snap.Reliefs[0].Name)
	require.Equal(t, mesh.ID("A2"), s.Taps.Acts[1].(station.Ask).Room)
}

// Goal: doffing goes from step to step, each recorded as it went, from where it
// was left, and back. Method: read the last steps to somebody, one not well.
func TestDoffingGoesStepByStep(t *testing.T) {
	s := newBusy(t, stage.Glasses()["desk"])
	s.find("doffing")
	s.find("A2")
	require.Equal(t, 3, s.screen.hand.at, "three were read before")
	s.Tap("step before")
	s.Tap("done")
	s.Tap("done")
	require.Len(t, s.Taps.Acts, 1, "a finger that slips skips no step")
	for range len(s.screen.snap.Doff) - 3 {
		s.Now = s.Now.Add(station.AgainAfter)
		s.Tap("done")
	}
	require.Equal(t, stepDoffed, s.screen.hand.step)
	require.Len(t, s.Taps.Acts, len(s.screen.snap.Doff)-2)
	require.Equal(t, station.DoffStep{Case: stage.Ref(1), Tag: "A2", Step: "look", Checker: "O1", Good: true}, s.Taps.Acts[0])
	last := s.screen.snap.Doff[len(s.screen.snap.Doff)-1]
	require.Equal(t, station.DoffStep{Case: stage.Ref(1), Tag: "A2", Step: last.ID, Checker: "O1", Good: true}, s.Taps.Acts[len(s.Taps.Acts)-1])
}

// Goal: what was tapped can be taken back for as long as the unit set, not
// longer. Method: tap, take back, tap, wait.
func TestUndoIsThereForAsLongAsSet(t *testing.T) {
	s := newBusy(t, stage.Glasses()["desk"])
	in := func() {
		for _, name := range []string{"goes in", "R1", "inside"} {
			s.find(name)
		}
	}
	in()
	s.Tap("undo")
	require.Equal(t, station.Undo{Mark: stage.Ref(101)}, s.Taps.Acts[1])
	require.NotContains(t, s.Text(), "undo")
	in()
	s.Now = s.Now.Add(s.screen.snap.UndoFor)
	s.screen.Paint()
	require.NotContains(t, s.Text(), "undo")
	s.screen.undo()
	require.Len(t, s.Taps.Acts, 3)
}

// Goal: what happens at a door without a case is recorded for that door. Method:
// a device for two doors; then one whose act fails.
func TestDoorWithoutCaseBeginsOne(t *testing.T) {
	s := newBusy(t, stage.Glasses()["desk"])
	s.screen.pick(pick{what: picksRoom, id: "A2"})
	s.screen.acts(pick{what: picksIn, tag: "R1", id: "inside", by: "A1"})
	require.Equal(t, []station.Act{
		station.OpenCase{Case: requests.CaseOpen{Room: "A2"}}, station.GoIn{Case: stage.Ref(101), Tag: "R1", Zone: "inside", Checker: "A1"},
	}, s.Taps.Acts)
	s.Taps.Err = stage.ErrTest
	s.screen.acts(pick{what: picksIn, tag: "R2", id: "inside"})
	require.Contains(t, s.Text(), "The disk is full.")
	require.Len(t, s.Taps.Acts, 3, "nothing follows a case that could not be begun")
}

// Goal: the papers of the case are made, and it is said where they are. Method:
// tap it; without a maker of papers there is no tile.
func TestPapersAreOfferedWhereTheyCanBeMade(t *testing.T) {
	s := newBusy(t, stage.Glasses()["desk"])
	s.find("who was in")
	s.Tap("papers")
	require.Equal(t, []mesh.Ref{stage.Ref(1)}, s.papers)
	require.Contains(t, s.Text(), "L1-exposure.pdf")
	s.screen.opt.Paper = nil
	s.screen.Paint()
	require.NotContains(t, s.Text(), "papers")
}

// Goal: nothing that hands can do ends the program. Method: tap at random, with
// snapshots that change under the hands; the seed is printed.
func TestRandomTapsNeverPanic(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	for _, g := range stage.Glasses() {
		s := newBusy(t, g)
		for n := range 40 {
			hands := s.Hands()
			if len(hands) > 0 {
				hands[random.IntN(len(hands))].On.Tapped(nil)
			}
			if n%15 == 0 || len(hands) == 0 {
				s.screen.Set([]Snapshot{calm(t), busy(t), told(t), {}}[random.IntN(4)])
			}
		}
	}
}
