package station

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// empty is the view of a unit in which nothing was recorded.
func empty(t *testing.T) View {
	t.Helper()
	starter, err := ReadStarter()
	require.NoError(t, err)
	return Read(mesh.GroupID{}, nil, nil, starter).View
}

// learn gives a view what an act writes, as a device's n-th entry.
func learn(t *testing.T, v View, n int, act Act) {
	t.Helper()
	self, tap := mesh.Key{1}, mesh.Tap{byte(n)}
	parts, err := Compose(v, self, tap, mesh.By{}, act)
	require.NoError(t, err)
	require.LessOrEqual(t, len(parts), mesh.PartsMax)
	for i, p := range parts {
		f := mesh.Fact{Ref: mesh.MakeRef(self, tap, i), At: mesh.Order{Turn: mesh.Turn(n)}, Kind: p.Kind, Body: p.Body}
		v.Board.Add(f)
		v.Ledger.Add(f)
	}
}

// TestALineReplacesWhatStandsThere writes a room and a par twice, one knowing
// of the other: the later value stands, alone.
func TestALineReplacesWhatStandsThere(t *testing.T) {
	v := empty(t)
	store := kits.Place{Sort: kits.Store, ID: "main"}
	for n, name := range []mesh.Label{"first", "second"} {
		learn(t, v, n+1, Lines{
			Rooms: []requests.RoomLine{{ID: "A1", Name: name}},
			Pars:  []kits.ParLine{{Place: store, Item: 1032, Par: int64(n + 3)}},
		})
	}
	room, known := v.Board.Room("A1")
	require.True(t, known)
	require.EqualValues(t, "second", room.Name)
	require.False(t, room.TwoValues)
	par, known := v.Ledger.Par(store, 1032)
	require.True(t, known)
	require.EqualValues(t, 4, par.Value.Par)
	require.False(t, par.TwoValues)
}

// TestLinesOfNothingAreRefused composes an act without a line, and the most
// that one entry takes.
func TestLinesOfNothingAreRefused(t *testing.T) {
	v := empty(t)
	_, err := Compose(v, mesh.Key{1}, mesh.Tap{1}, mesh.By{}, Lines{})
	require.ErrorIs(t, err, ErrNothing)
	full := Lines{}
	for range LinesMax {
		full.Pars = append(full.Pars, kits.ParLine{Place: kits.Place{Sort: kits.Store}, Item: 1032, Par: 1})
	}
	parts, err := Compose(v, mesh.Key{1}, mesh.Tap{1}, mesh.By{}, full)
	require.NoError(t, err)
	require.Len(t, parts, mesh.PartsMax)
}
