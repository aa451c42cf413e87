package meshtest

import (
	"container/heap"
	"fmt"
	"math/rand/v2"
	"strings"
	"time"

	"lintel/mesh"
)

// Fold is what a simulated device feeds its facts to.
type Fold interface {
	Reset()
	Add(mesh.Fact)
	State() []byte
}

// Options of a simulation.
type Options struct {
	Seed    uint64
	Devices int
	Loss    float64 // of frames, each way
	Bug     Bug
	Real    bool // Ed25519 instead of the keyed hash
	NewFold func(device int) Fold
}

// Sim is a network of Peers in simulated time. One goroutine owns it; with the
// same options it does the same, byte for byte.
type Sim struct {
	opt    Options
	rnd    *rand.Rand
	now    time.Duration
	queue  events
	serial uint64
	nodes  []*node
	nextID mesh.LinkID
	loss   float64
	group  mesh.GroupID
	blocks map[[2]int]bool // pairs that cannot reach each other
	acked  []ack
	found  []finding // broken promises
	trace  strings.Builder
	mangle float64
	replay float64
}

// ack is what some device has shown as saved, or as copied elsewhere.
type ack struct {
	device int
	at     mesh.Order
	tap    mesh.Tap
}

type event struct {
	at     time.Duration
	serial uint64
	do     func()
}

type events []event

func (e events) Len() int { return len(e) }
func (e events) Less(i, j int) bool {
	return e[i].at < e[j].at || e[i].at == e[j].at && e[i].serial < e[j].serial
}
func (e events) Swap(i, j int) { e[i], e[j] = e[j], e[i] }

// Push is for container/heap.
func (e *events) Push(x any) { *e = append(*e, x.(event)) }

// Pop is for container/heap.
func (e *events) Pop() any {
	old := *e
	x := old[len(old)-1]
	*e = old[:len(old)-1]
	return x
}

// NewSim makes a group of devices that admitted each other one after another,
// all linked.
func NewSim(o Options) *Sim {
	s := &Sim{opt: o, rnd: rand.New(rand.NewPCG(o.Seed, 17)), loss: o.Loss, blocks: map[[2]int]bool{}}
	for i := range o.Devices {
		s.nodes = append(s.nodes, s.newNode(i))
	}
	founder := s.nodes[0]
	g, it, err := mesh.Found(founder.key, founder.signer, "simulated unit", s.fill, 1)
	if err != nil {
		panic(err)
	}
	s.group = g
	for _, n := range s.nodes {
		n.disk.store(&mesh.Append{Records: []mesh.Record{{Received: 1, Item: it}}}, 1)
		n.start()
	}
	for _, n := range s.nodes[1:] {
		part, err := mesh.MakePart(mesh.KindAdmitted, &mesh.Admitted{Key: n.key, Name: mesh.Label(fmt.Sprintf("device %d", n.id))})
		if err != nil {
			panic(err)
		}
		founder.tap(part)
	}
	s.linkAll()
	s.RunFor(5 * time.Second)
	return s
}

func (s *Sim) fill(b []byte) {
	for i := range b {
		b[i] = byte(s.rnd.Uint32())
	}
}

// after schedules do in d from now.
func (s *Sim) after(d time.Duration, do func()) {
	s.serial++
	heap.Push(&s.queue, event{at: s.now + d, serial: s.serial, do: do})
}

// RunFor lets simulated time pass.
func (s *Sim) RunFor(d time.Duration) {
	end := s.now + d
	for len(s.queue) > 0 && s.queue[0].at <= end {
		e := heap.Pop(&s.queue).(event)
		s.now = e.at
		e.do()
	}
	s.now = end
}

// log adds a line to the trace.
func (s *Sim) log(format string, args ...any) {
	fmt.Fprintf(&s.trace, "%d ", s.now.Microseconds())
	fmt.Fprintf(&s.trace, format, args...)
	s.trace.WriteByte('\n')
}

// Trace is everything that happened, as text.
func (s *Sim) Trace() string { return s.trace.String() }

func pair(a, b int) [2]int { return [2]int{min(a, b), max(a, b)} }

// linkAll links every pair that can reach each other and is not linked yet.
func (s *Sim) linkAll() {
	for i, a := range s.nodes {
		for _, b := range s.nodes[i+1:] {
			s.link(a, b)
		}
	}
}

// link makes a session between two devices, if both would have it.
func (s *Sim) link(a, b *node) {
	if !a.up || !b.up || a.asleep || b.asleep || a.key == b.key || s.blocks[pair(a.id, b.id)] || a.links[b.id] != nil {
		return
	}
	if !a.trusts(b.key) || !b.trusts(a.key) {
		return
	}
	s.nextID++
	w := &wire{id: s.nextID, a: a, b: b, up: true, last: map[int]time.Duration{}}
	a.links[b.id], b.links[a.id] = w, w
	a.wires[w.id], b.wires[w.id] = w, w
	s.log("link %d-%d", a.id, b.id)
	a.step(mesh.LinkUp{Link: w.id, Peer: b.key, Dialled: true, Via: mesh.OverMemory, Address: "sim"})
	if w.up {
		b.step(mesh.LinkUp{Link: w.id, Peer: a.key, Via: mesh.OverMemory, Address: "sim"})
	}
}

// unlink ends a session; both sides hear of it.
func (s *Sim) unlink(w *wire, why string) {
	if !w.up {
		return
	}
	w.up = false
	for _, n := range []*node{w.a, w.b} {
		other := w.b
		if n == w.b {
			other = w.a
		}
		if n.links[other.id] == w {
			delete(n.links, other.id)
		}
		delete(n.wires, w.id)
		if n.up {
			n.step(mesh.LinkDown{Link: w.id, Why: why})
		}
	}
}

// wire is one simulated session. Frames of one direction and stream keep their order.
type wire struct {
	id   mesh.LinkID
	a, b *node
	up   bool
	last map[int]time.Duration
}

// carry takes a frame from n to the other side: late, lost, twice or mangled.
func (s *Sim) carry(w *wire, n *node, e mesh.Send) {
	to, way := w.b, int(e.Stream)
	if n == w.b {
		to, way = w.a, int(e.Stream)+2
	}
	n.noteSent(e.Frame, to.key)
	if s.rnd.Float64() < s.loss {
		s.log("lost %d>%d", n.id, to.id)
		return
	}
	if s.opt.Bug == DropLadders && e.Frame[0] == byte(mesh.FrameLadder) {
		return
	}
	frame := append([]byte(nil), e.Frame...)
	if s.mangle > 0 && s.rnd.Float64() < s.mangle {
		frame[s.rnd.IntN(len(frame))] ^= byte(1 + s.rnd.IntN(255))
	}
	at := max(s.now+time.Duration(500+s.rnd.IntN(20_000))*time.Microsecond, w.last[way])
	w.last[way] = at
	deliver := func() {
		if w.up && to.up && !to.asleep {
			to.step(mesh.Arrived{Link: w.id, Frame: frame})
		}
	}
	s.after(at-s.now, deliver)
	if s.replay > 0 && s.rnd.Float64() < s.replay {
		s.after(at-s.now+time.Duration(s.rnd.IntN(3000))*time.Millisecond, deliver)
	}
}
