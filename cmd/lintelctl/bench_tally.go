package main

import (
	"context"
	"sync"
	"time"

	"lintel/mesh"
)

// until is what ends a tap that is measured.
type until string

// What ends a tap.
const (
	untilSaved    until = "saved"    // it is on this device's disk
	untilReceipts until = "receipts" // the other devices have it on theirs
	untilAnswered until = "answered" // an entry came back that names it
)

// flight is one tap under way.
type flight struct {
	began time.Time
	seq   mesh.Seq      // once it is saved
	done  chan struct{} // takes one value, and has room for it
}

// tally follows the taps of one device until they are where they should be. Its
// methods are called from the station's loop and from those who tap.
type tally struct {
	mu       sync.Mutex // guards the rest
	until    until
	need     int                  // receipts wanted for each tap
	open     map[mesh.Tap]*flight // not saved, or waiting for an answer
	saved    []*flight            // waiting for receipts, in the order of their sequences
	receipts map[mesh.Key]mesh.Seq
	samples  []time.Duration
	last     time.Time // when the newest sample was taken
	links    map[mesh.Key]time.Time
	changed  chan struct{} // closed and replaced when links or samples change
}

func newTally() *tally {
	return &tally{
		open: map[mesh.Tap]*flight{}, receipts: map[mesh.Key]mesh.Seq{},
		links: map[mesh.Key]time.Time{}, changed: make(chan struct{}),
	}
}

// reset begins to count anew.
func (t *tally) reset(u until, need, n int) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.until, t.need = u, need
	t.open, t.saved, t.samples = map[mesh.Tap]*flight{}, nil, make([]time.Duration, 0, n)
}

// begin says that a tap is made now. done is told once, when it has ended.
func (t *tally) begin(tap mesh.Tap, done chan struct{}) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.open[tap] = &flight{began: time.Now(), done: done}
}

// told takes what the station says; see station.Options.Told.
func (t *tally) told(ef mesh.Effect) {
	now := time.Now()
	t.mu.Lock()
	defer t.mu.Unlock()
	switch e := ef.(type) {
	case mesh.Saved:
		t.isSaved(e, now)
	case mesh.Copied:
		t.receipts[e.By] = max(t.receipts[e.By], e.At.Seq)
		t.takeReceipts(now)
	case mesh.LinkState:
		t.isLinked(e.Peer, now)
	}
}

func (t *tally) isSaved(e mesh.Saved, now time.Time) {
	f := t.open[e.Tap]
	if f == nil || t.until == untilAnswered {
		return
	}
	delete(t.open, e.Tap)
	f.seq = e.At.Seq
	t.saved = append(t.saved, f)
	if t.until == untilSaved {
		f.done <- struct{}{}
	}
}

// takeReceipts ends the taps that enough devices have stored.
func (t *tally) takeReceipts(now time.Time) {
	if len(t.receipts) < t.need || t.until == untilAnswered {
		return
	}
	stored := mesh.SeqMax // on all of them
	for _, s := range t.receipts {
		stored = min(stored, s)
	}
	for len(t.saved) > 0 && t.saved[0].seq <= stored {
		t.sample(t.saved[0], now)
		t.saved = t.saved[1:]
	}
}

// answered ends the tap that another device's entry names.
func (t *tally) answered(tap mesh.Tap) {
	now := time.Now()
	t.mu.Lock()
	defer t.mu.Unlock()
	if f := t.open[tap]; f != nil && t.until == untilAnswered {
		delete(t.open, tap)
		t.sample(f, now)
	}
}

func (t *tally) sample(f *flight, now time.Time) {
	t.samples, t.last = append(t.samples, now.Sub(f.began)), now
	if t.until != untilSaved {
		f.done <- struct{}{}
	}
	t.ring()
}

func (t *tally) isLinked(p mesh.PeerState, now time.Time) {
	switch _, up := t.links[p.Peer]; {
	case p.Health == mesh.NotConnected:
		delete(t.links, p.Peer)
	case !up:
		t.links[p.Peer] = now
	}
	t.ring()
}

func (t *tally) ring() {
	close(t.changed)
	t.changed = make(chan struct{})
}

// wait returns when enough says so, or with the context's error. enough is
// called with the tally locked.
func (t *tally) wait(ctx context.Context, enough func() bool) error {
	for {
		t.mu.Lock()
		over, changed := enough(), t.changed
		t.mu.Unlock()
		if over {
			return nil
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-changed:
		}
	}
}

// taken gives the samples so far in microseconds and the time of the newest.
func (t *tally) taken() (us []int64, last time.Time) {
	t.mu.Lock()
	defer t.mu.Unlock()
	us = make([]int64, len(t.samples))
	for i, s := range t.samples {
		us[i] = s.Microseconds()
	}
	return us, t.last
}
