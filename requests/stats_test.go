package requests

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// statsRows are the check values of testdata/stats.json.
type statsRows struct {
	Percentiles struct {
		Seconds []float64 `json:"ack_s"`
		Mean    float64   `json:"mean"`
		Median  float64   `json:"median"`
		P90     float64   `json:"p90_nearest_rank"`
		P90Line float64   `json:"p90_linear_type7"`
		P95     float64   `json:"p95_nearest_rank"`
	} `json:"percentiles"`
	Wilson []struct {
		Of      int     `json:"k"`
		All     int     `json:"n"`
		Percent float64 `json:"pct"`
		Low     float64 `json:"lo"`
		High    float64 `json:"hi"`
	} `json:"wilson95"`
}

func readStats(t *testing.T) (rows statsRows) {
	t.Helper()
	b, err := os.ReadFile("testdata/stats.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(b, &rows))
	require.NotEmpty(t, rows.Percentiles.Seconds)
	require.NotEmpty(t, rows.Wilson)
	return rows
}

func seconds(s float64) time.Duration { return time.Duration(math.Round(s * float64(time.Second))) }

// Goal: mean, median and percentiles are the ones that their methods give.
// Method: testdata/stats.json, computed from the published definitions of
// nearest rank and of linear interpolation (type 7), to the full duration.
func TestSpreadEqualsTheCheckValues(t *testing.T) {
	rows := readStats(t).Percentiles
	var times []time.Duration
	for _, s := range slices.Backward(rows.Seconds) {
		times = append(times, seconds(s))
	}
	s := SpreadOf(times)
	require.Equal(t, len(rows.Seconds), s.N)
	require.Equal(t, seconds(rows.Mean), s.Mean)
	require.Equal(t, seconds(rows.Median), s.Median)
	require.Equal(t, seconds(rows.P90), s.P90)
	require.Equal(t, seconds(rows.P90Line), s.P90Linear)
	require.Equal(t, 4*time.Second, s.Least)
	require.Equal(t, 120*time.Second, s.Most)
	slices.Sort(times)
	require.Equal(t, seconds(rows.P95), Percentile(times, 95, NearestRank))
}

// Goal: a share's interval is Wilson's. Method: testdata/stats.json, whose
// first row is the published share of closed-loop orders of a trauma team
// (J Surg Educ 2017, 10.1016/j.jsurg.2017.06.025), in per cent to two places.
func TestWilsonIntervalEqualsTheCheckValues(t *testing.T) {
	for _, row := range readStats(t).Wilson {
		share := Share{row.Of, row.All}
		low, high := share.Wilson95()
		require.InDelta(t, row.Percent, 100*share.Part(), 0.05)
		require.InDelta(t, row.Low, 100*low, 0.005)
		require.InDelta(t, row.High, 100*high, 0.005)
		require.False(t, share.NeedsInterval())
	}
}

// Goal: nothing is claimed of nothing, and of little only with its interval.
// Method: shares of none, all and few.
func TestSharesOfFewCarryTheirInterval(t *testing.T) {
	low, high := Share{}.Wilson95()
	require.Equal(t, []float64{0, 1}, []float64{low, high})
	require.Zero(t, Share{}.Part())
	for _, s := range []Share{{0, 1}, {1, 1}, {0, 99}, {99, 99}, {3, 7}} {
		low, high = s.Wilson95()
		require.True(t, s.NeedsInterval())
		require.LessOrEqual(t, low, s.Part())
		require.GreaterOrEqual(t, high, s.Part())
		require.GreaterOrEqual(t, low, 0.0)
		require.LessOrEqual(t, high, 1.0)
		require.Less(t, low, high)
	}
	require.False(t, Share{1, 100}.NeedsInterval())
}

// Goal: short lists and odd percentages have an answer. Method: none, one and
// two values; percentages beyond the bounds.
func TestPercentilesOfShortLists(t *testing.T) {
	require.Zero(t, SpreadOf(nil))
	require.Zero(t, Percentile(nil, 90, NearestRank))
	one := SpreadOf([]time.Duration{seconds(7)})
	require.Equal(t, Spread{1, seconds(7), seconds(7), seconds(7), seconds(7), seconds(7), seconds(7)}, one)
	two := []time.Duration{seconds(1), seconds(2)}
	require.Equal(t, seconds(1.5), Percentile(two, 50, Linear))
	require.Equal(t, seconds(1), Percentile(two, 50, NearestRank))
	require.Equal(t, seconds(2), Percentile(two, 1000, Linear))
	require.Equal(t, seconds(1), Percentile(two, -3, NearestRank))
}

// Goal: a percentile is what its definition says for any list. Method: random
// lists and percentages; nearest rank by counting, linear by its place between
// two neighbours.
func TestPercentilesFollowTheirDefinitions(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 7))
	for range 2_000 {
		times := make([]time.Duration, 1+random.IntN(40))
		for i := range times {
			times[i] = time.Duration(random.Int64N(500)-50) * time.Second
		}
		slices.Sort(times)
		percent := 1 + random.IntN(100)
		rank := Percentile(times, percent, NearestRank)
		atMost := func(limit time.Duration) (n int) {
			for _, v := range times {
				if v <= limit {
					n++
				}
			}
			return n
		}
		require.GreaterOrEqual(t, 100*atMost(rank), percent*len(times))
		require.Less(t, 100*atMost(rank-1), percent*len(times))
		place := float64(len(times)-1) * float64(percent) / 100
		low := times[int(place)]
		high := times[min(int(place)+1, len(times)-1)]
		want := float64(low) + (place-math.Floor(place))*float64(high-low)
		require.InDelta(t, want, float64(Percentile(times, percent, Linear)), 1e4, "%v %d", times, percent)
	}
}
