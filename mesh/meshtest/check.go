package meshtest

import (
	"bytes"
	"maps"
	"slices"
	"time"

	"lintel/mesh"
)

func sortedWires(n *node) []*wire {
	out := []*wire{}
	for _, id := range slices.Sorted(maps.Keys(n.wires)) {
		out = append(out, n.wires[id])
	}
	return out
}

// awake lists the devices whose word counts at the end.
func (s *Sim) awake() []*node {
	out := []*node{}
	for _, n := range s.nodes {
		if n.up && !n.asleep && !n.gone {
			out = append(out, n)
		}
	}
	return out
}

// hash is the state that devices compare.
func (n *node) hash() mesh.Hash { return mesh.HashState(n.peer.State(), n.fold.State()) }

// settled tells whether every device has the same state and nothing is asleep.
func (s *Sim) settled() bool {
	nodes := s.awake()
	if len(nodes) < s.count(func(n *node) bool { return !n.gone }) {
		return false
	}
	for _, n := range nodes {
		if n.disk.writing != nil || !bytes.Equal(n.peer.State(), nodes[0].peer.State()) {
			return false
		}
	}
	return true
}

// check looks at every promise and notes what is broken.
func (s *Sim) check() {
	nodes := s.awake()
	for _, n := range nodes {
		s.log("state %d %s", n.id, n.hash())
		if n.hash() != nodes[0].hash() {
			s.broken(StatesDiffer, "%v and %v ended with different states", nodes[0], n)
		}
		s.checkItems(n)
		s.checkRefold(n)
		s.checkCopies(n)
		s.checkAbove(n)
	}
	for _, n := range nodes {
		holds := map[mesh.Hash]bool{}
		n.eachHeld(func(at mesh.Order, _ mesh.Item) { holds[at.Hash] = true })
		for _, a := range s.acked {
			if !s.nodes[a.device].gone && !holds[a.at.Hash] {
				s.broken(AcknowledgedMissing, "%v lacks entry %s/%d, which device %d had shown as safe", n, a.at.Feed, a.at.Seq, a.device)
			}
		}
	}
}

// checkItems checks, apart from the Peer's own checks, that every entry held is
// chained to the one before and vouched for by its author.
func (s *Sim) checkItems(n *node) {
	byHash := map[mesh.Hash]*mesh.Entry{}
	vouched := map[mesh.Hash]bool{}
	n.eachHeld(func(at mesh.Order, it mesh.Item) {
		e, err := mesh.DecodeEntry(it.Bytes)
		if err != nil {
			s.broken(EntryUnreadable, "%v holds an entry that cannot be read: %v", n, err)
			return
		}
		byHash[mesh.HashEntry(it.Bytes)] = e
		if len(it.Signature) > 0 && n.signer.Verify(e.Author, mesh.SignedText(s.group, e.Feed(), e.Seq, at.Hash), mesh.Signature(it.Signature)) {
			vouched[at.Hash] = true
		}
	})
	for h := range vouched {
		for e := byHash[h]; e != nil && e.Seq > 1 && !vouched[e.Before]; e = byHash[e.Before] {
			if byHash[e.Before] == nil {
				s.broken(GapInChain, "%v holds %s/%d without the entry before", n, e.Feed(), e.Seq)
				break
			}
			vouched[e.Before] = true
		}
	}
	if len(vouched) < len(byHash) {
		s.broken(EntryNotVouched, "%v holds %d entries that nobody signed", n, len(byHash)-len(vouched))
	}
}

// checkRefold checks that folding everything again, in another order, gives
// the state that the device reached step by step.
func (s *Sim) checkRefold(n *node) {
	facts := n.peer.Facts()
	s.rnd.Shuffle(len(facts), func(i, j int) { facts[i], facts[j] = facts[j], facts[i] })
	again := s.opt.NewFold(n.id)
	for _, f := range facts {
		again.Add(f)
	}
	if !bytes.Equal(again.State(), n.fold.State()) {
		s.broken(RefoldDiffers, "%v reached another state than folding everything again does", n)
	}
}

// Acknowledged is how many entries were shown as safe.
func (s *Sim) Acknowledged() int { return len(s.acked) }

// The rest lets a test drive single devices.

// Fold is what a device feeds its facts to.
func (s *Sim) Fold(device int) Fold { return s.nodes[device].fold }

// Peer is a device's Peer, to look at.
func (s *Sim) Peer(device int) *mesh.Peer { return s.nodes[device].peer }

// Key is a device's key.
func (s *Sim) Key(device int) mesh.Key { return s.nodes[device].key }

// Now is a device's time.
func (s *Sim) Now(device int) mesh.Now { return s.nodes[device].clock() }

// Fill gives random bytes from the simulation's seed.
func (s *Sim) Fill(b []byte) { s.fill(b) }

// IntN gives a number in 0 … n-1 from the simulation's seed.
func (s *Sim) IntN(n int) int { return s.rnd.IntN(n) }

// Tap enters parts on a device under a given tap, and lets the disk answer.
func (s *Sim) Tap(device int, tap mesh.Tap, parts []mesh.Part) {
	s.nodes[device].step(mesh.Enter{Tap: tap, Parts: parts})
	s.RunFor(100 * time.Millisecond)
}

// Cut parts the devices into those named and the rest, until Heal.
func (s *Sim) Cut(side ...int) {
	for _, a := range s.nodes {
		for _, b := range s.nodes {
			if slices.Contains(side, a.id) && !slices.Contains(side, b.id) {
				s.blocks[pair(a.id, b.id)] = true
				if w := a.links[b.id]; w != nil {
					s.unlink(w, "cut")
				}
			}
		}
	}
}

// Heal lets everyone reach everyone again.
func (s *Sim) Heal() {
	s.heal()
	s.linkAll()
}

// Devices is how many there are, copies of folders among them.
func (s *Sim) Devices() int { return len(s.nodes) }

// Separate parts two devices, until Heal.
func (s *Sim) Separate(a, b int) {
	s.blocks[pair(a, b)] = true
	if w := s.nodes[a].links[b]; w != nil {
		s.unlink(w, "cut")
	}
}
