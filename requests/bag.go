package requests

import (
	"slices"
	"time"

	"lintel/mesh"
)

// Bag lists what can travel together through a door at its next opening: what
// lies at the door, what somebody holds or goes for, and what was asked and is
// not wanted now. A need is listed once. What comes out travels with the same
// opening. Most urgent first.
func (b *Board) Bag(room mesh.ID) []Request {
	var out []Request
	had := map[*fact]bool{}
	for _, r := range b.Open() {
		group := b.group(b.facts[r.Ref])
		if r.Room != room || had[group[0]] || !r.travels() {
			continue
		}
		had[group[0]] = true
		out = append(out, b.furthest(group, room))
	}
	slices.SortFunc(out, byAge)
	return out
}

// travels tells whether a request can be part of the next opening.
func (r Request) travels() bool {
	switch r.Shown {
	case ShownAtDoor, ShownInHand, ShownAcknowledged:
		return true
	case ShownAsked:
		return r.Urgency != RightNow
	}
	return false
}

// furthest is the one of a need's requests in a room that got furthest and can travel.
func (b *Board) furthest(group []*fact, room mesh.ID) (best Request) {
	for _, n := range group {
		r, _ := b.Request(n.Ref)
		if r.Room == room && r.travels() && r.Step > best.Step {
			best = r
		}
	}
	return best
}

// Plan plans the openings of a room's door for its bag, with now at 0: what is
// not at the door yet is expected there after its usual time, and waits no
// longer than the unit's settings for its urgency say.
func (b *Board) Plan(room mesh.ID, elapsed func(Mark) time.Duration) []Opening {
	var waits []Waiting
	k := &caller{b: b, elapsed: elapsed}
	for _, r := range b.Bag(room) {
		w := Waiting{Ref: r.Ref, Door: room, Now: r.Urgency == RightNow}
		if !r.WaitsAtDoor() {
			w.Ready, _ = b.Usual(r.Thing.Item, r.Urgency)
			if gone, _, going := k.going(r); going {
				w.Ready -= gone
			}
		}
		wait := b.Seconds(settingWaitNext)
		if r.Urgency == BeforeWeLeave {
			wait = b.Seconds(settingWaitBefore)
		}
		w.Due = wait - elapsed(r.Asked)
		waits = append(waits, w)
	}
	return Openings(0, waits)
}
