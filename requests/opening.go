package requests

import (
	"cmp"
	"slices"
	"time"

	"lintel/mesh"
)

// Waiting is something that is to cross a door. Times are on any one axis, say
// since the case began.
type Waiting struct {
	Ref   mesh.Ref
	Door  mesh.ID
	Ready time.Duration // when it lies at the door, or is expected to
	Due   time.Duration // until when it may wait for an opening
	Now   bool          // it waits for nothing: the door opens when it is ready
}

// Opening is one planned opening of a door with everything that crosses then.
type Opening struct {
	Door    mesh.ID
	At      time.Duration
	Carries []mesh.Ref // in the order in which they are ready
	Now     bool       // something that is wanted now opens it
}

// Openings plans the openings of each door from now on: what is wanted now is
// never delayed, everything that is ready travels with an opening, nothing
// waits beyond its Due, the door opens as seldom as that allows, and of the
// plans with so few openings things wait the least in sum. What was due before
// it can be ready goes as soon as it is ready. The plan is by time, then door.
func Openings(now time.Duration, waits []Waiting) []Opening {
	doors := map[mesh.ID][]Waiting{}
	for _, w := range waits {
		w.Ready = max(w.Ready, now)
		w.Due = max(w.Due, w.Ready)
		if w.Now {
			w.Due = w.Ready
		}
		doors[w.Door] = append(doors[w.Door], w)
	}
	var plan []Opening
	for _, list := range doors {
		plan = append(plan, openDoor(list)...)
	}
	slices.SortFunc(plan, func(a, b Opening) int {
		return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.Door, b.Door))
	})
	return plan
}

// sofar is the best plan whose last opening is at a moment, serving everything
// that is ready by then.
type sofar struct {
	openings int
	waiting  time.Duration // in sum
	before   int           // how many of the list earlier openings serve
	possible bool
}

// openDoor plans one door. An opening is best at the moment when the last thing
// that it carries is ready: any later only lets things wait. So the plans to
// choose among end at such moments, and the best one that ends at one of them
// follows from the best ones that end before.
func openDoor(list []Waiting) []Opening {
	slices.SortFunc(list, func(a, b Waiting) int {
		return cmp.Or(cmp.Compare(a.Ready, b.Ready), a.Ref.Compare(b.Ref))
	})
	best := make([]sofar, len(list)+1) // best[n]: the first n are served
	best[0].possible = true
	for end := 1; end <= len(list); end++ {
		at, due, waiting := list[end-1].Ready, list[end-1].Due, time.Duration(0)
		for start := end - 1; start >= 0; start-- {
			due = min(due, list[start].Due)
			if due < at {
				break // it cannot wait so long, and neither can it with more
			}
			waiting += at - list[start].Ready
			if !best[start].possible {
				continue
			}
			next := sofar{best[start].openings + 1, best[start].waiting + waiting, start, true}
			if next.better(best[end]) {
				best[end] = next
			}
		}
	}
	var plan []Opening
	for end := len(list); end > 0; end = best[end].before {
		plan = append(plan, openingOf(list[best[end].before:end]))
	}
	slices.Reverse(plan)
	return plan
}

func (s sofar) better(t sofar) bool {
	if !t.possible || s.openings != t.openings {
		return !t.possible || s.openings < t.openings
	}
	return s.waiting < t.waiting
}

// openingOf is the opening that carries all of list, which is by Ready.
func openingOf(list []Waiting) Opening {
	last := list[len(list)-1]
	o := Opening{Door: last.Door, At: last.Ready}
	for _, w := range list {
		o.Carries = append(o.Carries, w.Ref)
		o.Now = o.Now || w.Now
	}
	return o
}
