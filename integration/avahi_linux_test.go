package integration

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os/exec"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// responderScript starts a message bus and the system's usual mDNS responder
// with a /run of their own, which a namespace made by ip has for itself.
const responderScript = `set -e
mount -t tmpfs tmpfs /run
mkdir -p /run/dbus /run/avahi-daemon
dbus-daemon --system --nofork --nopidfile &
for i in 1 2 3 4 5 6 7 8 9 10; do [ -S /run/dbus/system_bus_socket ] || sleep 0.2; done
exec avahi-daemon --no-drop-root --no-rlimits --no-chroot --file /dev/stdin <<CONF
[server]
host-name=$1
use-ipv6=no
[publish]
publish-workstation=no
CONF
`

// responder is avahi at work on one host.
type responder struct {
	t       *testing.T
	command *exec.Cmd
	said    bytes.Buffer
}

// newResponder starts avahi on a host under a name, or leaves the test out where
// it cannot be started.
func newResponder(t *testing.T, h *hosts, host int, name string) *responder {
	t.Helper()
	for _, tool := range []string{"avahi-daemon", "avahi-browse", "avahi-publish", "dbus-daemon", "nsenter", "stdbuf"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skipf("%s is not installed (Debian: avahi-daemon avahi-utils dbus-daemon)", tool)
		}
	}
	args := append(h.on(host), "sh", "-c", responderScript, "sh", name)
	r := &responder{t: t, command: exec.Command(args[0], args[1:]...)}
	r.command.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} // so that the bus ends with it
	r.command.Stdout, r.command.Stderr = &r.said, &r.said
	require.NoError(t, r.command.Start())
	t.Cleanup(func() {
		_ = syscall.Kill(-r.command.Process.Pid, syscall.SIGKILL) // its own group; it may have ended
		_ = r.command.Wait()
	})
	again := time.NewTicker(findGap)
	defer again.Stop()
	for late := time.Now().Add(findWithin); ; <-again.C {
		out, err := r.run("avahi-resolve-host-name", "-4", name+".local")
		if err == nil && strings.Contains(out, h.addr(host)) {
			return r
		}
		if time.Now().After(late) {
			t.Skipf("avahi does not start here: %v: %s", err, out)
		}
	}
}

// runFor bounds one question to avahi; it gives up by itself after some seconds.
const runFor = 15 * time.Second

// run runs a program beside avahi.
func (r *responder) run(args ...string) (string, error) {
	ctx, stop := context.WithTimeout(r.t.Context(), runFor)
	defer stop()
	c := exec.CommandContext(ctx, "nsenter", append([]string{"-t", strconv.Itoa(r.command.Process.Pid), "-m", "-n"}, args...)...)
	out, err := c.CombinedOutput()
	return string(out), err
}

// beside starts a program beside avahi that runs until the test ends.
func (r *responder) beside(out io.Writer, args ...string) {
	c := exec.Command("nsenter", append([]string{"-t", strconv.Itoa(r.command.Process.Pid), "-m", "-n"}, args...)...)
	c.Stdout = out
	require.NoError(r.t, c.Start())
	r.t.Cleanup(func() {
		_ = c.Process.Kill() // it may have ended
		_ = c.Wait()
	})
}

// browsed is what avahi tells about one kind of service for as long as the test runs.
type browsed struct {
	mu  sync.Mutex // guards the rest
	out bytes.Buffer
}

// Write takes what avahi-browse prints.
func (b *browsed) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.out.Write(p)
}

// browse begins to look for a kind of service. Asking again and again instead
// would make avahi ask the network ever less often.
func (r *responder) browse(service string) *browsed {
	b := &browsed{}
	r.beside(b, "stdbuf", "-oL", "avahi-browse", "-rp", service)
	return b
}

// resolved lists where services were resolved, as "address:port", with their texts.
func (b *browsed) resolved() map[string]string {
	b.mu.Lock()
	defer b.mu.Unlock()
	at := map[string]string{}
	for line := range strings.Lines(b.out.String()) {
		if f := strings.SplitN(strings.TrimSpace(line), ";", 10); f[0] == "=" && len(f) == 10 {
			at[f[7]+":"+f[8]] = f[9]
		}
	}
	return at
}

// Goal: other software sees and resolves our service, and works on beside us on
// the same host. Method: avahi on a host with a device and on one without; both
// browse for our devices; each finds the other's name, and the one beside our
// device the other's service.
func TestAvahiResolvesTheServiceAndWorksBesideIt(t *testing.T) {
	t.Parallel()
	w := &ward{hosts: newHosts(t, 3), unit: &unit{t: t, root: t.TempDir(), at: map[string]*process{}}}
	beside := newResponder(t, w.hosts, 1, "beside")
	apart := newResponder(t, w.hosts, 3, "apart")
	w.startAll([]string{"lead", "runner"})
	w.at["lead"].do("found Anvil unit, invented")
	apart.beside(nil, "avahi-publish", "-s", "invented printer", "_ipp._tcp", "631")
	for _, b := range []*browsed{apart.browse("_lintel._udp"), beside.browse("_lintel._udp")} {
		var at map[string]string
		for _, host := range []int{1, 2} {
			require.Eventually(t, func() bool {
				at = b.resolved()
				return strings.Contains(at[w.hosts.addr(host)+":29460"], `"p=29460"`)
			}, 15*time.Second, findGap, "%d: %+v", host, &at)
		}
		require.NotRegexp(t, "(?i)anvil|lead|runner", fmt.Sprint(at), "nothing about people or places is said to everybody")
	}
	printers := beside.browse("_ipp._tcp")
	require.Eventually(t, func() bool {
		_, there := printers.resolved()[w.hosts.addr(3)+":631"]
		return there
	}, findWithin, findGap)
	for other, r := range map[string]*responder{"apart.local": beside, "beside.local": apart} {
		out, err := r.run("avahi-resolve-host-name", "-4", other)
		require.NoError(t, err)
		require.Contains(t, out, "10.77.0.")
	}
	w.leaveAll()
}
