package kits

import "lintel/mesh"

// OfExercise tells whether a finding is about exercises alone: all movements,
// issues and waste containers that it names are of cases that drill calls
// exercises. What names none of these, as a balance does, is never one.
func (l *Ledger) OfExercise(f Finding, drill func(mesh.Ref) bool) bool {
	exercise := false
	for _, r := range f.Refs {
		of, apart, known := l.caseOf(r)
		if !known {
			continue // an end or a witness: it belongs to what is named beside it
		}
		if !apart && (drill == nil || !drill(of)) {
			return false
		}
		exercise = true
	}
	return exercise
}

// caseOf is the case that a record belongs to. A container may be apart by itself.
func (l *Ledger) caseOf(r mesh.Ref) (of mesh.Ref, apart, known bool) {
	if m := l.moves.get(r); m != nil {
		return m.inCase, false, true
	}
	if i := l.issues[r]; i != nil {
		return i.body.Case, false, true
	}
	for _, b := range l.trays.boxes {
		if b.ref == r {
			return b.body.Case, b.body.Drill, true
		}
	}
	return mesh.Ref{}, false, false
}
