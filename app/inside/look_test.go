package inside

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
func (f *folded) do(self byte, by mesh.By, act station.Act) mesh.Ref {
	f.n++
	key, tap := mesh.Key{self}, mesh.Tap{f.n}
	parts, err := station.Compose(f.View, key, tap, by, act)
	require.NoError(f.t, err)
	for i, p := range parts {
		fact := mesh.Fact{Ref: mesh.MakeRef(key, tap, i), At: mesh.Order{Turn: mesh.Turn(f.n)}, Wall: mesh.Wall(f.n) * 1000, By: by, Kind: p.Kind, Body: p.Body}
		f.Board.Add(fact)
		f.Ledger.Add(fact)
	}
	return mesh.MakeRef(key, tap, 1)
}

// Goal: a snapshot says what the folds say, for this room only, and what this
// device may do. Method: a lead asks, a runner goes and reads back, a device in
// another room asks too.
func TestLookCopiesTheRoomsRequests(t *testing.T) {
	f := newFolded(t)
	lead, runner := mesh.By{Role: "lead", Tag: "L1"}, mesh.By{Role: "runner", Tag: "R1"}
	f.do(0, lead, station.Hold{Holds: requests.Holds{Role: "lead", Tag: "L1", Rooms: []mesh.ID{"A1"}}})
	f.do(1, runner, station.Hold{Holds: requests.Holds{Role: "runner", Tag: "R1"}})
	thing := requests.Thing{Item: 3046, Count: 2}
	asked := f.do(0, lead, station.Ask{Room: "A1", Thing: thing, Urgency: requests.RightNow})
	f.do(2, lead, station.Ask{Room: "A2", Thing: thing, Urgency: requests.RightNow})
	f.do(1, runner, station.Go{Request: asked})
	held := f.do(1, runner, station.ReadBack{Request: asked, Thing: thing, How: requests.Chosen})

	s := Look(f.View)
	require.Equal(t, mesh.ID("A1"), s.Room)
	require.Equal(t, mesh.By{Role: "lead", Tag: "L1"}, s.By)
	require.Len(t, s.Sets, 4)
	require.Len(t, s.Requests, 1)
	r := s.Requests[0]
	require.Equal(t, asked, r.Ref)
	require.Equal(t, []string{"R1"}, r.Going)
	require.Equal(t, requests.LoopMatches, r.Loop)
	require.Equal(t, held, r.Held.Ref)
	require.True(t, r.Held.Matches)
	require.Contains(t, r.Acts, requests.ActAgree)
	require.Contains(t, r.Acts, requests.ActWithdraw)
	require.True(t, r.Least, "the runner's clock was never measured")
}

// Goal: an answer is to what was on the screen, also when the runner has read
// back again meanwhile. Method: compose an agreement to the first of two.
func TestAnswersNameWhatWasShown(t *testing.T) {
	f := newFolded(t)
	by := mesh.By{Role: "lead"}
	f.do(0, by, station.Hold{Holds: requests.Holds{Role: "lead", Rooms: []mesh.ID{"A1"}}})
	asked := f.do(0, by, station.Ask{Room: "A1", Thing: requests.Thing{Item: 3046, Count: 2}, Urgency: requests.RightNow})
	first := f.do(1, mesh.By{Role: "runner"}, station.ReadBack{Request: asked, Thing: requests.Thing{Item: 3046, Count: 2}, How: requests.Chosen})
	f.do(1, mesh.By{Role: "runner"}, station.ReadBack{Request: asked, Thing: requests.Thing{Item: 3038, Count: 2}, How: requests.Chosen})
	f.do(0, by, station.Agree{Request: asked, Answers: first})
	r, _ := f.Board.Request(asked)
	require.Len(t, r.InHand[0].Agreed, 1)
	require.Empty(t, r.InHand[1].Agreed)
	_, err := station.Compose(f.View, mesh.Key{}, mesh.Tap{99}, by, station.Agree{Request: asked, Answers: mesh.MakeRef(mesh.Key{7}, mesh.Tap{7}, 1)})
	require.ErrorIs(t, err, station.ErrNoAnswer)
}
