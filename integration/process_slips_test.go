package integration

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Goal: what is mistyped is refused with a sentence, and what happened is recorded
// and said. Method: one real device: a number behind a refusal that names no
// alternative; a case that is taken back after something was asked for it.
func TestSlipsAreRefusedAndFactsAreRecorded(t *testing.T) {
	t.Parallel()
	u := newUnit(t, "lead")
	lead := u.at["lead"]
	opened := lead.do("case open A1 intubation")
	ref := lead.do("ask 1032 x1 next").Ref
	lead.do("readback " + ref + " 1032 x2")
	require.NotEmpty(t, lead.refused("refuse "+ref+" 9").Hint)
	require.NotEmpty(t, lead.refused("refuse "+ref+" 4").Hint)
	lead.do("refuse " + ref + " \"9\"")
	require.Contains(t, lead.do("undo "+opened.Ref).raw, `"apart":1`)
	require.True(t, lead.hasRequest(ref))
	require.Len(t, lead.list("audit", "finding"), 1)
}
