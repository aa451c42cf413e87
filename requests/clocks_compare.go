package requests

import (
	"cmp"
	"slices"
	"time"

	"lintel/mesh"
)

// ClockUnsaid is how far two clocks may drift apart before a new comparison is
// written: so much is added to the ± of each, beside how exactly it was measured.
const ClockUnsaid = 250 * time.Millisecond

// clockStepMin is the change between two comparisons from which a clock was set
// rather than drifted.
const clockStepMin = time.Second

// comparison is one measured difference of two wall clocks.
type comparison struct {
	ref      mesh.Ref
	at       mesh.Order
	peer     mesh.Key
	ms       int64 // peer's wall clock minus the author's
	withinMS int64 // ± how exactly it was measured
	cause    mesh.ClockCause
}

func (c comparison) author() mesh.Key { return c.ref.Author() }

// other is the one of two devices that is not d.
func (c comparison) other(d mesh.Key) mesh.Key {
	if c.peer == d {
		return c.author()
	}
	return c.peer
}

// pair names two devices, the smaller key first.
type pair struct{ low, high mesh.Key }

func (c comparison) pair() pair {
	if c.author().Compare(c.peer) < 0 {
		return pair{c.author(), c.peer}
	}
	return pair{c.peer, c.author()}
}

// highAhead is the clock of the larger key minus that of the smaller.
func (c comparison) highAhead() int64 {
	if c.peer == c.pair().high {
		return c.ms
	}
	return -c.ms
}

// clockBook keeps every comparison. It belongs to the Board.
type clockBook struct {
	byRef  map[mesh.Ref]comparison
	common *clockTable // derived; nil: not yet, or no longer true
}

// add takes one Clock; of two orders for one Ref the lower counts. One that
// cannot be read, compares a device with itself, or is beyond what a wall clock
// can show, says nothing.
func (k *clockBook) add(f mesh.Fact) {
	var body mesh.Clock
	if mesh.Decode(f.Body, &body) != nil || body.Peer == f.Ref.Author() {
		return
	}
	if mesh.Within("offset", body.OffsetMS, -int64(mesh.WallMax), int64(mesh.WallMax)) != nil {
		return
	}
	if old, known := k.byRef[f.Ref]; known && f.At.Compare(old.at) >= 0 {
		return
	}
	if k.byRef == nil {
		k.byRef = map[mesh.Ref]comparison{}
	}
	k.byRef[f.Ref] = comparison{
		ref: f.Ref, at: f.At, peer: body.Peer, ms: body.OffsetMS, withinMS: int64(body.WithinMS), cause: body.Cause,
	}
	k.common = nil
}

// clockJump is a change between two comparisons of one pair that is no drift:
// one of the two clocks was set.
type clockJump struct {
	at     mesh.Order
	pair   pair
	ms     int64 // by how much the larger key's clock moved ahead
	author mesh.Key
	cause  mesh.ClockCause
}

// ahead is by how much d's clock moved ahead, if it was d's that was set.
func (j clockJump) ahead(d mesh.Key) int64 {
	if d == j.pair.high {
		return j.ms
	}
	return -j.ms
}

func alike(a, b int64) bool {
	return a-b < clockStepMin.Milliseconds() && b-a < clockStepMin.Milliseconds()
}

// jumps finds the jumps in comparisons that are in order.
func jumps(measured []comparison) []clockJump {
	last := map[pair]int64{}
	var out []clockJump
	for _, c := range measured {
		before, known := last[c.pair()]
		last[c.pair()] = c.highAhead()
		if known && !alike(before, c.highAhead()) {
			out = append(out, clockJump{c.at, c.pair(), c.highAhead() - before, c.author(), c.cause})
		}
	}
	return out
}

// jumpSize is a device's clock moving ahead by about so many steps of clockStepMin.
type jumpSize struct {
	device mesh.Key
	size   int64
}

func sizeOf(ms int64) int64 { return ms / clockStepMin.Milliseconds() }

// noticed says which pairs noticed about which jump of a device.
type noticed map[jumpSize]map[pair]bool

func newNoticed(all []clockJump) noticed {
	n := noticed{}
	for _, j := range all {
		for _, d := range []mesh.Key{j.pair.low, j.pair.high} {
			at := jumpSize{d, sizeOf(j.ahead(d))}
			if n[at] == nil {
				n[at] = map[pair]bool{}
			}
			n[at][j.pair] = true
		}
	}
	return n
}

// byOthers counts the other pairs of d that jumped about alike.
func (n noticed) byOthers(d mesh.Key, j clockJump) int {
	pairs := map[pair]bool{}
	for near := int64(-1); near <= 1; near++ {
		for p := range n[jumpSize{d, sizeOf(j.ahead(d)) + near}] {
			pairs[p] = true
		}
	}
	delete(pairs, j.pair)
	return len(pairs)
}

// whoJumped is the device whose clock was set. The author says so of its own
// clock. Where it does not, the one of whom other pairs noticed a like jump; in
// doubt the other one, because a device notices most often when it is set.
func (n noticed) whoJumped(j clockJump) mesh.Key {
	peer := j.pair.low
	if peer == j.author {
		peer = j.pair.high
	}
	if j.cause == mesh.ClockStepped || n.byOthers(j.author, j) > n.byOthers(peer, j) {
		return j.author
	}
	return peer
}

// clockStep is a moment at which a clock was set.
type clockStep struct {
	at    mesh.Order
	ms    int64
	pairs map[pair]bool // that showed it
}

// steps finds for each device when its clock was set. Several pairs show one
// step; the same pair, or another size, shows the next one.
func steps(all []clockJump) map[mesh.Key][]clockStep {
	out, by := map[mesh.Key][]clockStep{}, newNoticed(all)
	for _, j := range all {
		d := by.whoJumped(j)
		list := out[d]
		if n := len(list); n > 0 && alike(list[n-1].ms, j.ahead(d)) && !list[n-1].pairs[j.pair] {
			list[n-1].pairs[j.pair] = true
			continue
		}
		out[d] = append(list, clockStep{j.at, j.ahead(d), map[pair]bool{j.pair: true}})
	}
	return out
}

// inOrder gives the comparisons in the order all devices agree on.
func (k *clockBook) inOrder() []comparison {
	out := make([]comparison, 0, len(k.byRef))
	for _, c := range k.byRef {
		out = append(out, c)
	}
	slices.SortFunc(out, func(x, y comparison) int {
		return cmp.Or(x.at.Compare(y.at), x.ref.Compare(y.ref))
	})
	return out
}
