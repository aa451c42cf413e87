package main

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// used is the data folder of a device that founded a unit and recorded a little.
func used(t *testing.T, lines ...string) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "d")
	var out, errs strings.Builder
	args := []string{"device", "-data", dir, "-name", "tablet", "-role", "lead", "-tag", "L1", "-room", "A1", "-listen", "127.0.0.1:0", "-json"}
	input := strings.NewReader("found Anvil\n" + strings.Join(lines, "\n") + "\n")
	require.Equal(t, exitFine, run(t.Context(), args, input, &out, &errs), errs.String())
	require.NotContains(t, out.String(), `"event":"error"`)
	return dir
}

// segment is the one segment of the log in a data folder.
func segment(t *testing.T, dir string) string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(dir, "groups", "*", "*.seg"))
	require.NoError(t, err)
	require.Len(t, all, 1)
	return all[0]
}

// fingerprint is every file of a folder with its bytes, mode and time.
func fingerprint(t *testing.T, dir string) (all []string) {
	t.Helper()
	require.NoError(t, filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		require.NoError(t, err)
		st, err := d.Info()
		require.NoError(t, err)
		sum := ""
		if !d.IsDir() {
			b, err := os.ReadFile(path)
			require.NoError(t, err)
			sum = fmt.Sprintf("%x", sha256.Sum256(b))
		}
		all = append(all, fmt.Sprint(path, st.Mode(), st.ModTime().UnixNano(), sum))
		return nil
	}))
	return all
}

// TestAuditAndReplayNeverWrite runs both over a folder, whole and then damaged,
// and compares every byte, mode and time with what was there before.
func TestAuditAndReplayNeverWrite(t *testing.T) {
	dir := used(t, "ask 1032 x1 now", "stock-demo")
	for range 2 {
		before := fingerprint(t, dir)
		for _, args := range [][]string{{"audit", dir}, {"audit", "-json", dir}, {"replay", dir}, {"replay", "-json", dir}} {
			_, out, _ := called(t, args...)
			require.NotEmpty(t, out)
		}
		require.Equal(t, before, fingerprint(t, dir))
		flip(t, segment(t, dir), 300)
	}
}

// flip changes one byte of a file.
func flip(t *testing.T, path string, at int) {
	t.Helper()
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	b[at] ^= 0x40
	require.NoError(t, os.WriteFile(path, b, 0o600))
}

// TestAuditNamesDamageWithItsPosition changes a byte in the middle of the log,
// and cuts the end of another: each is named with where it is, exit code 1.
func TestAuditNamesDamageWithItsPosition(t *testing.T) {
	dir := used(t, "ask 1032 x1 now", "ask 1029 x1 now", "ask 1010 x1 now")
	code, out, _ := called(t, "audit", dir)
	require.Equal(t, exitFine, code, out)
	require.Contains(t, out, "nothing to report")
	path := segment(t, dir)
	whole, err := os.ReadFile(path)
	require.NoError(t, err)

	flip(t, path, len(whole)/2)
	code, out, _ = called(t, "audit", dir)
	require.Equal(t, exitFailure, code)
	require.Regexp(t, `a damaged place in the log: segment 1, bytes \d+ to \d+`, out)
	require.Contains(t, out, "an entry whose earlier ones are missing here")

	require.NoError(t, os.WriteFile(path, whole[:len(whole)-5], 0o600))
	code, out, _ = called(t, "audit", "-json", dir)
	require.Equal(t, exitFailure, code)
	require.Contains(t, out, `"finding":"torn","where":"segment 1, bytes `)
	require.Contains(t, out, `"event":"audit","findings":1`)
}

// TestAuditFindsWhatDoesNotAddUp takes something to the door that the unit
// never had, which leaves a place below zero.
func TestAuditFindsWhatDoesNotAddUp(t *testing.T) {
	dir := used(t, "passed 1032 x2")
	code, out, _ := called(t, "audit", dir)
	require.Equal(t, exitFailure, code)
	require.Contains(t, out, "Tracheal tube, cuffed 7.5 trolley/airway holds less than nothing: -2")
}

// TestAuditWorksWhileADeviceRuns audits and replays the folder of a process at
// work and expects its own hash.
func TestAuditWorksWhileADeviceRuns(t *testing.T) {
	dir := t.TempDir()
	inside, _ := started(t, dir, "lead", "L1")
	done(t, inside, "found Anvil")
	done(t, inside, "ask 1032 x1 now")
	for _, command := range []string{"audit", "replay"} {
		code, out, errs := called(t, command, "-json", filepath.Join(dir, "lead"))
		require.Equal(t, exitFine, code, errs)
		require.Contains(t, out, done(t, inside, "hash").Hash)
	}
}

// Goal: an auditor sees what went wrong in an exercise in a section of its own,
// behind all else. Method: a controlled drug thrown away twice, seen by nobody
// else, in a case that began in a drill.
func TestAnAuditTellsExercisesApart(t *testing.T) {
	dir := used(t, "stock-demo", "drill start A1 monthly", "case open A1 intubation", "issue 3046 x1 room A1 by L1 checked-by R1",
		"waste-drug 3046 x1 room A1", "ended wasted 3046 x1 room A1")
	code, out, _ := called(t, "audit", dir)
	require.Equal(t, exitFailure, code)
	require.Contains(t, out, "3 findings, of exercises alone: 2")
	lines := strings.Split(strings.TrimSpace(out), "\n")
	require.Contains(t, lines[1], "holds less than nothing")
	for _, line := range lines[2:4] {
		require.True(t, strings.HasPrefix(line, "exercise: a second person is missing"), line)
	}
}
