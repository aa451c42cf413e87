package requests

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// TestLoopGoesFromAskedToTakenIn plays one request without a hitch and looks at
// it after every mark.
func TestLoopGoesFromAskedToTakenIn(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	r := s.request(asked)
	require.Equal(t, ShownAsked, r.Shown)
	require.Equal(t, Asker{lead.key, "lead", "L1"}, r.Asker)
	require.Equal(t, tube(), r.Thing)

	s.going(runner1, asked)
	r = s.request(asked)
	require.Equal(t, ShownAcknowledged, r.Shown)
	require.Equal(t, mesh.Tag("R1"), r.Acknowledged[0].By.Tag)
	require.Equal(t, LoopOpen, r.Loop)

	held := s.inHand(runner1, asked, tube())
	r = s.request(asked)
	require.Equal(t, ShownInHand, r.Shown)
	require.Equal(t, LoopMatches, r.Loop)

	s.agree(lead, held, 0)
	require.Equal(t, LoopClosed, s.request(asked).Loop)

	door := s.atDoor(runner1, held)
	require.Equal(t, ShownAtDoor, s.request(asked).Shown)

	s.takeIn(lead, door, 1)
	r = s.request(asked)
	require.Equal(t, ShownTakenIn, r.Shown)
	require.Equal(t, LoopClosed, r.Loop)
	require.Equal(t, Count(1), r.Taken)
	require.True(t, r.Over())
	require.Zero(t, r.Flags)
	require.Len(t, r.Marks, 6)
}

// TestReadBackMatchesOnlyWhenAllOfItIsEqual changes one part of a thing at a time.
func TestReadBackMatchesOnlyWhenAllOfItIsEqual(t *testing.T) {
	for name, change := range map[string]func(*Thing){
		"item":     func(x *Thing) { x.Item++ },
		"strength": func(x *Thing) { x.Strength = "7.0" },
		"count":    func(x *Thing) { x.Count++ },
		"measure":  func(x *Thing) { x.Measure = mesh.Unit },
	} {
		t.Run(name, func(t *testing.T) {
			s := newScene(t)
			asked := s.ask()
			s.going(runner1, asked)
			held := tube()
			change(&held)
			ref := s.inHand(runner1, asked, held)
			require.Equal(t, LoopReadBack, s.request(asked).Loop)

			s.agree(lead, ref, 0)
			r := s.request(asked)
			require.True(t, r.InHand[0].Closed)
			require.True(t, r.Flags.Has(FlagAgreedUnlike), "agreed against the wrong read-back is flagged")
		})
	}
}

// TestOnlyTheAskingRoomClosesTheLoop lets different people agree to a read-back.
func TestOnlyTheAskingRoomClosesTheLoop(t *testing.T) {
	elsewhere := actor{mesh.Key{9}, "lead", "L9"}
	unknown := actor{mesh.Key{8}, "lead", "L8"}
	tests := map[string]struct {
		by     actor
		closed bool
	}{
		"the asker":                           {lead, true},
		"another in the room":                 {second, true},
		"the runner who read back":            {runner1, false},
		"another runner":                      {runner2, false},
		"somebody in another room":            {elsewhere, false},
		"a device that never said who it is":  {unknown, false},
		"the asker's device in no known role": {actor{lead.key, "visitor", "L1"}, false},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			s := newScene(t)
			s.put(elsewhere, KindHolds, &Holds{Role: "lead", Tag: "L9", Rooms: []mesh.ID{"A2"}})
			asked := s.ask()
			s.going(runner1, asked)
			held := s.inHand(runner1, asked, tube())
			s.agree(test.by, held, 0)
			r := s.request(asked)
			require.Equal(t, test.closed, r.InHand[0].Closed)
			require.Equal(t, test.closed, r.Loop == LoopClosed)
			require.Equal(t, !test.closed, r.Flags.Has(FlagAgreedAway))
			require.Len(t, r.InHand[0].Agreed, 1, "it is listed all the same")
		})
	}
}

// TestRoomCountsAsHeldWhenAgreeing moves the asker's device to another room
// after it agreed: what was closed stays closed.
func TestRoomCountsAsHeldWhenAgreeing(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	held := s.inHand(runner1, asked, tube())
	s.agree(lead, held, 0)
	s.put(lead, KindHolds, &Holds{Role: "lead", Tag: "L1", Rooms: []mesh.ID{"A2"}})
	require.Equal(t, LoopClosed, s.request(asked).Loop)

	held = s.inHand(runner1, asked, tube())
	s.agree(lead, held, 0)
	require.Equal(t, LoopMatches, s.request(asked).Loop)
}

// TestAgreedThenChangedOpensTheLoop changes what is wanted after the read-back was agreed.
func TestAgreedThenChangedOpensTheLoop(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	s.going(runner1, asked)
	held := s.inHand(runner1, asked, tube())
	s.agree(lead, held, 0)
	changed := s.put(lead, KindChanged, &Changed{Names: asked, Thing: things(2), Urgency: RightNow})
	r := s.request(asked)
	require.Equal(t, things(2), r.Thing)
	require.Equal(t, RightNow, r.Urgency)
	require.False(t, r.InHand[0].Closed)
	require.Equal(t, LoopMatches, r.Loop)
	require.True(t, r.Flags.Has(FlagAgreedOld))

	held = s.inHand(runner1, changed, things(2))
	s.agree(second, held, 0)
	r = s.request(asked)
	require.True(t, r.InHand[1].Closed)
	require.False(t, r.InHand[0].Live, "the same device's next read-back replaces it")
	require.Equal(t, LoopClosed, r.Loop)

	s.undo(lead, changed)
	r = s.request(asked)
	require.Equal(t, tube(), r.Thing, "what was changed by mistake is wanted as before")
	require.False(t, r.InHand[1].Closed)
}

// TestChangedByTwoDevicesKeepsBoth lets two devices change a request without
// knowing of each other, until a person chooses.
func TestChangedByTwoDevicesKeepsBoth(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	turn := s.turn + 1
	one := s.putAt(turn, lead, KindChanged, &Changed{Names: asked, Thing: things(2), Urgency: NextOpening})
	two := s.putAt(turn, second, KindChanged, &Changed{Names: asked, Thing: things(3), Urgency: NextOpening})
	r := s.request(asked)
	require.True(t, r.TwoValues())
	require.Len(t, r.Wants, 2)
	require.Equal(t, things(3), r.Thing, "the higher order is in use")

	held := s.inHand(runner1, two, things(3))
	s.agree(lead, held, 0)
	require.Equal(t, LoopMatches, s.request(asked).Loop, "no loop is closed over two values")

	s.undo(lead, one)
	r = s.request(asked)
	require.False(t, r.TwoValues())
	require.Equal(t, LoopClosed, r.Loop)
}

// TestChangeOfATakenBackChangeStands takes back the middle of a chain of changes.
func TestChangeOfATakenBackChangeStands(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	one := s.put(lead, KindChanged, &Changed{Names: asked, Thing: things(2), Urgency: NextOpening})
	s.put(lead, KindChanged, &Changed{Names: one, Thing: things(3), Urgency: NextOpening})
	s.undo(lead, one)
	r := s.request(asked)
	require.Len(t, r.Wants, 1)
	require.Equal(t, things(3), r.Thing)
}

// TestAgreedAlternativeIsWhatIsWanted offers three and takes each in turn, or none.
func TestAgreedAlternativeIsWhatIsWanted(t *testing.T) {
	for which := uint8(1); which <= 3; which++ {
		s := newScene(t)
		asked := s.ask()
		s.going(runner1, asked)
		offer := s.put(runner1, KindOffered, &Offered{Names: asked, Things: []Thing{things(2), things(3), things(4)}})
		require.True(t, s.request(asked).Offers[0].Open())
		agreed := s.agree(lead, offer, which)
		r := s.request(asked)
		require.Equal(t, things(Count(which)+1), r.Thing)
		require.Equal(t, NextOpening, r.Urgency, "the urgency is that of what it stands for")
		require.Equal(t, agreed, r.Wants[0].Ref)
		require.False(t, r.Offers[0].Open())
		require.Zero(t, r.Flags)

		held := s.inHand(runner1, agreed, r.Thing)
		s.agree(lead, held, 0)
		require.Equal(t, LoopClosed, s.request(asked).Loop)

		s.undo(lead, agreed)
		r = s.request(asked)
		require.Equal(t, tube(), r.Thing)
		require.Equal(t, LoopMatches, r.Loop, "what it meets is no longer what is wanted")
	}
}

// TestRefusedAlternativesLeaveTheRequest turns alternatives down singly and all together.
func TestRefusedAlternativesLeaveTheRequest(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	offer := s.put(runner1, KindOffered, &Offered{Names: asked, Things: []Thing{things(2), things(3)}})
	s.put(lead, KindRefused, &Refused{Names: offer, Which: 1})
	require.True(t, s.request(asked).Offers[0].Open())
	s.put(lead, KindRefused, &Refused{Names: offer, Which: 2})
	r := s.request(asked)
	require.False(t, r.Offers[0].Open())
	require.Equal(t, tube(), r.Thing)
	require.Equal(t, ShownAsked, r.Shown)

	all := s.put(runner1, KindOffered, &Offered{Names: asked, Things: []Thing{things(5)}})
	s.put(lead, KindRefused, &Refused{Names: all, Why: "too short"})
	r = s.request(asked)
	require.False(t, r.Offers[1].Open())
	require.Equal(t, mesh.Label("too short"), r.Offers[1].Refused[0].Why)

	s.agree(second, all, 1)
	require.True(t, s.request(asked).Flags.Has(FlagSplitAnswer))
}

// TestAlternativeThatWasNotOfferedChangesNothing agrees to a third of two.
func TestAlternativeThatWasNotOfferedChangesNothing(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	offer := s.put(runner1, KindOffered, &Offered{Names: asked, Things: []Thing{things(2), things(3)}})
	s.agree(lead, offer, 3)
	r := s.request(asked)
	require.Equal(t, tube(), r.Thing)
	require.True(t, r.Flags.Has(FlagOutOfTurn))
	require.Len(t, r.Marks, 3)
}

// TestRefusedReadBackIsNotInHand turns a read-back down; an agreement beside it
// does not close the loop.
func TestRefusedReadBackIsNotInHand(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	s.going(runner1, asked)
	held := s.inHand(runner1, asked, things(2))
	s.put(lead, KindRefused, &Refused{Names: held})
	r := s.request(asked)
	require.Equal(t, ShownAcknowledged, r.Shown)
	require.Equal(t, LoopOpen, r.Loop)

	s.agree(second, held, 0)
	r = s.request(asked)
	require.False(t, r.InHand[0].Closed)
	require.True(t, r.Flags.Has(FlagSplitAnswer))
}

// TestDoorShowsTheLoopOfWhatLiesThere agrees to one read-back and puts another
// at the door.
func TestDoorShowsTheLoopOfWhatLiesThere(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	s.going(runner1, asked)
	s.going(runner2, asked)
	right := s.inHand(runner1, asked, tube())
	wrong := s.inHand(runner2, asked, things(2))
	s.agree(lead, right, 0)
	require.Equal(t, LoopReadBack, s.request(asked).Loop, "of two in hand the weakest is shown")
	s.atDoor(runner2, wrong)
	r := s.request(asked)
	require.Equal(t, LoopReadBack, r.Loop)
	require.True(t, r.Flags.Has(FlagDoorOther))
	require.Equal(t, ShownAtDoor, r.Shown)
}

// TestWrongDoorIsFlagged puts a thing at the door of another room.
func TestWrongDoorIsFlagged(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	held := s.inHand(runner1, asked, tube())
	s.put(runner1, KindAtDoor, &AtDoor{Names: held, Door: "A2"})
	require.True(t, s.request(asked).Flags.Has(FlagWrongDoor))
}
