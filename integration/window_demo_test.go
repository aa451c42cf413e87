package integration

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/words"
)

// demoWindows are the devices of the demonstration, as their windows are called.
func demoWindows() []string { return []string{"lead", "runner", "charge"} }

// Goal: the demonstration opens three windows, says in each what to try, and
// ends with the last of them without leaving anything behind. Method: start it,
// close the windows as people do, look at its folder.
func TestTheDemonstrationEndsWithItsLastWindow(t *testing.T) {
	path := needsWindow(t)
	s := newScreen(t, 1700, 780)
	folder := t.TempDir()
	c := exec.Command(path, "-demo")
	c.Env = append(s.env, "TMPDIR="+folder)
	var stderr strings.Builder
	c.Stderr = &stderr
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	late := time.AfterFunc(runWithin, func() { _ = c.Process.Signal(os.Interrupt) })
	defer late.Stop()
	lines := bufio.NewScanner(out)
	paired := words.English().Say("window.demo-paired")
	for lines.Scan() && lines.Text() != paired {
		require.NotEmpty(t, lines.Text())
	}
	require.Equal(t, paired, lines.Text(), stderr.String())
	for _, name := range demoWindows() {
		s.find("--name", name)
	}
	s.picture("demo")
	for _, name := range demoWindows() {
		said, err := s.tool("xdotool", "windowactivate", "--sync", s.find("--name", name), "key", "--clearmodifiers", "alt+F4")
		require.NoError(t, err, said)
	}
	rest, err := io.ReadAll(out)
	require.NoError(t, err)
	require.NoError(t, c.Wait(), stderr.String())
	require.Equal(t, words.English().Say("window.demo-over")+"\n", string(rest))
	require.Empty(t, stderr.String())
	left, err := filepath.Glob(filepath.Join(folder, "lintel-demo-"+"*"))
	require.NoError(t, err)
	require.Empty(t, left)
}

// Goal: where no window can be opened the program says so in one line and plays
// the demonstration in text; a device says so and ends. Method: no display, and
// a display without OpenGL; the other program is one that only says how it was called.
func TestWithoutWindowsTheDemonstrationIsPlayedInText(t *testing.T) {
	path := needsWindow(t)
	folder := t.TempDir()
	program, err := os.ReadFile(path)
	require.NoError(t, err)
	copied := filepath.Join(folder, "lintel")
	require.NoError(t, os.WriteFile(copied, program, 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "lintelctl"), []byte("#!/bin/sh\necho \"played: $*\"\n"), 0o700))
	w := words.English()
	bare := newScreen(t, 640, 480, "-extension", "GLX")
	for display, want := range map[string]words.ID{"": "window.no-display", bare.display: "window.no-opengl"} {
		env := append(os.Environ(), "DISPLAY="+display, "WAYLAND_DISPLAY=", "LANG=C", "LC_ALL=", "LIBGL_ALWAYS_SOFTWARE=1")
		c := exec.Command(copied, "-demo")
		c.Env = env
		out, err := c.CombinedOutput()
		require.NoError(t, err, "%s", out)
		require.Equal(t, fmt.Sprintf("%s %s\nplayed: demo\n", w.Say(want), w.Say("window.demo-plain")), string(out))
		ctx, stop := context.WithTimeout(t.Context(), runWithin)
		c = exec.CommandContext(ctx, copied, "-data", t.TempDir())
		c.Env = env
		out, err = c.CombinedOutput()
		stop()
		require.Error(t, err)
		require.Equal(t, 1, c.ProcessState.ExitCode())
		require.Equal(t, fmt.Sprintf("lintel: %s\n        %s\n", w.Say(want), w.Say("hint.no-window")), string(out))
	}
}
