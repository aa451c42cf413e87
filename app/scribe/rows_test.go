package scribe

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/stage"
	"lintel/app/words"
	"lintel/mesh"
)

// Goal: a noted time is said by which clock, late apart, out of order in words,
// as the monitor would. Method: the lines of a case.
func TestNotedTimesSayAllThatIsKnown(t *testing.T) {
	w, r := words.English(), busy(t).Rooms[0]
	line := func(i int) look.BannerFace { return notedFace(w, r.Noted[i], time.UTC) }
	require.Equal(t, look.BannerFace{
		Icon: look.IconUrgent, Sentence: "07:59:55 · First ventilation",
		Hint: "should come before: Cuff up · aerosol · S1 · monitor 08:00:58 ± 2\u00a0s",
	}, line(0))
	require.Equal(t, "07:59:40 ± 2\u00a0s · CO2 trace seen", line(1).Sentence)
	require.Equal(t, "07:58:50 · Attempt 2", line(2).Sentence)
	require.Equal(t, "late: 07:57:30 · Relaxant given", line(3).Sentence)
	require.Equal(t, look.IconClock, line(3).Icon)
	f := momentPage(w, r, hand{moment: stage.Ref(33)}, time.UTC)
	require.Equal(t, "07:57:30, first noted 07:58:30", f.Tell.Sentence)
}

// Goal: clocks run from the last of their kind, and that of pre-oxygenation
// says the mark it passed. Method: the clocks of a case.
func TestClocksRunAndSayTheirMarks(t *testing.T) {
	s := busy(t)
	all := rows(words.English(), s, hand{room: "A1"}, time.UnixMilli(int64(noon)), time.UTC).Clocks
	require.Len(t, all, 3)
	require.Equal(t, Running{Label: look.BannerFace{Icon: look.IconClock, Sentence: "Attempt 2"}, Clock: look.BigClockFace{Elapsed: 70 * time.Second}}, all[0])
	require.Equal(t, "3:00 passed", all[2].Label.Hint)
	require.Equal(t, [2]time.Duration{5 * time.Minute}, all[2].Clock.Marks)
	s.Now += 200_000
	require.Equal(t, "5:00 passed", running(words.English(), s, s.Rooms[0].Noted[5]).Label.Hint)
}

// Goal: digits become the time that people mean, across midnight too. Method: a
// table, in a zone of its own.
func TestTypedTimesMeanTheLastOne(t *testing.T) {
	zone := time.FixedZone("here", 2*3600)
	now := mesh.Wall(time.Date(2026, 11, 25, 0, 30, 0, 0, zone).UnixMilli())
	require.Equal(t, now-mesh.Wall(40*time.Minute/time.Millisecond), lastAt(now, zone, 23, 50))
	require.Equal(t, now-mesh.Wall(10*time.Minute/time.Millisecond), lastAt(now, zone, 0, 20))
	require.Equal(t, now+mesh.Wall(time.Minute/time.Millisecond), lastAt(now, zone, 0, 31), "the clock on the wall is a minute ahead")
	for digits, want := range map[string]bool{"0000": true, "2359": true, "2400": false, "1260": false, "123": false, "": false} {
		_, _, ok := clockOf(digits)
		require.Equal(t, want, ok, digits)
	}
	hours, minutes := minuteAfter(23, 59)
	require.Equal(t, "00:00", hhmm(hours, minutes))
	require.Equal(t, time.Date(2026, 11, 24, 23, 58, 0, 0, time.UTC).UnixMilli(), int64(monitorAt(now, zone, 23, 58)))
	require.Equal(t, time.Date(2026, 11, 25, 0, 31, 0, 0, time.UTC).UnixMilli(), int64(monitorAt(now, zone, 0, 31)))
}
