package main

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Goal: whatever is typed, a line gets one answer, in words, and the device goes
// on. Method: every command alone, with a word that means nothing, with a
// keyword that lacks its value, with a number too large, a tag too long, and
// with far too many words, before and while a case is open.
func TestEveryCommandAnswersNonsenseOnce(t *testing.T) {
	tails := []string{
		"", "zz", "room", "A1 room", "L1 O1 room", "99992", "x99999999999999999999", strings.Repeat("T", 40) + " lead",
		"brief " + strings.Repeat("n", 60), "1 2 3 4 5 6 7 8 9 10 11 12", `"" "" ""`, "within 5s", "L1 inside checked-by", "open A1 label", "\u00e9\u4e16 \u202e x1",
		"held at 25:99", "attempt attempt 70000", "00:99", "winter 0=1108", "winter 1=", "into 5 mL", "3080 x1 into 0 mL", "used 3080", "A1 syringe",
	}
	lines := []string{"found Anvil"}
	for _, open := range []bool{false, true} {
		if open {
			lines = append(lines, "stock-demo", "case open A1 anyway")
		}
		for _, c := range commands() {
			switch c.name {
			case "quit", "invite", "join", "dial", "stock-demo":
				continue // they wait for others, or end the test
			}
			for _, tail := range tails {
				lines = append(lines, strings.TrimSpace(c.name+" "+tail))
			}
		}
	}
	var out, errs bytes.Buffer
	code := run(t.Context(), []string{
		"device", "-data", filepath.Join(t.TempDir(), "d"), "-name", "n", "-role", "lead", "-tag", "L1", "-room", "A1", "-listen", "127.0.0.1:0", "-json",
	}, strings.NewReader(strings.Join(lines, "\n")), &out, &errs)
	require.Equal(t, exitFine, code, errs.String())
	answers := 0
	for line := range strings.Lines(out.String()) {
		var e errorEvent
		require.NoError(t, json.Unmarshal([]byte(line), &e), line)
		switch e.Event {
		case "done":
			answers++
		case "error":
			answers++
			require.NotEmpty(t, e.Error, line)
			require.NotEmpty(t, e.Hint, line)
			require.NotContains(t, e.Error+e.Hint, "{", line)
			require.NotContains(t, e.Error+e.Hint, "fault.", line)
			require.NotContains(t, e.Error, "has no words of its own", line)
		}
	}
	require.Equal(t, len(lines), answers)
}
