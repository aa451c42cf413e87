package meshtest

import (
	"time"

	"lintel/mesh"
)

// Devices of a run in which one stays behind.
const (
	stayCleanA = 1 // two clean ones, whose disks are the ones that count
	stayCleanB = 2
	stayLeft   = 3 // the one that may be left behind
)

// stayDisks is on how many clean disks everything must be.
const stayDisks = 2

// stayEvery is how often, at most, the device is asked whether it may stay.
const stayEvery = 400 * time.Millisecond

// stayCalm is how long nothing happens at the end, so that most devices come to
// say that they may stay.
const stayCalm = 20 * time.Second

// RunStay plays taps and faults for span of simulated time, with one device
// that may be left behind. From a random moment on it is destroyed with its
// disk as soon as it says that nothing is only on it; then every entry that it
// held must lie on the disks of both clean devices. It tells whether it came to
// that.
func (s *Sim) RunStay(entries, faults int, span time.Duration) (destroyed bool) {
	for range entries {
		s.after(time.Duration(s.rnd.Int64N(int64(span))), func() { s.someTap(Plan{}) })
	}
	for range faults {
		s.after(time.Duration(s.rnd.Int64N(int64(span))), s.stayFault)
	}
	calm, moment := s.now+span, s.now+time.Duration(s.rnd.Int64N(int64(span)))
	s.redial(calm + stayCalm)
	s.after(span, s.heal)
	for s.now < calm+stayCalm {
		s.RunFor(time.Duration(1 + s.rnd.Int64N(int64(stayEvery))))
		if n := s.nodes[stayLeft]; s.now >= moment && n.up && !n.asleep && n.mayStay() {
			s.destroy(n)
			return true
		}
	}
	return false
}

// stayFault is one of the faults that no person sees.
func (s *Sim) stayFault() {
	n := s.nodes[s.rnd.IntN(len(s.nodes))]
	switch s.rnd.IntN(6) {
	case 0, 1:
		s.partition()
	case 2:
		s.crashFor(n, time.Duration(s.rnd.IntN(4_000))*time.Millisecond)
	case 3:
		s.loss = s.rnd.Float64() * 0.4
	case 4:
		n.disk.full = n.disk.full || s.rnd.IntN(3) == 0
	case 5:
		if n.up && !n.asleep {
			n.sleep(time.Duration(1+s.rnd.IntN(8)) * time.Second)
		}
	}
}

// mayStay is what the device says of itself.
func (n *node) mayStay() bool {
	clean := []mesh.Key{n.sim.nodes[stayCleanA].key, n.sim.nodes[stayCleanB].key}
	switch n.sim.opt.Bug {
	case StayOnSent:
		return n.sentAll(clean)
	case StayOnOne:
		return n.peer.OnlyHere(clean, 1) == 0
	}
	return n.peer.OnlyHere(clean, stayDisks) == 0
}

// sentAll is the mistake of taking what this device sent for stored, and what
// others wrote for safe.
func (n *node) sentAll(clean []mesh.Key) bool {
	all := true
	n.peer.EachItem(func(at mesh.Order, _ mesh.Item) {
		for _, k := range clean {
			all = all && (at.Feed.Author() != n.key || n.sent[sentTo{at.Hash, k}])
		}
	})
	return all
}

// sentTo is an entry and whom it was sent to.
type sentTo struct {
	entry mesh.Hash
	to    mesh.Key
}

// noteSent remembers what was sent to whom, for sentAll.
func (n *node) noteSent(frame []byte, other mesh.Key) {
	if n.sim.opt.Bug != StayOnSent || frame[0] != byte(mesh.FrameItems) {
		return
	}
	if body, err := mesh.DecodeFrame(frame); err == nil {
		for _, it := range body.(*mesh.Items).Items {
			n.sent[sentTo{mesh.HashEntry(it.Bytes), other}] = true
		}
	}
}

// destroy takes a device and its disk away for ever, and checks that nothing
// is lost with it.
func (s *Sim) destroy(n *node) {
	s.log("destroy %d", n.id)
	n.peer.EachItem(func(at mesh.Order, _ mesh.Item) {
		on := 0
		for _, id := range []int{stayCleanA, stayCleanB} {
			if s.nodes[id].disk.has[at.Hash] {
				on++
			}
		}
		if on < stayDisks {
			s.broken(StayedAndLost, "%v said that it may stay behind, and %s/%d is on %d clean disks", n, at.Feed, at.Seq, on)
		}
	})
	n.crash()
	n.gone = true
}
