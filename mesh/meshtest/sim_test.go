package meshtest

import (
	"fmt"
	"os"
	"slices"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
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

// playCut parts two devices from the rest, has one of them write, and has the
// rest remove that one, which therefore has written above its cut.
func playCut(seed uint64, bug Bug) *Sim {
	s := NewSim(Options{Seed: seed, Devices: 5, Bug: bug, NewFold: NewSetFold})
	s.Cut(3, 4)
	for n := range byte(3) {
		part, err := mesh.MakePart(mesh.KindBy, &mesh.By{Role: "tester", Happened: mesh.Wall(1 + n)})
		if err != nil {
			panic(err)
		}
		s.Tap(3, mesh.Tap{n}, []mesh.Part{part})
	}
	s.RunFor(5 * time.Second)
	s.expel(s.nodes[3], s.nodes[:2])
	s.RunFor(5 * time.Second)
	s.Heal()
	s.RunFor(60 * time.Second)
	s.check()
	return s
}

// Goal: what a removed device wrote above its cut is kept and counts nowhere.
// Method: one device holds it before it hears of the removal; then all agree,
// all keep it, and no check finds anything.
func TestNothingAboveACutCounts(t *testing.T) {
	s := playCut(1, NoBug)
	require.Empty(t, s.Broken())
	for _, n := range s.awake() {
		require.NotEmpty(t, n.peer.Above(), "%v does not hold what was written above the cut", n)
	}
}

// caught says which check must find which mistake. Every mistake has a line.
type caught struct {
	bug   Bug
	check Check
	play  func(seed uint64, bug Bug) *Sim
}

// playAnything is a random schedule.
func playAnything(seed uint64, bug Bug) *Sim { return play(seed, bug, false) }

func everyCaught() []caught {
	return []caught{
		{AckBeforeSync, SavedNotOnDisk, playAnything},
		{ForgetPoison, CopyToldNotThere, playAnything},
		{ForgetPoison, CopyHeldNotThere, playAnything},
		{SendUnsynced, SentBeforeSync, playAnything},
		{GarbleSent, FrameUnreadable, playAnything},
		{GarbleHeld, EntryUnreadable, playAnything},
		{NoSignatures, EntryNotVouched, playAnything},
		{LoseHeld, GapInChain, playAnything},
		{DropLadders, StatesDiffer, playAnything},
		{ArrivalOrder, StatesDiffer, playAnything},
		{IgnoreRefold, RefoldDiffers, playAnything},
		{CountAbove, AboveCutFolded, playCut},
		{LyingDisk, AcknowledgedMissing, playAnything},
		{StayOnSent, StayedAndLost, playStay},
		{StayOnOne, StayedAndLost, playStay},
	}
}

// Goal: each check can fail, and fails for its own reason. Method: switch on
// one mistake at a time and look for a seed on which that very check finds it;
// no check and no mistake may be left out.
func TestEveryDeliberateMistakeIsFoundByItsOwnCheck(t *testing.T) {
	checks, bugs := map[Check]bool{}, map[Bug]bool{}
	for _, c := range everyCaught() {
		checks[c.check], bugs[c.bug] = true, true
		t.Run(fmt.Sprintf("%d %s", c.bug, c.check), func(t *testing.T) {
			for seed := range uint64(seedsPerBug) {
				found := c.play(seed, c.bug).found
				if i := slices.IndexFunc(found, func(f finding) bool { return f.check == c.check }); i >= 0 {
					t.Logf("seed %d: %s", seed, found[i].said)
					return
				}
			}
			t.Fatal("no seed found the mistake")
		})
	}
	require.Len(t, checks, len(allChecks()), "a check without a mistake that it finds")
	require.Len(t, bugs, int(bugEnd)-1, "a mistake without a check that finds it")
}

// seedsPerBug is how many schedules may pass before a mistake must be found.
const seedsPerBug = 60
