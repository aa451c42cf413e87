package requests

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// TestTwoRunnersMayAcknowledgeAtOnce lets two runners say so in the same turn.
func TestTwoRunnersMayAcknowledgeAtOnce(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	turn := s.turn + 1
	s.putAt(turn, runner1, KindAcknowledged, &Acknowledged{Names: asked})
	s.putAt(turn, runner2, KindAcknowledged, &Acknowledged{Names: asked})
	r := s.request(asked)
	require.Len(t, r.Acknowledged, 2)
	require.True(t, r.Acknowledged[0].Still && r.Acknowledged[1].Still)
	require.Zero(t, r.Flags)
}

// TestPassingOnCountsWhenTheOtherAcknowledges gives a request to R2, by tag or by device.
func TestPassingOnCountsWhenTheOtherAcknowledges(t *testing.T) {
	for name, to := range map[string]PassedOn{"by tag": {To: "R2"}, "by device": {Key: runner2.key}} {
		t.Run(name, func(t *testing.T) {
			s := newScene(t)
			asked := s.ask()
			s.going(runner1, asked)
			to.Names = asked
			s.put(runner1, KindPassedOn, &to)
			r := s.request(asked)
			require.False(t, r.PassedOn[0].Counts)
			require.True(t, r.Acknowledged[0].Still, "R1 is going until R2 is")

			s.going(runner2, asked)
			r = s.request(asked)
			require.True(t, r.PassedOn[0].Counts)
			require.False(t, r.Acknowledged[0].Still)
			require.True(t, r.Acknowledged[1].Still)
		})
	}
}

// TestTwoTakersOfOneDeliveryCountOnceOrAreFlagged ends one delivery twice.
func TestTwoTakersOfOneDeliveryCountOnceOrAreFlagged(t *testing.T) {
	tests := map[string]struct {
		first, then Count
		taken       Count
		twice       bool
	}{
		"both take two":                 {2, 2, 2, false},
		"one takes two, another one":    {2, 1, 0, true},
		"one takes two, one says back":  {2, 0, 0, true},
		"both say that it was all back": {0, 0, 0, false},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			s := newScene(t)
			asked := s.askFor(lead, things(2), Tapped)
			s.going(runner1, asked)
			door := s.atDoor(runner1, s.inHand(runner1, asked, things(2)))
			turn := s.turn + 1
			s.putAt(turn, lead, KindTakenIn, &TakenIn{Names: door, Count: test.first})
			last := s.putAt(turn, second, KindTakenIn, &TakenIn{Names: door, Count: test.then})
			r := s.request(asked)
			require.Equal(t, test.taken, r.Taken)
			require.Equal(t, test.twice, r.Flags.Has(FlagTakenTwice))
			require.Len(t, r.Deliveries[0].Ends, 2)

			s.undo(second, last)
			r = s.request(asked)
			require.Equal(t, test.first, r.Taken, "taking one back settles it")
			require.False(t, r.Flags.Has(FlagTakenTwice))
		})
	}
}

// TestTakenThroughTheGlassCounts lets the runner mark what was seen.
func TestTakenThroughTheGlassCounts(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	s.going(runner1, asked)
	door := s.atDoor(runner1, s.inHand(runner1, asked, tube()))
	s.takeIn(runner1, door, 1)
	s.facts[len(s.facts)-1].By.Way = mesh.WayGlass
	r := s.request(asked)
	require.Equal(t, ShownTakenIn, r.Shown)
	require.Equal(t, mesh.WayGlass, r.Deliveries[0].Ends[0].By.Way)
}

// TestFewerThanAskedIsFlagged takes in one of two.
func TestFewerThanAskedIsFlagged(t *testing.T) {
	s := newScene(t)
	asked := s.askFor(lead, things(2), Tapped)
	s.takeIn(lead, s.atDoor(runner1, s.inHand(runner1, asked, things(2))), 1)
	r := s.request(asked)
	require.True(t, r.Flags.Has(FlagFewer))

	s.takeIn(lead, s.atDoor(runner2, s.inHand(runner2, asked, tube())), 1)
	r = s.request(asked)
	require.Equal(t, Count(2), r.Taken)
	require.False(t, r.Flags.Has(FlagFewer))
}

// TestTakenBackGoesOn takes a thing back from the door: the request stays open.
func TestTakenBackGoesOn(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	s.going(runner1, asked)
	held := s.inHand(runner1, asked, tube())
	s.agree(lead, held, 0)
	s.put(runner1, KindTakenBack, &TakenBack{Names: s.atDoor(runner1, held), Why: "seal broken"})
	r := s.request(asked)
	require.Equal(t, ShownAcknowledged, r.Shown)
	require.Equal(t, LoopOpen, r.Loop, "the loop was closed over a thing that is gone")
	require.False(t, r.Over())

	s.takeIn(lead, s.atDoor(runner1, s.inHand(runner1, asked, tube())), 1)
	require.Equal(t, ShownTakenIn, s.request(asked).Shown)
}

// TestWithdrawnStandsInsteadOnlyWhileNothingIsAtTheDoor withdraws at every step.
func TestWithdrawnStandsInsteadOnlyWhileNothingIsAtTheDoor(t *testing.T) {
	want := []Shown{ShownWithdrawn, ShownWithdrawn, ShownWithdrawn, ShownTakeBack, ShownTakenIn}
	for steps, shown := range want {
		for _, end := range []string{"withdrawn", "undone"} {
			s := newScene(t)
			asked := s.ask()
			var held, door mesh.Ref
			for i, do := range []func(){
				func() { s.going(runner1, asked) },
				func() { held = s.inHand(runner1, asked, tube()) },
				func() { door = s.atDoor(runner1, held) },
				func() { s.takeIn(lead, door, 1) },
			} {
				if i < steps {
					do()
				}
			}
			if end == "undone" {
				s.undo(second, asked)
				if shown == ShownWithdrawn {
					shown = ShownUndone
				}
			} else {
				s.put(second, KindWithdrawn, &Withdrawn{Names: asked})
			}
			r := s.request(asked)
			require.Equal(t, shown, r.Shown, "%s after %d steps", end, steps)
			require.Equal(t, shown == ShownTakeBack, r.Flags.Has(FlagTakeBack))
			require.Equal(t, Step(steps+1), r.Step, "the step is kept beside it")
			if shown == ShownTakeBack {
				s.put(runner1, KindTakenBack, &TakenBack{Names: door})
				require.Contains(t, []Shown{ShownWithdrawn, ShownUndone}, s.request(asked).Shown)
			}
		}
	}
}

// TestCouldNotNeverHidesThatAnotherIsGoing lets runners give up and others go on.
func TestCouldNotNeverHidesThatAnotherIsGoing(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	s.put(runner1, KindCouldNot, &CouldNot{Names: asked, Why: "none left"})
	require.Equal(t, ShownCouldNot, s.request(asked).Shown)
	s.going(runner2, asked)
	require.Equal(t, ShownAcknowledged, s.request(asked).Shown)
	s.put(runner2, KindCouldNot, &CouldNot{Names: asked})
	r := s.request(asked)
	require.Equal(t, ShownCouldNot, r.Shown)
	require.Equal(t, StepAcknowledged, r.Step)
	require.Len(t, r.CouldNot, 2)
	s.going(runner2, asked)
	require.Equal(t, ShownAcknowledged, s.request(asked).Shown, "found it after all")
}

// TestUndoneEndsWhatItNamesAndBothStay takes back each sort of mark.
func TestUndoneEndsWhatItNamesAndBothStay(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	going := s.going(runner1, asked)
	s.undo(runner1, going)
	r := s.request(asked)
	require.Equal(t, ShownAsked, r.Shown)
	require.Len(t, r.Marks, 3)
	require.True(t, r.Marks[1].Undone)

	s = newScene(t)
	asked = s.ask()
	undo := s.undo(lead, asked)
	again := s.undo(lead, undo)
	r = s.request(asked)
	require.Equal(t, ShownUndone, r.Shown, "taking back an undo has no effect")
	require.True(t, r.Flags.Has(FlagOutOfTurn))
	require.Equal(t, again, r.Marks[2].Ref)
}

// TestUndoneReadBackLeavesTheDelivery takes back a read-back that lies at the door.
func TestUndoneReadBackLeavesTheDelivery(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	s.going(runner1, asked)
	held := s.inHand(runner1, asked, tube())
	door := s.atDoor(runner1, held)
	s.undo(runner1, held)
	r := s.request(asked)
	require.Equal(t, ShownAtDoor, r.Shown)
	require.Equal(t, LoopOpen, r.Loop)

	s.takeIn(lead, door, 1)
	s.undo(runner1, door)
	r = s.request(asked)
	require.Equal(t, ShownTakenIn, r.Shown, "what people took in was taken in")
}
