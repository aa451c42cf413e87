package runner

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// folded is a view that tests write into without a device.
type folded struct {
	t *testing.T
	station.View
	n byte
}

func newFolded(t *testing.T) *folded {
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	return &folded{t: t, View: station.Read(mesh.GroupID{}, nil, nil, starter).View}
}

// do records an act of a device; the Peer of the view is device zero.
func (f *folded) do(self byte, role mesh.ID, act station.Act) mesh.Ref {
	f.n++
	by := mesh.By{Role: role, Tag: mesh.Tag(role[:1]) + "1"}
	key, tap := mesh.Key{self}, mesh.Tap{f.n}
	if h, held := f.Board.Holder(key); held && h.Tag != "" {
		by.Tag = h.Tag
	}
	parts, err := station.Compose(f.View, key, tap, by, act)
	require.NoError(f.t, err)
	for i, p := range parts {
		fact := mesh.Fact{Ref: mesh.MakeRef(key, tap, i), At: mesh.Order{Turn: mesh.Turn(f.n)}, Wall: mesh.Wall(f.n) * 1000, By: by, Kind: p.Kind, Body: p.Body}
		f.Board.Add(fact)
		f.Ledger.Add(fact)
	}
	f.Now.Wall = mesh.Wall(f.n) * 1000
	return mesh.MakeRef(key, tap, 1)
}

// Goal: the list has what this runner's doors need, in the order of what to do
// first, and counts what is open elsewhere. Method: requests of several doors
// and urgencies, a rescue set, one withdrawn at the door, one while in hand.
func TestLookListsWhatToDoFirst(t *testing.T) {
	f := newFolded(t)
	f.do(1, "lead", station.Hold{Holds: requests.Holds{Role: "lead"}})
	f.do(0, "runner", station.Hold{Holds: requests.Holds{Role: "runner", Tag: "R1", Rooms: []mesh.ID{"A1"}}})
	ask := func(room mesh.ID, item mesh.Number, soon requests.Urgency) mesh.Ref {
		return f.do(1, "lead", station.Ask{Room: room, Thing: requests.Thing{Item: item, Count: 1}, Urgency: soon})
	}
	readBack := func(r mesh.Ref, item mesh.Number) {
		f.do(0, "runner", station.Go{Request: r})
		f.do(0, "runner", station.ReadBack{Request: r, Thing: requests.Thing{Item: item, Count: 1}, How: requests.Chosen})
	}
	later := ask("A1", 1108, requests.BeforeWeLeave)
	now := ask("A1", 3046, requests.RightNow)
	set := ask("A1", 553, requests.NextOpening)
	away := ask("A9", 1108, requests.RightNow)
	atDoor, inHand := ask("A1", 1029, requests.RightNow), ask("A1", 1093, requests.RightNow)
	readBack(atDoor, 1029)
	f.do(0, "runner", station.PutAtDoor{Request: atDoor})
	f.do(1, "lead", station.Withdraw{Request: atDoor})
	readBack(inHand, 1093)
	f.do(1, "lead", station.Withdraw{Request: inHand})

	s := Look(f.View)
	var order []mesh.Ref
	for _, r := range s.Requests {
		order = append(order, r.Ref)
	}
	require.Equal(t, []mesh.Ref{atDoor, inHand, set, now, later}, order)
	require.Equal(t, 1, s.Elsewhere)
	require.Equal(t, []mesh.Ref{now, away, atDoor, inHand, set, later}, s.Calling(), "of another room too: it has no runner")
	require.Len(t, s.Notices, 1, "the list says the others")
	require.Equal(t, away, s.Notices[0].Ref)
	require.True(t, s.Requests[1].Back)
	require.True(t, s.Requests[2].Rescue)
	require.Len(t, s.Requests[2].Bring, 5)
	require.Equal(t, "Pharmacy room, locked cupboard", s.Requests[3].Kept)
	f.do(0, "runner", station.CouldNot{Request: inHand, Why: "put back"})
	require.Len(t, Look(f.View).Requests, 4, "it is put back")
}

// Goal: a read-back offers the asked item among those it may be mistaken for,
// and nothing tells which one was asked. Method: the candidates of one strength
// are those of another.
func TestChoicesDoNotTellWhatWasAsked(t *testing.T) {
	f := newFolded(t)
	require.Equal(t, []mesh.Number{3038, 3046, 3051}, choices(f.Ledger, 3046))
	require.Equal(t, choices(f.Ledger, 3046), choices(f.Ledger, 3051))
	require.Equal(t, []mesh.Number{1093, 1108}, choices(f.Ledger, 1108))
	require.Equal(t, []mesh.Number{999999}, choices(f.Ledger, 999999))
}
