package kits

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

func used(p *pen, n int64) mesh.Fact {
	return p.write(&Moved{From: store, To: Place{Used, "A1"}, Lines: []Line{Containers(tube, n)}})
}

func reverse(t *testing.T, p *pen, f mesh.Fact) mesh.Fact {
	t.Helper()
	m, ok := foldWith(testOptions(), []mesh.Fact{f}).Movement(f.Ref)
	require.True(t, ok)
	return p.write(body(m.Reverse("slip of the finger")))
}

// Goal: two correctors of one movement take it out once. Method: two devices
// reverse the same movement; the store is full again, not over-full.
func TestTwoCorrectorsTakeAMovementOutOnce(t *testing.T) {
	p := pens(t, 3)
	stocked, gone := p[0].write(stock(store, tube, 10)), used(p[0], 4)
	l := fold(t, stocked, gone, reverse(t, p[1], gone), reverse(t, p[2], gone))
	require.EqualValues(t, 10, l.Balance(each(store, tube)))
	m, _ := l.Movement(gone.Ref)
	require.False(t, m.Counts())
	require.Len(t, m.Reversed, 2)
	require.Empty(t, l.Audit())
}

// Goal: a reversal may come before what it names. Method: add it alone, see it
// listed as naming nothing known, then add the movement.
func TestReversalBeforeTheMovementCounts(t *testing.T) {
	p := pens(t, 2)
	gone := used(p[0], 4)
	back := reverse(t, p[1], gone)
	l := fold(t, back)
	require.Equal(t, []FindingID{NamesUnknown}, ids(l.Audit()))
	l = fold(t, back, gone)
	require.Zero(t, l.Balance(each(store, tube)))
	require.Empty(t, l.Audit())
}

// Goal: a reversal that does not repeat what it names does not count and is
// listed. Method: another quantity, another place.
func TestReversalThatDiffersDoesNotCount(t *testing.T) {
	p := pens(t, 2)
	stocked, gone := p[0].write(stock(store, tube, 10)), used(p[0], 4)
	differs := []*Reversed{
		{Names: gone.Ref, From: store, To: Place{Used, "A1"}, Lines: []Line{Containers(tube, 3)}},
		{Names: gone.Ref, From: store, To: Place{Used, "A2"}, Lines: []Line{Containers(tube, 4)}},
	}
	for _, r := range differs {
		l := fold(t, stocked, gone, p[1].write(r))
		require.EqualValues(t, 6, l.Balance(each(store, tube)))
		require.Equal(t, []FindingID{ReversalDiffers}, ids(l.Audit()))
	}
}

// Goal: a hand-over that was a mistake carries nothing, and an end recorded for
// it is listed. Method: reverse it, with and without an end.
func TestReversedHandOverCarriesNothing(t *testing.T) {
	p := pens(t, 2)
	stocked, put := passed(p[0])
	back := reverse(t, p[1], put)
	l := fold(t, stocked, put, back)
	require.EqualValues(t, 10, l.Balance(each(store, tube)))
	require.Empty(t, l.AtDoor(""))
	require.Empty(t, l.Audit())
	l = fold(t, stocked, put, back, p[1].write(body(TakenIn(put.Ref, []int64{3}))))
	require.EqualValues(t, 10, l.Balance(each(store, tube)))
	require.Equal(t, []FindingID{EndedReversed}, ids(l.Audit()))
}

// drawn is two ampoules inside that became one syringe of 200 microgram.
func drawn(p *pen, amount int64) (stocked, syringe mesh.Fact) {
	stocked = p.write(stock(insideA1, ampoule, 2))
	return stocked, p.write(&DrawnUp{
		At: insideA1, Lines: []Line{Containers(ampoule, 2)}, Item: ampoule,
		Amount: Quantity{amount, mesh.Microgram}, VolumeUL: 20_000, DrawnBy: "T1", CheckedBy: "T2",
	})
}

// Goal: drawing up turns containers into one syringe. Method: two ampoules of
// 100 microgram are gone, 200 are in the syringe; it is given in two parts.
func TestDrawingUpMakesOneSyringe(t *testing.T) {
	p := pens(t, 1)[0]
	stocked, made := drawn(p, 200)
	in := Cell{insideA1, ampoule, "", made.Ref, mesh.Microgram}
	l := fold(t, stocked, made)
	require.Zero(t, l.Balance(each(insideA1, ampoule)))
	require.EqualValues(t, 200, l.Balance(in))
	require.Empty(t, l.Audit())

	part := Line{Item: ampoule, Syringe: made.Ref, Quantity: Quantity{150, mesh.Microgram}}
	give := func() mesh.Fact { return p.write(&Moved{From: insideA1, To: Place{Given, "A1"}, Lines: []Line{part}}) }
	first := give()
	l = fold(t, stocked, made, first)
	require.EqualValues(t, 50, l.Balance(in))
	l = fold(t, stocked, made, first, give())
	require.Equal(t, []FindingID{BelowZero}, ids(l.Audit()))
	require.Equal(t, in, l.Audit()[0].Cell)
}

// Goal: a syringe that holds other than its containers held is listed, and
// recorded as stated. Method: 150 microgram out of two ampoules of 100.
func TestSyringeMismatchIsListed(t *testing.T) {
	p := pens(t, 1)[0]
	stocked, made := drawn(p, 150)
	l := fold(t, stocked, made)
	found := l.Audit()
	require.Equal(t, []FindingID{SyringeMismatch}, ids(found))
	require.EqualValues(t, 200, found[0].Want)
	require.EqualValues(t, 150, found[0].Got)
	require.EqualValues(t, 150, l.Balance(Cell{insideA1, ampoule, "", made.Ref, mesh.Microgram}))
}

// Goal: a drawing up and a leaving can be reversed like a movement. Method:
// reverse each with what its own view gives.
func TestDrawingUpAndLeavingAreReversedToo(t *testing.T) {
	p := pens(t, 2)
	stocked, made := drawn(p[0], 200)
	l := fold(t, stocked, made, reverse(t, p[1], made))
	require.EqualValues(t, 2, l.Balance(each(insideA1, ampoule)))
	require.Empty(t, l.Audit())
	left := p[0].write(&LeftWith{From: insideA1, Lines: []Line{Containers(ampoule, 1)}, Unit: "ward", ReceivedBy: "W1"})
	l = fold(t, stocked, left, reverse(t, p[1], left))
	require.EqualValues(t, 2, l.Balance(each(insideA1, ampoule)))
	require.Empty(t, l.Audit())
}
