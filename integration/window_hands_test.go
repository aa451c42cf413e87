package integration

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/words"
)

// target is something that can be tapped, in pixels from the window's corner.
type target struct {
	Name       string
	Beside     string // a line, of its keys
	X, Y, W, H int
}

// window is one device with its window. Lines bring it into a unit and ask what
// can be tapped; everything else is done by tapping.
type window struct {
	*process
	screen *screen
	id     string // of the window
	dir    string
}

// tapWithin bounds how long a target may take to appear.
const tapWithin = 15 * time.Second

// openWindow starts a device with a window, held in a role, and puts that where
// nothing covers it.
func openWindow(t *testing.T, s *screen, path, role string, left, width, height int) *window {
	t.Helper()
	return openBare(t, s, path, role, left, width, height, "-role", role, "-tag", tagOf(role), "-room", "A1")
}

// openBare starts a device with a window that nobody has.
func openBare(t *testing.T, s *screen, path, name string, left, width, height int, more ...string) *window {
	t.Helper()
	w := &window{screen: s, dir: t.TempDir()}
	c := exec.Command(path, append([]string{"-steer", "-data", w.dir, "-name", name, "-listen", loopback,
		"-window", fmt.Sprintf("%dx%d", width, height), "-density", "80"}, more...)...)
	c.Env = s.env
	w.process = beginProcess(t, name, c)
	w.isReady()
	w.id = s.find("--pid", fmt.Sprint(w.command.Process.Pid))
	out, err := s.tool("xdotool", "windowmove", "--sync", w.id, fmt.Sprint(left), "30")
	require.NoError(t, err, out)
	t.Cleanup(func() {
		w.leave()
		require.Empty(t, w.stderr.String(), "%s: the toolkit complains there of calls from the wrong goroutine", name)
	})
	return w
}

// beginProcess starts a device whose command was made ready.
func beginProcess(t *testing.T, name string, c *exec.Cmd) *process {
	t.Helper()
	p := &process{t: t, name: name, command: c, ended: make(chan struct{}), more: make(chan struct{})}
	c.Stderr = &p.stderr
	var err error
	p.stdin, err = c.StdinPipe()
	require.NoError(t, err)
	out, in, err := os.Pipe()
	require.NoError(t, err)
	c.Stdout = in
	require.NoError(t, c.Start())
	require.NoError(t, in.Close())
	go func() { // joined by the cleanup, through ended
		defer close(p.ended)
		p.listen(out)
		_ = out.Close()
		_ = c.Wait() // its code is looked at by whoever needs it
	}()
	t.Cleanup(func() { p.kill() })
	return p
}

// targets asks the window what can be tapped now.
func (w *window) targets() (all []target) {
	w.t.Helper()
	from := w.said()
	_, err := io.WriteString(w.stdin, "targets\n")
	require.NoError(w.t, err, "%s ended", w.name)
	h := w.await("its targets", from, func(h heard) bool { return h.Event == "targets" })
	var said struct{ Targets []target }
	require.NoError(w.t, json.Unmarshal([]byte(h.raw), &said))
	return said.Targets
}

// tap waits until something can be tapped whose words begin with a text, and
// taps it.
func (w *window) tap(name string) {
	w.t.Helper()
	w.tapAt(w.awaitTarget(name, ""))
}

// tapBeside waits until a line's key can be tapped, turning pages until the line
// is there, and taps it.
func (w *window) tapBeside(line, name string) {
	w.t.Helper()
	for range pagesMax {
		w.awaitTarget(name, "")
		for _, x := range w.targets() {
			if x.Name == name && strings.HasPrefix(x.Beside, line) {
				w.tapAt(x)
				return
			}
		}
		w.tap(words.English().Say("list.after"))
	}
	w.t.Fatalf("%s: %q beside %q is on none of %d pages", w.name, name, line, pagesMax)
}

// choose taps like tap, and turns pages until it finds what to tap.
func (w *window) choose(name string) {
	w.t.Helper()
	more := words.English().Say("list.after")
	for range pagesMax {
		x := w.awaitTarget(name, more)
		w.tapAt(x)
		if strings.HasPrefix(x.Name, name) {
			return
		}
	}
	w.t.Fatalf("%s: %q is on none of %d pages", w.name, name, pagesMax)
}

// pagesMax is how often a page is turned.
const pagesMax = 8

// awaitTarget waits for a target whose words begin with a text; else, if it is not
// empty, with another.
func (w *window) awaitTarget(name, other string) target {
	w.t.Helper()
	late := time.NewTimer(tapWithin)
	defer late.Stop()
	again := time.NewTicker(50 * time.Millisecond)
	defer again.Stop()
	for {
		all := w.targets()
		for _, text := range []string{name, other} {
			i := slices.IndexFunc(all, func(x target) bool { return strings.HasPrefix(x.Name, text) })
			if i >= 0 && text != "" {
				return all[i]
			}
		}
		select {
		case <-again.C:
		case <-late.C:
			w.screen.picture("late-" + w.name)
			w.t.Fatalf("%s: nothing says %q: %v", w.name, name, all)
		}
	}
}

// tapAt taps the middle of a target.
func (w *window) tapAt(x target) {
	w.t.Helper()
	out, err := w.screen.tool("xdotool", "mousemove", "--window", w.id, fmt.Sprint(x.X+x.W/2), fmt.Sprint(x.Y+x.H/2), "click", "1")
	require.NoError(w.t, err, out)
}

// types types a text into what has the keyboard.
func (w *window) types(text string) {
	w.t.Helper()
	out, err := w.screen.tool("xdotool", "type", "--delay", "20", text)
	require.NoError(w.t, err, out)
}
