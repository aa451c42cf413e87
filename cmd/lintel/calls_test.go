package main

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/mesh"
	"lintel/requests"
)

// ladder plays calls at given times; no clock runs.
type ladder struct {
	t     *testing.T
	calls calls
	start time.Time
}

// at gives what sounds and flashes so long after the start.
func (l *ladder) at(after time.Duration, calling ...requests.Call) (due []look.Sound, flash bool) {
	return l.calls.next(calling, l.start.Add(after))
}

// hears asserts what sounds.
func (l *ladder) hears(after time.Duration, want look.Sound, calling ...requests.Call) {
	l.t.Helper()
	due, _ := l.at(after, calling...)
	require.Equal(l.t, []look.Sound{want}, due, "at %v", after)
}

// silent asserts that nothing sounds.
func (l *ladder) silent(after time.Duration, calling ...requests.Call) {
	l.t.Helper()
	due, _ := l.at(after, calling...)
	require.Empty(l.t, due, "at %v", after)
}

func newLadder(t *testing.T) *ladder { return &ladder{t: t, start: time.UnixMilli(1_800_000_000_000)} }

// callOf is a call about the n-th thing.
func callOf(n byte, why requests.CallWhy, level uint8) requests.Call {
	return requests.Call{Ref: mesh.MakeRef(mesh.Key{n}, mesh.Tap{n}, 1), Why: why, Level: level, Urgency: requests.RightNow}
}

// TestACallGoesUpItsLevelsInSounds follows one request that is wanted now, as
// the board escalates it with the shipped settings: nothing in the first second,
// then a call, again after 10 s, everybody after 20 s, once a minute from then
// on; going for it ends it, "still on it?" comes with the usual time, and again
// for the others.
func TestACallGoesUpItsLevelsInSounds(t *testing.T) {
	l := newLadder(t)
	one := func(level uint8) requests.Call { return callOf(1, requests.CallNew, level) }
	still := func(level uint8) requests.Call { return callOf(1, requests.CallStill, level) }
	l.silent(0)
	l.silent(900 * time.Millisecond)
	l.hears(time.Second, look.SoundCall, one(requests.LevelFirst))
	l.silent(9*time.Second, one(requests.LevelFirst))
	l.hears(10*time.Second, look.SoundReminder, one(requests.LevelAgain))
	l.silent(19*time.Second, one(requests.LevelAgain))
	l.hears(20*time.Second, look.SoundReminder, one(requests.LevelEverybody))
	l.silent(79*time.Second, one(requests.LevelEverybody))
	l.hears(20*time.Second+remindAfter, look.SoundReminder, one(requests.LevelEverybody))
	l.silent(90 * time.Second)
	l.hears(150*time.Second, look.SoundReminder, still(requests.LevelFirst))
	l.silent(179*time.Second, still(requests.LevelFirst))
	l.hears(180*time.Second, look.SoundReminder, still(requests.LevelAgain))
	l.silent(4 * time.Minute)
}

// TestEachCallThatComesSounds adds one to another, and each sort of call.
func TestEachCallThatComesSounds(t *testing.T) {
	l := newLadder(t)
	one, two := callOf(1, requests.CallNew, 1), callOf(2, requests.CallNew, 1)
	l.hears(0, look.SoundCall, one)
	l.silent(time.Second, one)
	l.hears(2*time.Second, look.SoundCall, one, two)
	l.silent(3*time.Second, two)
	for n, why := range []requests.CallWhy{requests.CallBreach, requests.CallSaid, requests.CallTakeBack, requests.CallPutBack, requests.CallPassed, requests.CallTest} {
		l.hears(time.Duration(4+n)*time.Second, look.SoundCall, callOf(3, why, 1))
	}
	l.hears(20*time.Second, look.SoundReminder, callOf(3, requests.CallReminded, 1))
}

// TestASilenceLeavesOutSoundsAndNothingElse silences for two minutes while
// something calls: another thing that is wanted now makes no sound and flashes
// all the same; what still calls is heard when the silence is over, or ended.
func TestASilenceLeavesOutSoundsAndNothingElse(t *testing.T) {
	l := newLadder(t)
	one, two := callOf(1, requests.CallNew, 1), callOf(2, requests.CallNew, 1)
	l.hears(0, look.SoundCall, one)
	l.calls.quiet.set(l.start.Add(2 * time.Minute))
	due, flash := l.at(15*time.Second, one, two)
	require.Empty(t, due)
	require.True(t, flash)
	l.silent(80*time.Second, one, two)
	l.silent(119*time.Second, one, two)
	l.hears(120*time.Second, look.SoundReminder, one, two)
	l.silent(121*time.Second, one, two)
	l.calls.quiet.set(l.start.Add(10 * time.Minute))
	l.silent(200*time.Second, one, two)
	l.calls.quiet.set(l.start)
	l.hears(201*time.Second, look.SoundReminder, one, two)
	l.calls.quiet.set(l.start.Add(10 * time.Minute))
	l.silent(300*time.Second, one, two)
	l.silent(301 * time.Second)
	l.calls.quiet.set(l.start)
	l.hears(302*time.Second, look.SoundCall, two)
}

// TestCallsFlashAtMostTwiceASecond counts the bright halves of a flash, and that
// it ends.
func TestCallsFlashAtMostTwiceASecond(t *testing.T) {
	l := newLadder(t)
	turns, on := 0, false
	for at := time.Duration(0); at < flashFor; at += 10 * time.Millisecond {
		_, flash := l.at(at, callOf(1, requests.CallNew, 1))
		if flash && !on {
			turns++
		}
		on = flash
	}
	require.LessOrEqual(t, float64(turns)/flashFor.Seconds(), 2.0)
	require.Positive(t, turns)
	_, flash := l.at(flashFor, callOf(1, requests.CallNew, 1))
	require.False(t, flash)
}
