package lan

import (
	"slices"
	"sync"
	"time"
)

// Tries keeps the failures of pairing, so that starting the program again gives
// nobody new tries. Both methods may wait for a disk; they are called by several
// goroutines, one at a time.
type Tries interface {
	// Failed keeps one failure. After an error it still counts until the
	// program ends.
	Failed(at time.Time) error
	// Failures returns the kept failures since a time, in any order. Those
	// before it are not asked for again.
	Failures(since time.Time) []time.Time
}

// MemoryTries keeps failures in memory only, for tests and demonstrations. The
// zero value is ready.
type MemoryTries struct {
	mu sync.Mutex // guards at
	at []time.Time
}

// Failed keeps one failure and never returns an error.
func (m *MemoryTries) Failed(at time.Time) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.at = append(m.at, at)
	return nil
}

// Failures returns those since a time.
func (m *MemoryTries) Failures(since time.Time) (out []time.Time) {
	m.mu.Lock()
	defer m.mu.Unlock()
	for _, t := range m.at {
		if !t.Before(since) {
			out = append(out, t)
		}
	}
	return out
}

// failures closes pairing after too many of them, over all codes.
type failures struct {
	limits Limits
	now    func() time.Time
	closed func(int, time.Time)

	mu      sync.Mutex // guards the rest
	kept    Tries
	unkept  []time.Time // those that could not be stored
	already time.Time   // until when closing was last reported
}

func newFailures(o Options) *failures {
	return &failures{limits: o.Limits, now: o.Now, closed: o.PairingClosed, kept: o.Tries}
}

// closedUntil returns the time at which pairing opens again, and the failures
// that closed it; zero when it is open. Failures that lie in the future were
// written before somebody set the clock back; they do not count.
func (f *failures) closedUntil() (time.Time, int) {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.until()
}

// until is closedUntil with the lock held. Pairing is closed from the last of
// FailuresMax failures that lie within FailureWindow.
func (f *failures) until() (until time.Time, count int) {
	now := f.now()
	since := now.Add(-f.limits.FailureWindow - f.limits.ClosedFor)
	all := append(f.kept.Failures(since), f.unkept...)
	all = slices.DeleteFunc(all, func(t time.Time) bool { return t.Before(since) || t.After(now) })
	slices.SortFunc(all, time.Time.Compare)
	for i := f.limits.FailuresMax - 1; i < len(all); i++ {
		if all[i].Sub(all[i-f.limits.FailuresMax+1]) <= f.limits.FailureWindow {
			until = all[i].Add(f.limits.ClosedFor)
		}
	}
	if !until.After(now) {
		return time.Time{}, 0
	}
	return until, len(all)
}

// failed counts one more, and reports once when it closes pairing.
func (f *failures) failed() {
	f.mu.Lock()
	now := f.now()
	if err := f.kept.Failed(now); err != nil {
		f.unkept = append(f.unkept, now)
	}
	until, count := f.until()
	report := until.After(f.already)
	if report {
		f.already = until
	}
	f.mu.Unlock()
	if report {
		f.closed(count, until)
	}
}
