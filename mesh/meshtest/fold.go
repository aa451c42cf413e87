package meshtest

import (
	"crypto/sha256"
	"maps"
	"slices"

	"lintel/mesh"
)

// SetFold is the plainest fold: it keeps the set of facts.
type SetFold struct {
	facts map[mesh.Ref]mesh.Hash
	last  mesh.Ref
	late  bool // also remember which fact came last: a mistake
}

// NewSetFold makes an empty one.
func NewSetFold(int) Fold { return &SetFold{facts: map[mesh.Ref]mesh.Hash{}} }

// NewLastFold makes one with a mistake: its state depends on the order of arrival.
func NewLastFold(int) Fold { return &SetFold{facts: map[mesh.Ref]mesh.Hash{}, late: true} }

// Reset forgets everything.
func (s *SetFold) Reset() { s.facts = map[mesh.Ref]mesh.Hash{} }

// Add takes one fact.
func (s *SetFold) Add(f mesh.Fact) {
	s.facts[f.Ref] = sha256.Sum256(append([]byte{byte(f.Kind >> 8), byte(f.Kind)}, f.Body...))
	s.last = f.Ref
}

// State is every name and what it stands for, sorted.
func (s *SetFold) State() []byte {
	out := []byte{}
	for _, r := range slices.SortedFunc(maps.Keys(s.facts), mesh.Ref.Compare) {
		sum := s.facts[r]
		out = append(append(out, r[:]...), sum[:]...)
	}
	if s.late {
		out = append(out, s.last[:]...)
	}
	return out
}
