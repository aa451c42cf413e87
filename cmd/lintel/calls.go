package main

import (
	"slices"
	"time"

	"lintel/app/look"
	"lintel/mesh"
)

// Times of calling outside. They are ours: nobody has published any.
const (
	remindAfter = 60 * time.Second // a call that nobody answered is repeated
	flashFor    = 10 * time.Second // after a call or a reminder
)

// calls remembers which requests called already. The worker's loop owns it.
type calls struct {
	known []mesh.Ref
	last  time.Time // of the last sound
	on    bool      // the bright half of a flash
}

// next takes the requests that call now, and gives the sounds that are due and
// whether the window is in the bright half of a flash. What called already when
// the program started calls again: nobody may have heard it.
func (c *calls) next(calling []mesh.Ref, now time.Time) (due []look.Sound, flash bool) {
	fresh := slices.ContainsFunc(calling, func(r mesh.Ref) bool { return !slices.Contains(c.known, r) })
	c.known = slices.Clone(calling)
	switch {
	case fresh:
		due, c.last = []look.Sound{look.SoundCall}, now
	case len(calling) > 0 && now.Sub(c.last) >= remindAfter:
		due, c.last = []look.Sound{look.SoundReminder}, now
	}
	c.on = len(calling) > 0 && now.Sub(c.last) < flashFor && int(now.Sub(c.last)/lookEvery)%2 == 0
	return due, c.on
}
