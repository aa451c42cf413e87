package debrief

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// drawnOf is the whole picture of the unit's newest case.
func drawnOf(t *testing.T, r room) (look.ChartFace, Course) {
	u, of := full(t)
	c := u.look(of).Course
	return picture(words.English(), c, c.whole(), time.UTC, r), c
}

func laneOf(t *testing.T, f look.ChartFace, word string) look.ChartLane {
	for _, l := range f.Lanes {
		if l.Word == word {
			return l
		}
	}
	require.Fail(t, "no lane", word)
	return look.ChartLane{}
}

// Goal: a mark of the picture stands where the record says, with its ±, and
// says what its length does not. Method: one of each lane of a known case.
func TestPictureShowsTheCaseInTime(t *testing.T) {
	f, c := drawnOf(t, roomFor(true))
	require.Zero(t, f.From)
	require.GreaterOrEqual(t, f.To, 34*time.Minute)
	require.Equal(t, look.ChartTick{At: 0, Word: "09:10"}, f.Ticks[0])
	require.Equal(t, look.ChartTick{At: 5 * time.Minute, Word: "09:15"}, f.Ticks[1])
	at := func(m, s int) time.Duration { return time.Duration(m)*time.Minute + time.Duration(s)*time.Second }

	asked := laneOf(t, f, "requests").Bars
	step := func(p requests.Placed) time.Duration { return time.Duration(p.Wall-c.Start.Wall) * time.Millisecond }
	require.Equal(t, look.ChartBar{
		From: at(3, 0), To: at(6, 40), Steps: []time.Duration{at(3, 14), at(6, 0)}, Word: "1 × Bougie 15\u00a0Fr", Tone: look.ToneNext,
	}, asked[0])
	require.Equal(t, at(3, 14), step(c.Asked[0].Acknowledged))
	require.Equal(t, "2 × Ketamine 50\u00a0mg/mL, other item caught", asked[1].Word)
	require.Equal(t, "1 × Tracheal tube 7.5, unanswered", asked[2].Word)
	require.True(t, asked[2].Open)
	require.Equal(t, look.ToneBefore, asked[2].Tone)
	require.Equal(t, "2 × Bougie 15\u00a0Fr, withdrawn", asked[3].Word)

	times := laneOf(t, f, "times").Points
	require.Equal(t, "Attempt 1", times[3].Word)
	var late look.ChartPoint
	for _, p := range times {
		if p.Late {
			late = p
		}
	}
	require.Equal(t, "Cuff up", late.Word)
	require.Equal(t, at(12, 30), late.At, "where it was corrected to, not where it was entered")
	require.GreaterOrEqual(t, late.Within, 30*time.Second)
	require.Equal(t, "First ventilation, out of order", times[4].Word)
	require.Equal(t, []string{"L1", "D1", "O1, anteroom", "L2"}, wordsOfBars(laneOf(t, f, "people")))
	require.Equal(t, "D1, Glove torn", laneOf(t, f, "breaches").Points[0].Word)
	require.Equal(t, []string{"2 persons", "1 thing", "1 thing", "1 person", "1 person", "1 person"}, wordsOfBars(laneOf(t, f, "door, derived")))
	require.Equal(t, "2.1\u00a0s", seconds(words.English(), c.within()), "of clocks, not of what was entered later")

	short, _ := drawnOf(t, roomFor(false))
	require.Equal(t, "unanswered: Tracheal tube", laneOf(t, short, "requests").Bars[2].Word)
	require.LessOrEqual(t, len(short.Ticks), ticksFew+1)
}

func wordsOfBars(l look.ChartLane) (out []string) {
	for _, b := range l.Bars {
		out = append(out, b.Word)
	}
	return out
}

// Goal: the end of a case is on the picture, unless it was shut long after all
// that happened. Method: ends at several distances.
func TestAnEndLongAfterAllElseIsNotDrawn(t *testing.T) {
	at := func(m int) requests.Placed { return requests.Placed{Wall: firstAt + mesh.Wall(m)*60_000} }
	for end, drawn := range map[int]bool{20: true, 49: true, 51: false, 20 * 60: false} {
		c := Course{Start: at(0), End: at(end), Over: true, Moments: []Moment{{At: at(20)}}}
		require.Equal(t, drawn, c.whole().to >= at(end).Wall, end)
	}
	long := Course{Start: at(0), End: at(4*60 + 50), Moments: []Moment{{At: at(4 * 60)}}}
	require.GreaterOrEqual(t, long.whole().to, long.End.Wall, "of four hours a quarter more is drawn")
	require.Equal(t, spanLeast, Course{Start: at(0), End: at(0)}.whole().length().Truncate(time.Minute), "of nothing a minute")
}

// Goal: nothing is lost by bringing the picture nearer: its pieces cover the
// whole, and each thing is in one of them. Method: all pieces at each nearness.
func TestPiecesOfAPictureCoverTheWhole(t *testing.T) {
	_, c := drawnOf(t, roomFor(true))
	whole := c.whole()
	require.Equal(t, whole, whole.part(0, 0))
	for zoom := range zoomMax + 1 {
		seen, last := map[string]bool{}, whole.from
		for at := range places(zoom) {
			p := whole.part(zoom, at)
			require.LessOrEqual(t, p.from, last, "no gap")
			last = p.to
			for _, l := range picture(words.English(), c, p, time.UTC, roomFor(true)).Lanes {
				for _, b := range l.Bars {
					seen[l.Word+b.Word] = true
				}
				for _, x := range l.Points {
					require.True(t, x.At >= 0)
					seen[l.Word+x.Word] = true
				}
			}
		}
		require.InDelta(t, float64(whole.to), float64(last), 32, "halving rounds by milliseconds")
		for _, m := range c.Asked {
			require.True(t, seen["requests"+painter{w: words.English()}.request(m)], "%d %s", zoom, m.Name)
		}
	}
}

// Goal: ticks are round and few, for a minute and for a week. Method: lengths at
// random; the seed is printed.
func TestTicksAreRoundAndFew(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	for range 500 {
		from := firstAt + mesh.Wall(random.Int64N(1_000_000_000))
		length := time.Minute + time.Duration(random.Int64N(int64(7*24*time.Hour)))>>random.IntN(12)
		p := painter{of: from, seen: span{from, from + mesh.Wall(length.Milliseconds())}, room: roomFor(true)}
		ticks := p.ticks(time.FixedZone("", 19_800))
		require.LessOrEqual(t, len(ticks), ticksMax+1, length)
		require.NotEmpty(t, ticks, length)
		for _, tick := range ticks {
			require.GreaterOrEqual(t, tick.At, time.Duration(0))
			require.LessOrEqual(t, tick.At, length)
			require.Zero(t, (mesh.Wall(tick.At.Milliseconds())+from)%10_000, "whole tens of seconds")
		}
	}
}

// Goal: pages of a picture hold everything once, in order, and none is higher
// than its room unless it has one mark. Method: lanes at random, room for so
// many marks and lanes; the seed is printed.
func TestPagesOfAPictureHoldEverythingOnce(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	marks := func(f look.ChartFace) (n int) {
		for _, l := range f.Lanes {
			n += size(l)
		}
		return n
	}
	for range 300 {
		var f look.ChartFace
		var want, got []string
		for n := range random.IntN(6) {
			l := look.ChartLane{Word: fmt.Sprint(n)}
			for i := range random.IntN(30) {
				if n%2 == 0 {
					l.Bars = append(l.Bars, look.ChartBar{Word: fmt.Sprint(n, "-", i)})
				} else {
					l.Points = append(l.Points, look.ChartPoint{Word: fmt.Sprint(n, "-", i)})
				}
				want = append(want, fmt.Sprint(n, "-", i))
			}
			f.Lanes = append(f.Lanes, l)
		}
		most := 1 + random.IntN(12)
		fits := func(f look.ChartFace) bool { return len(f.Lanes)+marks(f) <= most }
		for _, page := range paged(f, fits) {
			require.True(t, fits(page) || marks(page) == 1)
			for _, l := range page.Lanes {
				require.NotZero(t, size(l))
				for _, b := range l.Bars {
					got = append(got, b.Word)
				}
				for _, p := range l.Points {
					got = append(got, p.Word)
				}
			}
		}
		require.Equal(t, want, got)
	}
}
