package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// benched runs bench with real processes and returns its exit code and what it printed.
func benched(t *testing.T, args ...string) (code int, out, complaint string) {
	t.Helper()
	t.Setenv(actAsProgram, "1") // for the devices that it starts
	var stdout, stderr bytes.Buffer
	code = run(t.Context(), append([]string{"bench"}, args...), strings.NewReader(""), &stdout, &stderr)
	return code, stdout.String(), stderr.String()
}

// lastLine is the last line of an output, read as JSON.
func lastLine(t *testing.T, out string, into any) {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(out, "\n"), "\n")
	require.NoError(t, json.Unmarshal([]byte(lines[len(lines)-1]), into), out)
}

// Goal: another program can read what the figures stand for. Method: read the
// one line, want every field there and filled.
func TestDescribeSaysWhatIsMeasuredAndWhatIsLess(t *testing.T) {
	code, out, complaint := benched(t, "describe")
	require.Zero(t, code, complaint)
	require.Equal(t, 1, strings.Count(out, "\n"))
	var said map[string]any
	lastLine(t, out, &said)
	for _, field := range []string{"what", "where", "how", "less"} {
		require.NotEmpty(t, said[field], field)
	}
	require.Equal(t, "direct", said["placement"])
	require.EqualValues(t, 2, said["copies"])
}

// Goal: every work gives figures that agree with each other and with the
// receivers' disks. Method: a small repetition of each between real processes.
func TestEveryWorkDeliversAllAndItCanBeReadBack(t *testing.T) {
	const n = 20
	for work, samples := range map[string]int{workReceipt: n, workAck: n, workPipeline: n, workFanout: n, workCatchup: 1} {
		t.Run(work, func(t *testing.T) {
			code, out, complaint := benched(t, "run", "-work", work, "-n", "20", "-outstanding", "7", "-receivers", "2",
				"-limit", "60s", "-dir", filepath.Join(t.TempDir(), "new"))
			require.Zero(t, code, complaint)
			var f benchFigures
			lastLine(t, out, &f)
			require.Equal(t, n, f.Done)
			require.Zero(t, f.Lost)
			require.Equal(t, n, f.Stored)
			require.Len(t, f.Samples, samples)
			require.NotEmpty(t, f.Note)
			require.Positive(t, f.Loop)
			require.Positive(t, f.CPU)
			sum := int64(0)
			for _, s := range f.Samples {
				require.Positive(t, s)
				sum += s
			}
			require.GreaterOrEqual(t, f.Elapsed*7, sum, "no more than the taps under way at once fit into the time")
		})
	}
}

// Goal: what is not there when the limit is over is lost, and said to be.
// Method: far more taps than a moment can hold; done and lost make n, and
// nothing is done that is not stored.
func TestWhatTheLimitCutsOffIsLost(t *testing.T) {
	code, out, complaint := benched(t, "run", "-work", "receipt", "-n", "1000000", "-limit", "50ms", "-dir", t.TempDir())
	require.Zero(t, code, complaint)
	var f benchFigures
	lastLine(t, out, &f)
	require.Equal(t, 1_000_000, f.Done+f.Lost)
	require.Positive(t, f.Lost)
	require.GreaterOrEqual(t, f.Stored, f.Done)
	require.Len(t, f.Samples, f.Done)
}

// Goal: what this program cannot do is said in the one line, not as an error.
// Method: an unknown work, an entry that is too long, more receivers than can be.
func TestWhatIsNotSupportedIsSaid(t *testing.T) {
	for _, args := range [][]string{
		{"-work", "juggling"},
		{"-work", "receipt", "-size", "14001"},
		{"-work", "fanout", "-receivers", "51"},
	} {
		code, out, complaint := benched(t, append([]string{"run", "-n", "1", "-dir", t.TempDir()}, args...)...)
		require.Zero(t, code, complaint)
		var said map[string]string
		lastLine(t, out, &said)
		require.NotEmpty(t, said["unsupported"])
	}
}

// Goal: a slip on the command line is a usage error and starts nothing. Method:
// each slip; exit code 2, a sentence, no output.
func TestSlipsOnTheCommandLineAreUsageErrors(t *testing.T) {
	full := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(full, "kept"), []byte("kept"), 0o600))
	empty := t.TempDir()
	for _, args := range [][]string{
		{},
		{"jog"},
		{"run", "-n", "1", "-dir", empty},
		{"run", "-work", "receipt", "-dir", empty},
		{"run", "-work", "receipt", "-n", "1"},
		{"run", "-work", "receipt", "-n", "1", "-dir", full},
		{"run", "-work", "receipt", "-n", "1", "-dir", empty, "-size", "-1"},
		{"run", "-work", "receipt", "-n", "1", "-dir", empty, "-limit", "0s"},
		{"run", "-work", "receipt", "-n", "1", "-dir", empty, "-outstanding", "0"},
		{"run", "-work", "receipt", "-n", "1", "-dir", empty, "-receivers", "0"},
		{"run", "-work", "receipt", "-n", "1", "-dir", empty, "more"},
		{"run", "-bogus"},
		{"idle", "-dir", full},
		{"idle", "-peers", "0", "-dir", empty},
	} {
		code, out, complaint := benched(t, args...)
		require.Equal(t, exitUsage, code, args)
		require.Empty(t, out, args)
		require.Equal(t, 2, strings.Count(complaint, "\n"), "%v: a sentence and a hint", args)
	}
}

// Goal: the entry is as long as was asked for, as far as one can be. Method:
// the parts of several sizes, their bodies added up.
func TestAnEntryCarriesTheSizeAskedFor(t *testing.T) {
	for _, size := range []int{100, 200, 1999, 2000, 5000, benchSizeMax} {
		parts, err := benchParts(lineMeasured, size)
		require.NoError(t, err)
		require.LessOrEqual(t, len(parts), mesh.PartsMax)
		sum := 0
		for _, p := range parts[1:] {
			sum += len(p.Body)
		}
		require.InDelta(t, size, sum, 64, "size %d", size) // a part has a name and a head beside its text
	}
}

// Goal: idle devices can be measured from outside and end with the input.
// Method: read READY, find each process there, close the input, find none.
func TestIdleDevicesEndWithTheInput(t *testing.T) {
	t.Setenv(actAsProgram, "1")
	in, closeIn := io.Pipe()
	read, out := io.Pipe()
	var complaint bytes.Buffer
	ended := make(chan int, 1)
	go func() { // awaited below
		code := run(context.Background(), []string{"bench", "idle", "-peers", "2", "-dir", t.TempDir()}, in, out, &complaint)
		_ = out.Close()
		ended <- code
	}()
	line, err := bufio.NewReader(read).ReadString('\n')
	require.NoError(t, err, complaint.String())
	said, isReady := strings.CutPrefix(line, "READY ")
	require.True(t, isReady, line)
	var pids map[string][]int
	require.NoError(t, json.Unmarshal([]byte(said), &pids))
	require.Len(t, pids, 1)
	for name, list := range pids {
		require.NotEmpty(t, name)
		require.Len(t, list, 3)
		for _, pid := range list {
			require.True(t, isRunning(pid), pid)
		}
	}
	require.NoError(t, closeIn.Close())
	require.Zero(t, <-ended, complaint.String())
	for _, list := range pids {
		for _, pid := range list {
			require.False(t, isRunning(pid), pid)
		}
	}
}

// isRunning asks the system whether there is such a process.
func isRunning(pid int) bool {
	p, err := os.FindProcess(pid)
	return err == nil && p.Signal(syscall.Signal(0)) == nil
}
