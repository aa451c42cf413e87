package integration

import (
	"math/rand/v2"
	"os"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/words"
)

// twoWindows is a lead's tablet and a runner's phone in one unit, beside each
// other on one screen.
func twoWindows(t *testing.T) (lead, runner *window) {
	t.Helper()
	path := needsWindow(t)
	s := newScreen(t, 1500, 800)
	lead = openWindow(t, s, path, "lead", 10, 1024, 690)
	lead.do("found Anvil unit, invented")
	lead.do("stock")
	runner = openWindow(t, s, path, "runner", 1060, 420, 690)
	runner.do("join " + lead.do("invite").Code + " " + lead.address)
	return lead, runner
}

// Goal: two people close the loop with nothing but taps in two real windows.
// Method: real taps by xdotool on a display of its own, each where the window
// says that its words are; then both folders are read from outside.
func TestTheLoopClosesByTapsInTwoWindows(t *testing.T) {
	lead, runner := twoWindows(t)
	say := words.English().Say
	lead.tap("2 Tube 7.5")
	runner.tap(say("runner.act.acknowledge"))
	runner.tap(say("runner.act.read-back"))
	lead.screen.picture("readback")
	runner.tapBeside("7.5", "1")
	lead.tap(say("inside.answer"))
	lead.tap(say("act.agree"))
	runner.tap(say("runner.act.put-at-door"))
	runner.tap("A1")
	lead.tap(say("act.take-in"))
	lead.screen.picture("taken-in")
	for _, w := range []*window{lead, runner} {
		require.Zero(t, w.leave(), "%s: %s", w.name, w.stderr.String())
		r := run(t, "audit", "-json", w.dir)
		require.Zero(t, r.code, "%s: %s", w.name, r.stdout)
		p := launch(t, w.name, nil, "-data", w.dir, "-name", w.name, "-role", w.name, "-tag", tagOf(w.name), "-room", "A1", "-listen", loopback).isReady()
		all := p.list("board all", "request")
		require.Len(t, all, 1, "%s", w.name)
		require.Equal(t, "taken-in", all[0].Shown, all[0].raw)
		require.Equal(t, "closed", all[0].Loop, all[0].raw)
		p.leave()
	}
}

// Goal: two devices that belong to nobody become a unit, and people say who has
// them, by taps and typing alone. Method: one founds, the other types address
// and code; only the code is asked of the first device by a line, for it stands
// on no target. Then each shows
// its screen.
func TestTwoNewDevicesBecomeAUnitByTaps(t *testing.T) {
	path := needsWindow(t)
	s := newScreen(t, 1500, 800)
	say := words.English().Say
	desk := openBare(t, s, path, "desk", 10, 1024, 690)
	desk.tap(say("join.found-unit"))
	desk.tap(say("join.name-hint"))
	desk.types("Ward 7")
	desk.tap(say("join.found"))
	phone := openBare(t, s, path, "phone", 1060, 420, 690)
	phone.tap(say("join.join-unit"))
	phone.tap(say("join.type"))
	phone.tap(say("join.address-hint"))
	phone.types(desk.address)
	phone.tap(say("join.on"))
	code := desk.do("invite").Code
	for _, digit := range code {
		phone.tap(string(digit))
	}
	phone.tap(say("keys.done-short"))
	s.picture("joined")
	for w, who := range map[*window][2]string{desk: {"Airway lead", "L1"}, phone: {"Runner", "R1"}} {
		w.tap(say("join.who"))
		w.choose(who[0])
		w.choose(who[1])
		w.choose(say("join.every-room"))
		w.choose(say("join.take"))
	}
	desk.tap("2 Tube 7.5")
	desk.tap(say("window.pages"))
	desk.tap(say("window.page.device"))
	desk.tap(say("window.page.board"))
	desk.awaitTarget("2 Tube 7.5", "")
	phone.goTo("window.page.device")
	phone.goTo("window.page.requests")
	s.picture("new-unit")
}

// randomTaps is how many taps nobody thought about.
const randomTaps = 200

// Goal: no tap ends a window or writes something that does not add up, but for
// taking more than there is. Method: taps on random targets of both windows;
// the seed is printed.
func TestRandomTapsLeaveBothWindowsAndTheLedgerWell(t *testing.T) {
	lead, runner := twoWindows(t)
	seed := uint64(time.Now().UnixNano())
	if given, err := strconv.ParseUint(os.Getenv("LINTEL_SEED"), 10, 64); err == nil {
		seed = given
	}
	t.Logf("seed %d; LINTEL_SEED takes it again", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	both := []*window{lead, runner}
	for range randomTaps {
		w := both[random.IntN(len(both))]
		all := w.targets()
		require.NotEmpty(t, all, "%s has nothing to tap", w.name)
		w.tapAt(all[random.IntN(len(all))])
	}
	lead.screen.picture("random")
	for _, w := range both {
		require.NotEmpty(t, w.targets())
	}
	for _, w := range both {
		for _, h := range readLines(t, run(t, "audit", "-json", w.dir).stdout) {
			require.False(t, h.Event == "finding" && h.Finding != "below-zero", "%s: %s", w.name, h.raw)
		}
	}
}
