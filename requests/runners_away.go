package requests

import (
	"slices"

	"lintel/mesh"
)

// injectAway is what a drill's lead gives to call a room's runner away.
const injectAway mesh.ID = "runner-away"

// away is the runner whom a drill in a room calls away: the one whose tag the
// inject says, else whoever did something for a request last before it, else the
// first by key. It is over with that runner's next mark on a request, or with the
// drill. Other rooms, and what only happens outside drills, know nothing of it.
func (b *Board) away(room mesh.ID) (who mesh.Key, is bool) {
	drill, on := b.DrillIn(room)
	if !on {
		return who, false
	}
	i := slices.IndexFunc(drill.Injects, func(x Injected) bool { return x.What == injectAway })
	runners := b.RunnersFor(room)
	if i < 0 || len(runners) == 0 {
		return who, false
	}
	for _, x := range drill.Injects[i:] { // the newest one is meant
		if x.What == injectAway {
			who, is = b.calledAway(runners, x)
		}
	}
	return who, is
}

// calledAway is whom one inject calls away; false: that runner is back.
func (b *Board) calledAway(runners []mesh.Key, x Injected) (who mesh.Key, is bool) {
	given := b.facts[x.Ref]
	busy := func(device mesh.Key) mesh.Order {
		if last := b.runners.lastBefore(b, device, given); last != nil {
			return last.At
		}
		return mesh.Order{}
	}
	who = runners[0]
	for _, device := range runners[1:] {
		if busy(device).Compare(busy(who)) > 0 {
			who = device
		}
	}
	for _, device := range runners {
		if h, _ := b.Holder(device); x.Words != "" && h.Tag == mesh.Tag(x.Words) {
			who = device
		}
	}
	last := b.runners.last(b, who)
	return who, last == nil || compareFacts(last, given) < 0
}

// callable are the runners for a room whom a call can reach: a drill may call one
// away. Shared, and full, so that appending copies.
func (k *caller) callable(room mesh.ID) []mesh.Key {
	if all, known := k.reach[room]; known {
		return all
	}
	who, is := k.b.away(room)
	all := slices.DeleteFunc(k.b.RunnersFor(room), func(d mesh.Key) bool { return is && d == who })
	if k.reach == nil {
		k.reach = map[mesh.ID][]mesh.Key{}
	}
	k.reach[room] = slices.Clip(all)
	return k.reach[room]
}

// lastBefore is a device's last mark before a fact; nil: none.
func (x *runnerIndex) lastBefore(b *Board, device mesh.Key, n *fact) *fact {
	for _, m := range slices.Backward(x.byDevice[device].before(n)) {
		if !b.undone(m) {
			return m
		}
	}
	return nil
}
