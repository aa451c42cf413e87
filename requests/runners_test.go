package requests

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// doingRow is what a runner's state is checked for.
type doingRow struct {
	Device mesh.Key
	Doing  Doing
	Room   mesh.ID
	Next   bool
	Open   int
}

func (s *scene) runnersAt(room mesh.ID, want ...doingRow) {
	s.t.Helper()
	var got []doingRow
	for _, r := range s.board().RunnerAt(room) {
		got = append(got, doingRow{r.Device, r.Doing, r.Room, r.Next, r.Open})
	}
	require.Equal(s.t, want, got, "%s", room)
}

func (s *scene) askAt(room mesh.ID, u Urgency) mesh.Ref {
	return s.put(lead, KindAsked, &Asked{Room: room, Thing: tube(), Urgency: u})
}

// Goal: each door sees what its runners do, from their marks alone. Method: one
// runner has two rooms, the other one; a delivery for A2, step by step, while A1
// waits for that runner too.
func TestEachDoorSeesWhatItsRunnersDo(t *testing.T) {
	s := newScene(t)
	s.put(runner2, KindHolds, &Holds{Role: "runner", Tag: "R2", Rooms: []mesh.ID{"A2"}})
	k1, k2 := runner1.key, runner2.key
	s.runnersAt("A1", doingRow{k1, Here, "", false, 0})
	s.runnersAt("A2", doingRow{k1, Here, "", false, 0}, doingRow{k2, Here, "", false, 0})
	far := s.askAt("A2", NextOpening)
	s.runnersAt("A2", doingRow{k1, Here, "", false, 0}, doingRow{k2, Here, "", false, 0})
	s.going(runner1, far)
	s.runnersAt("A1", doingRow{k1, Fetching, "A2", false, 1})
	near := s.askAt("A1", NextOpening)
	s.runnersAt("A1", doingRow{k1, Fetching, "A2", true, 1})
	s.going(runner1, near)
	s.runnersAt("A1", doingRow{k1, Fetching, "A1", false, 2})
	s.runnersAt("A2", doingRow{k1, Fetching, "A2", false, 2}, doingRow{k2, Here, "", false, 0})
	door := s.put(runner1, KindAtDoor, &AtDoor{Names: s.inHand(runner1, far, tube()), Door: "A2"})
	s.runnersAt("A1", doingRow{k1, AtADoor, "A2", true, 1})
	s.takeIn(lead, door, 1)
	s.runnersAt("A1", doingRow{k1, Fetching, "A1", false, 1})
	s.runnersAt("A2", doingRow{k1, Fetching, "A1", false, 1}, doingRow{k2, Here, "", false, 0})
	s.put(runner1, KindCouldNot, &CouldNot{Names: near})
	s.runnersAt("A1", doingRow{k1, Here, "", false, 0})
	s.put(runner1, KindHolds, &Holds{Role: "scribe", Tag: "R1"})
	s.runnersAt("A1")
}

// Goal: something that lies at a door does not hold a runner there who has gone
// on since. Method: it lies at A1; the runner goes for A2, and delivers there.
func TestARunnerIsWhereTheLastMarkSays(t *testing.T) {
	s := newScene(t)
	s.put(runner2, KindHolds, &Holds{Role: "scribe", Tag: "R2"})
	s.atDoor(runner1, s.inHand(runner1, s.askAt("A1", NextOpening), tube()))
	s.runnersAt("A1", doingRow{runner1.key, AtADoor, "A1", false, 0})
	far := s.askAt("A2", NextOpening)
	ack := s.going(runner1, far)
	s.runnersAt("A1", doingRow{runner1.key, Fetching, "A2", false, 1})
	s.undo(runner1, ack)
	s.runnersAt("A1", doingRow{runner1.key, AtADoor, "A1", false, 0})
	door := s.put(runner1, KindAtDoor, &AtDoor{Names: s.inHand(runner1, far, tube()), Door: "A2"})
	s.takeIn(lead, door, 1)
	s.runnersAt("A1", doingRow{runner1.key, Here, "", false, 0})
}

// Goal: passing on lists what is in hand, promised and at the door, each once.
// Method: three requests at the three stages, one served, one of another runner.
func TestCarryingListsWhatARunnerHas(t *testing.T) {
	s := newScene(t)
	promised, held, lies := s.askAt("A1", NextOpening), s.askAt("A1", NextOpening), s.askAt("A2", RightNow)
	s.going(runner1, promised)
	s.inHand(runner1, held, tube())
	s.going(runner1, lies)
	s.atDoor(runner1, s.inHand(runner1, lies, tube()))
	s.served(runner1, s.ask())
	s.going(runner2, s.ask())
	c := s.board().Carrying(runner1.key)
	require.Equal(t, []mesh.Ref{held}, requestRefs(c.InHand))
	require.Equal(t, []mesh.Ref{promised}, requestRefs(c.Promised))
	require.Equal(t, []mesh.Ref{lies}, requestRefs(c.AtDoor))
	s.put(runner1, KindPassedOn, &PassedOn{Names: promised, To: "R2"})
	require.Len(t, s.board().Carrying(runner1.key).Promised, 1, "until the next runner takes it")
	s.going(runner2, promised)
	b := s.board()
	require.Empty(t, b.Carrying(runner1.key).Promised)
	require.Len(t, b.Carrying(runner2.key).Promised, 2)
}

func requestRefs(list []Request) (refs []mesh.Ref) {
	for _, r := range list {
		refs = append(refs, r.Ref)
	}
	return refs
}

// Goal: two who go for the same thing see it at once. Method: one goes, twice;
// another goes; one gives up; it is brought.
func TestBothWentNamesEachRunnerOnce(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	first := s.going(runner1, asked)
	s.going(runner1, asked)
	require.Nil(t, BothWent(s.request(asked)))
	other := s.going(runner2, asked)
	went := BothWent(s.request(asked))
	require.Len(t, went, 2)
	require.Equal(t, []mesh.Ref{first, other}, []mesh.Ref{went[0].Ref, went[1].Ref})
	undone := s.put(runner2, KindCouldNot, &CouldNot{Names: asked})
	require.Nil(t, BothWent(s.request(asked)))
	s.undo(runner2, undone)
	require.Len(t, BothWent(s.request(asked)), 2)
	s.atDoor(runner1, s.inHand(runner1, asked, tube()))
	require.Nil(t, BothWent(s.request(asked)), "it is there")
}
