package stage

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/assets"
	"lintel/mesh"
	"lintel/requests"
)

// Folded is a view that tests write into without a device. Its Peer is that of
// the device with the zero key, which does all that is done.
type Folded struct {
	station.View

	t  *testing.T
	by mesh.By
	n  byte
}

// NewFolded is a unit with the starter lists and rooms, in which whoever has
// the device does so for room A1.
func NewFolded(t *testing.T, role mesh.ID, tag mesh.Tag) *Folded {
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	rooms, err := requests.ReadRooms(assets.Rooms())
	require.NoError(t, err)
	f := &Folded{t: t, by: mesh.By{Role: role, Tag: tag}, View: station.Read(mesh.GroupID{}, nil, nil, starter).View}
	f.Do(0, station.Lines{Rooms: rooms})
	f.Do(0, station.Hold{Holds: requests.Holds{Role: role, Tag: tag, Rooms: []mesh.ID{"A1"}}})
	return f
}

// Do records an act at a second, and gives the name of what it made.
func (f *Folded) Do(second int, act station.Act) mesh.Ref { return f.DoLate(second, 0, act) }

// DoLate is Do for what happened at another second.
func (f *Folded) DoLate(second, happened int, act station.Act) mesh.Ref {
	f.n++
	key, tap, by := mesh.Key{}, mesh.Tap{f.n}, f.by
	by.Happened = mesh.Wall(happened) * 1000
	f.Now.Wall = mesh.Wall(second) * 1000
	parts, err := station.Compose(f.View, key, tap, by, act)
	require.NoError(f.t, err)
	for i, p := range parts {
		fact := mesh.Fact{Ref: mesh.MakeRef(key, tap, i), At: mesh.Order{Turn: mesh.Turn(f.n)}, Wall: f.Now.Wall, By: by, Kind: p.Kind, Body: p.Body}
		f.Board.Add(fact)
		f.Ledger.Add(fact)
	}
	return mesh.MakeRef(key, tap, 1)
}
