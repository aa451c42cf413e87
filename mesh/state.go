package mesh

import (
	"maps"
	"slices"
)

// FoldVersion labels what State says. It changes whenever the same entries
// would give other bytes.
const FoldVersion = 1

// stateBody is the canonical form of what this package folds.
type stateBody struct {
	Version   uint32
	Group     GroupID
	Unit      Label
	Heads     []Head
	Devices   []Device
	Forked    []Feed
	Conflicts []Ref
	Above     []Head // heads of feeds that reach above their author's cut
}

// State is the fold of the log itself: who belongs to the group, how far every
// feed reaches, what forked and what conflicts. Devices with the same entries
// have the same bytes.
func (p *Peer) State() []byte {
	s := stateBody{Version: FoldVersion, Group: p.group, Unit: p.members.unit, Heads: p.Heads(), Forked: p.Forks(), Conflicts: p.Conflicts(), Above: p.Above()}
	s.Devices = p.members.Devices()
	b, err := encode(&s)
	if err != nil {
		panic("mesh: " + err.Error()) // plain integers and byte strings always encode
	}
	return b
}

// HashState joins what the folds say into the one hash that devices compare.
func HashState(folds ...[]byte) Hash {
	parts := make([][]byte, 0, 2*len(folds))
	for _, f := range folds {
		parts = append(parts, be8(uint64(len(f))), f)
	}
	return hashOf("lintel state 1", parts...)
}

// Group returns the group's id.
func (p *Peer) Group() GroupID { return p.group }

// Self returns this device's key.
func (p *Peer) Self() Key { return p.self }

// Unit is what the unit calls itself.
func (p *Peer) Unit() Label { return p.members.unit }

// Devices lists everyone ever admitted.
func (p *Peer) Devices() []Device { return p.members.Devices() }

// IsMember tells whether a device belongs to the group now.
func (p *Peer) IsMember(k Key) bool { return p.members.Status(k) == Member }

// InMemory tells whether the store has failed: nothing new is saved here.
func (p *Peer) InMemory() bool { return p.writing.memory }

// Copies lists the other devices that are known to have stored an entry, in
// the order of their keys. Of this device's entries that is known at once, by
// receipts; of others' from vectors, which come every few seconds.
func (p *Peer) Copies(at Order) []Key {
	if p.feeds[at.Feed] == nil {
		return nil
	}
	out := []Key{}
	for k, marks := range p.copies[at.Feed] {
		if slices.ContainsFunc(marks, func(m copyMark) bool { return m.covers(at.Seq, at.Hash) }) {
			out = append(out, k)
		}
	}
	slices.SortFunc(out, Key.Compare)
	return out
}

// SavedHere tells whether an entry is on this device's disk.
func (p *Peer) SavedHere(at Order) bool {
	t := p.feeds[at.Feed]
	if t == nil {
		return false
	}
	b := t.find(at.Seq, at.Hash)
	return b != nil && b.at(at.Seq).stored
}

// ReceivedAt is when this device got an entry, by its own wall clock.
func (p *Peer) ReceivedAt(at Order) Wall {
	if t := p.feeds[at.Feed]; t != nil {
		if b := t.find(at.Seq, at.Hash); b != nil {
			return b.at(at.Seq).received
		}
	}
	return 0
}

// Entered tells under which order a tap of this device was written.
func (p *Peer) Entered(tap Tap) (Order, bool) {
	at, ok := p.own.taps[tap]
	return at, ok
}

// EachItem visits every entry held, each once, with its signature if it is kept.
func (p *Peer) EachItem(visit func(Order, Item)) {
	p.eachHeld(func(t *feedTree, n *node) {
		visit(Order{Turn: n.turn, Feed: t.feed, Seq: n.seq, Hash: n.hash}, n.item)
	})
}

// NameOf makes the part that names a device, in place of the names that stand.
func (p *Peer) NameOf(k Key, name Label) (Part, error) {
	return MakePart(KindDeviceLine, &DeviceLine{Replaces: p.members.deviceLines(k), Key: k, Name: name})
}

// RemovalOf makes the parts that remove a device: everything of it that is
// held here goes on counting.
func (p *Peer) RemovalOf(k Key, why Label) ([]Part, error) {
	cuts := map[Incarnation]Seq{}
	for _, h := range p.Heads() {
		if h.Feed.Author() == k {
			cuts[h.Feed.Incarnation()] = max(cuts[h.Feed.Incarnation()], h.Seq)
		}
	}
	body := &Removed{Key: k, Why: why}
	for _, i := range slices.SortedFunc(maps.Keys(cuts), func(a, b Incarnation) int { return slices.Compare(a[:], b[:]) }) {
		body.Cuts = append(body.Cuts, Cut{Incarnation: i, Seq: cuts[i]})
	}
	part, err := MakePart(KindRemoved, body)
	return []Part{part}, err
}
