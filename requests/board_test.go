package requests

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// TestLatestHoldsSaysWhoHasADevice hands a device round, with a change made on
// the same device that arrives late.
func TestLatestHoldsSaysWhoHasADevice(t *testing.T) {
	s := newScene(t)
	require.Equal(t, []mesh.Key{runner1.key, runner2.key}, s.board().RunnersFor("A1"))
	s.put(runner1, KindHolds, &Holds{Role: "runner", Tag: "R3", Rooms: []mesh.ID{"A2"}})
	last := s.put(runner2, KindHolds, &Holds{Role: "scribe", Tag: "S1"})
	b := s.board()
	require.Empty(t, b.RunnersFor("A1"))
	require.Equal(t, []mesh.Key{runner1.key}, b.RunnersFor("A2"))
	h, known := b.Holder(runner1.key)
	require.True(t, known)
	require.Equal(t, mesh.Tag("R3"), h.Tag)
	require.Equal(t, Outside, h.Side)
	require.Len(t, b.Holders(), 4)
	_, known = b.Holder(mesh.Key{77})
	require.False(t, known)

	s.undo(runner2, last)
	h, _ = s.board().Holder(runner2.key)
	require.Equal(t, mesh.Tag("R2"), h.Tag, "who held it before")
}

// TestRolesAreDataAndMayHaveTwoValues writes a role over the starter list.
func TestRolesAreDataAndMayHaveTwoValues(t *testing.T) {
	s := newScene(t)
	first := s.put(lead, KindRoleLine, &RoleLine{ID: "scribe", Name: "scribe", Side: Outside, Can: CanScribe | CanFetch, Place: 9})
	s.put(runner2, KindHolds, &Holds{Role: "scribe", Tag: "S1"})
	b := s.board()
	require.Len(t, b.RunnersFor("A1"), 2, "rules ask for abilities, never for roles")
	require.Equal(t, mesh.ID("scribe"), b.Roles()[3].ID)

	turn := s.turn + 1
	s.putAt(turn, lead, KindRoleLine, &RoleLine{Replaces: []mesh.Ref{first}, ID: "scribe", Name: "one", Side: Outside, Can: CanScribe})
	other := s.putAt(turn, second, KindRoleLine, &RoleLine{Replaces: []mesh.Ref{first}, ID: "scribe", Name: "two", Side: Outside, Gone: true})
	role, known := s.board().Role("scribe")
	require.True(t, known && role.TwoValues)
	require.Equal(t, mesh.Label("two"), role.Name)
	require.Len(t, s.board().Roles(), 3, "a role that is gone is in no list")

	s.undo(second, other)
	role, _ = s.board().Role("scribe")
	require.Equal(t, mesh.Label("one"), role.Name)
	require.False(t, role.TwoValues)
	_, known = s.board().Role("visitor")
	require.False(t, known)
}

// TestRoomsAndSettingsAreRegisters writes both.
func TestRoomsAndSettingsAreRegisters(t *testing.T) {
	s := newScene(t)
	s.put(lead, KindRoomLine, &RoomLine{ID: "A2", Name: "Anvil two"})
	s.put(lead, KindRoomLine, &RoomLine{ID: "A0", Name: "store", Gone: true})
	s.put(lead, KindSetting, &Setting{Name: "tone", Value: "soft"})
	b := s.board()
	require.Len(t, b.Rooms(), 2)
	room, _ := b.Room("A2")
	require.Equal(t, mesh.Label("Anvil two"), room.Name)
	tone, known := b.Setting("tone")
	require.True(t, known)
	require.Equal(t, mesh.Text("soft"), tone)
	_, known = b.Setting("other")
	require.False(t, known)
	_, known = b.Room("A9")
	require.False(t, known)
}

// TestMarksMayComeBeforeWhatTheyName adds a whole request backwards and looks
// at it after every fact.
func TestMarksMayComeBeforeWhatTheyName(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	s.served(runner1, asked)
	b := NewBoard(starter())
	for i := len(s.facts) - 1; i >= 0; i-- {
		if s.facts[i].Ref == asked {
			require.Len(t, b.Loose(), 4)
		}
		b.Add(s.facts[i])
		b.Requests() // what was derived too early must not stay
	}
	require.Empty(t, b.Loose())
	require.Equal(t, s.board().State(), b.State())
	of, known := b.RequestOf(s.facts[len(s.facts)-1].Ref)
	require.True(t, known)
	require.Equal(t, asked, of)
}

// TestMarksThatNameNothingAreListed names the unknown, itself, and each other in a circle.
func TestMarksThatNameNothingAreListed(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	s.going(runner1, mesh.MakeRef(lead.key, mesh.Tap{200}, 0))
	s.going(runner1, mesh.MakeRef(runner1.key, mesh.Tap{0, 3}, 0))
	s.put(runner2, KindChanged, &Changed{Names: mesh.MakeRef(runner2.key, mesh.Tap{0, 3}, 0), Thing: tube(), Urgency: RightNow})
	s.put(runner2, KindChanged, &Changed{Names: mesh.MakeRef(runner2.key, mesh.Tap{0, 2}, 0), Thing: tube(), Urgency: RightNow})
	b := s.board()
	require.Len(t, b.Loose(), 4)
	r, _ := b.Request(asked)
	require.Len(t, r.Marks, 1)
	_, known := b.RequestOf(b.Loose()[0].Ref)
	require.False(t, known)
}

// TestMarksOfAnotherRequestGoWhereTheyName answers a read-back of a second
// request where the first was meant, and names marks of the wrong sort.
func TestMarksOfAnotherRequestGoWhereTheyName(t *testing.T) {
	s := newScene(t)
	first, other := s.ask(), s.ask()
	held := s.inHand(runner1, other, tube())
	s.agree(lead, held, 0)
	s.put(runner1, KindAcknowledged, &Acknowledged{Names: held})
	s.put(lead, KindChanged, &Changed{Names: held, Thing: things(2), Urgency: RightNow})
	s.takeIn(lead, held, 1)
	require.Equal(t, ShownAsked, s.request(first).Shown)
	r := s.request(other)
	require.Equal(t, ShownTakenIn, r.Shown)
	require.Equal(t, things(2), r.Thing)
	require.True(t, r.Flags.Has(FlagOutOfTurn))
	require.Equal(t, held, r.Deliveries[0].Names)
	require.Zero(t, r.Deliveries[0].Kind, "nobody put it at the door")
}

// TestUnreadableBodiesAreKeptAndListed gives bodies of another kind, cut off,
// out of range, and of unknown kinds.
func TestUnreadableBodiesAreKeptAndListed(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	body := s.facts[len(s.facts)-1].Body
	s.putRaw(s.turn+1, runner1, KindAgreed, body)
	s.putRaw(s.turn+1, runner1, KindAsked, body[:10])
	s.putRaw(s.turn+1, runner1, KindAcknowledged, nil)
	s.putRaw(s.turn+1, runner1, 0x01fe, []byte{0x90})
	s.putRaw(s.turn+1, runner1, 0x0299, []byte{0x90})
	s.put(runner1, KindReminded, &Reminded{Names: asked, Level: 1})
	s.put(runner1, KindDoor, &Door{Room: "A1", Open: true})
	b := s.board()
	require.Len(t, b.Unreadable(), 3)
	require.NotEmpty(t, b.Unreadable()[0].Why)
	require.Equal(t, map[mesh.Kind]int{0x01fe: 1}, b.Kept(), "a newer version's")
	require.Len(t, b.Requests(), 1)
}

// TestSameTapInTwoIncarnationsCountsOnceByTheLowerOrder gives one Ref two orders.
func TestSameTapInTwoIncarnationsCountsOnceByTheLowerOrder(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	again := s.facts[len(s.facts)-1]
	again.At.Turn, again.Wall = again.At.Turn+5, again.Wall+9000
	s.facts = append(s.facts, again)
	r := s.request(asked)
	require.Len(t, s.board().Requests(), 1)
	require.Equal(t, again.At.Turn-5, r.Asked.At.Turn)
}

// TestOpenListsTheMostUrgentFirst asks for three things and ends one.
func TestOpenListsTheMostUrgentFirst(t *testing.T) {
	s := newScene(t)
	calm := s.ask()
	over := s.ask()
	s.served(runner1, over)
	urgent := s.put(second, KindAsked, &Asked{Room: "A1", Thing: tube(), Urgency: RightNow, Tag: "L2"})
	open := s.board().Open()
	require.Len(t, open, 2)
	require.Equal(t, urgent, open[0].Ref)
	require.Equal(t, mesh.Tag("L2"), open[0].Asker.Tag, "asked for somebody else")
	require.Equal(t, calm, open[1].Ref)
	_, known := s.board().Request(s.facts[0].Ref)
	require.False(t, known)
}
