package kits

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: two values of a line are listed until somebody writes over both, and a
// line out of use is listed apart. Method: two writes that do not know of each
// other, then one that names both and takes the line away.
func TestValuesThatStandBesideEachOtherAreListedUntilOneIsChosen(t *testing.T) {
	l, two := NewLedger(testOptions()), pens(t, 2)
	require.Empty(t, l.ItemValues(tube))
	a := two[0].write(&ItemLine{Number: tube, Name: "Tube", Stocked: mesh.Each, Exit: Discard})
	b := two[1].write(&ItemLine{Number: tube, Name: "Tracheal tube, cuffed", Stocked: mesh.Each, Exit: Discard})
	l.Add(a)
	require.Empty(t, l.ItemValues(tube))
	l.Add(b)
	both := l.ItemValues(tube)
	require.Len(t, both, 2)
	used, _ := l.Item(tube)
	require.Equal(t, used.Value.Name, both[0].Name)
	require.Empty(t, l.ItemsGone())
	l.Add(two[0].write(&ItemLine{Replaces: used.Writes, Number: tube, Name: "Tube", Stocked: mesh.Each, Exit: Discard, Gone: true}))
	require.Empty(t, l.ItemValues(tube))
	gone := l.ItemsGone()
	require.Len(t, gone, 1)
	require.Equal(t, tube, gone[0].Number)
}
