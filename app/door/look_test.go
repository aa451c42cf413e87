package door

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
	return f
}

// do records an act of a device at a second; the Peer of the view is device zero.
func (f *folded) do(second int, act station.Act) mesh.Ref {
	f.n++
	key, tap := mesh.Key{}, mesh.Tap{f.n}
	by := mesh.By{Role: "observer", Tag: "O1"}
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

// Goal: who is in, since when, what is not heard, what was read and what was
// ticked is what was recorded. Method: a small case, then look.
func TestLookShowsWhatWasRecorded(t *testing.T) {
	f := newFolded(t)
	f.do(1, station.Hold{Holds: requests.Holds{Role: "observer", Tag: "O1", Rooms: []mesh.ID{"A1"}}})
	c := f.do(2, station.OpenCase{Case: requests.CaseOpen{Room: "A1", Label: "C 1"}})
	f.do(3, station.CheckPPE{Case: c, Wearer: "L1", Checker: "O1", Good: true})
	f.do(10, station.GoIn{Case: c, Tag: "L1", Zone: "inside", Checker: "O1"})
	f.do(20, station.GoIn{Case: c, Tag: "B1", Zone: "inside"})
	harm := f.do(30, station.ReportBreach{Case: c, Tag: "B1", What: "glove"})
	said := f.do(31, station.Say{Case: c, Phrase: "coming-out", Out: true})
	f.do(60, station.ComeOut{Case: c, Tag: "B1", Zone: "inside"})
	f.do(70, station.GoIn{Case: c, Tag: "B1", Zone: "anteroom"})
	f.do(71, station.DoffStep{Case: c, Tag: "L1", Step: "slow", Checker: "O1", Good: false})
	f.do(72, station.DoffStep{Case: c, Tag: "L1", Step: "slow", Checker: "O1", Good: true})
	f.do(73, station.TickLine{Case: c, List: listTransfer, Line: "oxygen", Done: true})
	f.do(74, station.MeasureDoor{Room: "A1", Open: true})
	f.do(80, station.NoteTime{Case: c, What: "cough"})

	s := Look(f.View)
	require.Len(t, s.Rooms, 1)
	r := s.Rooms[0]
	require.Equal(t, c, r.Case)
	require.True(t, r.Open)
	require.Equal(t, "L1", string(r.People[1].Tag))
	require.Equal(t, Person{Tag: "L1", Zone: r.Zones[0], Since: 10_000, Checker: "O1"}, r.People[1])
	require.Equal(t, Person{Tag: "B1", Zone: r.Zones[1], Since: 70_000, Harm: "Glove torn"}, r.People[0])
	require.Equal(t, []mesh.Ref{harm, said}, []mesh.Ref{r.Notices[0].Ref, r.Notices[1].Ref})
	require.Equal(t, map[mesh.Tag]mesh.Tag{"L1": "O1"}, r.Checked)
	require.Equal(t, []Step{{"slow", true, "O1"}}, r.Doffed["L1"])
	require.Contains(t, r.Ticks, Ticked{listTransfer, "oxygen"})
	require.Equal(t, Seen{true, true, 74_000}, r.Door)
	require.Equal(t, Air{Event: "Cough", Since: 80_000, Milli: 12_000}, r.Air)
	require.Equal(t, 40*time.Second, r.Spent[0].Inside)
	require.Equal(t, 70*time.Second, r.Spent[1].total(requests.Inside, s.Now))

	f.do(90, station.Hear{Said: harm})
	f.do(91, station.GoIn{Case: c, Tag: "L1", Zone: "inside"})
	r = Look(f.View).Rooms[0]
	require.Len(t, r.Notices, 1)
	require.Empty(t, r.Doffed["L1"], "whoever goes in again begins again")
}

// Goal: the air counts from the newest aerosol event of the room, also of a case
// that is over, put right where it was corrected. Method: two cases and a
// correction.
func TestAirCountsFromTheLastEventOfTheRoom(t *testing.T) {
	f := newFolded(t)
	f.do(1, station.Hold{Holds: requests.Holds{Role: "observer", Tag: "O1", Rooms: []mesh.ID{"A1"}}})
	first := f.do(2, station.OpenCase{Case: requests.CaseOpen{Room: "A1"}})
	f.do(100, station.NoteTime{Case: first, What: "extubated"})
	f.do(110, station.ShutCase{Case: first})
	require.Equal(t, mesh.Wall(100_000), Look(f.View).Rooms[0].Air.Since)
	second := f.do(120, station.OpenCase{Case: requests.CaseOpen{Room: "A1"}})
	f.do(130, station.NoteTime{Case: second, What: "cuff-up"})
	require.Equal(t, mesh.Wall(100_000), Look(f.View).Rooms[0].Air.Since, "cuff up is no aerosol event")
	noted := f.do(200, station.NoteTime{Case: second, What: "attempt"})
	require.Equal(t, mesh.Wall(200_000), Look(f.View).Rooms[0].Air.Since)
	f.do(210, station.CorrectTime{Names: noted, Happened: 190_000})
	require.Equal(t, mesh.Wall(190_000), Look(f.View).Rooms[0].Air.Since)
}
