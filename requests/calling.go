package requests

import (
	"cmp"
	"slices"
	"time"

	"lintel/mesh"
)

// CallWhy is what waits for a person outside.
type CallWhy uint8

// What waits for a person outside.
const (
	CallBreach    CallWhy = 1  // protective equipment failed, or somebody must get out, and nobody heard it
	CallSaid      CallWhy = 2  // a phrase from inside that nobody heard
	CallNew       CallWhy = 3  // nobody has answered what is wanted
	CallContended CallWhy = 4  // two doors want something now of one runner: another one is called
	CallTakeBack  CallWhy = 5  // not wanted any more, and it lies at the door: take it back
	CallPutBack   CallWhy = 6  // not wanted any more, and it is in the hand: put it back
	CallStop      CallWhy = 7  // not wanted any more, and somebody is going for it
	CallReminded  CallWhy = 8  // somebody inside asks about it again
	CallStill     CallWhy = 9  // going, and not at the door within the usual time: still on it?
	CallPassed    CallWhy = 10 // given to this runner, who did not take it yet
	CallTest      CallWhy = 11 // a test request that nobody heard
)

// Levels of a call.
const (
	LevelFirst     uint8 = 1 // to whom it concerns
	LevelAgain     uint8 = 2 // it repeats; "still on it?" goes to the other runners too
	LevelEverybody uint8 = 3 // to every device outside
)

// Call is something that waits for a person outside, and how far it has escalated.
type Call struct {
	Ref     mesh.Ref // the request, phrase, breach or test
	Room    mesh.ID
	Why     CallWhy
	Level   uint8
	Urgency Urgency       // of a request; 0: it is none
	For     []mesh.Key    // the devices that call, by key; none: nobody is outside
	Elapsed time.Duration // since what Why says
	Usual   time.Duration // of CallStill: how long it usually takes
}

// Calls lists what waits for a person outside, the gravest first. elapsed tells
// how long ago a mark was made; the board has no clock.
//
//   - A new request calls the runners of its room once it is older than the
//     setting hold-ring; after call-again (wanted now: call-again-now) it calls
//     again, and after twice that every device outside. With no runner it calls
//     every device outside at once. What is joined to something that was brought
//     never calls.
//   - What is not at the door within its usual time asks the runner "still on
//     it?", and after half as much again the other runners. A runner who says
//     "going" once more has that time anew.
//   - What is not wanted any more calls whoever goes for it: at the door until
//     it was taken back, in the hand until that device says so (a could not, a
//     taken back, an undoing), before that for as long as call-again.
//   - A phrase or a breach calls until somebody heard it, a test request too.
//   - When its case is shut, only what is wanted now goes on calling.
func (b *Board) Calls(elapsed func(Mark) time.Duration) []Call {
	k := &caller{b: b, elapsed: elapsed}
	for _, r := range b.Open() {
		k.request(r)
	}
	b.usual.update(b)
	for n := range b.usual.dropped {
		k.dropped(*b.view(n))
	}
	for _, c := range b.Contended() {
		k.contended(c)
	}
	for _, open := range b.cases.opens.all() {
		if !b.undone(open) && !b.caseView(open).Over {
			k.voices(*b.caseView(open))
		}
	}
	slices.SortFunc(k.calls, graver)
	return k.calls
}

// graver orders calls: breaches, phrases, requests by urgency, then what was waited for longest.
func graver(x, y Call) int {
	rank := func(c Call) int {
		switch c.Why {
		case CallBreach:
			return -2
		case CallSaid:
			return -1
		}
		return int(RightNow - c.Urgency)
	}
	return cmp.Or(cmp.Compare(rank(x), rank(y)), cmp.Compare(y.Level, x.Level),
		cmp.Compare(x.Why, y.Why), cmp.Compare(y.Elapsed, x.Elapsed), x.Ref.Compare(y.Ref))
}

// caller collects calls.
type caller struct {
	b       *Board
	elapsed func(Mark) time.Duration
	calls   []Call
	reach   map[mesh.ID][]mesh.Key // the runners of a room whom a call can reach
}

// put adds a call for those whom it concerns first; for everybody outside from
// LevelEverybody on, and if there is nobody else.
func (k *caller) put(c Call, first []mesh.Key) {
	if c.Level >= LevelEverybody || len(first) == 0 {
		first = k.b.outside()
	}
	c.For = sortedKeys(first)
	k.calls = append(k.calls, c)
}

// sortedKeys gives each key once, in order.
func sortedKeys(keys []mesh.Key) []mesh.Key {
	out := slices.SortedFunc(slices.Values(keys), mesh.Key.Compare)
	return slices.Compact(out)
}

// outside lists the devices that are not inside a room, by key.
func (b *Board) outside() (keys []mesh.Key) {
	for _, h := range b.Holders() {
		if h.Side != Inside {
			keys = append(keys, h.Device)
		}
	}
	return keys
}

// level is how far a call has escalated that repeats after a time: 0 never.
func level(waited, again time.Duration) uint8 {
	switch {
	case again <= 0 || waited < again:
		return LevelFirst
	case waited < 2*again:
		return LevelAgain
	}
	return LevelEverybody
}

// again is after what time a call repeats.
func (k *caller) again(u Urgency) time.Duration {
	if u == RightNow {
		return k.b.Seconds(settingCallNow)
	}
	return k.b.Seconds(settingCall)
}

// voices calls for what was said from inside in a case and nobody heard.
func (k *caller) voices(c Case) {
	for _, h := range c.Breaches {
		if len(h.Heard) == 0 {
			waited := k.elapsed(h.Mark)
			k.put(Call{Ref: h.Ref, Room: c.Room, Why: CallBreach, Level: level(waited, k.again(RightNow)), Elapsed: waited},
				append(k.b.observers(c.Room), k.callable(c.Room)...))
		}
	}
	for _, p := range c.Said {
		if p.Out && len(p.Heard) == 0 {
			waited, room := k.elapsed(p.Mark), cmp.Or(p.Room, c.Room)
			k.put(Call{Ref: p.Ref, Room: room, Why: CallSaid, Level: level(waited, k.again(NextOpening)), Elapsed: waited},
				k.callable(room))
		}
	}
	newest := map[mesh.Key]CommsTest{}
	for _, t := range c.Tests {
		newest[t.Device()] = t
	}
	for _, t := range newest {
		if len(t.Heard) == 0 {
			room := cmp.Or(t.Room, c.Room)
			k.put(Call{Ref: t.Ref, Room: room, Why: CallTest, Level: LevelFirst, Elapsed: k.elapsed(t.Mark)}, k.callable(room))
		}
	}
}

// observers lists the devices outside whose role observes, for a room.
func (b *Board) observers(room mesh.ID) (keys []mesh.Key) {
	for _, h := range b.Holders() {
		if h.Can&CanObserve != 0 && h.Side != Inside && h.For(room) {
			keys = append(keys, h.Device)
		}
	}
	return keys
}
