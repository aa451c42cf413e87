package scribe

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/assets"
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
	rooms, err := requests.ReadRooms(assets.Rooms())
	require.NoError(t, err)
	f := &folded{t: t, View: station.Read(mesh.GroupID{}, nil, nil, starter).View}
	f.do(0, station.Lines{Rooms: rooms})
	f.do(0, station.Hold{Holds: requests.Holds{Role: "scribe", Tag: "S1", Rooms: []mesh.ID{"A1"}}})
	return f
}

// do records an act at a second; the Peer of the view is the device that does.
func (f *folded) do(second int, act station.Act) mesh.Ref { return f.doBy(second, 0, act) }

// doBy is do for what happened at another second.
func (f *folded) doBy(second, happened int, act station.Act) mesh.Ref {
	f.n++
	key, tap := mesh.Key{}, mesh.Tap{f.n}
	by := mesh.By{Role: "scribe", Tag: "S1", Happened: mesh.Wall(happened) * 1000}
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

// Goal: what was noted is shown by when it happened, late ones as such, with
// attempts, corrections, the order they stand out of and the monitor's time.
// Method: a small case, then look.
func TestLookShowsWhatWasNoted(t *testing.T) {
	f := newFolded(t)
	c := f.do(2, station.OpenCase{Case: requests.CaseOpen{Room: "A1", Label: "C 1"}})
	f.do(10, station.NoteTime{Case: c, What: preOxygenation})
	f.do(200, station.NoteTime{Case: c, What: "attempt"})
	second := f.do(260, station.NoteTime{Case: c, What: "attempt"})
	f.doBy(300, 100, station.NoteTime{Case: c, What: "relaxant"})
	vent := f.do(310, station.NoteTime{Case: c, What: "first-ventilation"})
	f.do(320, station.CorrectTime{Names: second, Happened: 250_000, WithinMS: 30_000})
	f.do(330, station.TieChart{Case: c, Monitor: 1_000_000})

	s := Look(f.View)
	require.Len(t, s.Rooms, 1)
	r := s.Rooms[0]
	var order []string
	for _, m := range r.Noted {
		order = append(order, m.Words)
	}
	require.Equal(t, []string{"First ventilation", "Attempt", "Attempt", "Relaxant given", "Pre-oxygenation"}, order)
	require.Equal(t, vent, r.Noted[0].Ref)
	require.Equal(t, []string{"Cuff up"}, r.Noted[0].Against)
	require.True(t, r.Noted[0].Aerosol)
	require.Equal(t, mesh.Wall(250_000), r.Noted[1].Here)
	require.Equal(t, mesh.Wall(260_000), r.Noted[1].First)
	require.Equal(t, []uint32{2, 1}, []uint32{r.Noted[1].Attempt, r.Noted[2].Attempt})
	require.Equal(t, []bool{false, true, false, true, false}, []bool{r.Noted[0].Late, r.Noted[1].Late, r.Noted[2].Late, r.Noted[3].Late, r.Noted[4].Late})
	require.True(t, r.Tied)
	require.Equal(t, mesh.Wall(1_000_000-20_000), r.Noted[0].Monitor.Wall)
	require.Equal(t, uint32(3), r.attempt("attempt"))
	require.Equal(t, [2]time.Duration{3 * time.Minute, 5 * time.Minute}, s.Marks)

	running := s.running(r)
	require.Len(t, running, 3, "the last attempt, the relaxant and pre-oxygenation")
	require.Equal(t, second, running[0].Ref)
	require.Equal(t, preOxygenation, s.Times[0].ID)
	require.Equal(t, Time{ID: "attempt", Words: "Attempt", Aerosol: true, Counts: true, Starts: true}, s.Times[3])
}
