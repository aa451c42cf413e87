package report

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// playCase records who was where in an invented case, a minute apart.
func playCase(t *testing.T, v station.View) requests.Case {
	t.Helper()
	by := mesh.By{Role: "observer", Tag: "O1"}
	opened := learn(t, v, 1, by, station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation"}})
	learn(t, v, 2, by, station.CheckPPE{Case: opened, Wearer: "L1", Checker: "D1", Good: true})
	learn(t, v, 3, by, station.GoIn{Case: opened, Tag: "L1", Zone: "inside", Checker: "O1"})
	learn(t, v, 4, by, station.ReportBreach{Case: opened, Tag: "L1", What: "glove"})
	learn(t, v, 10, by, station.ComeOut{Case: opened, Tag: "L1", Zone: "inside", Checker: "O1"})
	c, known := v.Board.Case(opened)
	require.True(t, known)
	return c
}

// Goal: an exposure sheet says of one tag where it was, how long, who checked and
// what was breached, and nothing of anybody else. Method: an invented case whose
// person is inside for seven minutes; another program reads the paper.
func TestAnExposureSheetIsOfOneTag(t *testing.T) {
	v, _ := unit(t)
	c := playCase(t, v)
	w := words.English()
	e, found := ExposureOf(w, v, c, "L1", time.UTC)
	require.True(t, found)
	require.Len(t, e.Stays, 1)
	require.Equal(t, 7*time.Minute, e.Stays[0].To.Sub(e.Stays[0].From))
	require.False(t, e.Stays[0].Open)
	paper, err := ExposureSheet(w, e)
	require.NoError(t, err)
	keep(t, "exposure.pdf", paper)
	again, err := ExposureSheet(w, e)
	require.NoError(t, err)
	require.Equal(t, paper, again)
	text := textOf(t, paper)
	for _, said := range []string{"Exposure sheet of L1", "7 min", "checked by D1", requests.Code(c.Ref)} {
		require.Contains(t, text, said)
	}
	_, found = ExposureOf(w, v, c, "R9", time.UTC)
	require.False(t, found, "nothing was recorded of R9")
}

// Goal: a record of any length is on paper whole, over as many pages as it needs.
// Method: 300 lines, some too long for one row; each is read back.
func TestARecordIsOnPaperWhole(t *testing.T) {
	var text strings.Builder
	for i := range 300 {
		if i%60 == 0 {
			text.WriteString("\nPart\n")
		}
		text.WriteString("line " + strings.Repeat("and more ", i%40) + "ends " + time.Unix(int64(i), 0).UTC().Format("150405") + "\n")
	}
	paper, err := Record(words.English(), "Record, invented", text.String(), time.Unix(0, 0))
	require.NoError(t, err)
	keep(t, "record.pdf", paper)
	got := strings.Join(strings.Fields(textOf(t, paper)), " ")
	for line := range strings.Lines(text.String()) {
		require.Contains(t, got, strings.Join(strings.Fields(line), " "))
	}
}
