package lan

import "time"

// How often devices call. Each says what more or less of it does.
const (
	beaconEvery  = 10 * time.Second // less often finds a device that was switched on late
	beaconJitter = 2 * time.Second  // keeps a unit's devices from calling all at once
	queryEvery   = 30 * time.Second // a query opens sockets and is heard by everything on the network
	queryJitter  = 5 * time.Second
	wiresEvery   = 3 * time.Second // how soon another address of this device is noticed
)

// beaconQuick are the pauses before the first beacons, at the start and when
// the device has another address.
func beaconQuick() []time.Duration {
	return []time.Duration{0, time.Second, time.Second, 2 * time.Second}
}

// queryQuick are those before the first mDNS queries, which last a second each.
func queryQuick() []time.Duration { return []time.Duration{0, 2 * time.Second, 4 * time.Second} }

// schedule says when something is to be sent: a few times quickly, then with
// jitter, never more often. What was missed, in a sleep say, is not made up for.
type schedule struct {
	quick         []time.Duration // pauses
	every, jitter time.Duration
	random        func(below time.Duration) time.Duration

	step int
	next time.Time
}

// begin starts the quick part, again if it has ended.
func (s *schedule) begin(now time.Time) { s.step, s.next = 0, now.Add(s.quick[0]) }

// due tells whether the time has come, and if so sets the next one.
func (s *schedule) due(now time.Time) bool {
	if now.Before(s.next) {
		return false
	}
	if s.step++; s.step < len(s.quick) {
		s.next = now.Add(s.quick[s.step])
	} else {
		s.step = len(s.quick)
		s.next = now.Add(s.every + s.random(s.jitter))
	}
	return true
}
