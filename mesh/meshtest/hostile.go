package meshtest

import (
	"slices"
	"time"

	"lintel/mesh"
)

// forgeries has some devices send entries that their authors did not sign:
// real ones changed a little, and real ones under a bad signature.
func (s *Sim) forgeries() {
	for range 20 {
		s.after(time.Duration(s.rnd.IntN(5000))*time.Millisecond, s.forgery)
	}
}

func (s *Sim) forgery() {
	n := s.nodes[s.rnd.IntN(len(s.nodes))]
	wires := sortedWires(n)
	if !n.up || n.asleep || len(wires) == 0 {
		return
	}
	w := wires[s.rnd.IntN(len(wires))]
	to := w.a
	if to == n {
		to = w.b
	}
	items := []mesh.Item{}
	n.peer.EachItem(func(_ mesh.Order, it mesh.Item) { items = append(items, it) })
	it := s.forged(items[s.rnd.IntN(len(items))])
	body, err := mesh.Encode(&mesh.Items{Items: []mesh.Item{it}})
	if err != nil || !to.up || to.asleep {
		return
	}
	s.log("forgery %d>%d", n.id, to.id)
	to.step(mesh.Arrived{Link: w.id, Frame: append([]byte{byte(mesh.FrameItems)}, body...)})
}

// forged is an entry beside, behind or at the place of a real one.
func (s *Sim) forged(it mesh.Item) mesh.Item {
	e, err := mesh.DecodeEntry(it.Bytes)
	if err != nil {
		panic(err)
	}
	switch s.rnd.IntN(4) {
	case 0: // another entry at its place
		e.Turn = mesh.TurnMax
	case 1: // the next one
		e.Seq, e.Before, e.Group = e.Seq+1, mesh.HashEntry(it.Bytes), s.group
		e.Tap[0]++
	case 2: // the first of a feed that nobody wrote
		e.Seq, e.Before = 1, mesh.Hash{}
		s.fill(e.Incarnation[:])
	}
	b, err := mesh.EncodeEntry(e)
	if err != nil {
		b = it.Bytes // the founding entry has no group
	}
	sig := make([]byte, 64)
	s.fill(sig)
	return mesh.Item{Bytes: b, Signature: sig}
}

// restore puts an older state of a device's disk back, as somebody might from
// a backup; half of the time its mark tells. What no other disk has is lost.
func (s *Sim) restore(n *node) {
	if n.gone || n.twin != nil || n.disk.full || len(n.disk.synced) < 3 {
		return
	}
	if n.up {
		n.crash()
	}
	keep := 2 + s.rnd.IntN(len(n.disk.synced)-1)
	s.log("restore %d to %d of %d batches", n.id, keep, len(n.disk.synced))
	gone := n.disk.synced[keep:]
	n.disk.synced = n.disk.synced[:keep:keep]
	if s.rnd.IntN(2) == 0 {
		n.disk.fresh = mesh.WhyMark
	}
	lost := map[mesh.Hash]bool{}
	for _, b := range gone {
		for _, r := range b.records {
			h := mesh.HashEntry(r.Item.Bytes)
			lost[h] = !s.storedElsewhere(n, h)
		}
	}
	s.acked = slices.DeleteFunc(s.acked, func(a ack) bool { return lost[a.at.Hash] })
	n.start()
}

// storedElsewhere tells whether the disk of another device still has an entry.
func (s *Sim) storedElsewhere(n *node, h mesh.Hash) bool {
	for _, m := range s.nodes {
		if m == n || m.gone {
			continue
		}
		for _, b := range m.disk.synced {
			for _, r := range b.records {
				if mesh.HashEntry(r.Item.Bytes) == h {
					return true
				}
			}
		}
	}
	return false
}

// checkCopies checks that whoever is believed to have stored an entry of a
// device has had it on its disk.
func (s *Sim) checkCopies(n *node) {
	n.eachHeld(func(at mesh.Order, _ mesh.Item) {
		for _, k := range n.peer.Copies(at) {
			stored := false
			for _, m := range s.nodes {
				stored = stored || m.key == k && m.disk.has[at.Hash]
			}
			if !stored {
				s.broken(CopyHeldNotThere, "%v believes that %s has a copy of %s/%d, and it has not", n, k, at.Feed, at.Seq)
			}
		}
	})
}
