package station

import (
	"context"
	"errors"
	"reflect"
	"sync"
	"time"

	"lintel/mesh"
)

// Doer carries out an act and waits until it is on the disk, as Station does.
type Doer interface {
	Do(ctx context.Context, by mesh.By, act Act) (Result, error)
}

// tapsMax bounds the taps that wait for the one that is being written.
const tapsMax = 16

// ErrBusy says that a tap was not taken: those before it still wait for the disk.
var ErrBusy = errors.New("too many taps wait for the disk")

// AgainAfter is how long the same tap counts only once: a gloved finger slips.
const AgainAfter = 700 * time.Millisecond

// Taps stands between a screen, which must not wait, and a station that is
// waited for: one act after another, in the order of the taps.
type Taps struct {
	doer  Doer
	post  func(func()) // runs a function on the UI goroutine
	now   func() time.Time
	queue chan tapped

	mu   sync.Mutex // guards last
	last tapped
}

// tapped is one tap on its way.
type tapped struct {
	by   mesh.By
	act  Act
	done func(Result, error)
	at   time.Time
}

// NewTaps makes the queue. post hands a function to the UI goroutine and may
// drop it when the program ends.
func NewTaps(d Doer, post func(func()), now func() time.Time) *Taps {
	return &Taps{doer: d, post: post, now: now, queue: make(chan tapped, tapsMax)}
}

// Tap takes an act and does not wait. done is called on the UI goroutine when
// the act is on the disk or is known not to be; with ErrBusy when too many taps
// wait already. False: the same was tapped less than AgainAfter ago, and counts
// once.
func (t *Taps) Tap(by mesh.By, act Act, done func(Result, error)) bool {
	x := tapped{by: by, act: act, done: done, at: t.now()}
	t.mu.Lock()
	again := t.last.act != nil && x.at.Sub(t.last.at) < AgainAfter && t.last.by == by && reflect.DeepEqual(t.last.act, act)
	if !again {
		t.last = x
	}
	t.mu.Unlock()
	if again {
		return false
	}
	select {
	case t.queue <- x:
	default:
		t.answer(x, Result{}, ErrBusy)
	}
	return true
}

func (t *Taps) answer(x tapped, r Result, err error) {
	if x.done != nil {
		t.post(func() { x.done(r, err) })
	}
}

// Run carries the taps out until ctx ends. One that is under way is finished
// or given up by the station; those that wait then are dropped and never were
// shown as saved.
func (t *Taps) Run(ctx context.Context) error {
	for {
		select {
		case <-ctx.Done():
			return ctx.Err()
		case x := <-t.queue:
			r, err := t.doer.Do(ctx, x.by, x.act)
			t.answer(x, r, err)
		}
	}
}
