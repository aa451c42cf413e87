package main

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/words"
)

// told are the lines of a device's timeline that begin so.
func told(t *testing.T, p *player, begins string) (out []placedEvent) {
	t.Helper()
	for _, line := range done(t, p, "timeline").listed {
		var e placedEvent
		require.NoError(t, json.Unmarshal(line.line, &e))
		if strings.HasPrefix(e.Text, begins) {
			out = append(out, e)
		}
	}
	return out
}

// arrives waits until a device lists so many lines that begin so.
func arrives(t *testing.T, p *player, begins string, n int) (out []placedEvent) {
	t.Helper()
	require.Eventually(t, func() bool {
		out = told(t, p, begins)
		return len(out) == n
	}, patience, 50*time.Millisecond, begins)
	return out
}

// Goal: what is recorded inside is answered outside, by the codes that both
// devices show. Method: two processes; a test, a phrase and a breach are heard,
// a time is corrected and taken back, and a wrong name is refused everywhere.
func TestWhatIsSaidInsideIsHeardOutside(t *testing.T) {
	dir := t.TempDir()
	inside, address := started(t, dir, "lead", "L1")
	outside, _ := started(t, dir, "runner", "R1", "-peer", address)
	done(t, inside, "found Anvil")
	done(t, inside, "stock-demo")
	paired(t, inside, outside, address)
	done(t, inside, "case open A1 intubation")
	for _, c := range []struct {
		line, answer, begins string
	}{
		{"test door A1", "hear-test %s sound", "test with"},
		{"say tube-in", "heard %s", "said outwards"},
		{"breach L1 glove", "heard %s", "L1: Glove"},
	} {
		code := done(t, inside, c.line).Code
		require.Equal(t, code, arrives(t, outside, c.begins, 1)[0].Code, c.line)
		done(t, outside, strings.Replace(c.answer, "%s", code, 1))
	}
	require.Equal(t, "Nothing that was recorded for a case is called 99992.", refused(t, outside, "hear-test 99992"))

	noted := done(t, inside, "time induction")
	require.False(t, arrives(t, outside, "Induction", 1)[0].Late)
	done(t, outside, "fix-time "+noted.Code+" within 5s at -3m")
	require.Equal(t, "The time is missing.", refused(t, outside, "fix-time "+noted.Code))
	require.Eventually(t, func() bool { return told(t, inside, "Induction")[0].Late }, patience, 50*time.Millisecond)
	done(t, inside, "undo "+noted.Code)
	arrives(t, outside, "Induction", 0)
	sameHash(t, inside, outside)
}

// Goal: what the doors need is told as it is. Method: one request between two
// processes is called for again, reminded of, put at a wrong door, and passed on
// with everything else.
func TestDoorsCallsAndPassingOn(t *testing.T) {
	dir := t.TempDir()
	inside, address := started(t, dir, "lead", "L1")
	outside, _ := started(t, dir, "runner", "R1", "-peer", address)
	done(t, inside, "found Anvil")
	done(t, inside, "stock-demo")
	paired(t, inside, outside, address)
	done(t, inside, "setting call-again-now 1")
	asked := done(t, inside, "ask 1032 x1 now")
	sees(t, outside, asked.Ref, 1)
	require.Eventually(t, func() bool {
		for _, c := range done(t, outside, "calls").listed {
			if c.Ref == asked.Ref && c.Level > 1 {
				return true
			}
		}
		return false
	}, patience, 50*time.Millisecond)
	done(t, outside, "going "+asked.Request)
	done(t, inside, "remind "+asked.Request)
	done(t, outside, "readback "+asked.Request+" 1032 x1")
	require.Equal(t, "This is for door A1, not for A2.", refused(t, outside, "door "+asked.Request+" room A2"))
	e := runnerOf(t, outside)
	require.Equal(t, words.ID("fetching"), e.Doing)
	require.Equal(t, 1, e.Open)
	require.Equal(t, 1, *countOf(t, outside, "bag"))
	other := done(t, outside, "voice 1032 x1 now")
	join := done(t, outside, "join-requests "+asked.Request+" "+other.Request)
	joined := func(n int) func() bool {
		return func() bool { return len(sees(t, outside, other.Ref, 1).Joined) == n }
	}
	require.Eventually(t, joined(1), patience, 50*time.Millisecond)
	done(t, outside, "undo "+markOf(t, join))
	require.Eventually(t, joined(0), patience, 50*time.Millisecond)
	require.Equal(t, 1, *countOf(t, outside, "pass-all R2"))
	done(t, outside, "door "+asked.Request+" room A2 anyway")
	require.Contains(t, sees(t, outside, asked.Ref, 6).Flags, "wrong-door")
}

// markOf is what a done says its record is called.
func markOf(t *testing.T, a reply) string {
	t.Helper()
	var e doneEvent
	require.NoError(t, json.Unmarshal(a.line, &e))
	return e.Mark
}

func runnerOf(t *testing.T, p *player) (e runnerEvent) {
	t.Helper()
	all := done(t, p, "runners A1").listed
	require.Len(t, all, 1)
	require.NoError(t, json.Unmarshal(all[0].line, &e))
	return e
}

// countOf is the number of lines that a list answers with.
func countOf(t *testing.T, p *player, line string) *int {
	t.Helper()
	var e doneEvent
	require.NoError(t, json.Unmarshal(done(t, p, line).line, &e))
	require.NotNil(t, e.Count)
	return e.Count
}
