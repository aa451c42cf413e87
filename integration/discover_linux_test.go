package integration

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// findWithin bounds how long devices may take to find each other, and findGap is
// how often they are asked.
const (
	findWithin = 40 * time.Second
	findGap    = 500 * time.Millisecond
)

// foundPeer is what peers says of one device, as far as these tests read it.
type foundPeer struct {
	Name, Health, Address string
	Self                  bool
	Found                 []string
}

// ward is a unit whose devices run on hosts of their own, in the order of the
// hosts, all on the default port.
type ward struct {
	*unit
	hosts *hosts
}

// startAll starts every device on its host.
func (w *ward) startAll(names []string, peers ...string) {
	w.t.Helper()
	for i, name := range names {
		args := w.args(name, "", peers...)
		at := slices.Index(args, "-listen")
		p := launch(w.t, name, w.hosts.on(i+1), slices.Delete(args, at, at+2)...)
		w.keep(p)
	}
	for _, name := range names {
		w.at[name].isReady()
	}
}

// leaveAll ends every device.
func (w *ward) leaveAll() {
	w.t.Helper()
	for _, name := range w.names {
		require.Zero(w.t, w.at[name].leave(), name)
	}
}

// peers asks a device for all others.
func (w *ward) peers(name string) (out []foundPeer) {
	w.t.Helper()
	for _, h := range w.at[name].list("peers", "peer") {
		var p foundPeer
		require.NoError(w.t, json.Unmarshal([]byte(h.raw), &p))
		if !p.Self {
			out = append(out, p)
		}
	}
	return out
}

// allFound waits until every device is connected with every other and found it
// in this way; but may be found otherwise.
func (w *ward) allFound(way, but string) {
	w.t.Helper()
	for _, name := range w.names {
		var last []foundPeer
		ok := func() bool {
			last = w.peers(name)
			return len(last) == len(w.names)-1 && !slices.ContainsFunc(last, func(p foundPeer) bool {
				return p.Health != "connected" || !slices.Contains(p.Found, way) && p.Name != but && name != but
			})
		}
		require.Eventually(w.t, ok, findWithin, findGap, "%s: by %s: %+v", name, way, &last)
	}
}

// moveLead gives the first host another address, and waits until every other
// device has a link to it.
func (w *ward) moveLead(addr string) {
	w.t.Helper()
	for _, line := range []string{" addr del " + w.hosts.addr(1) + "/24 dev e0", " addr add " + addr + "/24 brd + dev e0"} {
		out, err := w.hosts.ip("-n " + w.hosts.space(1) + line)
		require.NoError(w.t, err, out)
	}
	for _, name := range w.names[1:] {
		var last []foundPeer
		require.Eventually(w.t, func() bool {
			last = w.peers(name)
			return slices.ContainsFunc(last, func(p foundPeer) bool {
				return p.Name == "lead" && p.Health == "connected" && p.Address == addr+":29460"
			})
		}, findWithin, findGap, "%s: %+v", name, &last)
	}
}

// newWard pairs devices on hosts of their own. Only the code is typed.
func newWard(t *testing.T, names ...string) *ward {
	t.Helper()
	w := &ward{hosts: newHosts(t, len(names)), unit: &unit{t: t, root: t.TempDir(), at: map[string]*process{}}}
	w.startAll(names)
	first := w.at[names[0]]
	first.do("found Anvil unit, invented")
	first.do("stock-demo")
	for _, name := range names[1:] {
		code := first.do("invite").Code
		require.Eventually(t, func() bool {
			answer, _, ok := w.at[name].try("join " + code)
			require.True(t, ok && (answer.Event == "done" || strings.HasPrefix(answer.Error, "No address is known")), answer.raw)
			return answer.Event == "done"
		}, findWithin, findGap, name)
	}
	return w
}

// Goal: devices find each other whatever the network lets through, and reach
// each other through one that both can reach. Method: five hosts on a switch,
// paired by code without an address; then all are started again: with broadcast
// filtered, with multicast filtered, with both filtered, the same without what
// was remembered but one typed address, and with all stations but one isolated
// from each other. What each device says how it found each other one; in the
// last, a request between two isolated stations. At the end nothing is filtered,
// and a device at work gets another address.
func TestDevicesFindEachOtherThroughAnyFilter(t *testing.T) {
	t.Parallel()
	w := newWard(t, "lead", "assistant", "runner", "runner2", "charge")
	names := slices.Clone(w.names)
	again := func(remember, multicast, broadcast, isolated bool, peers ...string) {
		t.Helper()
		w.leaveAll()
		if !remember {
			for _, name := range names {
				forget(t, w.dir(name))
			}
		}
		w.hosts.pass(multicast, broadcast, isolated)
		w.startAll(names, peers...)
	}
	again(false, true, false, false)
	w.allFound("mdns", "")
	again(false, false, true, false)
	w.allFound("beacon", "")
	again(true, false, false, false)
	w.allFound("remembered", "")
	again(false, false, false, false, w.hosts.addr(5)+":29460")
	w.allFound("told", "charge")
	again(false, true, true, true)
	w.bring("lead", "runner", "4243")
	w.settled(names...)
	for _, p := range w.peers("lead") {
		require.Equal(t, p.Name == "charge", p.Health == "connected", "%+v", p)
	}
	again(true, true, true, false)
	w.allFound("beacon", "")
	w.moveLead("10.77.0.99")
	w.leaveAll()
}
