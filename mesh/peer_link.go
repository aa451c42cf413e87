package mesh

import (
	"maps"
	"slices"
	"time"
)

// link is one session with one device.
type link struct {
	id      LinkID
	peer    Key
	up      LinkUp
	health  Health
	sees    map[Short]bool // whom the other side has links with
	parked  []Arrived
	waiting int // bytes from this link that wait for verification and disk

	sent       map[*branch]Seq // what the other side has or was sent
	lanes      map[*branch]lane
	want       []wanted // what it still lacks
	sentFrames uint64
	credited   uint64
	took       uint64 // items frames worked off from it
	since      time.Duration
	askedNow   bool
	answered   int    // of AnswersMax, since the last tick
	gathering  []Head // heads of a vector that comes in several frames
	gathered   int

	lastHeard  time.Duration
	pingN      uint64
	pingOpen   bool // it is not answered yet
	pingAt     time.Duration
	pingWall   Wall
	roundTrip  time.Duration
	measured   bool
	offsetMS   int64
	withinMS   int64
	clockCause ClockCause
	flagged    bool
}

// lane is where the newest run of a branch was sent: on which stream, as which
// of the link's items frames.
type lane struct {
	stream Stream
	frame  uint64
}

// wanted is a stretch of a branch that a link's other side lacks.
type wanted struct {
	tree *feedTree
	br   *branch
	next Seq
}

// knows notes that the other side has b up to s.
func (l *link) knows(b *branch, s Seq) { l.sent[b] = max(l.sent[b], s) }

func (p *Peer) linkUp(e LinkUp) {
	if old := p.linkTo(e.Peer); old != nil {
		p.hang(old, "a newer link to the same device replaces it")
	}
	l := &link{id: e.Link, peer: e.Peer, up: e, health: Connected, sees: map[Short]bool{}, sent: map[*branch]Seq{}, lanes: map[*branch]lane{}, lastHeard: p.now.Mono, since: p.now.Mono}
	p.links[e.Link] = l
	p.emit(LinkState{Peer: l.state()})
	p.tellLinks()
	p.passOnAddresses(l)
	p.healed++
	p.sendVector(l, false, p.healed <= p.opt.Settings.HealPeersMax)
	if e.Dialled {
		p.ping(l)
	}
}

func (p *Peer) linkDown(e LinkDown) {
	if l := p.links[e.Link]; l != nil {
		p.dropLink(l)
		p.tellLinks()
	}
}

func (p *Peer) dropLink(l *link) {
	delete(p.links, l.id)
	l.health = NotConnected
	p.emit(LinkState{Peer: l.state()})
}

// hang ends a link from this side.
func (p *Peer) hang(l *link, why string) {
	if p.links[l.id] != l {
		return
	}
	p.emit(Hang{Link: l.id, Why: why})
	p.dropLink(l)
	p.tellLinks()
}

// hangStrangers ends links with devices that are no longer members.
func (p *Peer) hangStrangers() {
	for _, l := range p.sortedLinks() {
		if s := p.members.Status(l.peer); s == RemovedOut || s == Unreached {
			p.hang(l, "it was removed from the unit")
		}
	}
}

func (l *link) state() PeerState {
	s := PeerState{
		Peer: l.peer, Link: l.id, Health: l.health, Via: l.up.Via, Address: l.up.Address, Dialled: l.up.Dialled,
		LastHeard: l.lastHeard, RoundTrip: l.roundTrip,
	}
	if l.measured {
		s.OffsetMS, s.WithinMS = l.offsetMS, max(1, l.withinMS)
	}
	return s
}

func (p *Peer) send(l *link, s Stream, k FrameKind, body any) {
	p.emit(Send{Link: l.id, Stream: s, Frame: encodeFrame(k, body)})
}

// tellLinks tells every device whom this one has a link with, so that they
// know for whom to pass entries on.
func (p *Peer) tellLinks() {
	keys := []Short{}
	for _, l := range p.sortedLinks() {
		if len(keys) < ListLenMax {
			keys = append(keys, Hash(l.peer).Short())
		}
	}
	slices.SortFunc(keys, func(a, b Short) int { return slices.Compare(a[:], b[:]) })
	for _, l := range p.sortedLinks() {
		p.send(l, StreamTap, FrameLinks, &Links{Keys: keys})
	}
}

// heard notes a sign of life.
func (p *Peer) heard(l *link) {
	l.lastHeard = p.now.Mono
	p.setHealth(l, Connected)
}

func (p *Peer) setHealth(l *link, h Health) {
	if l.health != h {
		l.health = h
		p.emit(LinkState{Peer: l.state()})
	}
}

// watchLinks pings what this side dialled and judges the silence of every link.
func (p *Peer) watchLinks() {
	s := p.opt.Settings
	every, doubt, lost := s.QuietPing, s.QuietDoubt, s.QuietLost
	if p.busy {
		every, doubt, lost = s.BusyPing, s.BusyDoubt, s.BusyLost
	}
	for _, l := range p.sortedLinks() {
		l.askedNow, l.answered = false, 0
		silence := p.now.Mono - l.lastHeard
		switch {
		case silence >= lost:
			p.setHealth(l, NotConnected)
		case silence >= doubt:
			p.setHealth(l, Doubtful)
		}
		if l.up.Dialled && p.ticks%uint64(every) == 0 {
			p.ping(l)
		}
	}
}

func (p *Peer) ping(l *link) {
	l.pingN++
	l.pingAt, l.pingWall = p.now.Mono, p.now.Wall
	l.pingOpen = true
	p.send(l, StreamTap, FramePing, &Ping{
		N: l.pingN, Wall: wallWithin(p.now.Wall), Measured: l.measured, OffsetMS: l.offsetMS, WithinMS: l.withinMS,
	})
}

func (p *Peer) pinged(l *link, f *Ping) {
	p.send(l, StreamTap, FramePong, &Pong{N: f.N, Wall: wallWithin(p.now.Wall)})
	if f.Measured && !l.up.Dialled {
		l.measured, l.offsetMS, l.withinMS = true, -f.OffsetMS, f.WithinMS
	}
}

// ponged measures the round trip and, from it, how far the other wall clock is
// off and within what.
func (p *Peer) ponged(l *link, f *Pong) {
	if f.N != l.pingN || !l.pingOpen || l.pingAt > p.now.Mono {
		return
	}
	l.pingOpen = false
	l.roundTrip = p.now.Mono - l.pingAt
	half := l.roundTrip.Milliseconds()/2 + 1
	offset := int64(f.Wall) - (int64(l.pingWall) + half - 1)
	first := !l.measured
	l.measured, l.offsetMS, l.withinMS = true, offset, half
	p.writeClock(l, first)
}

// writeClock writes the measured offset down when it says something new.
func (p *Peer) writeClock(l *link, first bool) {
	last, written := p.clocks[l.peer]
	moved := l.offsetMS - last.offsetMS
	change := p.opt.Settings.ClockChange.Milliseconds() + l.withinMS
	cause := l.clockCause
	switch {
	case !written:
		cause = ClockFirst
	case last.at != 0 && p.now.Mono-last.at < p.opt.Settings.ClockEvery:
		return
	case moved > change || moved < -change:
		if cause == 0 {
			cause = ClockChanged
		}
	case cause == ClockStepped && first:
	default:
		return
	}
	p.clocks[l.peer], l.clockCause = clockMark{offsetMS: l.offsetMS, at: p.now.Mono}, 0
	part, err := MakePart(KindClock, &Clock{Peer: l.peer, OffsetMS: l.offsetMS, WithinMS: uint32(min(l.withinMS, 1<<31)), Cause: cause})
	if err != nil {
		return // an offset that no Clock can hold is not worth a line
	}
	var tap Tap
	p.opt.Random(tap[:])
	p.enter(tap, []Part{part})
}

// Peers tells what is known of every link, in the order of the keys.
func (p *Peer) Peers() []PeerState {
	out := []PeerState{}
	for _, l := range slices.SortedFunc(maps.Values(p.links), func(a, b *link) int { return a.peer.Compare(b.peer) }) {
		out = append(out, l.state())
	}
	return out
}

// Waiting is how many bytes from a link wait for verification and the disk.
// Whoever reads the link stops above WaitingMax.
func (p *Peer) Waiting(id LinkID) int {
	if l := p.links[id]; l != nil {
		return l.waiting
	}
	return 0
}

// WaitingMax bounds what may wait from one peer, in bytes.
const WaitingMax = 1 << 20
