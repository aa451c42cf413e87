package integration

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// hosts are network namespaces on one switch, which is a bridge in a namespace
// of its own. Nothing of it touches the machine's own network.
type hosts struct {
	t     *testing.T
	name  string // what all their namespaces begin with
	count int
}

// newHosts makes a switch with hosts 1 to count, or leaves the test out where
// the machine does not let it.
func newHosts(t *testing.T, count int) *hosts {
	t.Helper()
	if os.Geteuid() != 0 {
		t.Skip("hosts of their own need root")
	}
	h := &hosts{t: t, name: fmt.Sprintf("lintel-%d-%s", os.Getpid(), strings.ToLower(t.Name()[len("Test"):len("Test")+8])), count: count}
	t.Cleanup(func() {
		for i := range count + 1 {
			_ = exec.Command("ip", "netns", "del", h.space(i)).Run() // it may not have been made
		}
	})
	lines := []string{
		"netns add " + h.space(0), "-n " + h.space(0) + " link add br0 type bridge mcast_snooping 0",
		"-n " + h.space(0) + " link set br0 up",
	}
	for i := 1; i <= count; i++ {
		in, on := "-n "+h.space(i)+" ", "-n "+h.space(0)+" "
		lines = append(lines,
			"netns add "+h.space(i),
			fmt.Sprintf("link add e0 address %s netns %s type veth peer name p%d netns %s", card(i), h.space(i), i, h.space(0)),
			on+fmt.Sprintf("link set p%d master br0", i), on+fmt.Sprintf("link set p%d up", i),
			in+"link set lo up", in+"addr add "+h.addr(i)+"/24 brd + dev e0", in+"link set e0 up",
		)
		if i%2 == 1 { // the others have no way to anywhere else: then only IPv6 lets a library ask by multicast
			lines = append(lines, in+"route add default dev e0")
		}
	}
	for i := 1; i <= count; i++ {
		for j := 1; j <= count; j++ {
			if i != j { // so that unicast needs no broadcast
				lines = append(lines, fmt.Sprintf("-n %s neigh add %s lladdr %s dev e0 nud permanent", h.space(i), h.addr(j), card(j)))
			}
		}
	}
	for _, line := range lines {
		if out, err := h.ip(line); err != nil {
			t.Skipf("no hosts of their own on this machine: ip %s: %v: %s", line, err, out)
		}
	}
	return h
}

// space is the namespace of a host, 0 that of the switch.
func (h *hosts) space(i int) string { return fmt.Sprintf("%s-%d", h.name, i) }

// addr is a host's address.
func (h *hosts) addr(i int) string { return fmt.Sprintf("10.77.0.%d", i) }

// card is the hardware address of a host's network card.
func card(i int) string { return fmt.Sprintf("02:00:00:00:77:%02x", i) }

func (h *hosts) ip(line string) (string, error) {
	out, err := exec.Command("ip", strings.Fields(line)...).CombinedOutput()
	return strings.TrimSpace(string(out)), err
}

// pass says what the switch passes on to all ports: multicast, broadcast, and
// whether all hosts but the last can only talk to the last.
func (h *hosts) pass(multicast, broadcast, isolated bool) {
	h.t.Helper()
	word := map[bool]string{true: "on", false: "off"}
	for i := 1; i <= h.count; i++ {
		line := fmt.Sprintf("-n %s link set p%d type bridge_slave mcast_flood %s bcast_flood %s isolated %s",
			h.space(0), i, word[multicast], word[broadcast], word[isolated && i < h.count])
		if out, err := h.ip(line); err != nil {
			h.t.Skipf("the switch of this machine cannot filter: ip %s: %v: %s", line, err, out)
		}
	}
}

// on is what comes before a command to run it on a host.
func (h *hosts) on(i int) []string { return []string{"ip", "netns", "exec", h.space(i)} }

// forget takes the remembered addresses from a device that does not run.
func forget(t *testing.T, dir string) {
	t.Helper()
	path := filepath.Join(dir, "device.json")
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	kept := map[string]any{}
	require.NoError(t, json.Unmarshal(b, &kept))
	delete(kept, "peers")
	b, err = json.Marshal(kept)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, b, 0o600))
}
