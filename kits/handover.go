package kits

import (
	"maps"
	"slices"

	"lintel/mesh"
)

// HandOverState is how far a hand-over is.
type HandOverState uint8

// States of a hand-over.
const (
	HandOverOpen     HandOverState = 1 // it lies at the door
	HandOverEnded    HandOverState = 2 // Taken went on, the rest went back
	HandOverConflict HandOverState = 3 // it was ended differently: it stays at the door
	HandOverReversed HandOverState = 4 // the movement to the door was a mistake
)

// HandOver is one crossing at the door as the ledger sees it.
type HandOver struct {
	Movement
	State HandOverState
	Taken []int64 // of each line, once it is ended
	Ends  []HandOverEnd
}

// HandOverEnd is one end that was recorded for a hand-over.
type HandOverEnd struct {
	Ref    mesh.Ref
	Taken  []int64
	Stands bool // no other end settles it, and nobody took it back
	Fits   bool // it has one number for each line

	Reopened []mesh.Ref // what takes it back, in the order of the refs
}

// isHandOver tells whether m goes to a door.
func (m *move) isHandOver() bool { return m.kind == KindMoved && m.to.Sort == Door }

// standing are the ends of a hand-over that e sees, that have a number for each
// line, that no other of these settles, and that nobody took back. If they
// settle each other in a circle, none of them is settled; what one that was
// taken back settled stays settled. They come in the order of their refs.
func (m *move) standing(e eyes) []end {
	if m.named == nil || !m.isHandOver() {
		return nil
	}
	if len(m.named.ends) == 1 && !m.stands(&m.named.ends[0], e) {
		return nil
	}
	var all []end
	var writes []mesh.Write
	for _, x := range m.named.ends {
		if e.see(x.at) && len(x.body.Taken) == len(m.lines) {
			all = append(all, x)
			writes = append(writes, mesh.Write{Ref: x.ref, At: x.at, Replaces: x.body.Settles})
		}
	}
	stands := map[mesh.Ref]bool{}
	if len(all) > 1 {
		for _, w := range mesh.Standing(writes) {
			stands[w.Ref] = true
		}
		all = slices.DeleteFunc(all, func(x end) bool { return !stands[x.ref] })
	}
	all = slices.DeleteFunc(all, func(x end) bool { return x.reopened.by(e) })
	slices.SortFunc(all, func(a, b end) int { return a.ref.Compare(b.ref) })
	return all
}

// stands tells whether e sees the only end of a hand-over and it counts.
func (m *move) stands(x *end, e eyes) bool {
	return e.see(x.at) && len(x.body.Taken) == len(m.lines) && !x.reopened.by(e)
}

// outcome is what the ends that e sees agree on. Different ends decide nothing.
func (m *move) outcome(e eyes) (taken []int64, ended bool) {
	if m.named == nil || len(m.named.ends) == 0 || !m.isHandOver() {
		return nil, false
	}
	if x := &m.named.ends[0]; len(m.named.ends) == 1 {
		if !m.stands(x, e) {
			return nil, false
		}
		return x.body.Taken, true
	}
	for i, x := range m.standing(e) {
		if i > 0 && !slices.Equal(x.body.Taken, taken) {
			return nil, false
		}
		taken, ended = x.body.Taken, true
	}
	return taken, ended
}

func (m *move) handOverState() HandOverState {
	_, ended := m.outcome(nil)
	switch {
	case m.reversed(nil):
		return HandOverReversed
	case ended:
		return HandOverEnded
	case len(m.standing(nil)) > 1:
		return HandOverConflict
	}
	return HandOverOpen
}

// watchDoor keeps the list of what lies at the doors, open or in conflict.
func (l *Ledger) watchDoor(m *move, x effect) {
	switch {
	case !m.isHandOver():
	case x.out || x.ended:
		delete(l.atDoor, m.ref)
	default:
		l.atDoor[m.ref] = m
	}
}

// HandOver returns the hand-over that began with the movement r.
func (l *Ledger) HandOver(r mesh.Ref) (HandOver, bool) {
	m := l.moves.get(r)
	if m == nil || !m.isHandOver() {
		return HandOver{}, false
	}
	return l.handOver(m), true
}

func (l *Ledger) handOver(m *move) HandOver {
	h := HandOver{Movement: l.movement(m), State: m.handOverState()}
	if h.State == HandOverEnded {
		h.Taken, _ = m.outcome(nil)
	}
	if m.named == nil {
		return h
	}
	stands := map[mesh.Ref]bool{}
	for _, x := range m.standing(nil) {
		stands[x.ref] = true
	}
	for _, x := range m.named.ends {
		fits := len(x.body.Taken) == len(m.lines)
		h.Ends = append(h.Ends, HandOverEnd{Ref: x.ref, Taken: x.body.Taken, Stands: stands[x.ref], Fits: fits, Reopened: x.reopened.refs()})
	}
	slices.SortFunc(h.Ends, func(a, b HandOverEnd) int { return a.Ref.Compare(b.Ref) })
	return h
}

// AtDoor lists what lies at the door of a room, open or in conflict, earliest
// first; an empty room means every door.
func (l *Ledger) AtDoor(room mesh.ID) []HandOver {
	var out []HandOver
	for m := range maps.Values(l.atDoor) {
		if room == "" || m.to.ID == room {
			out = append(out, l.handOver(m))
		}
	}
	slices.SortFunc(out, func(a, b HandOver) int { return compareMovements(a.Movement, b.Movement) })
	return out
}
