package scribe

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/stage"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// Goal: what was noted is shown by when it happened, late ones as such, with
// attempts, corrections, the order they stand out of and the monitor's time.
// Method: a small case, then look.
func TestLookShowsWhatWasNoted(t *testing.T) {
	f := stage.NewFolded(t, "scribe", "S1")
	c := f.Do(2, station.OpenCase{Case: requests.CaseOpen{Room: "A1", Label: "C 1"}})
	f.Do(10, station.NoteTime{Case: c, What: preOxygenation})
	f.Do(200, station.NoteTime{Case: c, What: "attempt"})
	second := f.Do(260, station.NoteTime{Case: c, What: "attempt"})
	f.DoLate(300, 100, station.NoteTime{Case: c, What: "relaxant"})
	vent := f.Do(310, station.NoteTime{Case: c, What: "first-ventilation"})
	f.Do(320, station.CorrectTime{Names: second, Happened: 250_000, WithinMS: 30_000})
	f.Do(330, station.TieChart{Case: c, Monitor: 1_000_000})

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
