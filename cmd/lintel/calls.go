package main

import (
	"slices"
	"sync/atomic"
	"time"

	"lintel/app/look"
	"lintel/mesh"
	"lintel/requests"
)

// Times of calling outside. They are ours: nobody has published any. When a
// call goes further is the unit's choice, and comes with the call's level.
const (
	remindAfter = 60 * time.Second // what still calls is repeated
	flashFor    = 10 * time.Second // after a call or a reminder
)

// calls remembers what called already. The worker's loop owns it, but for quiet.
//
// A call sounds when it comes, again with each level that it reaches, and then
// once a minute for as long as nobody answers; it flashes each time. While a
// person has silenced the device nothing sounds, not even something else that
// is wanted now: a silence that ends by itself would be believed by nobody. It
// still flashes, and the screen says what calls and how long the silence lasts.
// When the silence is over, what still calls sounds at once.
type calls struct {
	known []ring
	last  time.Time // of the last sound, or of what would have been one
	muted bool      // a sound was left out since the silence began
	quiet silence
}

// ring is one call at one level.
type ring struct {
	ref   mesh.Ref
	why   requests.CallWhy
	level uint8
}

// silence is until when a person silenced the calls, in ms; any goroutine may
// set and read it.
type silence struct{ until atomic.Int64 }

// set silences until a time; one that is over ends a silence.
func (s *silence) set(until time.Time) { s.until.Store(until.UnixMilli()) }

// on tells whether the calls are silenced.
func (s *silence) on(now time.Time) bool { return now.UnixMilli() < s.until.Load() }

// next takes what calls now, and gives the sounds that are due and whether the
// window is in the bright half of a flash. What called already when the program
// started calls again: nobody may have heard it.
func (c *calls) next(calling []requests.Call, now time.Time) (due []look.Sound, flash bool) {
	sound, fresh := c.fresh(calling)
	quiet := c.quiet.on(now)
	switch {
	case fresh:
	case len(calling) == 0:
		c.muted = false
	case c.muted && !quiet, now.Sub(c.last) >= remindAfter:
		sound, fresh = look.SoundReminder, true
	}
	if fresh {
		if c.last = now; quiet {
			c.muted = true
		} else {
			due, c.muted = []look.Sound{sound}, false
		}
	}
	flash = len(calling) > 0 && now.Sub(c.last) < flashFor && int(now.Sub(c.last)/lookEvery)%2 == 0
	return due, flash
}

// fresh notes what calls, and gives the sound of what did not at that level.
func (c *calls) fresh(calling []requests.Call) (sound look.Sound, fresh bool) {
	var known []ring
	sound = look.SoundReminder
	for _, x := range calling {
		r := ring{x.Ref, x.Why, x.Level}
		known = append(known, r)
		if slices.Contains(c.known, r) {
			continue
		}
		fresh = true
		if x.Level == requests.LevelFirst && x.Why != requests.CallStill && x.Why != requests.CallReminded {
			sound = look.SoundCall
		}
	}
	c.known = known
	return sound, fresh
}
