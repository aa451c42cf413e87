package integration

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/words"
)

// Goal: a key that is bound by pressing it once presses its place, wherever the
// focus is, and a scanner's burst that holds the same key presses nothing.
// Method: a real window; xdotool binds, scans within milliseconds, then presses
// the key alone, and a second window sees one request.
func TestABoundKeyAsksAndAScannersBurstDoesNot(t *testing.T) {
	lead, runner := twoWindows(t)
	say := words.English().Say
	press := func(args ...string) {
		out, err := lead.screen.tool("xdotool", append([]string{args[0], "--window", lead.id}, args[1:]...)...)
		require.NoError(t, err, out)
	}
	out, err := lead.screen.tool("xdotool", "windowfocus", "--sync", lead.id)
	require.NoError(t, err, out)
	lead.do("page keys")
	lead.tap("2 Tube")
	press("key", "x")
	lead.awaitTarget("x 2 Tube", "")
	lead.screen.picture("keys")
	lead.do("page board")
	lead.awaitTarget("2 Tube 7.5", "")
	press("type", "--delay", "4", "0109506000134352x10AB")
	press("key", "Return")
	press("type", "--delay", "4", "0109506000134352x10AB\n")
	lead.awaitTarget("2 Tube 7.5", "")
	lead.screen.picture("scanned")
	press("key", "x")
	runner.tap(say("runner.act.acknowledge"))
	runner.awaitTarget(say("runner.act.read-back"), "")
	for _, x := range runner.targets() {
		require.NotEqual(t, "1/2", x.Name, "the label asked for something as well")
	}
}
