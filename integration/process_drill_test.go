package integration

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Goal: an exercise cuts the link of those inside its room and of nobody else, and
// "this is real" ends that everywhere at once, whoever says it. Method: real
// devices; the charge nurse gives the inject, the lead asks and reaches nobody
// while the two outside still hear each other; then the exercise ends from
// outside, and the request arrives without anybody dialling.
func TestAnExerciseCutsTheLinkUntilItIsReal(t *testing.T) {
	t.Parallel()
	u := newUnit(t, "lead", "runner", "charge")
	lead, runner, charge := u.at["lead"], u.at["runner"], u.at["charge"]
	lead.do("case open A1 intubation")
	charge.await("the case", 0, func(h heard) bool { return h.Event == "fact" })
	charge.do("drill start A1 monthly")
	from := lead.said()
	charge.do("inject cut-link room A1")
	for _, other := range []*process{runner, charge} {
		lead.await("that the link is down", from, func(h heard) bool {
			return h.Event == "link" && h.Device == other.device && h.Health == "not-connected"
		})
	}
	beside := charge.do("ask 1108 x1 now room A1").Ref
	u.shownAs("runner", beside, "asked")
	ref := lead.do("ask 1032 x1 now").Ref
	require.False(t, lead.hasRequest(beside), "it is cut off")
	require.False(t, runner.hasRequest(ref))
	lead.await("that it is not reached", 0, func(h heard) bool { return h.Ref == ref && strings.Contains(h.raw, `"not_reached":true`) })
	charge.do("real room A1")
	u.shownAs("runner", ref, "asked")
	u.shownAs("lead", beside, "asked")
	u.settled("lead", "runner", "charge")
}
