package meshtest

import (
	"slices"
	"time"

	"lintel/mesh"
)

// Plan is how much happens in a random schedule.
type Plan struct {
	Entries int
	Faults  int
	Span    time.Duration // of simulated time, before everything is healed
	// Tap makes one tap of a device and its parts; nil writes a small mark of no meaning.
	Tap func(s *Sim, device int) (mesh.Tap, []mesh.Part)
}

// RunSchedule plays a random schedule: taps on every device, and faults of
// every sort, at random moments. Then everything heals and the devices get
// time to agree.
func (s *Sim) RunSchedule(p Plan) {
	for range p.Entries {
		s.after(time.Duration(s.rnd.Int64N(int64(p.Span))), func() { s.someTap(p) })
	}
	for range p.Faults {
		s.after(time.Duration(s.rnd.Int64N(int64(p.Span))), s.someFault)
	}
	s.redial(s.now + p.Span + settleMax)
	s.RunFor(p.Span)
	s.heal()
	for end := s.now + settleMax; s.now < end; {
		s.RunFor(5 * time.Second)
		if s.settled() {
			break
		}
	}
	s.check()
}

// settleMax bounds the time that devices get to agree after the heal.
const settleMax = 240 * time.Second

// redial tries every missing link once a second, as devices do.
func (s *Sim) redial(until time.Duration) {
	s.linkAll()
	if s.now < until {
		s.after(time.Second, func() { s.redial(until) })
	}
}

func (s *Sim) someTap(p Plan) {
	n := s.nodes[s.rnd.IntN(len(s.nodes))]
	if !n.up || n.asleep || n.gone {
		return
	}
	if p.Tap != nil {
		if tap, parts := p.Tap(s, n.id); len(parts) > 0 {
			n.step(mesh.Enter{Tap: tap, Parts: parts})
		}
		return
	}
	text := make([]byte, 8)
	s.fill(text)
	part, err := mesh.MakePart(mesh.KindBy, &mesh.By{Role: "tester", Happened: mesh.Wall(1 + text[0])})
	if err != nil {
		panic(err)
	}
	n.tap(part)
}

// someFault does one of the things that go wrong.
func (s *Sim) someFault() {
	n := s.nodes[s.rnd.IntN(len(s.nodes))]
	switch s.rnd.IntN(13) {
	case 0, 1:
		s.partition()
	case 2, 3:
		s.crashFor(n, time.Duration(s.rnd.IntN(20_000))*time.Millisecond)
	case 4:
		if n.up && !n.asleep {
			n.sleep(time.Duration(1+s.rnd.IntN(90)) * time.Second)
		}
	case 5:
		step := time.Duration(s.rnd.Int64N(int64(48*time.Hour))) - 24*time.Hour
		s.log("clock %d %v", n.id, step)
		n.skew += step
		if n.up && !n.asleep {
			n.step(mesh.ClockSet{Step: step})
		}
	case 6:
		s.loss = s.rnd.Float64() * 0.5
		s.log("loss %.2f", s.loss)
	case 7:
		if full := s.count(func(m *node) bool { return m.disk.full }); full < 2 && !n.gone {
			s.log("full %d", n.id)
			n.disk.full = true
		}
	case 8:
		s.clone(n)
	case 9:
		s.remove()
	case 10:
		s.mangle, s.replay = 0.01, 0.05
		s.after(5*time.Second, func() { s.mangle, s.replay = 0, 0 })
	case 11:
		s.forgeries()
	case 12:
		s.restore(n)
	}
}

func (s *Sim) count(is func(*node) bool) (out int) {
	for _, n := range s.nodes {
		if is(n) {
			out++
		}
	}
	return out
}

// partition cuts the devices in two, for a while.
func (s *Sim) partition() {
	side := map[int]bool{}
	for _, n := range s.nodes {
		side[n.id] = s.rnd.IntN(2) == 0
	}
	s.log("partition")
	for i, a := range s.nodes {
		for _, b := range s.nodes[i+1:] {
			if side[a.id] != side[b.id] {
				s.blocks[pair(a.id, b.id)] = true
				if w := a.links[b.id]; w != nil {
					s.unlink(w, "partition")
				}
			}
		}
	}
	s.after(time.Duration(1+s.rnd.IntN(40))*time.Second, s.unblock)
}

// unblock lets everyone reach everyone, but for the two bodies of one clone,
// which share a key and so must not both be linked to one device.
func (s *Sim) unblock() {
	s.blocks = map[[2]int]bool{}
	for _, n := range s.nodes {
		if n.twin == nil {
			continue
		}
		even := true
		for _, m := range s.nodes {
			if m == n || m == n.twin || m.gone {
				continue
			}
			body := n
			if even = !even; even {
				body = n.twin
			}
			s.blocks[pair(body.id, m.id)] = true
		}
	}
	s.log("unblock")
}

func (s *Sim) crashFor(n *node, d time.Duration) {
	if !n.up {
		return
	}
	n.crash()
	s.after(d, func() {
		if !n.up {
			n.start()
		}
	})
}

// clone copies a device's folder and starts the copy as well. Half of the time
// the copy is noticed by its mark; else both go on in the same feed.
func (s *Sim) clone(n *node) {
	if n.gone || n.twin != nil || n.disk.full || s.count(func(m *node) bool { return m.twin != nil }) > 0 || len(s.nodes) < 5 {
		return
	}
	if n.disk.writing != nil {
		return
	}
	c := s.newNode(len(s.nodes))
	c.key, c.signer, c.disk, c.twin = n.key, n.signer, n.disk.copy(), n
	if s.rnd.IntN(2) == 0 {
		c.disk.fresh = mesh.WhyMark
	}
	s.log("clone %d as %d", n.id, c.id)
	s.nodes = append(s.nodes, c)
	for _, w := range sortedWires(n) {
		s.unlink(w, "cloned")
	}
	s.unblock()
	c.start()
}

// remove has two members remove a third.
func (s *Sim) remove() {
	if s.count(func(m *node) bool { return m.gone }) > 0 || s.opt.Devices < 5 {
		return
	}
	r := s.nodes[s.rnd.IntN(s.opt.Devices)]
	if r.twin != nil || s.count(func(m *node) bool { return m.twin == r }) > 0 {
		return
	}
	voices := []*node{}
	for _, i := range s.rnd.Perm(s.opt.Devices) {
		if m := s.nodes[i]; m != r && m.up && !m.asleep && !m.disk.full && len(voices) < 2 {
			voices = append(voices, m)
		}
	}
	if len(voices) < 2 {
		return
	}
	s.expel(r, voices)
}

// expel has each of some members write that a device is to be removed.
func (s *Sim) expel(r *node, voices []*node) {
	s.log("remove %d", r.id)
	r.gone = true
	// What only its disk still has (another was put back from a backup) is lost with it.
	s.acked = slices.DeleteFunc(s.acked, func(a ack) bool { return r.disk.has[a.at.Hash] && !s.storedElsewhere(r, a.at.Hash) })
	for _, m := range voices {
		parts, err := m.peer.RemovalOf(r.key, "lost")
		if err != nil {
			panic(err)
		}
		m.tap(parts...)
	}
}

// heal ends every fault.
func (s *Sim) heal() {
	s.log("heal")
	s.loss, s.mangle, s.replay = 0, 0, 0
	s.unblock()
	for _, n := range s.nodes {
		if !n.up {
			n.start()
		}
	}
}
