package integration

import (
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// Sizes of a run with kills; LINTEL_KILLS and LINTEL_KILL_SEED choose another.
const (
	killsMin    = 14 // kills of one run
	needsMin    = 8  // requests of one run
	stepsOf     = 6  // of one request
	killLateMax = 4 * time.Millisecond
)

// needs are items of the invented stock.
func needs() []string {
	return []string{"1032", "2019", "4243", "1108", "4030", "1007", "2035", "5012"}
}

// drill plays requests while its devices are being killed.
type drill struct {
	*unit
	random *rand.Rand
	killed map[string]int
	saved  map[string]string // marks answered with saved:true, and the line
	refs   map[string]bool   // requests known to the drill
	late   int               // commands whose answer never came
	looked int               // of these: found on the board, not repeated
}

// fromEnv reads a number that a person may set.
func fromEnv(t *testing.T, name string, otherwise uint64) uint64 {
	text := os.Getenv(name)
	if text == "" {
		return otherwise
	}
	n, err := strconv.ParseUint(text, 10, 64)
	require.NoError(t, err, name)
	return n
}

// Goal: kill -9 of any process at any moment, and the loop completes; nothing
// that was answered as saved is missing anywhere; all devices end with one
// state, and every log is clean. Method: four real devices joined by code play
// requests; at moments drawn from a seed one of them is killed, before or during
// a command, and started again on its folder, with the same port or another. A
// command whose answer never came is repeated only if the board does not show
// it, as a person would.
func TestTheLoopCompletesAlthoughProcessesAreKilled(t *testing.T) {
	t.Parallel()
	seed := fromEnv(t, "LINTEL_KILL_SEED", uint64(time.Now().UnixNano()))
	kills := int(fromEnv(t, "LINTEL_KILLS", killsMin))
	t.Logf("LINTEL_KILL_SEED=%d LINTEL_KILLS=%d", seed, kills)
	d := &drill{
		unit: newUnit(t, "lead", "assistant", "runner", "charge"), random: rand.New(rand.NewPCG(seed, 1)),
		killed: map[string]int{}, saved: map[string]string{}, refs: map[string]bool{},
	}
	steps := max(needsMin, (kills+1)/2) * stepsOf
	when := map[int]bool{}
	for _, step := range d.random.Perm(steps)[:kills] {
		when[step] = true
	}
	for first := 0; first < steps; first += stepsOf {
		d.play(needs()[first/stepsOf%len(needs())], func(step int) bool { return when[first+step] })
	}
	d.settled(d.names...)
	for _, name := range d.names {
		open := d.at[name].list("board", "request")
		require.Empty(t, open, "%s still shows open requests", name)
		taken := 0
		for _, h := range d.at[name].list("board all", "request") {
			require.Equal(t, "taken-in", h.Shown, h.raw)
			taken++
		}
		require.Equal(t, steps/stepsOf, taken, "requests on %s", name)
	}
	d.leave()
	d.clean(d.names...)
	for _, name := range d.names {
		taps := d.taps(name)
		for mark, line := range d.saved {
			require.True(t, taps[mark], "%s lacks %q, which was answered as saved", name, line)
		}
	}
	t.Logf("killed %v; %d answers never came, of which %d were on the board", d.killed, d.late, d.looked)
}

// play brings one item through the whole loop.
func (d *drill) play(item string, kill func(step int) bool) {
	asker := []string{"lead", "assistant"}[d.random.IntN(2)]
	ref := d.ask(asker, item, kill(0))
	for i, s := range []struct {
		who, line     string
		before, after func(heard) bool
	}{
		{"runner", "going " + ref, atLeast("asked"), atLeast("acknowledged")},
		{"runner", "readback " + ref + " " + item + " x1", atLeast("acknowledged"), atLeast("in-hand")},
		{asker, "agree " + ref, atLeast("in-hand"), func(h heard) bool { return h.Loop == "closed" }},
		{"runner", "door " + ref, func(h heard) bool { return h.Loop == "closed" }, atLeast("at-door")},
		{asker, "take " + ref, atLeast("at-door"), atLeast("taken-in")},
	} {
		d.act(s.who, s.line, ref, kill(i+1), s.before, s.after)
	}
}

// atLeast tells whether a request got as far as a state.
func atLeast(shown string) func(heard) bool {
	steps := []string{"asked", "acknowledged", "in-hand", "at-door", "taken-in"}
	return func(h heard) bool { return slices.Index(steps, h.Shown) >= slices.Index(steps, shown) }
}

// ask asks, and looks at the board before it asks again.
func (d *drill) ask(who, item string, kill bool) string {
	for {
		if answer, ok := d.say(who, "ask "+item+" x1 now", kill); ok {
			d.refs[answer.Ref] = true
			return answer.Ref
		}
		kill = false
		for _, h := range d.at[who].list("board all", "request") {
			if !d.refs[h.Ref] {
				d.looked++
				d.refs[h.Ref] = true
				return h.Ref
			}
		}
	}
}

// act carries out one step, and looks at the board before it repeats it.
func (d *drill) act(who, line, ref string, kill bool, before, after func(heard) bool) {
	for repeated := false; ; repeated = true {
		for _, h := range d.at[who].list("board all", "request") {
			if h.Ref == ref && after(h) {
				d.looked++
				return
			}
		}
		d.await(who, "the step before "+line, ref, before)
		if _, ok := d.say(who, line, kill && !repeated); ok {
			return
		}
	}
}

// say gives a command; if asked to, it kills some device before or meanwhile.
// Whoever was killed is at work again when it returns.
func (d *drill) say(who, line string, kill bool) (answer heard, ok bool) {
	d.t.Helper()
	if !kill {
		return d.answered(who, line)
	}
	victim := d.names[d.random.IntN(len(d.names))]
	if d.random.IntN(2) == 0 {
		victim = who
	}
	d.killed[victim]++
	p, fired := d.at[victim], make(chan struct{})
	moment := time.Duration(d.random.Int64N(int64(killLateMax)))
	time.AfterFunc(moment, func() { // joined by the receive from fired below
		_ = p.command.Process.Kill()
		close(fired)
	})
	if d.random.IntN(2) == 0 {
		<-fired
		<-p.ended
		if victim == who { // whoever speaks is gone before saying anything
			d.revive(victim)
			return d.answered(who, line)
		}
	}
	answer, ok = d.answered(who, line)
	<-fired
	<-p.ended
	d.revive(victim)
	return answer, ok
}

// answered gives a command and keeps what was answered as saved.
func (d *drill) answered(who, line string) (heard, bool) {
	answer, _, ok := d.at[who].try(line)
	if !ok {
		d.late++
		return answer, false
	}
	require.Equal(d.t, "done", answer.Event, "%s: %q: %s", who, line, answer.raw)
	require.True(d.t, answer.Saved, "%s: %q: %s", who, line, answer.raw)
	d.saved[tapOf(answer.Mark)] = line
	return answer, true
}

// revive starts a killed device on its folder, with its port or another.
func (d *drill) revive(name string) {
	d.t.Helper()
	if d.random.IntN(2) == 0 {
		p := launch(d.t, name, nil, d.args(name, d.at[name].address, d.others(name)...)...)
		h := p.await("whether it is ready", 0, func(h heard) bool { return h.Event == "ready" || h.Event == "error" })
		if h.Event == "ready" {
			d.keep(p.isReady())
			return
		}
		<-p.ended // another process was given the port meanwhile
	}
	d.again(name)
}
