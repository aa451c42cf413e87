package requests

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: the bag of a door is what can travel with its next opening, each need
// once. Method: one request at each stage, in this room and the next, joined and
// not, in and out.
func TestTheBagHoldsWhatTravelsWithTheNextOpening(t *testing.T) {
	s := newScene(t)
	asked := s.askAt("A1", NextOpening)
	later := s.askAt("A1", BeforeWeLeave)
	now := s.askAt("A1", RightNow)
	goingNow := s.askAt("A1", RightNow)
	s.going(runner1, goingNow)
	held := s.askAt("A1", NextOpening)
	s.inHand(runner1, held, tube())
	lies := s.askAt("A1", NextOpening)
	s.atDoor(runner1, s.inHand(runner1, lies, tube()))
	out := s.put(lead, KindAsked, &Asked{Room: "A1", Thing: tube(), Urgency: NextOpening, Direction: Out})
	s.askAt("A2", NextOpening)
	s.served(runner1, s.askAt("A1", NextOpening))
	s.put(lead, KindWithdrawn, &Withdrawn{Names: s.askAt("A1", NextOpening)})
	s.put(runner1, KindCouldNot, &CouldNot{Names: s.askAt("A1", NextOpening)})
	twice := s.askFor(runner1, tube(), AskedByVoice)
	s.joined(asked, twice)

	b := s.board()
	require.Equal(t, []mesh.Ref{goingNow, asked, held, lies, out, later}, requestRefs(b.Bag("A1")))
	require.NotContains(t, requestRefs(b.Bag("A1")), now)
	s.going(runner1, twice)
	require.Equal(t, []mesh.Ref{goingNow, held, lies, out, twice, later}, requestRefs(s.board().Bag("A1")),
		"of a need the request that got furthest")
}

// Goal: the plan waits for what comes soon, and for nothing that is wanted now.
// Method: one thing lies at the door, one is expected in two minutes, one wanted
// now in fifty seconds, by the starter settings.
func TestThePlanOfADoorDelaysNothingThatIsWantedNow(t *testing.T) {
	s := newTimed(t)
	lies := s.at(0).askAt("A1", NextOpening)
	s.atDoor(runner1, s.inHand(runner1, lies, tube()))
	soon := s.askAt("A1", BeforeWeLeave)
	s.at(40).going(runner2, soon)
	now := s.at(90).askNow("A1")
	s.going(runner1, now)
	s.at(100)
	require.Equal(t, []Opening{
		{Door: "A1", At: seconds(50), Carries: []mesh.Ref{lies, now}, Now: true},
		{Door: "A1", At: seconds(120), Carries: []mesh.Ref{soon}},
	}, s.quick().Plan("A1", s.elapsed))
	require.Empty(t, s.quick().Plan("A2", s.elapsed))
}
