package station

import (
	"time"

	"lintel/mesh"
	"lintel/requests"
)

// An exercise can cut the link of a room: the devices inside lose every link,
// the others those with them, as behind a steel door, for cutFor or what the unit
// set below it. Nothing is taken from the session itself: the Peer is told that
// the link is down, and frames of it go nowhere. "This is real" ends it
// everywhere: whoever hears of it takes its links up again, and a frame from a
// device that is cut off here can only mean that its side is over.
const (
	injectCut = mesh.ID("cut-link")
	cutFor    = 2 * time.Minute // at most
	cutSet    = mesh.ID("drill-cut-for")
	// cutSettles is how long frames may still come that were on their way, or
	// from a device that has not heard of the inject yet.
	cutSettles = 5 * time.Second
)

// cutting is what the loop knows of links that an exercise cuts.
type cutting struct {
	links map[mesh.LinkID]*cutLink // all that stand
	began map[mesh.Ref]time.Duration
	over  map[mesh.Ref]bool // injects whose cut has ended here
}

// cutLink is one link that stands.
type cutLink struct {
	up   mesh.LinkUp
	cut  bool
	lost bool // frames went nowhere
}

func newCutting() cutting {
	return cutting{links: map[mesh.LinkID]*cutLink{}, began: map[mesh.Ref]time.Duration{}, over: map[mesh.Ref]bool{}}
}

// holds tells whether frames to a link go nowhere.
func (c *cutting) holds(id mesh.LinkID) bool {
	l := c.links[id]
	return l != nil && l.cut
}

// pass tells whether the Peer hears of an event.
func (s *Station) pass(ev mesh.Event) bool {
	switch e := ev.(type) {
	case mesh.LinkUp:
		l := &cutLink{up: e, cut: s.cutsNow().from(e.Peer)}
		s.cuts.links[e.Link] = l
		return !l.cut
	case mesh.LinkDown:
		l := s.cuts.links[e.Link]
		delete(s.cuts.links, e.Link)
		return l == nil || !l.cut
	case mesh.Arrived:
		l := s.cuts.links[e.Link]
		if l == nil || !l.cut {
			return true
		}
		if !s.settled() {
			l.lost = true
			return false
		}
		s.liftAll()
		return !s.cuts.holds(e.Link)
	}
	return true
}

// settled tells whether nothing can be on its way any more since the newest cut.
func (s *Station) settled() bool {
	now := s.opt.Now().Mono
	for ref, began := range s.cuts.began {
		if !s.cuts.over[ref] && now-began < cutSettles {
			return false
		}
	}
	return true
}

// liftAll ends the cuts that go on, on this device.
func (s *Station) liftAll() {
	for ref := range s.cuts.began {
		s.cuts.over[ref] = true
	}
	s.cutLinks()
}

// cutLinks cuts and takes up what the exercises that go on want now.
func (s *Station) cutLinks() {
	if len(s.cuts.links) == 0 {
		return
	}
	now := s.cutsNow()
	for id, l := range s.cuts.links {
		switch want := now.from(l.up.Peer); {
		case want && !l.cut:
			l.cut, l.lost = true, false
			s.carryOut(s.peer.Step(s.opt.Now(), mesh.LinkDown{Link: id, Why: "an exercise cuts the link"}))
			s.measureQueues(mesh.LinkDown{Link: id})
		case !want && l.cut && l.lost: // both sides begin anew
			s.opt.Net.Hang(id, "an exercise is over")
			l.up.Peer = mesh.Key{} // nobody's, until the network says that it is down
		case !want && l.cut && l.up.Peer != (mesh.Key{}):
			l.cut = false
			s.carryOut(s.peer.Step(s.opt.Now(), l.up))
		}
	}
}

// cut is whose links an exercise cuts.
type cut struct {
	all  bool
	with map[mesh.Key]bool
}

func (c cut) from(peer mesh.Key) bool { return c.all || c.with[peer] }

// cutsNow is what the injects of running exercises cut at this moment: a device
// that is inside the room of one, and no other, loses all its links.
func (s *Station) cutsNow() (out cut) {
	v := s.view()
	for _, h := range s.board.Holders() {
		if h.Side != requests.Inside || len(h.Rooms) != 1 || !s.roomIsCut(v, h.Rooms[0]) {
			continue
		}
		if out.with == nil {
			out.with = map[mesh.Key]bool{}
		}
		out.with[h.Device] = true
		out.all = out.all || h.Device == s.opt.Self
	}
	return out
}

// roomIsCut tells whether an inject cuts a room off now. How long ago it was given
// counts once, when it is seen first; from then on this device's own clock does.
func (s *Station) roomIsCut(v View, room mesh.ID) (now bool) {
	drill, on := s.board.DrillIn(room)
	for _, x := range drill.Injects {
		if !on || x.What != injectCut || s.cuts.over[x.Ref] {
			continue
		}
		began, seen := s.cuts.began[x.Ref]
		if !seen {
			began = v.Now.Mono - v.Elapsed(x.Mark)
			s.cuts.began[x.Ref] = began
		}
		now = now || v.Now.Mono-began < min(cutFor, s.board.Seconds(cutSet))
	}
	return now
}
