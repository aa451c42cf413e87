package integration

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/words"
)

// waysOut are the pages of a device outside, by the ids of their words.
func waysOut() []words.ID {
	return []words.ID{"window.page.brief", "window.page.door", "window.page.times", "window.page.debrief", "window.page.device", "window.page.requests"}
}

// goTo goes to a page by taps, by way of all pages where the bar has no way to
// it, and counts them.
func (w *window) goTo(p words.ID) (taps int) {
	w.t.Helper()
	say := words.English().Say
	x := w.awaitTarget(say(p), say("window.pages"))
	w.tapAt(x)
	if strings.HasPrefix(x.Name, say(p)) {
		return 1
	}
	w.tap(say(p))
	return 2
}

// Goal: any page is at most two taps away, on a phone as on a tablet, and each
// shows what was recorded. Method: two real windows of one unit with a case;
// real taps; every page says something of the case that only it says.
func TestEveryPageIsAFewTapsAwayInAWindow(t *testing.T) {
	lead, runner := twoWindows(t)
	lead.do("case")
	lead.tap("2 Tube 7.5")
	runner.tap(words.English().Say("runner.act.acknowledge"))
	for i, p := range waysOut() {
		taps := runner.goTo(p)
		require.LessOrEqual(t, taps, 2, "%s", p)
		runner.awaitTarget([]string{"A1", "goes in", "Pre-oxy", "figures", "who has it", "read back"}[i], "")
		t.Logf("phone: %s after %d taps", p, taps)
		runner.screen.picture("page-" + string(p[len("window.page."):]))
	}
}

// Goal: what calls reaches somebody who is on another page, and one tap leads to
// the list, where it is answered. Method: the runner is at the debrief while
// the lead asks.
func TestACallIsSeenOnAnotherPageAndOneTapFromItsAnswer(t *testing.T) {
	lead, runner := twoWindows(t)
	say := words.English().Say
	runner.goTo("window.page.debrief")
	lead.tap("2 Tube 7.5")
	runner.tap("A1: 1 × Tracheal tube")
	runner.tap(say("runner.act.acknowledge"))
	lead.awaitTarget("2 R1 is going", "")
}

// Goal: a patient who cannot wait is one tap from the list of rooms to the
// board. Method: a device inside shows the rooms; one tap; the board is there,
// and asks. How long that took is logged, not asserted: the machine may be busy.
func TestAPatientWhoCannotWaitIsOneTapFromTheBoard(t *testing.T) {
	lead, _ := twoWindows(t)
	say := words.English().Say
	lead.do("page brief")
	x := lead.awaitTarget(say("brief.hurry"), "")
	began := time.Now()
	lead.tapAt(x)
	taps := 1
	tube := lead.awaitTarget("2 Tube 7.5", "")
	t.Logf("from the rooms to the board: %d tap, %v", taps, time.Since(began).Round(time.Millisecond))
	lead.tapAt(tube)
	lead.awaitTarget(say("runner.open"), "")
	lead.screen.picture("hurried")
	require.Zero(t, lead.leave())
	p := launch(t, lead.name, nil, "-data", lead.dir, "-name", lead.name, "-role", lead.name, "-tag", tagOf(lead.name), "-room", "A1", "-listen", loopback).isReady()
	for _, r := range p.list("board all", "request") {
		require.Contains(t, r.raw, `"number":1032`, "nothing but the tube was asked for")
	}
	p.leave()
}
