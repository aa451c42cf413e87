package integration

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// hasRequest tells whether a device's board, finished ones too, has a request.
func (p *process) hasRequest(ref string) bool {
	p.t.Helper()
	for _, h := range p.list("board all", "request") {
		if h.Ref == ref {
			return true
		}
	}
	return false
}

// isUnreachable waits until a device says that it cannot reach an address.
func (p *process) isUnreachable(address string) heard {
	p.t.Helper()
	return p.await("that "+address+" cannot be reached", 0, func(h heard) bool { return h.Note == "unreachable" && h.Address == address })
}

// Goal: a device that was not admitted reads nothing and writes nothing, whoever
// dials. Method: a device with a unit of its own and one without dial a member,
// and the member dials the first; each says why it fails; both states stay apart.
func TestAStrangerReadsAndWritesNothing(t *testing.T) {
	t.Parallel()
	u := newUnit(t, "lead", "runner")
	lead := u.at["lead"]
	ref := u.bring("lead", "runner", "1032")
	before := u.settled("lead", "runner")

	args := append(u.args("assistant", loopback), "-peer", lead.address)
	alone := launch(t, "without a unit", nil, args...).isReady()
	alone.refused("board")
	own := u.args("charge", loopback)
	own[1] = filepath.Join(u.root, "own")
	other := launch(t, "of another unit", nil, own...).isReady()
	other.do("found Another unit, invented")
	other.do("dial " + lead.address)
	require.NotContains(t, other.isUnreachable(lead.address).Text, lead.device[:8])
	lead.do("dial " + other.address)
	lead.isUnreachable(other.address)
	theirs := other.do("ask 1032 x1 now")

	require.False(t, other.hasRequest(ref))
	require.False(t, lead.hasRequest(theirs.Ref))
	require.Zero(t, theirs.Copies)
	require.Len(t, other.list("peers", "peer"), 1)
	require.Len(t, lead.list("peers", "peer"), 2)
	require.Equal(t, before, u.settled("lead", "runner"))
	alone.refused("board")
	require.Zero(t, other.leave())
	require.Zero(t, alone.leave())
	u.leave()
	u.clean(u.names...)
}

// Goal: a removal that two members wrote takes effect: what the device wrote
// before stays, what it writes later counts nowhere, and it is talked to no
// more. Method: two of four remove the third, which asks before and after and
// then dials everybody again.
func TestARemovedDeviceCountsNoMore(t *testing.T) {
	t.Parallel()
	u := newUnit(t, "lead", "runner", "charge", "assistant")
	gone := u.at["assistant"]
	before := gone.do("ask 1032 x1 now")
	for _, name := range []string{"lead", "runner", "charge"} {
		u.shownAs(name, before.Ref, "asked")
	}
	u.at["lead"].do("remove " + gone.device + " invented reason")
	u.at["charge"].do("remove " + gone.device)
	rest := []string{"lead", "runner", "charge"}
	for _, name := range rest {
		u.at[name].await("that it left", 0, func(h heard) bool { return h.Event == "left" && h.Device == gone.device })
	}
	after := gone.do("ask 2019 x1 now")
	require.True(t, after.Saved, "it still records on its own")
	require.Zero(t, gone.leave())
	gone = u.again("assistant")
	for _, name := range rest {
		gone.isUnreachable(u.at[name].address)
	}

	u.bring("lead", "runner", "4243")
	u.settled(rest...)
	for _, name := range rest {
		require.True(t, u.at[name].hasRequest(before.Ref))
		require.False(t, u.at[name].hasRequest(after.Ref), "%s folded an entry of a removed device", name)
		for _, h := range u.at[name].list("peers", "peer") {
			require.Equal(t, h.Device == gone.device, h.Status == "removed", h.raw)
		}
	}
	u.leave()
	require.True(t, u.taps("assistant")[tapOf(after.Mark)], "what it recorded is kept there")
}

// Goal: what a device recorded before it belonged to a unit is in the unit that
// it joins. Method: ask on a fresh device, which says that it is alone; join;
// the others have the request and bring it.
func TestWhatWasAskedAloneIsBroughtAfterJoining(t *testing.T) {
	t.Parallel()
	u := newUnit(t, "lead", "runner")
	p := u.start("assistant")
	answer := p.do("ask 1032 x2 now")
	require.True(t, answer.Saved)
	p.await("that it is alone", 0, func(h heard) bool { return h.Note == "alone" })
	p.kill()
	p = u.again("assistant")
	require.True(t, p.hasRequest(answer.Ref))
	u.join(p, u.at["lead"])
	u.shownAs("runner", answer.Ref, "asked")
	u.at["runner"].do("going " + answer.Ref)
	u.shownAs("assistant", answer.Ref, "acknowledged")
	u.settled(u.names...)
	u.leave()
	u.clean("lead", "runner")
}

// otherCode is a code that differs from the right one and whose check digit fits.
func otherCode(t *testing.T, code string) string {
	t.Helper()
	require.Len(t, code, 7)
	for _, last := range "0123456789" {
		first := string('0' + (code[0]-'0'+1)%10)
		if c := first + code[1:6] + string(last); fitsDamm(c) {
			return c
		}
	}
	t.Fatal("no check digit fits")
	return ""
}

// Goal: a wrong code costs a try, a mistyped one none; two wrong ones end the
// code, five within ten minutes close pairing, which a restart does not open.
// Method: type codes from a second device and from a third.
func TestWrongCodesEndTheCodeAndThenPairing(t *testing.T) {
	t.Parallel()
	u := newUnit(t, "lead")
	lead, p := u.at["lead"], u.start("runner")
	p.refused("join")
	p.refused("join 1234567 " + lead.address)
	wrong := 0
	for range 2 {
		code := lead.do("invite").Code
		mistyped := code[:6] + string('0'+(code[6]-'0'+1)%10)
		require.Contains(t, p.refused("join "+mistyped+" "+lead.address).Error, "mistyped")
		for range 2 {
			require.Contains(t, p.refused("join "+otherCode(t, code)+" "+lead.address).Error, "wrong")
			wrong++
		}
		p.refused("join " + code + " " + lead.address)
	}
	require.Equal(t, 4, wrong)
	p.refused("join " + otherCode(t, lead.do("invite").Code) + " " + lead.address)
	lead.await("that pairing is closed", 0, func(h heard) bool { return h.Note == "pairing-closed" })
	require.Contains(t, lead.refused("invite").Error, "closed")
	lead.kill()
	require.Contains(t, u.again("lead").refused("invite").Error, "closed")
	require.Len(t, u.at["lead"].list("peers", "peer"), 1)
}

// Goal: what cannot work is said in one sentence with a hint, on the error
// output and as a JSON line, with the exit code that tells a wrong use from a
// failure, and spoils nothing. Method: each bad start beside a device at work.
func TestABadStartSaysWhyAndWhatToDo(t *testing.T) {
	t.Parallel()
	u := newUnit(t, "lead")
	busy := u.at["lead"]
	for _, c := range []struct {
		name, says string
		code       int
		args       []string
	}{
		{"port in use", "port", 1, u.args("runner", busy.address)},
		{"folder in use", "in use", 1, u.args("lead", loopback)},
		{"no folder", "folder", 1, append(u.args("runner", loopback), "-data", filepath.Join(u.dir("lead"), "device.json"))},
		{"unknown role", "role", 2, append(u.args("runner", loopback), "-role", "porter")},
		{"unknown option", "option", 2, append(u.args("runner", loopback), "-colour", "red")},
		{"no address", "address", 2, append(u.args("runner", loopback), "-peer", "nowhere")},
		{"no port", "listen", 1, u.args("runner", "192.0.2.1:0")},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := run(t, append([]string{"device", "-json"}, c.args...)...)
			require.Equal(t, c.code, r.code, r.stderr)
			lines := strings.Split(strings.TrimSpace(r.stderr), "\n")
			require.Len(t, lines, 2, r.stderr)
			require.Contains(t, strings.ToLower(lines[0]), c.says)
			require.NotEmpty(t, strings.TrimSpace(lines[1]), "no hint")
			if r.stdout != "" {
				said := readLines(t, r.stdout)
				require.Equal(t, "error", said[len(said)-1].Event, r.stdout)
			}
		})
	}
	busy.refused("ask 1032 x0 now")
	require.True(t, busy.do("ask 1032 x1 now").Saved, "it goes on")
	u.leave()
	u.clean("lead")
}
