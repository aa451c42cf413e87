package disk

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// actEnv tells a test binary that started itself what it is: see acts.
const (
	actEnv = "LINTEL_DISK_ACT"
	dirEnv = "LINTEL_DISK_DIR"
)

// TestMain becomes another process where a test asks for one.
func TestMain(m *testing.M) {
	if act := os.Getenv(actEnv); act != "" {
		os.Exit(acts(act, os.Getenv(dirEnv)))
	}
	os.Exit(m.Run())
}

// acts is what other processes do: "hold" opens the log, says "ready", and
// appends a record with each batch's number until it is killed; "small" says the
// numbers of the batches it saves until the system lets a file grow no more.
func acts(act, dir string) int {
	s, found, err := Open(realOptions(dir))
	if err != nil {
		fmt.Println(err)
		return 1
	}
	if act == "small" {
		if err := limitFileLen(64 << 10); err != nil {
			fmt.Println("cannot limit:", err)
			return 2
		}
	}
	fmt.Println("ready")
	for n := found.Newest + 1; ; n++ {
		if err := s.Append(mesh.Append{Batch: n, Records: []mesh.Record{record(fmt.Sprintf("%d %08000d", n, 0), false)}}); err != nil {
			fmt.Println("failed:", err)
			fmt.Println("again:", s.Append(mesh.Append{Batch: n}))
			return 0
		}
		fmt.Println(n)
	}
}

// start starts this test binary again as another process.
func start(t *testing.T, act, dir string) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), actEnv+"="+act, dirEnv+"="+dir)
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	t.Cleanup(func() { _ = cmd.Process.Kill(); _ = cmd.Wait() })
	lines := bufio.NewScanner(out)
	require.True(t, lines.Scan())
	require.Equal(t, "ready", lines.Text())
	return cmd, lines
}

// Goal: two processes never write one log; after kill -9 in the middle of
// appends the next one finds all that the first said it had saved, in the same
// feed. Method: real processes on a real folder.
func TestAKilledProcessLeavesAllItSaved(t *testing.T) {
	dir := t.TempDir()
	cmd, lines := start(t, "hold", dir)
	_, _, err := Open(realOptions(dir))
	require.ErrorIs(t, err, ErrLocked)
	said := 0
	for said < 20 && lines.Scan() {
		said++
		require.Equal(t, fmt.Sprint(said), lines.Text())
	}
	require.NoError(t, cmd.Process.Kill())
	for lines.Scan() {
		said++
	}
	_ = cmd.Wait()
	_, found := open(t, realOptions(dir))
	require.GreaterOrEqual(t, len(found.Records), said)
	require.Empty(t, found.Damage)
	if found.Torn == nil {
		require.Zero(t, found.Fresh)
	}
}

// Goal: a file that may not grow ends the store for good, says why, and loses
// nothing it saved. Method: RLIMIT_FSIZE in a process of its own.
func TestAFileThatMayNotGrowIsAFullDisk(t *testing.T) {
	if limitFileLen == nil {
		t.Skip("this system cannot limit the length of files")
	}
	dir := t.TempDir()
	cmd, lines := start(t, "small", dir)
	said := 0
	for lines.Scan() && lines.Text() == fmt.Sprint(said+1) {
		said++
	}
	require.Contains(t, lines.Text(), "failed: batch")
	require.Contains(t, lines.Text(), "too large")
	require.True(t, lines.Scan())
	require.Equal(t, "again: "+ErrPoisoned.Error(), lines.Text())
	require.NoError(t, cmd.Wait())
	require.Greater(t, said, 4)
	_, found := open(t, realOptions(dir))
	require.Len(t, found.Records, said)
	require.Equal(t, mesh.WhyTorn, found.Fresh)
}

// Goal: a really full disk ends the store for good; what was saved is read while
// the disk is still full. Method: a file system of 256 KiB in memory, where the
// user may mount one.
func TestAReallyFullDiskLosesNothing(t *testing.T) {
	dir := t.TempDir()
	if err := mountSmall(t, dir, 256<<10); err != nil {
		t.Skip("no small file system can be mounted here: ", err)
	}
	s, _ := open(t, realOptions(dir))
	n := uint64(0)
	var failed error
	for failed == nil {
		n++
		failed = s.Append(mesh.Append{Batch: n, Records: []mesh.Record{record(fmt.Sprintf("%d %09000d", n, 0), false)}})
	}
	require.ErrorIs(t, failed, errNoSpace)
	require.Greater(t, n, uint64(10))
	require.Equal(t, ErrPoisoned, s.Append(mesh.Append{Batch: n}))
	require.NoError(t, s.Close())
	s, found := open(t, realOptions(dir))
	require.GreaterOrEqual(t, uint64(len(found.Records)), n-1)
	require.NotZero(t, found.Fresh, "either it could be cut, or it could not be written")
	require.NoError(t, s.Close())
}
