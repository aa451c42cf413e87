package requests

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// Need is one thing that is needed: a request, or several that people joined
// because they are the same. Whatever was delivered for a need is one delivery.
type Need struct {
	Requests  []mesh.Ref // in the order asked
	Step      Step       // the furthest of any of them
	Delivered bool       // something was taken in for one of them
	Unasked   bool       // all of it was passed in: nobody waited for it, so it has no times to compare
	Twice     bool       // taken in for more than one: perhaps delivered twice, perhaps noted twice
	Calls     mesh.Ref   // the request that should call outside; zero: none
}

// grouping is the joins folded: who belongs together.
type grouping struct {
	others  map[mesh.Ref][]*fact // per joined request: all of its group, in order
	waiting bool                 // a join names something that is not here yet
}

// unlessWaiting drops the grouping if a new mark may complete a join.
func (g *grouping) unlessWaiting() *grouping {
	if g != nil && g.waiting {
		return nil
	}
	return g
}

// grouped folds the joins that count. Joining is an equivalence: it holds both
// ways and through others, whichever came first.
func (b *Board) grouped() *grouping {
	if b.groups != nil {
		return b.groups
	}
	g := &grouping{others: map[mesh.Ref][]*fact{}}
	leader := map[*fact]*fact{}
	for _, n := range b.joins {
		one, other := b.ends(n)
		switch {
		case one == nil || other == nil:
			g.waiting = true
		case !b.undone(n):
			join(leader, one, other)
		}
	}
	groups := map[*fact][]*fact{}
	for n := range leader {
		top := leaderOf(leader, n)
		groups[top] = append(groups[top], n)
	}
	for _, members := range groups {
		slices.SortFunc(members, compareFacts)
		for _, n := range members {
			g.others[n.Ref] = members
		}
	}
	b.groups = g
	return g
}

// codeName is what a joining code is looked up by.
type codeName struct {
	room mesh.ID
	code mesh.Label
}

// noteCode files a request under its joining code. A join by code may now mean
// it, or mean it rather than another.
func (b *Board) noteCode(n *fact, body *Asked) {
	name := codeName{body.Room, mesh.Label(Code(n.Ref))}
	b.codes[name] = append(b.codes[name], n)
	b.groups = nil
}

// ends are the two requests that a join joins; nil: not here (yet).
func (b *Board) ends(n *fact) (one, other *fact) {
	if body, ok := n.body.(*Joined); ok {
		return b.rootOf(body.One), b.rootOf(body.Other)
	}
	body := n.body.(*JoinedCode)
	one = b.rootOf(body.Names)
	return one, nearest(n, one, b.codes[codeName{body.Room, body.Code}])
}

// nearest is the request that a code read at n means: of several in that room
// with the same code, over the years, the one closest to n in turns.
func nearest(n, one *fact, all []*fact) (best *fact) {
	away := func(f *fact) mesh.Turn { return max(f.At.Turn, n.At.Turn) - min(f.At.Turn, n.At.Turn) }
	for _, f := range all {
		if f == one {
			continue
		}
		if best == nil || away(f) < away(best) || away(f) == away(best) && f.Ref.Compare(best.Ref) < 0 {
			best = f
		}
	}
	return best
}

func (b *Board) rootOf(r mesh.Ref) *fact {
	if n := b.facts[r]; n != nil {
		return n.root
	}
	return nil
}

// join makes one group of two.
func join(leader map[*fact]*fact, one, other *fact) {
	a, z := leaderOf(leader, one), leaderOf(leader, other)
	if a != z {
		leader[z] = a
	}
}

// leaderOf finds who leads n's group, and shortens the way there.
func leaderOf(leader map[*fact]*fact, n *fact) *fact {
	for {
		up, known := leader[n]
		if !known {
			leader[n] = n
			return n
		}
		if up == n {
			return n
		}
		leader[n] = leader[up]
		n = up
	}
}

// group lists the requests of n's need, in order.
func (b *Board) group(n *fact) []*fact {
	if members := b.grouped().others[n.Ref]; len(members) > 0 {
		return members
	}
	return []*fact{n}
}

// joinedWith lists the other requests of the same need.
func (b *Board) joinedWith(asked mesh.Ref) []mesh.Ref {
	var out []mesh.Ref
	for _, n := range b.grouped().others[asked] {
		if n.Ref != asked {
			out = append(out, n.Ref)
		}
	}
	return out
}

// UnmetJoins lists, in order, the joins that name something that is not a
// request here. They are kept, and hold as soon as both requests are here.
func (b *Board) UnmetJoins() []Mark {
	var out []Mark
	for _, n := range inOrder(b.joins) {
		if one, other := b.ends(n); one == nil || other == nil {
			out = append(out, b.mark(n))
		}
	}
	return out
}

// Ringing tells whether a request should call outside: nobody outside has
// answered what is wanted now, there or in one that it is joined to, nothing is
// at the door, and nobody took it back.
// Of several joined requests one calls, the most urgent, then the first asked.
func (b *Board) Ringing(r Request) bool {
	n := b.facts[r.Ref]
	return n != nil && n.root == n && b.calls(b.group(n)) == n
}

// calls finds the request of a need that should call outside; nil: none.
func (b *Board) calls(group []*fact) *fact {
	var first *fact
	var soonest Urgency
	for _, n := range group {
		r := b.view(n)
		if r.Answered() {
			return nil
		}
		if r.waits() && r.Urgency > soonest {
			first, soonest = n, r.Urgency
		}
	}
	return first
}

// waits tells whether somebody inside waits for an answer or a thing.
func (r *Request) waits() bool {
	switch r.Shown {
	case ShownAsked, ShownAcknowledged, ShownInHand, ShownCouldNot:
		return true
	}
	return false
}

// Needs returns what is or was needed, each joined group once, in the order of
// its first request.
func (b *Board) Needs() []Need {
	var out []Need
	for _, r := range b.Requests() {
		group := b.group(b.facts[r.Ref])
		if group[0].Ref == r.Ref {
			out = append(out, b.need(group))
		}
	}
	return out
}

func (b *Board) need(group []*fact) Need {
	need := Need{Unasked: true}
	for _, n := range group {
		r := b.view(n)
		need.Requests = append(need.Requests, n.Ref)
		need.Unasked = need.Unasked && r.Origin == PassedIn
		need.Step = max(need.Step, r.Step)
		need.Twice = need.Twice || need.Delivered && r.TakenIn()
		need.Delivered = need.Delivered || r.TakenIn()
	}
	if n := b.calls(group); n != nil {
		need.Calls = n.Ref
	}
	return need
}

// Delivered counts the needs for which something was taken in.
func (b *Board) Delivered() int {
	count := 0
	for _, need := range b.Needs() {
		if need.Delivered {
			count++
		}
	}
	return count
}

// byAge orders requests by urgency, soonest first, then as asked: what a list
// outside begins with.
func byAge(x, y Request) int {
	return cmp.Or(cmp.Compare(y.Urgency, x.Urgency), x.Asked.At.Compare(y.Asked.At), x.Ref.Compare(y.Ref))
}

// met tells whether nobody has to do anything for a request, because one that
// it is joined to was brought. One that somebody already goes for is not met:
// that person has to hear of it.
func (b *Board) met(r Request) bool {
	return r.Step < StepAcknowledged && len(r.JoinedWith) > 0 &&
		slices.ContainsFunc(b.group(b.facts[r.Ref]), func(n *fact) bool { return b.view(n).TakenIn() })
}

// Open returns the requests that are not over and not met by another one, most
// urgent first, then as asked.
func (b *Board) Open() []Request {
	var out []Request
	for n := range b.alive() {
		if r, _ := b.Request(n.Ref); !b.met(r) {
			out = append(out, r)
		}
	}
	slices.SortFunc(out, byAge)
	return out
}

// Busy tells whether Open would list anything. It costs what has changed since
// it was last asked, not what is held.
func (b *Board) Busy() bool {
	for n := range b.alive() {
		if r, _ := b.Request(n.Ref); !b.met(r) {
			return true
		}
	}
	return false
}

// alive is the set of requests that are not over, brought up to date.
func (b *Board) alive() map[*fact]bool {
	for n := range b.stale {
		if b.view(n).Over() {
			delete(b.live, n)
		} else {
			b.live[n] = true
		}
	}
	clear(b.stale)
	return b.live
}
