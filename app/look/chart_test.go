package look

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// course is a short case as a picture.
func course() ChartFace {
	at := func(m, s int) time.Duration { return time.Duration(m)*time.Minute + time.Duration(s)*time.Second }
	return ChartFace{
		To:    at(20, 0),
		Ticks: []ChartTick{{at(0, 0), "14:00"}, {at(5, 0), "14:05"}, {at(10, 0), "14:10"}, {at(20, 0), "14:20"}},
		Lanes: []ChartLane{
			{Word: "times", Points: []ChartPoint{{At: at(1, 0), Word: "Pre-oxygenation"}, {At: at(6, 0), Within: at(0, 20), Word: "CO2 trace seen", Late: true}}},
			{Word: "requests", Bars: []ChartBar{
				{From: at(2, 0), To: at(5, 0), Steps: []time.Duration{at(2, 10), at(4, 0)}, Word: "1 × Bougie", Tone: ToneNow},
				{From: at(3, 0), To: at(20, 0), Word: "2 × Ketamine", Open: true},
			}},
		},
	}
}

// Goal: a mark stands where its time is. Method: the axis at its ends, its
// middle and beyond, and one without length.
func TestTheAxisKeepsTimesInTheirPlace(t *testing.T) {
	a := chartAxis{from: time.Minute, to: 3 * time.Minute, left: 100, right: 300}
	for d, x := range map[time.Duration]float32{0: 100, time.Minute: 100, 2 * time.Minute: 200, 3 * time.Minute: 300, time.Hour: 300} {
		require.InDelta(t, x, a.at(d), 0.01)
	}
	require.InDelta(t, 5, chartAxis{left: 5, right: 9}.at(time.Minute), 0.01)
}

// Goal: no word or mark covers another on its level, and all stay inside the
// picture. Method: random lanes, printed seed; every pair of a level is compared.
func TestMarksOfAChartNeverOverlap(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 2))
	ruler := chartRuler{measure: func(s string) float32 { return float32(len(s)) * 5 }, gap: 4, sign: 3, pad: 2}
	axis := chartAxis{to: time.Hour, left: 50, right: 650}
	for range 300 {
		var lane ChartLane
		for range r.IntN(30) {
			at, word := time.Duration(r.Int64N(int64(time.Hour))), strings.Repeat("x", r.IntN(30))
			if r.IntN(2) == 0 {
				lane.Points = append(lane.Points, ChartPoint{At: at, Within: time.Duration(r.Int64N(int64(5 * time.Minute))), Word: word})
			} else {
				lane.Bars = append(lane.Bars, ChartBar{From: at, To: at + time.Duration(r.Int64N(int64(30*time.Minute))), Word: word})
			}
		}
		placed := ruler.plan(lane, axis)
		require.Len(t, placed.marks, len(lane.Bars)+len(lane.Points))
		taken := map[int][]span{}
		for _, m := range placed.marks {
			sign, word := m.spans()
			taken[m.level] = append(taken[m.level], sign)
			if m.below {
				taken[m.level+1] = append(taken[m.level+1], word)
			}
		}
		require.LessOrEqual(t, len(taken), placed.levels)
		for level, spans := range taken {
			require.Less(t, level, placed.levels)
			for i, a := range spans {
				require.True(t, a.from >= axis.left-0.01 && a.to <= axis.right+0.01, "%+v", a)
				for _, b := range spans[:i] {
					require.True(t, a.to <= b.from || b.to <= a.from, "%+v over %+v", a, b)
				}
			}
		}
	}
}

// Goal: a chart says every word once, and asks for the height that its width
// needs. Method: the same course, broad and narrow; then none.
func TestAChartIsAsHighAsItsWordsNeed(t *testing.T) {
	l := newLook(t)
	c := NewChart(l)
	c.Set(course())
	broad, narrow := c.High(250), c.High(70)
	require.Greater(t, narrow, broad)
	for _, width := range []float32{250, 70} {
		c.Resize(fyne.NewSize(l.MM(width), l.MM(c.High(width))))
		require.InDelta(t, l.MM(c.High(width)), c.MinSize().Height, 0.5)
		words := said(c)
		for _, word := range []string{"times", "requests", "Pre-oxygenation", "CO2 trace seen", "1 × Bougie", "2 × Ketamine", "14:00", "14:20"} {
			require.Contains(t, words, word, fmt.Sprint(width))
		}
	}
	c.Set(ChartFace{None: "no case yet"})
	require.Equal(t, []string{"no case yet"}, said(c))
	require.Len(t, test.WidgetRenderer(c).Objects(), 2)
}

// Goal: what was entered late, and what nobody ended, is drawn apart. Method:
// the fields of both against those of the others.
func TestLateAndOpenMarksAreOutlines(t *testing.T) {
	l := newLook(t)
	c := NewChart(l)
	c.Set(course())
	c.Resize(fyne.NewSize(l.MM(250), l.MM(c.High(250))))
	hollow, whole := 0, 0
	for _, r := range c.rects[:c.used.rects] {
		if r.FillColor == any(l.palette.Surface) {
			hollow++
		} else {
			whole++
		}
	}
	require.Equal(t, []int{2, 2}, []int{hollow, whole})
}
