package main

import (
	"bufio"
	"context"
	"encoding/json"
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

// patience bounds every wait for real processes.
const patience = 20 * time.Second

// deviceProcess is a device as a process of its own, not started yet. before is what
// starts it, where it does not start itself.
func deviceProcess(t *testing.T, dir, role, tag string, more []string, before ...string) *exec.Cmd {
	t.Helper()
	program, err := os.Executable()
	require.NoError(t, err)
	args := append(before, program, "device", "-data", filepath.Join(dir, role), "-name", role, "-role", role, "-tag", tag,
		"-room", "A1", "-listen", "127.0.0.1:0", "-json")
	c := exec.Command(args[0], append(args[1:], more...)...)
	c.Env = append(os.Environ(), actAsProgram+"=1")
	return c
}

// started starts a device and ends it with the test.
func started(t *testing.T, dir, role, tag string, more ...string) (*player, string) {
	t.Helper()
	return up(t, role, deviceProcess(t, dir, role, tag, more))
}

func up(t *testing.T, name string, c *exec.Cmd) (*player, string) {
	t.Helper()
	p, err := startPlayer(name, c)
	require.NoError(t, err)
	t.Cleanup(p.end)
	select {
	case h := <-p.ready:
		return p, h.Address
	case <-p.read:
		require.Fail(t, "the device has ended")
	case <-time.After(patience):
		require.Fail(t, "the device is not ready")
	}
	return nil, ""
}

// waiting is a context for one wait.
func waiting(t *testing.T) context.Context {
	ctx, stop := context.WithTimeout(t.Context(), patience)
	t.Cleanup(stop)
	return ctx
}

// done carries out a line that must succeed.
func done(t *testing.T, p *player, line string) reply {
	t.Helper()
	a, err := p.do(waiting(t), line)
	require.NoError(t, err, "%s: %s: %s", p.name, line, a.Error)
	return a
}

// refused carries out a line that must not succeed, and returns the sentence.
func refused(t *testing.T, p *player, line string) string {
	t.Helper()
	a, err := p.do(waiting(t), line)
	require.Error(t, err, line)
	require.Equal(t, "error", a.Event)
	return a.Error
}

// sees waits until a device shows a request with so many marks.
func sees(t *testing.T, p *player, ref string, marks int) requestEvent {
	t.Helper()
	h, err := p.until(waiting(t), ref, marks)
	require.NoError(t, err)
	var e requestEvent
	require.NoError(t, json.Unmarshal(h.line, &e))
	return e
}

// paired lets one device into the other's unit.
func paired(t *testing.T, member, joiner *player, address string) {
	t.Helper()
	done(t, joiner, "join "+done(t, member, "invite").Code+" "+address)
}

// sameHash waits until the devices have the same state.
func sameHash(t *testing.T, all ...*player) {
	t.Helper()
	require.Eventually(t, func() bool {
		first := done(t, all[0], "hash").Hash
		for _, p := range all[1:] {
			if done(t, p, "hash").Hash != first {
				return false
			}
		}
		return true
	}, patience, 50*time.Millisecond)
}

// TestALoopClosesBetweenProcesses carries one request from asked to taken in
// between two processes and looks at what each of them shows at every step:
// delivery is never promoted, and matches is not closed loop.
func TestALoopClosesBetweenProcesses(t *testing.T) {
	dir := t.TempDir()
	inside, address := started(t, dir, "lead", "L1")
	outside, _ := started(t, dir, "runner", "R1", "-peer", address)
	done(t, inside, "found Anvil")
	require.Equal(t, "The code is wrong.", refused(t, outside, "join "+otherCode(done(t, inside, "invite").Code)))
	done(t, outside, "join "+done(t, inside, "invite").Code) // at -peer
	ref := done(t, inside, "ask ketamine 50 x2 now").Ref
	require.True(t, sees(t, outside, ref, 1).Ringing)

	done(t, outside, "going "+ref)
	e := sees(t, inside, ref, 2)
	require.Equal(t, []string{"R1"}, e.Going)
	require.Equal(t, "The quantity is missing.", refused(t, outside, "readback "+ref+" 3046"))
	require.Equal(t, "The item is missing.", refused(t, outside, "readback "+ref+" x2"))
	done(t, outside, "readback "+ref+" 3046 x2")
	e = sees(t, inside, ref, 3)
	require.EqualValues(t, "in-hand", e.Shown)
	require.EqualValues(t, "matches", e.Loop)
	done(t, inside, "agree "+ref)
	require.EqualValues(t, "closed", sees(t, outside, ref, 4).Loop)
	done(t, outside, "door "+ref)
	sees(t, inside, ref, 5)
	done(t, inside, "take "+ref+" x1")
	e = sees(t, outside, ref, 6)
	require.EqualValues(t, "taken-in", e.Shown)
	require.EqualValues(t, 1, e.Taken)
	require.Contains(t, e.Flags, "fewer")
	require.Equal(t, words.OnRunner, sees(t, inside, ref, 6).Delivery)
	done(t, inside, "undo "+ref)
	sees(t, outside, ref, 7)
	sameHash(t, inside, outside)
}

// otherCode is a code that is well formed and wrong.
func otherCode(code string) string {
	if code == "1234566" {
		return "7654326"
	}
	return "1234566"
}

// TestAKilledProcessFinishesTheLoop ends the runner's device hard between two
// steps, starts it again on the same folder, and completes the loop.
func TestAKilledProcessFinishesTheLoop(t *testing.T) {
	dir := t.TempDir()
	inside, address := started(t, dir, "lead", "L1")
	outside, _ := started(t, dir, "runner", "R1")
	done(t, inside, "found Anvil")
	paired(t, inside, outside, address)
	ref := done(t, inside, "ask 1032 x1 now").Ref
	sees(t, outside, ref, 1)
	done(t, outside, "going "+ref)
	require.NoError(t, outside.command.Process.Kill())
	<-outside.read

	outside, _ = started(t, dir, "runner", "R1", "-peer", address)
	require.EqualValues(t, "acknowledged", sees(t, outside, ref, 2).Shown)
	done(t, outside, "readback "+ref+" 1032 x1")
	done(t, outside, "door "+ref)
	sees(t, inside, ref, 4)
	done(t, inside, "take "+ref)
	require.EqualValues(t, "taken-in", sees(t, outside, ref, 5).Shown)
	sameHash(t, inside, outside)
}

// TestAFullDiskIsSaidAndNothingIsLost gives the asking device a small disk of
// its own, in a namespace, and asks until it is full: the device says so, goes
// on in memory, and everything that it asked arrives at the other device.
func TestAFullDiskIsSaidAndNothingIsLost(t *testing.T) {
	if _, err := exec.LookPath("unshare"); err != nil {
		t.Skip("no unshare here to mount a small disk with")
	}
	dir, small := t.TempDir(), t.TempDir()
	mount := "mount -t tmpfs -o size=64k tmpfs " + small
	if out, err := exec.Command("unshare", "-rm", "sh", "-c", mount).CombinedOutput(); err != nil {
		t.Skipf("no small disk can be mounted here: %v: %s", err, out)
	}
	outside, address := started(t, dir, "runner", "R1")
	done(t, outside, "found Anvil")
	inside, _ := up(t, "lead", deviceProcess(t, small, "lead", "L1", nil, "unshare", "-rm", "sh", "-c", mount+` && exec "$0" "$@"`))
	paired(t, outside, inside, address)

	var refs []string
	saved := true
	for range 400 {
		a := done(t, inside, "ask 1032 x1 now")
		refs = append(refs, a.Ref)
		var e doneEvent
		require.NoError(t, json.Unmarshal(a.line, &e))
		if saved = *e.Saved; !saved {
			break
		}
	}
	require.False(t, saved, "the disk never filled")
	refs = append(refs, done(t, inside, "ask 229 now").Ref)
	for _, r := range refs {
		sees(t, outside, r, 1)
	}
	var last requestEvent
	require.Eventually(t, func() bool {
		last = sees(t, inside, refs[len(refs)-1], 1)
		return last.Copies == 1
	}, patience, 20*time.Millisecond)
	require.Equal(t, words.NotSaved, last.Delivery, "the runner's copy must not hide the failed disk")
	require.False(t, *last.Saved)
	require.True(t, *last.Runner)
	sameHash(t, inside, outside)
}

// TestTwoRunnersAndJoinedRequestsAreShownApart lets two runners acknowledge one
// request, passes another on, joins a request asked by voice with a late one,
// and looks at what is listed.
func TestTwoRunnersAndJoinedRequestsAreShownApart(t *testing.T) {
	dir := t.TempDir()
	first, address := started(t, dir, "runner", "R1")
	inside, _ := started(t, dir, "lead", "L1")
	done(t, first, "found Anvil")
	paired(t, first, inside, address)
	ref := done(t, inside, "ask 1032 x1 now").Ref
	sees(t, first, ref, 1)
	done(t, first, "going "+ref)
	done(t, first, "hold role runner tag R2")
	done(t, first, "going "+ref)
	require.Equal(t, []string{"R1", "R2"}, sees(t, inside, ref, 3).Going)

	voiced := done(t, first, "voice 2019 x1 now tag D1").Ref
	for _, line := range []string{"going ", "readback ", "door ", "take "} {
		done(t, first, line+voiced+map[string]string{"readback ": " 2019 x1", "take ": " glass"}[line])
	}
	late := done(t, inside, "ask 2019 x1 now at -1m").Ref
	sees(t, first, late, 1)
	require.Equal(t, "A request cannot be joined with itself.", refused(t, first, "join-requests "+late+" "+late))
	joined := done(t, first, "join-requests "+voiced+" "+late)
	require.Equal(t, voiced, joined.Ref)
	listed := map[string]requestEvent{}
	done(t, inside, "board all")
	require.Eventually(t, func() bool {
		listed[late] = sees(t, inside, late, 1)
		return len(listed[late].Joined) == 1
	}, patience, 10*time.Millisecond)
	require.False(t, listed[late].Ringing, "what was served already must not ring")
	more := done(t, inside, "take "+passed(t, first, inside)+" x5").Ref
	require.Contains(t, sees(t, first, more, 4).Flags, "more", "what happened is recorded, and flagged")
	sameHash(t, first, inside)
}

// passed passes something in unasked and waits until the other side shows it.
func passed(t *testing.T, from, to *player) string {
	t.Helper()
	ref := done(t, from, "passed 5501 x1").Ref
	sees(t, to, ref, 3)
	return ref
}

// TestADeviceStaysUntilItIsInterrupted gives a device no input and -stay, and
// interrupts it once it is ready.
func TestADeviceStaysUntilItIsInterrupted(t *testing.T) {
	ctx, interrupt := context.WithCancel(t.Context())
	defer interrupt()
	r, w := io.Pipe()
	code := make(chan int, 1)
	go func() { // joined by the receive below
		code <- run(ctx, []string{"device", "-data", t.TempDir(), "-name", "n", "-role", "lead", "-listen", "127.0.0.1:0", "-stay"}, strings.NewReader(""), w, io.Discard)
		_ = w.Close()
	}()
	line, err := bufio.NewReader(r).ReadString('\n')
	require.NoError(t, err)
	require.Contains(t, line, "ready 127.0.0.1:")
	require.Empty(t, code)
	interrupt()
	require.Equal(t, exitFine, <-code)
}
