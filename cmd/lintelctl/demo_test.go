package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// TestTheDemonstrationAddsUp plays the whole of it once, with its processes,
// and looks at what it must show: one hash four times, an audit without
// findings, times, and what has to be restocked, all marked as invented.
func TestTheDemonstrationAddsUp(t *testing.T) {
	t.Setenv(actAsProgram, "1")
	dir := filepath.Join(t.TempDir(), "out")
	var out, errs bytes.Buffer
	begun := time.Now()
	code := run(t.Context(), []string{"demo", "-seed", "3", "-out", dir}, nil, &out, &errs)
	require.Equal(t, exitFine, code, "%s%s", out.String(), errs.String())
	require.Less(t, time.Since(begun), demoMax)
	said := out.String()
	for _, want := range []string{
		"invented Anvil unit", "Timeline (invented)", "Times (invented)", "To restock (invented stock)", "All four devices hold the same state.",
		"nothing to report", "asked by voice of D1", "passed in unasked", "joined", "refused", "withdrew", "could not bring", "median", "not among these figures",
	} {
		require.Contains(t, said, want)
	}
	for _, want := range []string{
		`offered 4 × Rocuronium 10 mg/mL, 5 mL / .* instead of \d{5} Rocuronium 10 mg/mL, 10 mL`, // what was asked, not what came of it
		`agreed for \d{5} Rocuronium 10 mg/mL, 10 mL: alternative 1, 4 × Rocuronium 10 mg/mL, 5 mL`,
		`refused for \d{5} Ketamine 50 mg/mL, 10 mL: 1 × Ketamine 10 mg/mL, 20 mL: 50 mg/mL was asked`,
		`R1 runner +saw through the glass that 1 of \d{5} Bacterial/viral filter adult went in`,
	} {
		require.Regexp(t, want, said)
	}
	require.NotRegexp(t, `reads back for \d{5} Disinfectant`, said, "it was passed in unasked")
	hashes := regexp.MustCompile(`(?m)^  (?:lead|assistant|runner|charge) +([0-9a-f]{64})$`).FindAllStringSubmatch(said, -1)
	require.Len(t, hashes, 4)
	for _, h := range hashes {
		require.Equal(t, hashes[0][1], h[1])
	}
	for _, who := range []string{playLead, playAssistant, playRunner, playCharge} {
		code, said, _ := called(t, "audit", filepath.Join(dir, who))
		require.Equal(t, exitFine, code, said)
		require.Contains(t, said, hashes[0][1])
	}
	_, err := os.Stat(dir)
	require.NoError(t, err)
}

// TestTheMiddleOfTimes checks the method that the table names.
func TestTheMiddleOfTimes(t *testing.T) {
	_, any := middle(nil)
	require.False(t, any)
	odd, _ := middle([]time.Duration{9, 1, 5})
	require.EqualValues(t, 5, odd)
	even, _ := middle([]time.Duration{9, 1, 5, 7})
	require.EqualValues(t, 6, even)
}
