package main

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/words"
	"lintel/kits/barcode"
)

// scanLines runs the command over some input and gives one answer for each line.
func scanLines(t *testing.T, input string, args ...string) (events []scanEvent) {
	t.Helper()
	var out, errs bytes.Buffer
	code := run(t.Context(), append([]string{"scan"}, args...), strings.NewReader(input), &out, &errs)
	require.Equal(t, exitFine, code, errs.String())
	require.Empty(t, errs.String())
	for line := range strings.Lines(out.String()) {
		var e scanEvent
		dec := json.NewDecoder(strings.NewReader(line))
		dec.DisallowUnknownFields()
		require.NoError(t, dec.Decode(&e), line)
		require.Equal(t, "scan", e.Event)
		require.NotContains(t, line, "{1}")
		require.NotContains(t, line, "fault.")
		events = append(events, e)
	}
	return events
}

// Goal: every line has its answer and no line ends the work. Method: good, bad,
// empty and far too long lines, a line end of another system, and no line end.
func TestScanAnswersEveryLine(t *testing.T) {
	got := scanLines(t, "02345673\nnonsense\n\n"+strings.Repeat("9", 1<<20)+"\n]d2\xff\x00\n+A123AA40 \r\n+A123AA40\n(01)09501101530003", "-year", "2026")
	var codes []string
	for _, e := range got {
		codes = append(codes, e.Code)
		require.Equal(t, e.Code != "", e.Error != "" && e.Hint != "" && e.Position != nil)
	}
	require.Equal(t, []string{"", "not-known", "empty", "too-long", "unknown-id", "", "check-digit", ""}, codes)
	require.Equal(t, "+A123AA40", got[5].Item, "a check character may be a space")
}

// Goal: positions are those of the line as it was typed. Method: the separator
// as four typed characters and as one byte, before a mistake and before a doubt.
func TestScanPositionsAreThoseOfTheLine(t *testing.T) {
	const item = "]d20109501101530003"
	got := scanLines(t, item+"10L{GS}17261232\n"+item+"10L\x1d17261232\n"+item+"10L{GS}21AB1726123110X\n{GS}01", "-year", "2026")
	require.Equal(t, len(item)+len("10L{GS}172612"), *got[0].Position)
	require.Equal(t, len(item)+len("10L.172612"), *got[1].Position)
	require.Equal(t, []scanWarning{{Warning: "lost-separator", Position: len(item) + len("10L{GS}21AB"), AI: "21", Begins: "17",
		Says: "Within 21 (serial number) begins what looks like 17 (expires on): the separator may have been lost, and what is read here may be two things."}}, got[2].Warnings)
	require.Equal(t, 6, *got[3].Position)
}

// Goal: a year of two digits depends on -year and on nothing else. Method: one
// label in two centuries, and years that are out of range.
func TestScanTakesItsYear(t *testing.T) {
	const label = "(01)09501101530003(17)270200"
	got := scanLines(t, label, "-year", "2026")[0]
	require.Equal(t, "2027-02-28", got.Expiry)
	require.True(t, got.Inferred)
	require.True(t, got.Elements[1].Inferred)
	require.Equal(t, "2127-02-28", scanLines(t, label, "-year", "2126")[0].Expiry)
	for _, year := range []string{"26", "10000", "-1", "x"} {
		code, out, errs := called(t, "scan", "-year", year)
		require.Equal(t, exitUsage, code, year)
		require.Empty(t, out)
		require.Len(t, strings.Split(strings.TrimSpace(errs), "\n"), 2, "a sentence and a hint")
	}
	code, _, errs := called(t, "scan", "file")
	require.Equal(t, exitUsage, code)
	require.Contains(t, errs, usageScan)
	code, out, _ := called(t, "scan", "-h")
	require.Equal(t, exitFine, code)
	require.Contains(t, out, usageScan)
}

// Goal: nothing can be wrong or doubtful that has no sentence, and no sentence
// is about nothing. Method: all codes and doubts against the table, both ways.
func TestEveryMistakeOfAScanHasWords(t *testing.T) {
	w := words.English()
	known := map[words.ID]bool{}
	for _, code := range barcode.Codes() {
		id := words.ScanFaultID(string(code))
		known["fault."+id], known["hint."+id] = true, true
	}
	for _, id := range append(slices.Collect(maps.Values(pictureFaults())), scanFile) {
		known["fault."+id], known["hint."+id] = true, true
	}
	for _, doubt := range barcode.Doubts() {
		known[words.ScanDoubtID(string(doubt))] = true
	}
	for id := range known {
		require.True(t, w.Has(id), id)
	}
	for _, id := range w.IDs() {
		for _, prefix := range []string{"fault.scan-", "hint.scan-", "scan-doubt."} {
			require.True(t, !strings.HasPrefix(string(id), prefix) || known[id], "%s is about nothing", id)
		}
	}
}
