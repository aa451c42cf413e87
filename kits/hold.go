package kits

import "lintel/mesh"

// Hold returns what was last said about holding a lot back; false: nobody said.
func (l *Ledger) Hold(item mesh.Number, lot mesh.Label) (Chosen[Quarantine], bool) {
	return choose(&l.lines.quarantine, lotKey{item, lot}, nil)
}
