package meshtest

import (
	"fmt"
	"os"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// play runs one schedule and returns the simulation.
func play(seed uint64, bug Bug, real bool) *Sim {
	o := Options{Seed: seed, Devices: 5 + int(seed%4), Bug: bug, Real: real, NewFold: NewSetFold}
	if bug == ArrivalOrder {
		o.NewFold = NewLastFold
	}
	s := NewSim(o)
	s.RunSchedule(Plan{Entries: 60 + int(seed%40), Faults: 10 + int(seed%6), Span: 100 * time.Second})
	return s
}

// schedulesMax is how many seeds a test run tries; LINTEL_SEEDS asks for more.
func schedulesMax() uint64 {
	if n, err := strconv.ParseUint(os.Getenv("LINTEL_SEEDS"), 10, 32); err == nil {
		return n
	}
	return 1000
}

// Goal: no schedule of faults breaks a promise. Method: seeded random
// schedules, each with at least 5 devices, 60 taps and 10 faults; every
// hundredth signs with Ed25519.
func TestEveryScheduleKeepsThePromises(t *testing.T) {
	for seed := range schedulesMax() {
		s := play(seed, NoBug, seed%100 == 99)
		if b := s.Broken(); len(b) > 0 {
			t.Fatalf("seed %d: %d promises broken, the first: %s", seed, len(b), b[0])
		}
		if s.Acknowledged() == 0 {
			t.Fatalf("seed %d: nothing was acknowledged, so nothing was shown", seed)
		}
	}
}

// Goal: a failure can be repeated. Method: the same seed twice, traces equal
// byte for byte.
func TestTheSameSeedGivesTheSameTrace(t *testing.T) {
	for seed := range uint64(5) {
		require.Equal(t, play(seed, NoBug, false).Trace(), play(seed, NoBug, false).Trace(), "seed %d", seed)
	}
}

// Goal: the checks can fail. Method: switch on one mistake at a time and look
// for a seed on which a check finds it.
func TestEveryDeliberateMistakeIsFound(t *testing.T) {
	for bug := AckBeforeSync; bug <= ForgetPoison; bug++ {
		t.Run(fmt.Sprint(bug), func(t *testing.T) {
			for seed := range uint64(60) {
				if b := play(seed, bug, false).Broken(); len(b) > 0 {
					t.Logf("seed %d: %s", seed, b[0])
					return
				}
			}
			t.Fatal("no seed found the mistake")
		})
	}
}
