package integration

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// program is lintelctl, built once for all tests that start processes.
var program = sync.OnceValues(func() (string, error) {
	dir := os.Getenv(programDirEnv)
	if dir == "" {
		return "", errors.New("TestMain made no folder for the program")
	}
	path := filepath.Join(dir, "lintelctl")
	build := exec.Command("go", "build", "-tags", "ci", "-o", path, "lintel/cmd/lintelctl")
	build.Env = append(os.Environ(), "CGO_ENABLED=0")
	if out, err := build.CombinedOutput(); err != nil {
		return "", fmt.Errorf("building lintelctl: %w: %s", err, out)
	}
	return path, nil
})

// programDirEnv names the folder that TestMain made.
const programDirEnv = "LINTEL_PROGRAM_DIR"

// TestMain gives the program a folder and takes it away again.
func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "lintel-processes-")
	if err == nil {
		err = os.Setenv(programDirEnv, dir)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	code := m.Run()
	if err := os.RemoveAll(dir); err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	os.Exit(code)
}

// ran is how a process ended that was waited for.
type ran struct {
	code           int
	stdout, stderr string
}

// runWithin bounds a process that ends by itself.
const runWithin = 30 * time.Second

// run runs lintelctl to its end, with nothing on its standard input.
func run(t *testing.T, args ...string) (r ran) {
	t.Helper()
	path, err := program()
	require.NoError(t, err)
	c := exec.CommandContext(t.Context(), path, args...)
	c.WaitDelay = time.Second
	var stdout, stderr bytes.Buffer
	c.Stdout, c.Stderr = &stdout, &stderr
	require.NoError(t, c.Start())
	late := time.AfterFunc(runWithin, func() { _ = c.Process.Kill() })
	err = c.Wait()
	late.Stop()
	var ended *exec.ExitError
	if err != nil && !errors.As(err, &ended) {
		require.NoError(t, err)
	}
	r.code, r.stdout, r.stderr = c.ProcessState.ExitCode(), stdout.String(), stderr.String()
	return r
}
