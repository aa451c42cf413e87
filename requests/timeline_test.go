package requests

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: a case is laid out on one clock, each lane in order, and what was noted
// late stands where it happened. Method: the case that was worked out by hand,
// with clocks 90 s off either way; true times are compared.
func TestTimelineLaysACaseOutOnOneClock(t *testing.T) {
	s := newTimed(t)
	s.threeClocks()
	of := handCase(s)
	noted := s.at(710).put(lead, KindTime, &Time{Case: of, What: "induction"})
	s.put(scribe1, KindLateTime, &LateTime{Names: noted, Happened: sceneStart + 50_000})
	s.put(runner1, KindSaid, &Said{Case: of, Phrase: "wait"})
	line := s.board().Timeline(of)
	sec := func(p Placed) float64 { return s.truly(p, scribe1).Seconds() }

	require.Equal(t, []float64{0, 660}, []float64{sec(line.Start), sec(line.End)})
	require.Empty(t, line.Apart)
	require.Len(t, line.Moments, 1)
	require.Equal(t, 50.0, sec(line.Moments[0].Placed))
	require.True(t, line.Moments[0].Placed.Late)
	require.Zero(t, line.Moments[0].Placed.Within, "corrected by the common clock")
	require.False(t, line.Moments[0].Monitor.Known)

	var people []float64
	for _, p := range line.People {
		people = append(people, sec(p.From), sec(p.To))
	}
	require.Equal(t, []float64{10, 600, 15, 605, 320, 660}, people)
	require.True(t, line.People[2].Open)

	var bars []float64
	for _, r := range line.Requests {
		require.Equal(t, r.Request.Ref == line.Requests[5].Request.Ref, r.Open, "only the joined one never ended")
		bars = append(bars, sec(r.From), sec(r.To))
	}
	require.Equal(t, []float64{60, 110, 120, 165, 200, 260, 300, 310, 400, 420, 425, 660}, bars)
	require.Len(t, line.Requests[1].Points, 8)
	require.Equal(t, 270*time.Millisecond, line.Requests[1].Points[0].Placed.Within)

	var openings []float64
	for _, o := range line.Openings {
		require.False(t, o.Measured)
		openings = append(openings, sec(o.From), sec(o.To), float64(o.HandOvers), float64(o.Crossings))
	}
	require.Equal(t, []float64{10, 15, 0, 2, 110, 110, 1, 0, 165, 165, 1, 0, 310, 320, 1, 1, 420, 420, 1, 0, 600, 605, 0, 2}, openings)
	require.Equal(t, 430.0, sec(line.Breaches[0].Placed))
	require.Equal(t, 710.0, sec(line.Phrases[0].Placed))
	require.Zero(t, s.quick().Timeline(noted), "no case")
}

// Goal: a case that goes on ends, for now, with the last thing recorded; without
// comparisons it says whose clocks stand alone. Method: an open case, two devices.
func TestTimelineOfACaseThatGoesOn(t *testing.T) {
	s := newTimed(t)
	of := s.at(0).open("A1")
	require.Empty(t, s.board().Timeline(of).Apart, "one clock is no question")
	s.at(30).asked(of, NextOpening)
	s.at(70).entered(of, "L1", "in")
	line := s.board().Timeline(of)
	require.Equal(t, sceneStart+70_000, line.End.Wall)
	require.Equal(t, keys(lead, scribe1), line.Apart)
	require.True(t, line.Requests[0].Open)
}

// Goal: somebody who goes from one zone to the next is in one at a time, and the
// door of the room is crossed only where the room is entered or left. Method: in
// over the anteroom, to a second zone inside, out to the corridor at once.
func TestStaysFollowTheZones(t *testing.T) {
	s := newTimed(t)
	of := s.at(0).open("A1")
	s.at(10).entered(of, "L1", "ante")
	s.at(20).entered(of, "L1", "in")
	s.at(300).entered(of, "L1", "annex")
	s.at(600).left(of, "L1", "ante")
	s.at(900).shut(of)
	b := s.board()
	var stays []any
	for _, p := range b.Timeline(of).People {
		stays = append(stays, p.Zone, p.Side, (p.From.Wall-sceneStart)/1000, (p.To.Wall-sceneStart)/1000)
	}
	require.Equal(t, []any{
		mesh.ID("ante"), Anteroom, mesh.Wall(10), mesh.Wall(600),
		mesh.ID("in"), Inside, mesh.Wall(20), mesh.Wall(300),
		mesh.ID("annex"), Inside, mesh.Wall(300), mesh.Wall(600),
	}, stays)
	f := b.Figures(of)
	require.Equal(t, []int{1, 2}, []int{f.Entries, f.Openings.Count})
	require.Equal(t, seconds(580), f.Inside)
}

// Goal: an opening begins with what crosses first and holds what crosses within
// the window of that, so that a row of crossings is no endless opening. Method:
// crossings 15 s apart, with a window of 20 s, and one at exactly 20 s.
func TestOpeningsAreBoundedByTheirWindow(t *testing.T) {
	s := newTimed(t)
	of := s.at(0).open("A1")
	for i := range 4 {
		s.at(float64(100+15*i)).entered(of, mesh.Tag([]string{"A", "B", "C", "D"}[i]), "in")
	}
	s.at(150).left(of, "A", "in")
	var crossings []int
	for _, o := range s.board().Timeline(of).Openings {
		crossings = append(crossings, o.Crossings)
	}
	require.Equal(t, []int{2, 3}, crossings)
}

// randomCase plays a case from a seed on devices whose clocks are ahead as
// given, and measured to within ten milliseconds, with an error. The same seed
// gives the same case, whatever the clocks.
func randomCase(t testing.TB, seed uint64, ahead map[mesh.Key]time.Duration) (*timed, mesh.Ref) {
	random, errs := rand.New(rand.NewPCG(seed, 17)), rand.New(rand.NewPCG(seed, 18))
	s := newTimed(t)
	s.ahead = ahead
	for _, a := range []actor{lead, second, runner1, runner2} {
		off := time.Duration(errs.IntN(21)-10) * time.Millisecond
		s.ahead[a.key] += off // what is measured is a little off
		s.compare(scribe1, a, 10*time.Millisecond, mesh.ClockFirst)
		s.ahead[a.key] -= off
	}
	of := s.at(0).open("A1")
	inside, fetch := []actor{lead, second}, []actor{runner1, runner2}
	later := func() *timed { return s.at(s.now.Seconds() + float64(3*(1+random.IntN(12)))) }
	for range 3 + random.IntN(12) {
		asker, goer := inside[random.IntN(2)], fetch[random.IntN(2)]
		asked := later().put(asker, KindAsked, &Asked{Case: of, Room: "A1", Thing: tube(), Urgency: NextOpening})
		if random.IntN(6) == 0 {
			continue
		}
		later().going(goer, asked)
		held := later().inHand(goer, asked, things(Count(1+random.IntN(5)/4)))
		if random.IntN(2) == 0 {
			s.agree(inside[random.IntN(2)], held, 0)
		}
		door := later().atDoor(goer, held)
		if random.IntN(5) > 0 {
			later().takeIn(inside[random.IntN(2)], door, 1)
		}
		if random.IntN(4) == 0 {
			later().put(fetch[random.IntN(2)], KindEntered, &Entered{Case: of, Tag: "OP2", Zone: "in"})
			later().put(inside[random.IntN(2)], KindLeft, &Left{Case: of, Tag: "OP2", Zone: "in"})
		}
	}
	later().put(scribe1, KindCaseShut, &CaseShut{Case: of})
	s.stamp()
	return s, of
}

// replays is how many random cases are played on right and on wrong clocks.
const replays = 300

// Goal: clocks that are up to 90 s off change no figure by more than its stated
// ±. Method: the same random case on right clocks and on wrong ones; counts are
// equal, every time differs by at most Within, and a sum by Within per summand.
func TestFiguresAreTheSameOnClocksThatAreNinetySecondsOff(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 5))
	for range replays {
		case1 := random.Uint64()
		right, of := randomCase(t, case1, map[mesh.Key]time.Duration{})
		off := map[mesh.Key]time.Duration{}
		for _, a := range []actor{lead, second, runner1, runner2, scribe1} {
			off[a.key] = time.Duration(random.IntN(181)-90) * time.Second
		}
		wrong, same := randomCase(t, case1, off)
		require.Equal(t, of, same)
		want, got := fold(right.facts).Figures(of), fold(wrong.facts).Figures(of)
		require.LessOrEqual(t, got.Within, 600*time.Millisecond)
		near := func(a, b time.Duration, times int) {
			t.Helper()
			require.InDelta(t, float64(a), float64(b), float64(times)*float64(got.Within), "seed %d", case1)
		}
		for _, pair := range [][2]Spread{{want.ToAcknowledge, got.ToAcknowledge}, {want.ToDeliver, got.ToDeliver}} {
			a, b := pair[0], pair[1]
			require.Equal(t, a.N, b.N)
			near(a.Mean, b.Mean, 1)
			near(a.Median, b.Median, 1)
			near(a.P90, b.P90, 1)
			near(a.P90Linear, b.P90Linear, 1)
			near(a.Least, b.Least, 1)
			near(a.Most, b.Most, 1)
		}
		near(want.Inside, got.Inside, want.Entries)
		for _, f := range []*Figures{&want, &got} {
			f.ToAcknowledge, f.ToDeliver, f.Inside, f.Within = Spread{}, Spread{}, 0, 0
		}
		require.Equal(t, want, got, "seed %d", case1)
	}
}
