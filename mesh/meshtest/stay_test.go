package meshtest

import (
	"testing"
	"time"
)

// playStay is a short schedule at whose end one device may be destroyed.
func playStay(seed uint64, bug Bug) *Sim {
	s, _ := stay(seed, bug)
	return s
}

func stay(seed uint64, bug Bug) (*Sim, bool) {
	s := NewSim(Options{Seed: seed, Devices: 4 + int(seed%2), Bug: bug, NewFold: NewSetFold})
	destroyed := s.RunStay(12, 3, 12*time.Second)
	return s, destroyed
}

// Goal: a device that says that it may stay behind can be destroyed at any
// moment while it says so, and nothing is lost. Method: short seeded schedules
// with cuts, crashes, full disks, sleep and loss; the device is destroyed at a
// random moment at which it says so, and every entry it held is looked for on
// the disks of the two clean devices. Most schedules must come to that.
func TestADeviceThatMayStayBehindTakesNothingWithIt(t *testing.T) {
	destroyed, all := 0, schedulesMax()
	for seed := range all {
		s, did := stay(seed, NoBug)
		if b := s.Broken(); len(b) > 0 {
			t.Fatalf("seed %d: %s", seed, b[0])
		}
		if did {
			destroyed++
		}
	}
	t.Logf("%d of %d schedules ended with the device destroyed", destroyed, all)
	if destroyed < int(all/2) {
		t.Fatalf("only %d of %d schedules came to destroying the device", destroyed, all)
	}
}
