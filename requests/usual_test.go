package requests

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// delivered writes a delivery that took so many seconds from "going" to the door.
func (s *timed) delivered(a actor, took float64) (ack, door mesh.Ref) {
	start := s.now.Seconds() + 10
	asked := s.at(start).ask()
	ack = s.at(start+2).going(a, asked)
	door = s.at(start+2+took).atDoor(a, s.inHand(a, asked, tube()))
	s.takeIn(lead, door, 1)
	return ack, door
}

// Goal: usual is the unit's own 90th percentile once there are ten deliveries,
// and a setting before. Method: the check times of testdata/stats.json, whose
// nearest rank is 45 s, one delivery after the other.
func TestUsualIsTheUnitsOwnFromTenDeliveries(t *testing.T) {
	s := newTimed(t)
	for i, took := range readStats(t).Percentiles.Seconds {
		usual, of := s.quick().Usual(tube().Item, NextOpening)
		require.Equal(t, 180*time.Second, usual)
		require.Equal(t, i, of)
		s.delivered(runner1, took)
	}
	b := s.board()
	for _, u := range []Urgency{BeforeWeLeave, NextOpening, RightNow} {
		usual, of := b.Usual(tube().Item, u)
		require.Equal(t, 45*time.Second, usual)
		require.Equal(t, 10, of)
	}
	usual, of := b.Usual(999, RightNow)
	require.Equal(t, 60*time.Second, usual)
	require.Zero(t, of)
}

// Goal: only what says something about a runner's way counts. Method: one
// delivery each: undone, in an exercise, passed in unasked, coming out, entered
// afterwards, put at the door before anybody went; and one that counts, by a
// device whose clock is an hour off.
func TestUsualLeavesOutWhatSaysNothing(t *testing.T) {
	s := newTimed(t)
	s.ahead[runner1.key] = time.Hour
	_, door := s.delivered(runner1, 50)
	s.undo(runner1, door)
	s.served(runner1, s.askFor(runner1, tube(), PassedIn))
	out := s.put(lead, KindAsked, &Asked{Room: "A1", Thing: tube(), Urgency: NextOpening, Direction: Out})
	s.going(runner1, out)
	s.atDoor(runner1, s.inHand(runner1, out, tube()))
	asked := s.ask()
	s.atDoor(runner1, s.inHand(runner1, asked, tube()))
	s.at(900).going(runner1, asked)
	_, door = s.delivered(runner1, 40)
	s.put(runner1, KindLateTime, &LateTime{Names: door, Happened: sceneStart + mesh.Wall((s.now + s.ahead[runner1.key]).Milliseconds()) + 5_000})
	_, of := s.board().Usual(tube().Item, NextOpening)
	require.Zero(t, of)
	s.delivered(runner1, 30)
	b := s.board()
	_, of = b.Usual(tube().Item, NextOpening)
	require.Equal(t, 1, of)
	require.Equal(t, []time.Duration{seconds(30)}, b.usual.byItem[tube().Item])
}

// Goal: an exercise ends with its case. Method: another case is opened in the
// room while the exercise's case is not known to be shut; then that is learned.
func TestUsualCountsAgainWhenTheExercisesCaseIsShut(t *testing.T) {
	s := newTimed(t)
	of := s.open("A1")
	s.put(lead, KindDrill, &Drill{Case: of, Room: "A1"})
	s.shut(of)
	shut := len(s.facts) - 1
	s.open("A1")
	s.delivered(runner1, 10)
	s.stamp()
	b := NewBoard(starter())
	for i, f := range s.facts {
		if i != shut {
			b.Add(f)
		}
	}
	_, n := b.Usual(tube().Item, NextOpening)
	require.Zero(t, n)
	b.Add(s.facts[shut])
	_, n = b.Usual(tube().Item, NextOpening)
	require.Equal(t, 1, n)
}

// Goal: an exercise is apart until somebody says that it is real, wherever the
// words stand in the order of arrival. Method: deliveries before, during and
// after; the board learns of the exercise last.
func TestUsualLeavesOutExercises(t *testing.T) {
	s := newTimed(t)
	of := s.open("A1")
	s.delivered(runner1, 10)
	drill := s.put(lead, KindDrill, &Drill{Case: of, Room: "A1"})
	drillFact := len(s.facts) - 1
	s.delivered(runner1, 500)
	real := s.put(lead, KindThisIsReal, &ThisIsReal{Drill: drill})
	s.delivered(runner1, 20)
	want := []time.Duration{seconds(10), seconds(20)}
	b := s.board()
	_, n := b.Usual(tube().Item, NextOpening)
	require.Equal(t, 2, n)
	require.Equal(t, want, b.usual.byItem[tube().Item])

	late := NewBoard(starter())
	for i, f := range s.facts {
		if i != drillFact {
			late.Add(f)
		}
	}
	_, n = late.Usual(tube().Item, NextOpening)
	require.Equal(t, 3, n)
	late.Add(s.facts[drillFact])
	_, n = late.Usual(tube().Item, NextOpening)
	require.Equal(t, 2, n)
	s.undo(lead, real)
	_, n = s.board().Usual(tube().Item, NextOpening)
	require.Equal(t, 1, n, "it was not real after all")
}
