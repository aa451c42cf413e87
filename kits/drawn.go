package kits

import "lintel/mesh"

// Drawn returns what was drawn up under this name, and when; false where nothing
// was. Its slices must not be changed.
func (l *Ledger) Drawn(r mesh.Ref) (d DrawnUp, at mesh.Wall, ok bool) {
	m := l.moves.get(r)
	if m == nil || m.drawn == nil {
		return DrawnUp{}, 0, false
	}
	return *m.drawn, whenOf(m.wall, *m.by), true
}

// NeedsWitness tells whether r is a movement that a second person must have
// seen: a controlled drug that was thrown away, destroyed, broke or left.
func (l *Ledger) NeedsWitness(r mesh.Ref) bool {
	m := l.moves.get(r)
	return m != nil && !m.reversed(nil) && l.needsWitness(m)
}
