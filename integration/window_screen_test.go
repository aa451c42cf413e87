package integration

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// windowEnv names the program with a window. It is built with other settings
// than the tests, so whoever runs them builds it.
const windowEnv = "LINTEL_WINDOW"

// windowTools are what a display without a screen, and hands for it, are made of.
func windowTools() []string { return []string{"Xvfb", "openbox", "xdotool", "xprop", "import"} }

// needsWindow gives the program with a window, or skips with a reason.
func needsWindow(t *testing.T) string {
	t.Helper()
	path := os.Getenv(windowEnv)
	if path == "" {
		t.Skipf("%s names no program with a window; make test builds one", windowEnv)
	}
	if _, err := os.Stat(path); err != nil {
		t.Skipf("no program with a window could be built: %v", err)
	}
	for _, tool := range windowTools() {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skipf("a tool for windows without a screen is missing: %v", err)
		}
	}
	return path
}

// screen is a display of its own, with a window manager.
type screen struct {
	t       *testing.T
	display string
	env     []string
}

// screenWithin bounds how long the display and its manager may take to come up.
const screenWithin = 20 * time.Second

// newScreen starts a display that nobody else uses and takes it away after the test.
func newScreen(t *testing.T, width, height int, options ...string) *screen {
	t.Helper()
	out, in, err := os.Pipe()
	require.NoError(t, err)
	c := exec.Command("Xvfb", append([]string{"-displayfd", "3", "-nolisten", "tcp", "-screen", "0", fmt.Sprintf("%dx%dx24", width, height)}, options...)...)
	c.ExtraFiles = []*os.File{in}
	startBeside(t, c)
	require.NoError(t, in.Close())
	require.NoError(t, out.SetReadDeadline(time.Now().Add(screenWithin)))
	number, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err, "Xvfb named no display")
	require.NoError(t, out.Close())
	s := &screen{t: t, display: ":" + strings.TrimSpace(number)}
	home := t.TempDir()
	s.env = append(os.Environ(), "DISPLAY="+s.display, "HOME="+home, "XDG_CONFIG_HOME="+home, "LANG=C", "LC_ALL=", "LC_MESSAGES=",
		"LIBGL_ALWAYS_SOFTWARE=1", "FYNE_SCALE=1")
	manager := exec.Command("openbox", "--sm-disable")
	manager.Env = s.env
	startBeside(t, manager)
	require.Eventually(t, func() bool {
		out, err := s.tool("xprop", "-root", "_NET_SUPPORTING_WM_CHECK")
		return err == nil && strings.Contains(out, "window id")
	}, screenWithin, 50*time.Millisecond, "no window manager came up")
	return s
}

// startBeside starts a process that is ended after the test.
func startBeside(t *testing.T, c *exec.Cmd) {
	t.Helper()
	require.NoError(t, c.Start())
	t.Cleanup(func() {
		_ = c.Process.Kill() // it may have ended already
		_ = c.Wait()         // it was killed
	})
}

// tool runs one of the tools on this display.
func (s *screen) tool(name string, args ...string) (string, error) {
	c := exec.Command(name, args...)
	c.Env = s.env
	out, err := c.CombinedOutput()
	return string(out), err
}

// picture draws the whole display into the folder that LINTEL_PICTURES names,
// if any, to be looked at.
func (s *screen) picture(name string) {
	s.t.Helper()
	if folder := os.Getenv("LINTEL_PICTURES"); folder != "" {
		_, err := s.tool("import", "-window", "root", folder+"/window-"+name+".png")
		require.NoError(s.t, err)
	}
}

// find waits for the one visible window that a search of xdotool finds.
func (s *screen) find(by ...string) (id string) {
	s.t.Helper()
	require.Eventually(s.t, func() bool {
		out, err := s.tool("xdotool", append([]string{"search", "--onlyvisible"}, by...)...)
		id = strings.TrimSpace(out)
		return err == nil && id != "" && !strings.Contains(id, "\n")
	}, screenWithin, 50*time.Millisecond, "no window: %v", by)
	return id
}
