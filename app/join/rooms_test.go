package join

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
	"lintel/requests"
)

// told gives a board one fact.
func told(t *testing.T, b *requests.Board, n byte, kind mesh.Kind, body any) {
	t.Helper()
	p, err := mesh.MakePart(kind, body)
	require.NoError(t, err)
	b.Add(mesh.Fact{Ref: mesh.MakeRef(mesh.Key{n}, mesh.Tap{n}, 0), At: mesh.Order{Turn: mesh.Turn(n)}, Kind: kind, Body: p.Body})
}

// Goal: a device can be held for one door in any unit. Method: a unit that
// named no room, one where a device is held for one, one that named its rooms.
func TestEveryUnitHasADoorToChoose(t *testing.T) {
	b := requests.NewBoard(requests.Defaults{})
	require.Equal(t, []mesh.ID{"1", "2", "3", "4", "5", "6"}, rooms(b))
	told(t, b, 1, requests.KindHolds, &requests.Holds{Role: "lead", Rooms: []mesh.ID{"B7"}})
	require.Equal(t, []mesh.ID{"B7", "1", "2", "3", "4", "5", "6"}, rooms(b))
	told(t, b, 2, requests.KindRoomLine, &requests.RoomLine{ID: "A1", Name: "A1"})
	require.Equal(t, []mesh.ID{"A1", "B7"}, rooms(b))
}
