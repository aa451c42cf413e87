package scribe

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
	with := func(s Snapshot, does ...func(*Screen)) func(*scene) {
		return func(c *scene) {
			c.screen.Set(s)
			for _, do := range does {
				do(c.screen)
			}
		}
	}
	step := func(st step) func(*Screen) { return func(s *Screen) { s.pick(pick{what: picksStep, step: st}) } }
	typing := func(to intent, digits string) func(*Screen) {
		return func(s *Screen) {
			s.hand.moment = stage.Ref(33)
			s.pick(pick{what: picksType, to: to})
			for _, d := range digits {
				s.typeDigit(d)
			}
		}
	}
	return map[string]func(*scene){
		"calm":    with(calm(t)),
		"busy":    with(busy(t)),
		"next":    with(busy(t), (*Screen).turn),
		"late":    with(busy(t), func(s *Screen) { s.late(2 * time.Minute) }),
		"undo":    with(busy(t), func(s *Screen) { s.note(6) }),
		"else":    with(busy(t), step(stepElse)),
		"noted":   with(busy(t), step(stepNoted)),
		"moment":  with(busy(t), func(s *Screen) { s.pick(pick{what: picksMoment, ref: stage.Ref(33)}) }),
		"typed":   with(busy(t), typing(toLate, "75")),
		"no-time": with(busy(t), typing(toCorrect, "2575")),
		"monitor": with(busy(t), typing(toMonitor, "0803")),
		"turn":    with(busy(t), typing(toMonitor, "0803"), (*Screen).typed),
		"door":    with(busy(t), step(stepRoom)),
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
				s.Draw("scribe-" + size + "-" + name + "-" + shadeName)
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

// Goal: one tap notes a time, of an attempt with the next number, on every
// glass. Method: tap one of each sort.
func TestOneTapNotesATime(t *testing.T) {
	for size, g := range stage.Glasses() {
		s := newBusy(t, g)
		for _, name := range []string{"Cuff up", "Attempt 3", "Extubated"} {
			s.find(name)
		}
		require.Equal(t, []station.Act{
			station.NoteTime{Case: stage.Ref(1), What: "cuff-up"}, station.NoteTime{Case: stage.Ref(1), What: "attempt", Attempt: 3, Aerosol: true},
			station.NoteTime{Case: stage.Ref(1), What: "extubated", Aerosol: true},
		}, s.Taps.Acts, size)
		require.Equal(t, mesh.By{Role: "scribe", Tag: "S1"}, s.Taps.By)
	}
}

// find taps a time by the words on its tile, which stand behind when it was
// noted last, turning pages until it is there.
func (s *scene) find(name string) {
	s.t.Helper()
	for i, x := range s.screen.rows.Tiles {
		for n := 0; x.Word == name && n < 40; n++ {
			if at := i - s.screen.from; at >= 0 && at < s.screen.shown {
				s.Now = s.Now.Add(station.AgainAfter)
				s.screen.note(i)
				return
			}
			s.Tap("more")
		}
	}
	require.Fail(s.t, "never shown", name)
}

// Goal: a late entry counts as when it was said to be, and only that one.
// Method: each of the tiles on every glass, then a typed time of the day before
// midnight, then one more.
func TestLateEntryCountsOnce(t *testing.T) {
	for _, g := range stage.Glasses() {
		s := newBusy(t, g)
		choose := func(name string) {
			if !s.Try(name) {
				s.Tap("other")
				s.Tap(name)
			}
		}
		choose("−2 min")
		s.find("Cuff up")
		require.Equal(t, s.Now.UnixMilli()-120_000, int64(s.Taps.By.Happened))
		choose("a time")
		for _, key := range []string{"2", "3", "5", "9", "OK"} {
			s.Tap(key)
		}
		s.find("Cuff up")
		require.Equal(t, "23:59:00", clockAt(s.Taps.By.Happened, time.UTC))
		require.Less(t, s.Taps.By.Happened, noon)
		require.Greater(t, s.Taps.By.Happened, noon-24*3600*1000)
		s.find("Cuff up")
		require.Zero(t, s.Taps.By.Happened)
	}
}

// Goal: a noted time is put right by a tap, by a typed time, or taken back.
// Method: each, on the largest and the smallest glass.
func TestNotedTimesArePutRight(t *testing.T) {
	at := noon - 150_000
	for _, size := range []string{"desk", "tiny"} {
		for _, c := range []struct {
			taps []string
			want station.Act
		}{
			{[]string{"2 min earlier"}, station.CorrectTime{Names: stage.Ref(33), Happened: at - 120_000, WithinMS: 30_000}},
			{[]string{"1 min later"}, station.CorrectTime{Names: stage.Ref(33), Happened: at + 60_000, WithinMS: 30_000}},
			{[]string{"a time", "0", "7", "5", "0", "OK"}, station.CorrectTime{Names: stage.Ref(33), Happened: lastAt(noon, time.UTC, 7, 50), WithinMS: 60_000}},
			{[]string{"undo it"}, station.Undo{Mark: stage.Ref(33)}},
		} {
			s := newBusy(t, stage.Glasses()[size])
			s.screen.pick(pick{what: picksMoment, ref: stage.Ref(33)})
			for _, name := range c.taps {
				for !s.Try(name) {
					s.Tap("more")
				}
			}
			require.Equal(t, []station.Act{c.want}, s.Taps.Acts)
		}
	}
}

// Goal: the monitor's clock is tied to the moment when it turns to the minute
// after the one that was typed. Method: type 23:59, tap at the turn.
func TestMonitorIsTiedAtTheTurnOfAMinute(t *testing.T) {
	s := newBusy(t, stage.Glasses()["phone"])
	s.screen.pick(pick{what: picksType, to: toMonitor})
	for _, name := range []string{"0", "7", "5", "9", "OK", "now"} {
		s.Tap(name)
	}
	want := station.TieChart{Case: stage.Ref(1), Monitor: monitorAt(noon, time.UTC, 8, 0), WithinMS: 1000}
	require.Equal(t, []station.Act{want}, s.Taps.Acts)
	require.Equal(t, "08:00:00", clockAt(want.Monitor, time.UTC))
}

// Goal: what was noted can be taken back for as long as the unit set, not
// longer; a door without a case gets one; a failure is said. Method: each in turn.
func TestUndoCaseAndFailure(t *testing.T) {
	s := newBusy(t, stage.Glasses()["desk"])
	s.find("Cuff up")
	s.Tap("undo Cuff up")
	require.Equal(t, station.Undo{Mark: stage.Ref(101)}, s.Taps.Acts[1])
	s.find("Cuff up")
	s.Now = s.Now.Add(s.screen.snap.UndoFor)
	s.screen.undo()
	require.Len(t, s.Taps.Acts, 3)
	s.screen.pick(pick{what: picksRoom, id: "A2"})
	s.find("Cuff up")
	require.Equal(t, []station.Act{
		station.OpenCase{Case: requests.CaseOpen{Room: "A2"}}, station.NoteTime{Case: stage.Ref(104), What: "cuff-up"},
	}, s.Taps.Acts[3:])
	s.Taps.Err = stage.ErrTest
	s.find("Cuff up")
	require.Contains(t, s.Text(), "The disk is full.")
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
			if hands := s.Hands(); len(hands) > 0 {
				hands[random.IntN(len(hands))].On.Tapped(nil)
			}
			if n%15 == 0 {
				s.screen.Set([]Snapshot{calm(t), busy(t), {}}[random.IntN(3)])
			}
		}
	}
}
