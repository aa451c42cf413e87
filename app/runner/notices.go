package runner

import (
	"slices"
	"time"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// Lists of phrases and breaches, as they are named in the unit's lists.
const (
	listSaidIn  mesh.ID = "phrase-in"
	listSaidOut mesh.ID = "phrase-out"
	listBreach  mesh.ID = "breach"
)

// Call is something that waits for whoever has this device.
type Call struct {
	requests.Call
	Mine bool // it concerns this device; the others are listed so that levels can be shown
}

// Notice is something that is said above everything else until it is answered
// with a tap.
type Notice struct {
	Why     requests.CallWhy // NoticeSame apart
	Ref     mesh.Ref         // what an answer names: the request, phrase, breach, test
	Room    mesh.ID
	Level   uint8
	Thing   Thing
	Tag     mesh.Tag  // who said it, who passes on, who needs help, who brought it
	Back    bool      // what this device passed on comes back: it calls nobody
	Words   string    // of a phrase or a breach
	Doors   []mesh.ID // that want something of one runner
	Self    bool      // that runner is this device
	Other   mesh.Ref  // of NoticeSame: the request that was noted outside
	Elapsed time.Duration
	Usual   time.Duration
	Battery int32 // of a comms test
	Urgency requests.Urgency
}

// NoticeSame says that a request is likely the same need as one that was noted
// outside. It calls nobody.
const NoticeSame requests.CallWhy = 255

// NoticeInject says what was given in an exercise. It calls nobody.
const NoticeInject requests.CallWhy = 254

// calls lists what waits, the gravest first.
func calls(v station.View) (out []Call) {
	self := v.Peer.Self()
	for _, c := range v.Board.Calls(v.Elapsed) {
		out = append(out, Call{Call: c, Mine: slices.Contains(c.For, self)})
	}
	return out
}

// Calling is what they are about, each once.
func (s Snapshot) Calling() (out []mesh.Ref) {
	for _, c := range s.Calls {
		if c.Mine && !slices.Contains(out, c.Ref) {
			out = append(out, c.Ref)
		}
	}
	return out
}

// Waiting are the calls that whoever has this device should hear, the gravest first.
func (s Snapshot) Waiting() (out []requests.Call) {
	for _, c := range s.Calls {
		if c.Mine {
			out = append(out, c.Call)
		}
	}
	return out
}

// levelOf is how far the call of a request has gone; 0: it does not call.
func (s Snapshot) levelOf(ref mesh.Ref) (level uint8) {
	for _, c := range s.Calls {
		if c.Ref == ref {
			level = max(level, c.Level)
		}
	}
	return level
}

// notices are the calls that the list does not say by itself, and likely
// repeats of what was noted outside.
func notices(v station.View, s Snapshot) (out []Notice) {
	for _, c := range s.Calls {
		if !c.Mine {
			continue
		}
		n := Notice{Why: c.Why, Ref: c.Ref, Room: c.Room, Level: c.Level, Elapsed: c.Elapsed, Usual: c.Usual, Urgency: c.Urgency}
		if n.fill(v, s) {
			out = append(out, n)
		}
	}
	for _, c := range v.Board.Contended() {
		if h, _ := v.Board.Holder(c.Runner); c.Runner == v.Peer.Self() {
			out = append(out, Notice{Why: requests.CallContended, Ref: c.Requests[0], Level: requests.LevelFirst, Doors: c.Doors, Room: c.Doors[0], Tag: h.Tag, Self: true})
		}
	}
	for _, r := range s.Rooms {
		if r.Inject != "" {
			out = append(out, Notice{Why: NoticeInject, Ref: r.Given, Room: r.ID, Words: r.Inject})
		}
	}
	for i, r := range s.Requests {
		if r.GivenBack != "" {
			out = append(out, Notice{Why: requests.CallPassed, Ref: r.Ref, Room: r.Room, Thing: r.Thing, Tag: r.GivenBack, Back: true, Urgency: r.Urgency})
		}
		if r.Same.IsZero() {
			continue
		}
		other, _ := v.Board.Request(s.Requests[i].Same)
		out = append(out, Notice{Why: NoticeSame, Ref: r.Ref, Other: r.Same, Room: r.Room, Thing: r.Thing, Tag: other.Asked.By.Tag})
	}
	return out
}

// fill adds what has to be said; false: the list says it.
func (n *Notice) fill(v station.View, s Snapshot) bool {
	switch n.Why {
	case requests.CallSaid, requests.CallBreach:
		return n.fillSaid(v)
	case requests.CallTest:
		return n.fillTest(v)
	case requests.CallContended:
		return n.fillContended(v)
	}
	r, known := v.Board.Request(n.Ref)
	if !known {
		return false
	}
	n.Thing = thing(v, r.Thing)
	_, listed := s.request(n.Ref)
	mine := slices.ContainsFunc(r.Acknowledged, func(g requests.Going) bool { return g.Still && g.Device() == v.Peer.Self() })
	switch n.Why {
	case requests.CallStill, requests.CallReminded:
		n.Self = mine
		for _, g := range r.Acknowledged {
			if g.Still && g.Device() != v.Peer.Self() {
				n.Tag = g.By.Tag
			}
		}
		return true
	case requests.CallPassed:
		n.Tag = r.PassedOn[len(r.PassedOn)-1].By.Tag
		return true
	}
	return !listed
}

// givenBack is who gave a request back that this device had passed on and still
// goes for; empty: nobody.
func givenBack(v station.View, r requests.Request) mesh.Tag {
	self, n := v.Peer.Self(), len(r.PassedOn)
	if n < 2 || r.PassedOn[n-1].Mark.Device() == self {
		return ""
	}
	last := r.PassedOn[n-1]
	mine := func(m requests.Mark) bool { return m.Device() == self }
	h, _ := v.Board.Holder(self)
	still := slices.ContainsFunc(r.Acknowledged, func(g requests.Going) bool { return g.Still && mine(g.Mark) })
	again := slices.ContainsFunc(r.Acknowledged, func(g requests.Going) bool { return mine(g.Mark) && g.At.Compare(last.At) > 0 })
	passed := slices.ContainsFunc(r.PassedOn[:n-1], func(p requests.Passing) bool { return mine(p.Mark) })
	if still && passed && !again && (last.To == h.Tag || last.Device == self) {
		return last.By.Tag
	}
	return ""
}

// fillSaid finds a phrase or a breach.
func (n *Notice) fillSaid(v station.View) bool {
	of, known := v.Board.CaseOf(n.Ref)
	if !known {
		return false
	}
	c, _ := v.Board.Case(of)
	for _, p := range c.Said {
		if p.Ref == n.Ref {
			n.Tag, n.Words = p.By.Tag, lineWords(v, listSaidOut, p.Phrase)
			return true
		}
	}
	for _, b := range c.Breaches {
		if b.Ref == n.Ref {
			n.Tag, n.Words = b.Tag, lineWords(v, listBreach, b.What)
			return true
		}
	}
	return false
}

// fillTest finds a test request.
func (n *Notice) fillTest(v station.View) bool {
	of, known := v.Board.CaseOf(n.Ref)
	if !known {
		return false
	}
	c, _ := v.Board.Case(of)
	i := slices.IndexFunc(c.Tests, func(t requests.CommsTest) bool { return t.Ref == n.Ref })
	if i < 0 {
		return false
	}
	n.Tag, n.Battery = c.Tests[i].By.Tag, c.Tests[i].Battery
	return true
}

// fillContended finds the doors that want something of one runner now.
func (n *Notice) fillContended(v station.View) bool {
	for _, c := range v.Board.Contended() {
		if !slices.Contains(c.Requests, n.Ref) {
			continue
		}
		h, _ := v.Board.Holder(c.Runner)
		n.Doors, n.Tag, n.Self = c.Doors, h.Tag, c.Runner == v.Peer.Self()
		return true
	}
	return false
}

// lineWords says a line of a list; one that is gone is said by its name.
func lineWords(v station.View, list, id mesh.ID) string {
	if line, known := v.Board.ListLine(list, id); known && line.Words != "" {
		return string(line.Words)
	}
	return string(id)
}

// beside are the requests of the same case; without a case, what is open.
func beside(v station.View, r requests.Request) (out []requests.Request) {
	of, known := v.Board.CaseOf(r.Ref)
	if !known {
		return v.Board.Open()
	}
	c, _ := v.Board.Case(of)
	for _, ref := range c.Requests {
		if o, known := v.Board.Request(ref); known {
			out = append(out, o)
		}
	}
	return out
}

// sameFor bounds how long ago something was noted outside that a request may
// be the same need as.
const sameFor = 30 * time.Minute

// same is the request noted outside, by voice or as passed in, that an open one
// of the same item and room is likely the same need as.
func same(v station.View, r requests.Request) (out mesh.Ref) {
	if r.Origin != requests.Tapped && r.Origin != requests.FromPaperCard || r.Shown > requests.ShownAcknowledged || len(r.JoinedWith) > 0 {
		return out
	}
	for _, o := range beside(v, r) {
		noted := o.Origin == requests.AskedByVoice || o.Origin == requests.PassedIn
		if noted && o.Room == r.Room && o.Thing.Item == r.Thing.Item && o.Shown != requests.ShownUndone && o.Shown != requests.ShownWithdrawn &&
			len(o.JoinedWith) == 0 && v.Elapsed(o.Asked) < sameFor {
			out = o.Ref
		}
	}
	return out
}
