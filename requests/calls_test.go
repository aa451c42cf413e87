package requests

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// TestAnAgreedAlternativeCallsUntilSomebodyAnswersIt offers before and after a
// runner is going, agrees inside, and answers: the offer silences the call
// while it waits for the inside, and what was agreed calls until it is answered.
func TestAnAgreedAlternativeCallsUntilSomebodyAnswersIt(t *testing.T) {
	for _, goes := range []bool{false, true} {
		s := newScene(t)
		asked := s.ask()
		require.Equal(t, []mesh.Ref{asked}, ringing(s.board()))
		if goes {
			s.going(runner1, asked)
		}
		offered := s.put(runner1, KindOffered, &Offered{Names: asked, Things: []Thing{things(2), things(3)}})
		require.Empty(t, ringing(s.board()), "it waits for the inside")
		agreed := s.agree(lead, offered, 2)
		require.Equal(t, things(3), s.request(asked).Thing)
		require.Equal(t, []mesh.Ref{asked}, ringing(s.board()), "it waits for the outside")
		if goes {
			s.inHand(runner1, agreed, things(3))
		} else {
			s.going(runner2, asked)
		}
		require.Empty(t, ringing(s.board()))
	}
}

// TestARefusedOfferCallsAgain turns the only alternative down: nobody outside
// has answered what is still wanted.
func TestARefusedOfferCallsAgain(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	offered := s.put(runner1, KindOffered, &Offered{Names: asked, Things: []Thing{things(2)}})
	s.put(lead, KindRefused, &Refused{Names: offered})
	require.Equal(t, []mesh.Ref{asked}, ringing(s.board()))
}

// TestAChangeCallsTheRunnerWhoIsGoing changes what is wanted while a runner is
// going and after it lies at the door, where it must not call any more.
func TestAChangeCallsTheRunnerWhoIsGoing(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	s.going(runner1, asked)
	change := func() mesh.Ref {
		return s.put(lead, KindChanged, &Changed{Names: asked, Thing: things(2), Urgency: RightNow})
	}
	changed := change()
	require.Equal(t, []mesh.Ref{asked}, ringing(s.board()))
	s.going(runner1, asked)
	require.Empty(t, ringing(s.board()))
	s.atDoor(runner1, s.inHand(runner1, changed, things(2)))
	change()
	require.Empty(t, ringing(s.board()))
}

// TestWhatWasPassedInUnaskedHasNoLoopAndNoTimes passes something in: it is in
// turn, read back by nobody, and apart in the figures, until it is joined with
// what somebody did ask.
func TestWhatWasPassedInUnaskedHasNoLoopAndNoTimes(t *testing.T) {
	s := newScene(t)
	passed := s.askFor(runner1, tube(), PassedIn)
	held := s.inHand(runner1, passed, tube())
	door := s.atDoor(runner1, held)
	r := s.request(passed)
	require.Equal(t, LoopOpen, r.Loop)
	require.True(t, r.InHand[0].Unasked)
	require.False(t, r.InHand[0].Matches)
	require.Zero(t, r.Flags)
	require.Equal(t, ShownAtDoor, r.Shown)
	inside := Standpoint{Can: CanAsk | CanAgree, Side: Inside, Here: true}
	require.Equal(t, []Act{ActTakeIn, ActWithdraw}, Buttons(r, inside), "there is nothing to agree to")

	s.agree(lead, held, 0)
	s.takeIn(lead, door, 1)
	r = s.request(passed)
	require.Equal(t, LoopOpen, r.Loop)
	require.Zero(t, r.Flags)
	b := s.board()
	require.True(t, b.Needs()[0].Unasked)

	asked := s.ask()
	s.joined(asked, passed)
	b = s.board()
	require.False(t, b.Needs()[0].Unasked)
	require.Equal(t, s.request(asked).Asked.When(), b.Times(b.Needs()[0]).Asked)
}

// TestFlagsOfReadBacksEndWithThem agrees what is unlike, old or from elsewhere,
// then refuses it or reads back again rightly: the flags go. What was brought
// keeps them.
func TestFlagsOfReadBacksEndWithThem(t *testing.T) {
	for name, c := range map[string]struct {
		held Thing
		by   actor
		flag Flags
	}{
		"unlike":         {things(2), lead, FlagAgreedUnlike},
		"from elsewhere": {tube(), runner2, FlagAgreedAway},
	} {
		for _, end := range []string{"refused", "replaced", "taken back", "brought"} {
			s := newScene(t)
			asked := s.ask()
			s.going(runner1, asked)
			held := s.inHand(runner1, asked, c.held)
			s.agree(c.by, held, 0)
			require.True(t, s.request(asked).Flags.Has(c.flag), "%s, %s", name, end)
			switch end {
			case "refused":
				s.put(lead, KindRefused, &Refused{Names: held})
			case "replaced":
				s.agree(lead, s.inHand(runner1, asked, tube()), 0)
			case "taken back":
				s.put(runner1, KindTakenBack, &TakenBack{Names: s.atDoor(runner1, held)})
			case "brought":
				s.atDoor(runner1, held)
			}
			r := s.request(asked)
			require.Equal(t, end == "brought", r.Flags.Has(c.flag), "%s, %s", name, end)
			require.Equal(t, end == "replaced" || end == "taken back", r.Flags == 0, "%s, %s", name, end)
		}
	}
}

// TestAnOldAgreementIsFlaggedUntilItIsReadBackAgain changes what is wanted
// after a closed loop.
func TestAnOldAgreementIsFlaggedUntilItIsReadBackAgain(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	s.going(runner1, asked)
	s.agree(lead, s.inHand(runner1, asked, tube()), 0)
	changed := s.put(lead, KindChanged, &Changed{Names: asked, Thing: things(2), Urgency: RightNow})
	require.Equal(t, FlagAgreedOld, s.request(asked).Flags)
	s.agree(lead, s.inHand(runner1, changed, things(2)), 0)
	r := s.request(asked)
	require.Zero(t, r.Flags)
	require.Equal(t, LoopClosed, r.Loop)
}

// TestMoreThanWasPutAtTheDoorOrWantedIsFlagged takes in more than lies there,
// and twice what was asked; both count.
func TestMoreThanWasPutAtTheDoorOrWantedIsFlagged(t *testing.T) {
	s := newScene(t)
	asked := s.askFor(lead, things(2), Tapped)
	s.going(runner1, asked)
	door := s.atDoor(runner1, s.inHand(runner1, asked, tube()))
	s.takeIn(lead, door, 2)
	r := s.request(asked)
	require.Equal(t, FlagMore, r.Flags)
	require.Equal(t, Count(2), r.Taken)

	s = newScene(t)
	asked = s.ask()
	for _, a := range []actor{runner1, runner2} {
		s.served(a, asked)
	}
	r = s.request(asked)
	require.True(t, r.Flags.Has(FlagMore))
	require.Equal(t, Count(2), r.Taken)
}

// TestADeliveryKeepsWhatItIs puts a read-back at the door that is undone
// afterwards, and something without a read-back: a change does not alter either.
func TestADeliveryKeepsWhatItIs(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	held := s.inHand(runner1, asked, things(3))
	s.atDoor(runner1, held)
	s.undo(runner1, held)
	s.atDoor(runner2, asked)
	s.put(lead, KindChanged, &Changed{Names: asked, Thing: things(5), Urgency: RightNow})
	r := s.request(asked)
	require.Equal(t, things(3), r.Deliveries[0].Thing)
	require.Equal(t, tube(), r.Deliveries[1].Thing)
	require.True(t, r.Flags.Has(FlagOutOfTurn))
}
