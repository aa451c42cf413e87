package door

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/stage"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// Goal: who is in, since when, what is not heard, what was read and what was
// ticked is what was recorded. Method: a small case, then look.
func TestLookShowsWhatWasRecorded(t *testing.T) {
	f := stage.NewFolded(t, "observer", "O1")
	c := f.Do(2, station.OpenCase{Case: requests.CaseOpen{Room: "A1", Label: "C 1"}})
	f.Do(3, station.CheckPPE{Case: c, Wearer: "L1", Checker: "O1", Good: true})
	f.Do(10, station.GoIn{Case: c, Tag: "L1", Zone: "inside", Checker: "O1"})
	f.Do(20, station.GoIn{Case: c, Tag: "B1", Zone: "inside"})
	harm := f.Do(30, station.ReportBreach{Case: c, Tag: "B1", What: "glove"})
	said := f.Do(31, station.Say{Case: c, Phrase: "coming-out", Out: true})
	f.Do(60, station.ComeOut{Case: c, Tag: "B1", Zone: "inside"})
	f.Do(70, station.GoIn{Case: c, Tag: "B1", Zone: "anteroom"})
	f.Do(71, station.DoffStep{Case: c, Tag: "L1", Step: "slow", Checker: "O1", Good: false})
	f.Do(72, station.DoffStep{Case: c, Tag: "L1", Step: "slow", Checker: "O1", Good: true})
	f.Do(73, station.TickLine{Case: c, List: listTransfer, Line: "oxygen", Done: true})
	f.Do(74, station.MeasureDoor{Room: "A1", Open: true})
	f.Do(80, station.NoteTime{Case: c, What: "cough"})

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

	f.Do(90, station.Hear{Said: harm})
	f.Do(91, station.GoIn{Case: c, Tag: "L1", Zone: "inside"})
	r = Look(f.View).Rooms[0]
	require.Len(t, r.Notices, 1)
	require.Empty(t, r.Doffed["L1"], "whoever goes in again begins again")
}

// Goal: the air counts from the newest aerosol event of the room, also of a case
// that is over, put right where it was corrected. Method: two cases and a
// correction.
func TestAirCountsFromTheLastEventOfTheRoom(t *testing.T) {
	f := stage.NewFolded(t, "observer", "O1")
	first := f.Do(2, station.OpenCase{Case: requests.CaseOpen{Room: "A1"}})
	f.Do(100, station.NoteTime{Case: first, What: "extubated"})
	f.Do(110, station.ShutCase{Case: first})
	require.Equal(t, mesh.Wall(100_000), Look(f.View).Rooms[0].Air.Since)
	second := f.Do(120, station.OpenCase{Case: requests.CaseOpen{Room: "A1"}})
	f.Do(130, station.NoteTime{Case: second, What: "cuff-up"})
	require.Equal(t, mesh.Wall(100_000), Look(f.View).Rooms[0].Air.Since, "cuff up is no aerosol event")
	noted := f.Do(200, station.NoteTime{Case: second, What: "attempt"})
	require.Equal(t, mesh.Wall(200_000), Look(f.View).Rooms[0].Air.Since)
	f.Do(210, station.CorrectTime{Names: noted, Happened: 190_000})
	require.Equal(t, mesh.Wall(190_000), Look(f.View).Rooms[0].Air.Since)
}
