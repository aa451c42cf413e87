package calc

import (
	"encoding/json"
	"math"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// Goal: the estimate is the published one. Method: rows of Table B.1 in
// Appendix B of the Guidelines for Environmental Infection Control in
// Health-Care Facilities (CDC, 2003), with the exact minutes of its formula
// beside them, computed elsewhere to two places.
func TestAirClearanceEqualsThePublishedTable(t *testing.T) {
	var file struct {
		Rows []struct {
			AirChanges int64   `json:"ach"`
			Percent    float64 `json:"pct"`
			Exact      float64 `json:"min_exact"`
			Table      int     `json:"min_table"`
		} `json:"ach_clear"`
	}
	b, err := os.ReadFile("testdata/airclearance.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(b, &file))
	require.Len(t, file.Rows, 8)
	for _, row := range file.Rows {
		got, err := AirClearance(row.AirChanges*1000, Removed(math.Round(row.Percent*100)))
		require.NoError(t, err)
		require.Equal(t, row.Table, got.Minutes, "%d air changes, %v %%", row.AirChanges, row.Percent)
		require.InDelta(t, row.Exact, got.Exact.Minutes(), 0.005, "%d air changes, %v %%", row.AirChanges, row.Percent)
	}
}

// Goal: the rows that people know by heart. Method: the same table, 6 and 12
// air changes.
func TestAirClearanceAtSixAndTwelve(t *testing.T) {
	for _, row := range []struct {
		milli   int64
		share   Removed
		minutes int
	}{
		{12_000, Removed99, 23}, {12_000, Removed999, 35},
		{6_000, Removed99, 46}, {6_000, Removed999, 69},
	} {
		got, err := AirClearance(row.milli, row.share)
		require.NoError(t, err)
		require.Equal(t, row.minutes, got.Minutes)
	}
}

// Goal: what is not known gives no number. Method: air changes and shares at
// and beyond their bounds.
func TestAirClearanceRefusesWhatHasNoAnswer(t *testing.T) {
	for _, milli := range []int64{0, -1, -12_000, math.MinInt64, AirChangesMilliMax + 1, math.MaxInt64} {
		got, err := AirClearance(milli, Removed99)
		require.ErrorIs(t, err, ErrAirChanges, "%d", milli)
		require.Zero(t, got)
	}
	for _, share := range []Removed{0, removedAll, removedAll + 1, math.MaxUint32} {
		_, err := AirClearance(12_000, share)
		require.ErrorIs(t, err, ErrShare, "%d", share)
	}
}

// Goal: every answer makes sense at the edges of what is allowed. Method: the
// least and the most air changes; a faster room never takes longer, and a
// larger share never less.
func TestAirClearanceFallsWithAirChangesAndGrowsWithTheShare(t *testing.T) {
	before := time.Duration(math.MaxInt64)
	for milli := int64(1); milli <= AirChangesMilliMax; milli = milli*3/2 + 1 {
		some, err := AirClearance(milli, Removed99)
		require.NoError(t, err)
		more, err := AirClearance(milli, Removed999)
		require.NoError(t, err)
		require.Positive(t, some.Exact)
		require.Less(t, some.Exact, before)
		require.Greater(t, more.Exact, some.Exact)
		before = some.Exact
	}
}
