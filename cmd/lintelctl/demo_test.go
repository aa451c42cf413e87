package main

import (
	"bytes"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// TestTheDemonstrationAddsUp plays the whole of it once, with its processes,
// and looks at what it must show: one hash on every device that lives, an audit
// without findings, a whole case from brief to debrief, and nothing lost with
// the device that died, all marked as invented.
func TestTheDemonstrationAddsUp(t *testing.T) {
	t.Setenv(actAsProgram, "1")
	dir := filepath.Join(t.TempDir(), "out")
	var out, errs bytes.Buffer
	begun := time.Now()
	code := run(t.Context(), []string{"demo", "-seed", "3", "-out", dir}, nil, &out, &errs)
	require.Equal(t, exitFine, code, "%s%s", out.String(), errs.String())
	require.Less(t, time.Since(begun), demoMax)
	said := out.String()
	for _, want := range demoSays() {
		require.Contains(t, said, want)
	}
	for _, want := range demoShows() {
		require.Regexp(t, want, said)
	}
	require.NotRegexp(t, `reads back for \d{5} Disinfectant`, said, "it was passed in unasked")
	require.NotRegexp(t, `(?:fact|demo|figures|at|stock|list)\.[a-z]`, said, "words are missing")
	hashes := regexp.MustCompile(`(?m)^  (?:lead|runner|charge|second|observer|spare) +([0-9a-f]{64})$`).FindAllStringSubmatch(said, -1)
	require.Len(t, hashes, 6)
	for _, h := range hashes {
		require.Equal(t, hashes[0][1], h[1])
	}
	for _, who := range []string{playLead, playSpare, playRunner, playSecond, playObserver, playCharge} {
		code, said, _ := called(t, "audit", filepath.Join(dir, who))
		require.Equal(t, exitFine, code, said)
		require.Contains(t, said, hashes[0][1])
	}
	requireReady(t, filepath.Join(dir, playCharge))
	code, record, _ := called(t, "case", filepath.Join(dir, playSecond))
	require.Equal(t, exitFine, code)
	for _, want := range []string{"called 7-A1", "goes on in ICU-2", "median", "Wilson", "door openings, derived", "person-minutes inside", "debrief held"} {
		require.Contains(t, record, want)
	}
}

// requireReady asks a folder: with the air still to clear, no patient can come;
// in 40 minutes one can, and every issue of a controlled drug adds up.
func requireReady(t *testing.T, dir string) {
	t.Helper()
	code, said, _ := called(t, "ready", "-json", dir, "A1")
	require.Equal(t, exitFailure, code, said)
	require.Contains(t, said, `"gap":"air"`)
	code, said, _ = called(t, "ready", "-json", "-in", "40m", dir, "A1")
	require.Equal(t, exitFine, code, said)
	code, said, _ = called(t, "controlled", "-json", dir)
	require.Equal(t, exitFine, code)
	require.Contains(t, said, `"state":"balanced"`)
	code, said, _ = called(t, "restock", dir)
	require.Equal(t, exitFine, code)
	require.Equal(t, "Nothing to list.\n", said)
}

// demoSays is what the demonstration says in so many words.
func demoSays() []string {
	return []string{
		"invented Anvil unit", "Timeline (invented)", "Times (invented)", "Figures of the case (invented)", "To restock (invented stock)",
		"All devices that live hold the same state.", "nothing to report", "asked by voice of D1", "passed in unasked", "refused", "withdrew", "could not bring",
		"median", "not among these figures", "left out of brief:", "test with the door shut, battery 83 %", "Plan B said", "Plan C said", "PPE of L2 checked by O1",
		"Glove torn: outer, right hand", "broken: 1 × Rocuronium", "drew up 1 × Noradrenaline", "left with the patient: syringe", "the case goes on elsewhere: ICU-2",
		"Controlled drug at the count, while the device", "The same once its record had arrived", "Lines that are still inside, still at the door, or below par: 0.", "tray-1: First tray: sealed, lines: 25, seal 4712",
		"Read by O1", "debrief held", "99 % gone after 23 min", "all it holds is on two clean devices",
	}
}

// demoShows is what the demonstration shows, as patterns.
func demoShows() []string {
	return []string{
		`offered 4 × Rocuronium 10 mg/mL, 5 mL / .* instead of \d{5} Rocuronium 10 mg/mL, 10 mL`, // what was asked, not what came of it
		`agreed for \d{5} Rocuronium 10 mg/mL, 10 mL: alternative 1, 4 × Rocuronium 10 mg/mL, 5 mL`,
		`refused for \d{5} Ketamine 50 mg/mL, 10 mL: 1 × Ketamine 10 mg/mL, 20 mL: 50 mg/mL was asked`,
		`R1 runner +saw through the glass that 1 of \d{5} Bacterial/viral filter adult went in`,
		`D1 assistant +\d{5} asked for 1 × Bacterial/viral filter adult, now, entered later`,
		`R1 runner +passed \d{5} Suction tubing on to R2`,
		`R2 runner +is going for \d{5} Suction tubing`,
		`First ventilation, out of order, entered later|First ventilation, entered later`,
		`Nobody answered \d{5} Waste bag`,
		`assistant was killed\. On its disk were \d+ entries; of these, 0 are missing`,
		`closed loops, of what was asked and brought: \d+ of \d+, \d+ %, 95 % interval`,
		`answered by nobody: [1-9]`,
		`\d{5} Ketamine 50 mg/mL, 10 mL: short: issued 1 × \(500 mg\) = given 5 mL \(250 mg\) \+ not accounted for 5 mL \(250 mg\)`,
		`\d{5} Ketamine 50 mg/mL, 10 mL: adds up: issued 1 × \(500 mg\) = given 5 mL \(250 mg\) \+ wasted 5 mL \(250 mg\)`,
		`wasted/A1, by D1 assistant, seen by L2 on the same device`,
		`trolley/airway: \d × Tracheal tube, cuffed 7\.5, from store/main \(holds \d of 4\)`,
		`Before another patient: A1: air: \d+ minutes more, by the estimate\. Nothing else is missing\.`,
	}
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
