package meshtest

import (
	"crypto/ed25519"
	"fmt"
	"maps"
	"slices"
	"time"

	"lintel/mesh"
)

// node is one simulated device.
type node struct {
	sim    *Sim
	id     int
	key    mesh.Key
	signer mesh.Signer
	disk   *disk
	peer   *mesh.Peer
	fold   Fold
	up     bool
	asleep bool
	gone   bool          // removed from the group
	life   int           // counts starts: what an earlier life scheduled is void
	skew   time.Duration // of the wall clock
	slept  time.Duration // the monotonic clock stands still in sleep
	links  map[int]*wire
	wires  map[mesh.LinkID]*wire
	twin   *node       // the device that this one is a copy of
	folded []mesh.Fact // what the fold was fed since it began
	loose  []ack       // shown as "not saved here", no copy known yet
	sent   map[sentTo]bool
}

func (s *Sim) newNode(id int) *node {
	n := &node{sim: s, id: id, disk: newDisk(), links: map[int]*wire{}, wires: map[mesh.LinkID]*wire{}, sent: map[sentTo]bool{}}
	var seed [32]byte
	s.fill(seed[:])
	if s.opt.Real {
		signer := Ed25519{Private: ed25519.NewKeyFromSeed(seed[:])}
		n.key, n.signer = signer.Key(), signer
	} else {
		n.key = mesh.Key(seed)
		n.signer = KeyedHash{Self: n.key}
	}
	n.fold = s.opt.NewFold(id)
	return n
}

// wallBase keeps simulated wall clocks in the present, whatever the skew.
const wallBase = 1_800_000_000_000

func (n *node) clock() mesh.Now {
	return mesh.Now{
		Mono: n.sim.now - n.slept + time.Hour,
		Wall: mesh.Wall(wallBase + (n.sim.now + n.skew).Milliseconds()),
	}
}

// start begins a life of the device from what its disk holds.
func (n *node) start() {
	n.life++
	n.up, n.asleep = true, false
	n.peer = mesh.New(mesh.Options{Self: n.key, Group: n.sim.group, Signer: n.signer, Random: n.sim.fill, Settings: mesh.Defaults(), Paired: n.id > 0})
	n.fold.Reset()
	n.folded = nil
	stock := n.disk.load()
	n.sim.log("start %d records %d fresh %d", n.id, len(stock.Records), stock.Fresh)
	n.carryOut(n.peer.Load(n.clock(), stock))
	n.tickLater()
}

func (n *node) tickLater() {
	life := n.life
	n.sim.after(time.Second, func() {
		if !n.up || n.life != life {
			return
		}
		if !n.asleep {
			n.step(mesh.Tick{})
		}
		n.tickLater()
	})
}

// trusts tells whether n would have a session with this key.
func (n *node) trusts(k mesh.Key) bool {
	known := len(n.peer.Devices())
	return n.peer.IsMember(k) || known == 1 || known == 2 && n.id > 0 // just joined: it knows the founder and itself
}

// tap enters parts under a new tap.
func (n *node) tap(parts ...mesh.Part) mesh.Tap {
	var t mesh.Tap
	n.sim.fill(t[:])
	n.step(mesh.Enter{Tap: t, Parts: parts})
	return t
}

func (n *node) step(ev mesh.Event) {
	if n.up {
		n.carryOut(n.peer.Step(n.clock(), ev))
	}
}

// carryOut does what the Peer asks for.
func (n *node) carryOut(effects []mesh.Effect) {
	for _, ef := range effects {
		switch e := ef.(type) {
		case mesh.Send:
			e = n.garbled(e)
			n.checkSend(e)
			if w := n.wires[e.Link]; w != nil {
				n.sim.carry(w, n, e)
			}
		case mesh.Hang:
			if w := n.wires[e.Link]; w != nil {
				n.sim.log("hang %d: %s", n.id, e.Why)
				n.sim.after(0, func() { n.sim.unlink(w, e.Why) })
			}
		case mesh.Append:
			n.write(e)
		case mesh.Learnt:
			n.feed(e.Facts)
		case mesh.Refold:
			n.refold(e)
		case mesh.Saved:
			n.saved(e)
		case mesh.NotSaved:
			n.sim.log("not saved %d %s/%d", n.id, e.At.Feed, e.At.Seq)
			n.loose = append(n.loose, ack{device: n.id, at: e.At, tap: e.Tap})
		case mesh.Copied:
			n.copied(e)
		case mesh.Noted:
			n.sim.log("note %d %s %s", n.id, e.Note, e.Feed)
		}
	}
}

func (n *node) refold(e mesh.Refold) {
	n.sim.log("refold %d", n.id)
	if n.sim.opt.Bug == IgnoreRefold {
		return
	}
	n.fold.Reset()
	before := n.folded
	n.folded = nil
	if n.sim.opt.Bug == CountAbove {
		n.feed(before)
	}
	n.feed(e.Facts)
}

// feed gives facts to the fold.
func (n *node) feed(facts []mesh.Fact) {
	for _, f := range facts {
		n.fold.Add(f)
		n.folded = append(n.folded, f)
	}
}

// write starts a disk write; the answer comes a little later.
func (n *node) write(a mesh.Append) {
	n.disk.writing = &a
	if n.sim.opt.Bug == SendUnsynced {
		n.sendAtOnce(a)
	}
	verify := func(c mesh.SignatureCheck) bool { return n.signer.Verify(c.By, c.Text, c.Signature) }
	if n.sim.opt.Bug == NoSignatures {
		verify = func(mesh.SignatureCheck) bool { return true }
	}
	life := n.life
	took := time.Duration(200+n.sim.rnd.IntN(15_000)) * time.Microsecond
	if n.sim.opt.Bug == AckBeforeSync {
		n.sim.after(0, func() {
			if n.up && n.life == life {
				n.step(mesh.Wrote{Batch: a.Batch})
			}
		})
		n.sim.after(took*40, func() {
			if n.life == life && n.up {
				n.disk.store(&a, len(a.Records))
			}
		})
		return
	}
	n.sim.after(took, func() { n.answer(life, verify) })
}

// answer completes the write under way, once the device is awake.
func (n *node) answer(life int, verify func(mesh.SignatureCheck) bool) {
	if !n.up || n.life != life || n.disk.writing == nil {
		return
	}
	if n.asleep {
		n.sim.after(time.Second, func() { n.answer(life, verify) })
		return
	}
	w := n.disk.finish(verify)
	if n.sim.opt.Bug == ForgetPoison && w.Err != nil {
		w.Err = nil // tried again, and believed
	}
	n.step(w)
}

// sendAtOnce sends what is to be written to a neighbour before it is.
func (n *node) sendAtOnce(a mesh.Append) {
	wires := sortedWires(n)
	if len(wires) == 0 {
		return
	}
	for _, r := range a.Records {
		body, err := mesh.Encode(&mesh.Items{Items: []mesh.Item{r.Item}})
		if err != nil {
			panic(err)
		}
		e := mesh.Send{Link: wires[0].id, Frame: append([]byte{byte(mesh.FrameItems)}, body...)}
		n.checkSend(e)
		n.sim.carry(wires[0], n, e)
	}
}

// garbled is a frame as it leaves the device.
func (n *node) garbled(e mesh.Send) mesh.Send {
	if n.sim.opt.Bug == GarbleSent && e.Frame[0] == byte(mesh.FrameItems) {
		e.Frame = e.Frame[:len(e.Frame)-1]
	}
	return e
}

// sleep stops the device for a while; its clock goes on.
func (n *node) sleep(d time.Duration) {
	n.sim.log("sleep %d %v", n.id, d)
	n.asleep = true
	life := n.life
	n.sim.after(d, func() {
		if n.life != life || !n.up {
			return
		}
		n.asleep = false
		n.slept += d
		n.step(mesh.ClockSet{Step: d})
	})
}

// saved checks that what is shown as saved is on the disk.
func (n *node) saved(e mesh.Saved) {
	n.sim.log("saved %d %s/%d", n.id, e.At.Feed, e.At.Seq)
	if !n.disk.has[e.At.Hash] {
		n.sim.broken(SavedNotOnDisk, "device %d shows %s/%d as saved, and its disk does not have it", n.id, e.At.Feed, e.At.Seq)
	}
	n.sim.acked = append(n.sim.acked, ack{device: n.id, at: e.At, tap: e.Tap})
}

// copied checks that a device that is said to have stored something has.
func (n *node) copied(e mesh.Copied) {
	n.sim.log("copied %d by %s %s/%d", n.id, e.By, e.At.Feed, e.At.Seq)
	stored := false
	for _, m := range n.sim.nodes {
		stored = stored || m.key == e.By && m.disk.short[e.At.Hash]
	}
	if !stored {
		n.sim.broken(CopyToldNotThere, "device %d believes that %s stored %s/%d, and it has not", n.id, e.By, e.At.Feed, e.At.Seq)
	}
	for _, a := range n.loose {
		if a.at.Feed == e.At.Feed && a.at.Seq <= e.At.Seq {
			n.sim.acked = append(n.sim.acked, a)
		}
	}
	n.loose = slices.DeleteFunc(n.loose, func(a ack) bool { return a.at.Feed == e.At.Feed && a.at.Seq <= e.At.Seq })
}

// checkSend checks that nothing of a stored incarnation leaves before its sync.
func (n *node) checkSend(e mesh.Send) {
	if e.Frame[0] != byte(mesh.FrameItems) || n.peer.InMemory() {
		return
	}
	body, err := mesh.DecodeFrame(e.Frame)
	if err != nil {
		n.sim.broken(FrameUnreadable, "device %d sends a frame that cannot be read: %v", n.id, err)
		return
	}
	for _, it := range body.(*mesh.Items).Items {
		if !n.disk.has[mesh.HashEntry(it.Bytes)] {
			n.sim.broken(SentBeforeSync, "device %d sends an entry that is not on its disk", n.id)
		}
	}
}

// crash ends this life as a power cut would.
func (n *node) crash() {
	n.sim.log("crash %d", n.id)
	n.up = false
	for _, id := range slices.Sorted(maps.Keys(n.wires)) {
		n.sim.unlink(n.wires[id], "crashed")
	}
	n.loose = nil
	n.disk.crash(n.sim.rnd)
	if n.sim.opt.Bug == LyingDisk && len(n.disk.synced) > 2 {
		n.disk.synced = n.disk.synced[:len(n.disk.synced)-1]
	}
}

// String names the device in messages.
func (n *node) String() string { return fmt.Sprintf("device %d", n.id) }
