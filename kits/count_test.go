package kits

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// counted is a count of n tubes in the store by p, who had seen what the given
// devices have written.
func counted(p *pen, before mesh.Ref, n int64, all ...*pen) mesh.Fact {
	return p.write(&Counted{Place: store, Before: before, Seen: seen(all...), Lines: []Line{Containers(tube, n)}})
}

// Goal: a count sets what is there, and the difference has another end.
// Method: ten by the movements, nine seen.
func TestCountSetsWhatIsThere(t *testing.T) {
	p := pens(t, 1)
	stocked := p[0].write(stock(store, tube, 10))
	c := counted(p[0], mesh.Ref{}, 9, p...)
	l := fold(t, stocked, c)
	require.EqualValues(t, 9, l.Balance(each(store, tube)))
	require.EqualValues(t, 1, l.Balance(each(Place{Difference, "main"}, tube)))
	require.Equal(t, []Adjustment{{each(store, tube), -1}}, l.Counts(store)[0].Adjustments)
	require.Equal(t, c.Ref, l.LastCount(store))
	require.Empty(t, l.Audit())
}

// Goal: a record within the count's vector that arrives late changes the
// adjustment, not what was counted. Method: two used were written before the
// count and seen by it, whatever the order of arrival.
func TestLateRecordInsideTheVectorChangesOnlyTheAdjustment(t *testing.T) {
	p := pens(t, 2)
	stocked, gone := p[0].write(stock(store, tube, 10)), used(p[1], 2)
	c := counted(p[0], mesh.Ref{}, 8, p...)
	early := fold(t, stocked, c)
	require.EqualValues(t, 8, early.Balance(each(store, tube)))
	require.Equal(t, []Adjustment{{each(store, tube), -2}}, early.Counts(store)[0].Adjustments)
	l := fold(t, stocked, c, gone)
	require.EqualValues(t, 8, l.Balance(each(store, tube)))
	require.Empty(t, l.Counts(store)[0].Adjustments)
}

// Goal: a record outside the count's vector comes on top of it. Method: two
// used were written by a device whose entries the counter had not seen.
func TestLateRecordOutsideTheVectorComesOnTop(t *testing.T) {
	p := pens(t, 2)
	stocked, gone := p[0].write(stock(store, tube, 10)), used(p[1], 2)
	c := counted(p[0], mesh.Ref{}, 10, p[0])
	l := fold(t, stocked, c, gone)
	require.EqualValues(t, 8, l.Balance(each(store, tube)))
	require.Empty(t, l.Counts(store)[0].Adjustments)
}

// Goal: ends and reversals are inside or outside a vector by themselves.
// Method: a hand-over within the vector whose end is outside it, and a movement
// within whose reversal is outside.
func TestVectorAppliesToEndsAndReversalsToo(t *testing.T) {
	p := pens(t, 2)
	stocked, put := passed(p[0])
	c := counted(p[0], mesh.Ref{}, 6, p[0])
	l := fold(t, stocked, put, c, p[1].write(body(TakenBack(put.Ref, 1))))
	require.EqualValues(t, 9, l.Balance(each(store, tube)))
	require.Equal(t, []Adjustment{{each(store, tube), -1}}, l.Counts(store)[0].Adjustments)

	p = pens(t, 2)
	stocked, gone := p[0].write(stock(store, tube, 10)), used(p[0], 2)
	c = counted(p[0], mesh.Ref{}, 8, p[0])
	l = fold(t, stocked, gone, c, reverse(t, p[1], gone))
	require.EqualValues(t, 10, l.Balance(each(store, tube)))
}

// Goal: of two counts beside each other the first in order holds and the other
// is listed. Method: two devices count without knowing of each other; a third
// count goes on from the one that holds, a fourth from the one that does not.
func TestOfTwoCountsBesideEachOtherTheFirstHolds(t *testing.T) {
	p := pens(t, 2)
	stocked := p[0].write(stock(store, tube, 10))
	one, two := counted(p[0], mesh.Ref{}, 9, p[0]), counted(p[1], mesh.Ref{}, 7, p[0])
	l := fold(t, stocked, one, two)
	require.EqualValues(t, 9, l.Balance(each(store, tube)))
	require.Equal(t, []FindingID{CountBeside}, ids(l.Audit()))
	require.Equal(t, []mesh.Ref{two.Ref, one.Ref}, l.Audit()[0].Refs)

	on, off := counted(p[0], one.Ref, 5, p...), counted(p[1], two.Ref, 3, p...)
	l = fold(t, stocked, one, two, on, off)
	require.EqualValues(t, 5, l.Balance(each(store, tube)))
	require.Equal(t, []FindingID{CountBeside, CountBeside}, ids(l.Audit()))
	require.Equal(t, on.Ref, l.LastCount(store))
	require.Equal(t, []Adjustment{{each(store, tube), -4}}, l.Counts(store)[2].Adjustments)
}

// Goal: a line speaks for every lot of its item, a whole count for everything.
// Method: two lots and another item; count one item by unknown lot, then all.
func TestLineSpeaksForEveryLotAndWholeForEverything(t *testing.T) {
	p := pens(t, 1)
	lot := Line{Item: tube, Lot: "L1", Quantity: Quantity{4, mesh.Each}}
	facts := []mesh.Fact{
		p[0].write(&Moved{From: Place{Sort: Supplier}, To: store, Lines: []Line{lot, Containers(tube, 3), Containers(saline, 8)}}),
	}
	facts = append(facts, counted(p[0], mesh.Ref{}, 5, p...))
	l := fold(t, facts...)
	require.EqualValues(t, 5, l.Held(store, tube))
	require.EqualValues(t, 8, l.Held(store, saline))

	facts = append(facts, p[0].write(&Counted{Place: store, Before: facts[1].Ref, Seen: seen(p...), Whole: true, Lines: []Line{Containers(tube, 6)}}))
	l = fold(t, facts...)
	require.EqualValues(t, 6, l.Held(store, tube))
	require.Zero(t, l.Held(store, saline))
	require.Len(t, l.Counts(store)[1].Adjustments, 2)
}

// Goal: a count that names what is no count of this place is listed and does
// not hold. Method: name a movement, nothing known, a count of another place.
func TestCountThatNamesNoCountOfItsPlaceIsListed(t *testing.T) {
	p := pens(t, 1)
	stocked := p[0].write(stock(store, tube, 10))
	other := p[0].write(&Counted{Place: trolley, Seen: seen(p...), Whole: true})
	for before, want := range map[mesh.Ref]FindingID{
		stocked.Ref: NamesWrong, other.Ref: CountBeside, mesh.MakeRef(p[0].key, mesh.Tap{99}, 0): NamesUnknown,
	} {
		l := fold(t, stocked, other, counted(p[0], before, 3, p...))
		require.EqualValues(t, 10, l.Balance(each(store, tube)))
		require.Equal(t, []FindingID{want}, ids(l.Audit()))
	}
}
