package kits

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: a count that is accepted on a device to which the movement to the door
// has not come yet does not lose the hand-over. Method: one device proposes, an
// empty ledger accepts; its entries are put beside the movements in any order.
func TestAcceptEndsAHandOverThatItDoesNotKnow(t *testing.T) {
	p := pens(t, 2)
	stocked, put := passed(p[0])
	came := p[0].write(&Moved{From: store, To: insideA1, Lines: []Line{Containers(tube, 1)}})
	ends := fold(t, stocked, put, came).Proposal("A1")
	require.Len(t, ends, 2)
	entries := NewLedger(testOptions()).Accept(ends, mesh.Ref{})
	require.Len(t, entries, 1)
	require.Len(t, entries[0].Ended, 1)
	l := fold(t, append([]mesh.Fact{stocked, put, came}, accepted(t, p[1], entries)...)...)
	h, known := l.HandOver(put.Ref)
	require.True(t, known)
	require.Equal(t, HandOverEnded, h.State)
	require.EqualValues(t, 9, l.Balance(each(store, tube)), "three lay at the door and went back")
	require.Empty(t, l.AtDoor(""))
	require.Empty(t, l.BalancesAt(insideA1))
	require.Empty(t, l.Audit())
}

// Goal: what is ended already is not ended again by a count that was proposed
// before. Method: the hand-over is taken in, then the old proposal accepted.
func TestAcceptLeavesAnEndedHandOverAlone(t *testing.T) {
	p := pens(t, 1)[0]
	stocked, put := passed(p)
	ends := fold(t, stocked, put).Proposal("A1")
	l := fold(t, stocked, put, p.write(body(TakenIn(put.Ref, []int64{3}))))
	require.Empty(t, l.Accept(ends, mesh.Ref{}))
}
