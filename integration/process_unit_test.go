package integration

import (
	"cmp"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// unit is some devices of one unit on this machine, each a process with a folder.
type unit struct {
	t     *testing.T
	root  string
	names []string // in the order of coming in
	at    map[string]*process
}

// tagOf is who holds a device. The device's name is the role, and a number where
// there are several.
func tagOf(name string) string {
	role := strings.TrimRight(name, "0123456789")
	letter := map[string]string{"lead": "L", "assistant": "D", "runner": "R", "charge": "C"}[role]
	return letter + cmp.Or(name[len(role):], "1")
}

// newUnit founds a unit with stock on the first device and lets the others in by
// code. Every device dials all that came before it.
func newUnit(t *testing.T, names ...string) *unit {
	t.Helper()
	u := &unit{t: t, root: t.TempDir(), at: map[string]*process{}}
	for _, name := range names {
		p := u.start(name)
		if len(u.names) == 1 {
			p.do("found Anvil unit, invented")
			p.do("stock-demo")
			continue
		}
		u.join(p, u.at[names[0]])
		for _, earlier := range u.names[1 : len(u.names)-1] {
			p.do("dial " + u.at[earlier].address)
		}
	}
	return u
}

// dir is a device's folder.
func (u *unit) dir(name string) string { return filepath.Join(u.root, name) }

// args are how a device is started.
func (u *unit) args(name, listen string, peers ...string) []string {
	args := []string{"-data", u.dir(name), "-name", name, "-role", strings.TrimRight(name, "0123456789"), "-tag", tagOf(name), "-room", "A1", "-listen", listen}
	for _, p := range peers {
		args = append(args, "-peer", p)
	}
	return args
}

// loopback is any free port.
const loopback = "127.0.0.1:0"

// start starts a device with a new port.
func (u *unit) start(name string, peers ...string) *process {
	u.t.Helper()
	return u.keep(launch(u.t, name, nil, u.args(name, loopback, peers...)...).isReady())
}

// keep notes a device that runs now.
func (u *unit) keep(p *process) *process {
	if !slices.Contains(u.names, p.name) {
		u.names = append(u.names, p.name)
	}
	u.at[p.name] = p
	return p
}

// others are the addresses of all devices but one.
func (u *unit) others(name string) (out []string) {
	for _, n := range u.names {
		if n != name {
			out = append(out, u.at[n].address)
		}
	}
	return out
}

// again starts a device that has ended, with a new port, so that it must dial.
func (u *unit) again(name string) *process {
	u.t.Helper()
	return u.start(name, u.others(name)...)
}

// join lets a device in by a code.
func (u *unit) join(p, by *process) {
	u.t.Helper()
	p.do("join " + by.do("invite").Code + " " + by.address)
}

// shownAs waits until a device shows a request in a state.
func (u *unit) shownAs(name, ref, shown string) heard {
	u.t.Helper()
	return u.await(name, shown, ref, func(h heard) bool { return h.Shown == shown })
}

// bring plays one closed loop between two devices.
func (u *unit) bring(inside, outside, item string) (ref string) {
	u.t.Helper()
	ref = u.at[inside].do("ask " + item + " x1 now").Ref
	u.shownAs(outside, ref, "asked")
	u.at[outside].do("going " + ref)
	u.at[outside].do("readback " + ref + " " + item + " x1")
	u.shownAs(inside, ref, "in-hand")
	u.at[inside].do("agree " + ref)
	u.await(outside, "the closed loop", ref, func(h heard) bool { return h.Loop == "closed" })
	u.at[outside].do("door " + ref)
	u.shownAs(inside, ref, "at-door")
	u.at[inside].do("take " + ref)
	u.shownAs(outside, ref, "taken-in")
	return ref
}

// Bounds of waiting for the same state everywhere.
const (
	settleWithin = 25 * time.Second
	settleGap    = 50 * time.Millisecond
)

// settled waits until all named devices have the same state, and gives its hash.
func (u *unit) settled(names ...string) string {
	u.t.Helper()
	for late := time.After(settleWithin); ; {
		var hashes []string
		for _, name := range names {
			hashes = append(hashes, u.at[name].do("hash").Hash)
		}
		if len(slices.Compact(slices.Clone(hashes))) == 1 {
			return hashes[0]
		}
		select {
		case <-late:
			u.tell()
			u.t.Fatalf("the devices %v never had the same state: %v", names, hashes)
		case <-time.After(settleGap):
		}
	}
}

// await waits for a line about a request.
func (u *unit) await(name, what, ref string, fits func(heard) bool) heard {
	u.t.Helper()
	h, at := u.at[name].find(0, func(h heard) bool { return h.Event == "request" && h.Ref == ref && fits(h) })
	if at < 0 {
		u.tell()
		u.t.Fatalf("%s did not show %s of %s", name, what, ref)
	}
	return h
}

// tell logs how the devices stand, for whoever looks for the cause of a failure.
func (u *unit) tell() {
	for _, name := range u.names {
		p := u.at[name]
		for _, line := range []string{"hash", "peers", "board all"} {
			answer, listed, _ := p.try(line)
			for _, h := range append(listed, answer) {
				u.t.Logf("%s %s: %s", name, p.address, h.raw)
			}
		}
	}
}

// leave ends all devices as people do.
func (u *unit) leave() {
	u.t.Helper()
	for _, name := range u.names {
		require.Zero(u.t, u.at[name].leave(), "%s: %s", name, u.at[name].stderr.String())
	}
}

// clean wants an audit without findings of every device's folder, and one state.
func (u *unit) clean(names ...string) {
	u.t.Helper()
	states := map[string]bool{}
	for _, name := range names {
		r := run(u.t, "audit", "-json", u.dir(name))
		require.Zero(u.t, r.code, "%s: %s%s", name, r.stdout, r.stderr)
		current := false // a unit that the device left has a log of its own
		for _, h := range readLines(u.t, r.stdout) {
			switch {
			case h.Event == "log":
				current = h.Current
			case h.Event == "state" && current:
				states[h.Hash] = true
			}
		}
	}
	require.Len(u.t, states, 1, "the folders hold different states")
}

// taps are the names of the entries in a device's folder: device and tap, as a
// mark's name begins.
func (u *unit) taps(name string) map[string]bool {
	u.t.Helper()
	r := run(u.t, "replay", "-json", u.dir(name))
	require.Zero(u.t, r.code, r.stderr)
	out := map[string]bool{}
	for _, h := range readLines(u.t, r.stdout) {
		if h.Event == "entry" {
			out[h.Device+h.Tap] = true
		}
	}
	return out
}

// tapDigits are a device's id and a tap, as a mark's name begins.
const tapDigits = 2 * (32 + 8)

// tapOf names the entry that a mark stands in, as taps does.
func tapOf(mark string) string { return mark[:tapDigits] }
