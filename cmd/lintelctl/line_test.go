package main

import (
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
	"lintel/requests"
)

// lineSeeds are lines as people and programs write them, and worse.
func lineSeeds() []string {
	return []string{
		"ask ketamine 50 x2 now room A1", `ask "second pair of hands"`, `ask "now" x1`, "take 12345 x3 glass at -2m",
		"ask 1007 x0", "ask 1007 x-1", "ask 1007 x99999999999999999999", `ask "open`, "at -2m", "", " ", "\x00\xff", "offer 12345 1007 x1 / 1010 x1",
		"ask 1007 room", "ask now", "ask 1007 x1 x2", "join 123 456 7 host:1", strings.Repeat("x", 300),
	}
}

// TestLinesAreSplitAtSpacesOutsideQuotes splits lines with and without quotes.
func TestLinesAreSplitAtSpacesOutsideQuotes(t *testing.T) {
	all, err := split(`ask  "tube 7.5" x2 ""`)
	require.NoError(t, err)
	require.Equal(t, []word{{"ask", false}, {"tube 7.5", true}, {"x2", false}, {"", true}}, all)
	_, err = split(`ask "tube`)
	require.ErrorContains(t, err, "quote")
}

// TestHappenedAtIsReadFromTheEndOfALine reads every form of a time, and what is none.
func TestHappenedAtIsReadFromTheEndOfALine(t *testing.T) {
	now := time.Date(2026, 3, 1, 0, 10, 0, 0, time.UTC)
	for text, want := range map[string]time.Time{
		"-2m":      now.Add(-2 * time.Minute),
		"00:05":    time.Date(2026, 3, 1, 0, 5, 0, 0, time.UTC),
		"23:59:30": time.Date(2026, 2, 28, 23, 59, 30, 0, time.UTC), // still to come today, so yesterday's
	} {
		a := &arguments{words: []word{{"12345", false}, {"at", false}, {text, false}}}
		require.NoError(t, a.readHappened(now))
		require.Equal(t, mesh.Wall(want.UnixMilli()), a.happened, text)
		require.Len(t, a.words, 1)
	}
	for _, text := range []string{"2m", "25:00", "noon"} {
		a := &arguments{words: []word{{"at", false}, {text, false}}}
		require.ErrorContains(t, a.readHappened(now), "time", text)
	}
	for _, text := range []string{"00:10:01", "01:05"} {
		a := &arguments{words: []word{{"at", false}, {text, false}}}
		require.ErrorContains(t, a.readHappened(now), "time-to-come", text)
	}
	long := &arguments{words: []word{{"at", false}, {"-23h30m", false}}}
	require.NoError(t, long.readHappened(now))
	quoted := &arguments{words: []word{{"at", true}, {"noon", false}}}
	require.NoError(t, quoted.readHappened(now))
}

// TestAThingIsReadUpToItsQuantityOrFirstKeyword reads things with everything behind them.
func TestAThingIsReadUpToItsQuantityOrFirstKeyword(t *testing.T) {
	read := func(line string) (wanted, error) {
		all, err := split(line)
		require.NoError(t, err)
		return (&arguments{words: all, usage: "ask ITEM"}).wanted(wordNow, wordNext, wordRoom, wordOut, wordTag)
	}
	w, err := read("ketamine 50 x2 next room A2 tag L1")
	require.NoError(t, err)
	require.Equal(t, wanted{item: "ketamine 50", count: 2, urgency: requests.NextOpening, room: "A2", tag: "L1"}, w)
	w, err = read(`"out" out`)
	require.NoError(t, err)
	require.Equal(t, wanted{item: "out", out: true}, w)
	for line, id := range map[string]string{
		"1007 x0": "count", "1007 x-3": "count", "1007 x1.5": "count", "1007 x1 x2": "usage", "1007 now tube": "usage", "1007 room": "usage",
	} {
		_, err := read(line)
		require.ErrorContains(t, err, id, line)
	}
}

// FuzzLine gives any bytes as a line: it is read or refused, never worse, and
// what was read keeps its words.
func FuzzLine(f *testing.F) {
	for _, s := range lineSeeds() {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, line string) {
		all, err := split(line)
		if err != nil || !utf8.ValidString(line) {
			return
		}
		for _, w := range all {
			require.Contains(t, strings.ReplaceAll(line, `"`, ""), w.text)
		}
		a := &arguments{words: all, usage: "ask ITEM"}
		if a.readHappened(time.Unix(0, 0)) != nil {
			return
		}
		if w, err := a.wanted(urgencies()...); err == nil {
			require.GreaterOrEqual(t, w.count, int64(0))
			require.Empty(t, a.words)
		}
	})
}

// TestLongLinesAreSkippedWhole gives a line over the bound between two others.
func TestLongLinesAreSkippedWhole(t *testing.T) {
	lines := make(chan inputLine, 8)
	readLines(strings.NewReader("one\n"+strings.Repeat("y", 3*lineLenMax)+"\ntwo"), lines, nil)
	require.Equal(t, "one", (<-lines).text)
	require.True(t, (<-lines).long)
	require.Equal(t, inputLine{text: "two"}, <-lines)
	_, more := <-lines
	require.False(t, more)
}

// TestTheMailboxKeepsTheNewestAndCountsTheRest posts twice about one thing, and
// more than fits.
func TestTheMailboxKeepsTheNewestAndCountsTheRest(t *testing.T) {
	m := newMail()
	m.post("a", 1)
	m.post("a", 2)
	for i := range mailMax {
		m.post(i, i)
	}
	<-m.news
	all, left := m.take()
	require.Len(t, all, mailMax)
	require.Equal(t, 2, all[0])
	require.Equal(t, 1, left)
	all, left = m.take()
	require.Empty(t, all)
	require.Zero(t, left)
}
