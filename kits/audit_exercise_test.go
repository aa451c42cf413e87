package kits

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: what went wrong in an exercise is told apart from what went wrong with a
// patient, and nothing of a patient is ever taken for an exercise. Method: the
// same slip, a controlled drug that nobody else saw wasted, in an exercise, in a
// case and in none; and a place below zero, which is nobody's.
func TestFindingsOfExercisesAreToldApart(t *testing.T) {
	p := pens(t, 1)[0]
	drill, patient := mesh.MakeRef(p.key, mesh.Tap{0xdd}, 0), mesh.MakeRef(p.key, mesh.Tap{0xcc}, 0)
	var facts []mesh.Fact
	slips := map[mesh.Ref]bool{}
	for _, of := range []mesh.Ref{drill, patient, {}} {
		issued := p.write(&Issued{Line: Containers(ampoule, 1), Case: of, TakenBy: "T1"})
		waste := p.write(&Moved{From: insideA1, To: Place{Wasted, "A1"}, Lines: []Line{Containers(ampoule, 1)}, Case: of, Issue: issued.Ref})
		facts = append(facts, issued, waste)
		slips[waste.Ref] = of == drill
	}
	l := foldWith(testOptions(), facts)
	is := func(c mesh.Ref) bool { return c == drill }
	seen := 0
	for _, f := range l.Audit() {
		switch f.ID {
		case Unwitnessed:
			require.Equal(t, slips[f.Refs[0]], l.OfExercise(f, is))
			seen++
		case BelowZero:
			require.False(t, l.OfExercise(f, is))
		}
		require.False(t, l.OfExercise(f, nil), "nobody told what an exercise is")
	}
	require.Equal(t, 3, seen)
}
