package kits

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Goal: a written case that makes no sense is refused with its id and the event,
// and nothing of it is guessed; the same bounds hold for figures at their limit.
// Method: hand-made cases, one slip each.
func TestWrittenCasesThatMakeNoSenseSayWhere(t *testing.T) {
	for text, want := range map[string]string{
		`{"id":"a","events":[["issue",-5,"r","a"]]}`:                                          "case a, event 0: amount -5",
		`{"id":"b","events":[["issue",100,"r"],["give",9223372036854775807,"a"]]}`:            "case b, event 1: amount 9223372036854775807",
		`{"id":"c","events":[["issue",99999999999999999999999,"r"]]}`:                         "case c, event 0: 99999999999999999999999 cannot be its whole amount",
		`{"id":"d","events":[["issue",0.5,"r"]]}`:                                             "case d, event 0: 0.5 cannot be its whole amount",
		`{"id":"e","events":[["issue"]]}`:                                                     `case e, event 0: "issue" without an amount`,
		`{"id":"f","events":[["issue",100,"r"],["reverse_of",null,"a"]]}`:                     `case f, event 1: "reverse_of" without an amount`,
		`{"id":"g","measure":"furlong","events":[["issue",100,"r"]]}`:                         `case g: "furlong" is no measure`,
		`{"id":"h","events":[["issue",100,"r"],["eat",100,"a"]]}`:                             `case h, event 1: "eat" is no event`,
		`{"id":"i","register_balance":{"start":-9223372036854775808},"events":[["issue",1]]}`: "case i: the register cannot start with -9223372036854775808",
	} {
		cases, err := ReadRecon([]byte(text))
		if err == nil {
			_, err = Recon(cases[0])
		}
		require.ErrorIs(t, err, ErrRecon, text)
		require.ErrorContains(t, err, want)
	}
}

// Goal: the greatest case that is taken adds up without overflow, in its own
// measure. Method: as many events of the greatest amount as a case may have, all
// issued; then two ends of one hand-over that contradict each other.
func TestWrittenCasesAtTheirBoundsAddUp(t *testing.T) {
	c := ReconCase{ID: "most", Measure: "micromole"}
	for range ReconEventsMax {
		c.Events = append(c.Events, ReconEvent{Word: "issue", Amount: QuantityMax})
	}
	got, err := Recon(c)
	require.NoError(t, err)
	require.EqualValues(t, int64(ReconEventsMax)*QuantityMax, got.Residual)
	require.Equal(t, "micromole", got.Measure)
	cases, err := ReadRecon([]byte(`{"id":"ends","events":[["issue_pending",200,"r"],["post",200,"a"],["void",null,"r"]]}`))
	require.NoError(t, err)
	got, err = Recon(cases[0])
	require.NoError(t, err)
	require.Equal(t, IssueConflict, got.State)
	require.EqualValues(t, 200, got.Residual, "it stays at the door, and is neither given nor back")
}
