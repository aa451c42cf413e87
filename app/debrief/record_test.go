package debrief

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/words"
)

// Goal: the record on paper says the case as the pages do: its course in time,
// its figures with their methods, its answers; a time or figure of a person stands
// nowhere. Method: a case with something of everything, read as text.
func TestTheRecordSaysTheCaseInWords(t *testing.T) {
	u, ref := full(t)
	w := words.English()
	title, text := Record(w, u.look(ref), time.UTC)
	require.Contains(t, title, "A1")
	for _, want := range []string{
		"C 12 · A1", "\n\npeople\n", "\n\ntimes\n", "09:13:00 Pre-oxygenation", "\n\nrequests\n", "Ketamine 50", "other item caught", "Glove torn",
		"\n\n" + w.Say("debrief.figures") + "\n", w.Say("debrief.figure.openings") + ": ", w.Say("debrief.derived", "20\u00a0s"),
		"\n\n" + w.Say("debrief.questions") + "\n", w.Say("debrief.unanswered-yet"),
	} {
		require.Contains(t, text, want)
	}
	require.Equal(t, strings.Count(text, "\n\n"), strings.Count(strings.TrimSpace(text), "\n\n"), "no heading without lines")
	title, text = Record(w, Snapshot{}, time.UTC)
	require.Equal(t, w.Say("debrief.no-case"), title)
	require.Empty(t, text)
}
