package integration

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/words"
)

// Goal: a person's keys are typed into a line, a scanner's are not, though the line
// has the keyboard. Method: a real window; xdotool types half a word at a person's
// pace, then, when hands have left the keys, a label within milliseconds, which the page
// says that it does not know, then the other half: the line holds the word.
func TestALineIsTypedIntoByPeopleAndNotByScanners(t *testing.T) {
	_, desk := twoWindows(t)
	say := words.English().Say
	desk.goTo("window.page.stock")
	desk.tap(say("charge.acts"))
	desk.choose(say("charge.to.catalogue"))
	desk.tap(say("charge.search"))
	keys := func(delay, text string) {
		out, err := desk.screen.tool("xdotool", "sleep", "0.4", "type", "--window", desk.id, "--delay", delay, text)
		require.NoError(t, err, out)
	}
	keys("120", "keta")
	desk.awaitTarget("keta", "")
	keys("4", "0109506000134352\n")
	keys("120", "mine")
	require.Equal(t, "ketamine", desk.awaitTarget("ketamine", "").Name)
	desk.screen.picture("typed")
}
