package inside

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// BenchmarkLook copies a room with ten open requests: the station's loop waits
// for it at every change.
func BenchmarkLook(b *testing.B) {
	starter, err := station.ReadStarter()
	require.NoError(b, err)
	f := &folded{View: station.Read(mesh.GroupID{}, nil, nil, starter).View}
	lead := mesh.By{Role: "lead", Tag: "L1"}
	write := func(n byte, act station.Act) {
		parts, err := station.Compose(f.View, mesh.Key{}, mesh.Tap{n}, lead, act)
		require.NoError(b, err)
		for i, p := range parts {
			f.Board.Add(mesh.Fact{Ref: mesh.MakeRef(mesh.Key{}, mesh.Tap{n}, i), At: mesh.Order{Turn: mesh.Turn(n)}, Wall: mesh.Wall(n) * 1000, By: lead, Kind: p.Kind, Body: p.Body})
		}
	}
	write(1, station.Hold{Holds: requests.Holds{Role: "lead", Tag: "L1", Rooms: []mesh.ID{"A1"}}})
	write(2, station.OpenCase{Case: requests.CaseOpen{Room: "A1"}})
	for n := range byte(10) {
		write(3+n, station.Ask{Room: "A1", Thing: requests.Thing{Item: 1108, Count: 1}, Urgency: requests.RightNow})
	}
	for b.Loop() {
		Look(f.View)
	}
}
