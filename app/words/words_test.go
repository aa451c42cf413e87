package words

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/kits"
)

// TestEverySentenceIsFitToBeSaid goes through the whole table: no empty
// sentence, no blank that is not a number, and for every fault a hint.
func TestEverySentenceIsFitToBeSaid(t *testing.T) {
	w := English()
	blank := regexp.MustCompile(`^\{[1-9]\}$`)
	require.NotEmpty(t, w.IDs())
	for _, id := range w.IDs() {
		require.NotEmpty(t, w.said[id], id)
		for _, b := range regexp.MustCompile(`\{[^}]*\}?`).FindAllString(w.said[id], -1) {
			require.Regexp(t, blank, b, id)
		}
		if rest, is := strings.CutPrefix(string(id), "fault."); is {
			require.True(t, w.Has("hint."+ID(rest)), "no hint for %s", id)
		}
	}
}

// TestBlanksAreFilledInAnyOrder says a sentence with numbers, and one that uses
// not all of them; an id without a sentence is said as it is.
func TestBlanksAreFilledInAnyOrder(t *testing.T) {
	w := Words{said: map[ID]string{"a": "{2} of {1}", "b.one": "1 line", "b.many": "{1} lines"}}
	require.Equal(t, "2 of {1}x", w.Say("a", "{1}x", 2), "a blank's own text is not filled again")
	require.Equal(t, "1 line", w.Count("b", 1))
	require.Equal(t, "0 lines", w.Count("b", 0))
	require.Equal(t, " of 1", w.Say("a", 1), "a blank that nobody can fill is left out")
	require.Equal(t, "none", w.Say("none", 1))
}

// TestEveryFindingOfTheLedgerHasASentence names them all.
func TestEveryFindingOfTheLedgerHasASentence(t *testing.T) {
	w := English()
	for _, f := range []kits.FindingID{
		kits.BelowZero, kits.EndedDifferently, kits.EndMisfits, kits.EndedReversed, kits.TakenMore, kits.ReversalDiffers,
		kits.NamesUnknown, kits.NamesWrong, kits.Unwitnessed, kits.WitnessDiffers, kits.CountBeside, kits.SealTwice, kits.SealDiffers,
		kits.KitUnchecked, kits.KitUnsealed, kits.KitLotExpired, kits.KitHeldBack, kits.KitIncomplete, kits.SealLate, kits.BoxUnsealed, kits.BoxTwice, kits.ShutUnsaid,
		kits.UnknownItem, kits.SyringeMismatch, kits.SyringeUnchecked, kits.ShortIssue, kits.OverIssue, kits.IssueDisputed,
		kits.IssueUnmeasured, kits.Malformed, kits.NotConserved,
	} {
		require.True(t, w.Has(FindingID(f)), f)
	}
}
