package requests

import (
	"encoding/binary"
	"maps"
	"slices"

	"lintel/mesh"
)

// stateLabel begins State, before FoldVersion.
const stateLabel = "lintel requests state"

// State is the folded state in its one byte form: the same facts give the same
// bytes on every device, in whatever order and however often they came. It holds
// every fact and everything that was decided about it; the package comment
// draws it. It costs time in proportion to all that is held.
func (b *Board) State() []byte {
	s := &stateWriter{}
	s.text(stateLabel)
	s.number(FoldVersion)
	b.stateRegisters(s)
	b.stateLists(s)
	b.stateHolders(s)
	b.stateConditions(s)
	b.stateRequests(s)
	b.stateNeeds(s)
	b.stateCases(s)
	b.stateRest(s)
	return s.bytes
}

// stateWriter appends the few shapes that State is made of: integers of 8
// bytes, big-endian, and byte strings behind their length.
type stateWriter struct{ bytes []byte }

func (s *stateWriter) number(n uint64)   { s.bytes = binary.BigEndian.AppendUint64(s.bytes, n) }
func (s *stateWriter) count(n int)       { s.number(uint64(n)) }
func (s *stateWriter) text(t string)     { s.count(len(t)); s.bytes = append(s.bytes, t...) }
func (s *stateWriter) ref(r mesh.Ref)    { s.bytes = append(s.bytes, r[:]...) }
func (s *stateWriter) flag(yes bool)     { s.bytes = append(s.bytes, bit(yes)) }
func (s *stateWriter) small(n uint8)     { s.bytes = append(s.bytes, n) }
func (s *stateWriter) refs(r []mesh.Ref) { s.count(len(r)); each(r, s.ref) }

func bit(yes bool) byte {
	if yes {
		return 1
	}
	return 0
}

func each[T any](list []T, do func(T)) {
	for _, one := range list {
		do(one)
	}
}

// fact writes one fact as it was stored.
func (s *stateWriter) fact(n *fact) {
	s.ref(n.Ref)
	s.number(uint64(n.At.Turn))
	s.bytes = append(s.bytes, n.At.Feed[:]...)
	s.number(uint64(n.At.Seq))
	s.bytes = append(s.bytes, n.At.Hash[:]...)
	s.number(uint64(n.Wall))
	s.text(string(n.By.Role))
	s.text(string(n.By.Tag))
	s.number(uint64(n.By.Happened))
	s.small(uint8(n.By.Way))
	s.number(uint64(n.Kind))
	s.text(string(n.Body))
}

// facts writes facts in order, each with whether it was taken back.
func (b *Board) stateFacts(s *stateWriter, facts []*fact) {
	s.count(len(facts))
	for _, n := range inOrder(facts) {
		s.fact(n)
		s.flag(b.undone(n))
	}
}

func (b *Board) stateRegisters(s *stateWriter) {
	for _, registers := range []map[mesh.ID][]*fact{b.roles, b.rooms, b.settings} {
		s.count(len(registers))
		for _, id := range slices.Sorted(maps.Keys(registers)) {
			s.text(string(id))
			b.stateFacts(s, registers[id])
			s.refs(refsOf(b.standing(registers[id])))
		}
	}
}

func (b *Board) stateHolders(s *stateWriter) {
	s.count(len(b.holds))
	for _, device := range slices.SortedFunc(maps.Keys(b.holds), mesh.Key.Compare) {
		b.stateFacts(s, b.holds[device])
		h, _ := b.Holder(device)
		s.ref(h.Ref)
		s.number(uint64(h.Can))
		s.small(uint8(h.Side))
	}
}

func (b *Board) stateRequests(s *stateWriter) {
	all := b.Requests()
	s.count(len(all))
	for i := range all {
		b.stateRequest(s, &all[i])
	}
}

func (b *Board) stateRequest(s *stateWriter, r *Request) {
	s.ref(r.Ref)
	s.small(uint8(r.Step))
	s.small(uint8(r.Shown))
	s.small(uint8(r.Loop))
	s.number(uint64(r.Flags))
	s.number(uint64(r.Taken))
	s.count(len(r.Marks))
	for _, m := range r.Marks {
		s.fact(b.facts[m.Ref])
		s.flag(m.Undone)
		s.flag(m.OutOfTurn)
		s.number(uint64(m.Corrected))
	}
	s.count(len(r.Wants))
	for _, w := range r.Wants {
		s.ref(w.Ref)
	}
	s.count(len(r.Acknowledged))
	for _, g := range r.Acknowledged {
		s.flag(g.Still)
	}
	s.count(len(r.PassedOn))
	for _, p := range r.PassedOn {
		s.flag(p.Counts)
	}
	s.count(len(r.InHand))
	for _, h := range r.InHand {
		s.ref(h.Meets)
		each([]bool{h.Matches, h.Closed, h.Live}, s.flag)
		s.choices(h.Agreed)
		s.choices(h.Refused)
	}
	s.count(len(r.Offers))
	for _, o := range r.Offers {
		s.ref(o.Meets)
		s.choices(o.Agreed)
		s.choices(o.Refused)
	}
	s.count(len(r.Deliveries))
	for _, d := range r.Deliveries {
		s.ref(d.Names)
		each([]bool{d.Open, d.Disputed}, s.flag)
		s.number(uint64(d.Taken))
	}
}

func (s *stateWriter) choices(list []Choice) {
	s.count(len(list))
	for _, c := range list {
		s.ref(c.Ref)
		s.flag(c.FromRoom)
	}
}

func (b *Board) stateNeeds(s *stateWriter) {
	var joined []Need
	for _, need := range b.Needs() {
		if len(need.Requests) > 1 {
			joined = append(joined, need)
		}
	}
	b.stateFacts(s, b.joins)
	s.count(len(joined))
	for _, need := range joined {
		s.refs(need.Requests)
		s.small(uint8(need.Step))
		each([]bool{need.Delivered, need.Twice}, s.flag)
		s.ref(need.Calls)
	}
}

// stateRest writes what belongs to no request: marks that lead nowhere, ends
// of other facts, what cannot be read, and how much was kept unfolded.
func (b *Board) stateRest(s *stateWriter) {
	var loose []*fact
	for _, n := range b.facts {
		if n.isMark && n.root == nil {
			loose = append(loose, n)
		}
	}
	b.stateFacts(s, loose)
	b.stateFacts(s, b.unreadable)
	s.count(len(b.kept))
	for _, k := range slices.Sorted(maps.Keys(b.kept)) {
		s.number(uint64(k))
		s.count(b.kept[k])
	}
}
