package kits

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: an end that was a mistake does not stand, whoever takes it back and
// however often, and a right one may follow. Method: take three in, take that
// back twice, look at the door; then take one in. fold tries every order.
func TestAReopenedHandOverLiesAtTheDoorAgain(t *testing.T) {
	p := pens(t, 3)
	stocked, put := passed(p[0])
	in := p[1].write(body(TakenIn(put.Ref, []int64{3})))
	again := []mesh.Fact{p[1].write(&Reopened{Names: in.Ref, Why: "slip"}), p[2].write(&Reopened{Names: in.Ref})}
	l := fold(t, stocked, put, in, again[0], again[1])
	h, _ := l.HandOver(put.Ref)
	require.Equal(t, HandOverOpen, h.State)
	require.False(t, h.Ends[0].Stands)
	require.ElementsMatch(t, []mesh.Ref{again[0].Ref, again[1].Ref}, h.Ends[0].Reopened)
	require.Equal(t, again[0].Body, p[1].write(body(h.Ends[0].Reopen("slip"))).Body)
	require.EqualValues(t, 3, l.Balance(each(doorA1, tube)))
	require.Zero(t, l.Balance(each(insideA1, tube)))
	require.Len(t, l.AtDoor("A1"), 1)
	require.Empty(t, l.Audit())

	right := p[0].write(body(TakenIn(put.Ref, []int64{1})))
	l = fold(t, stocked, put, in, again[0], again[1], right)
	require.EqualValues(t, 1, l.Balance(each(insideA1, tube)))
	require.EqualValues(t, 9, l.Balance(each(store, tube)))
	require.Empty(t, l.Audit())
}

// Goal: reopening one of two ends that differ leaves the other; reopening what
// settled them leaves nothing standing, because what it settled stays settled.
// Method: both, with an end that differs and one that settles.
func TestReopeningOneEndLeavesTheOthersAsTheyWere(t *testing.T) {
	p := pens(t, 3)
	stocked, put := passed(p[0])
	one, two := p[1].write(body(TakenIn(put.Ref, []int64{3}))), p[2].write(body(TakenIn(put.Ref, []int64{1})))
	l := fold(t, stocked, put, one, two, p[0].write(&Reopened{Names: one.Ref}))
	h, _ := l.HandOver(put.Ref)
	require.Equal(t, HandOverEnded, h.State)
	require.Equal(t, []int64{1}, h.Taken)
	require.Empty(t, l.Audit())

	both := p[0].write(&Ended{Names: put.Ref, Taken: []int64{2}, Settles: []mesh.Ref{one.Ref, two.Ref}})
	l = fold(t, stocked, put, one, two, both, p[1].write(&Reopened{Names: both.Ref}))
	h, _ = l.HandOver(put.Ref)
	require.Equal(t, HandOverOpen, h.State)
	require.EqualValues(t, 3, l.Balance(each(doorA1, tube)))
}

// Goal: a reopening that names no end is kept and listed, and one before its
// end counts when that comes. Method: name nothing known, a movement, an end
// that comes later; a misfitting end that was taken back is no finding any more.
func TestReopeningsOfWhatIsNoEndAreListed(t *testing.T) {
	p := pens(t, 2)
	stocked, put := passed(p[0])
	nowhere := p[1].write(&Reopened{Names: mesh.MakeRef(p[1].key, mesh.Tap{99}, 0)})
	wrong := p[1].write(&Reopened{Names: put.Ref})
	l := fold(t, stocked, put, nowhere, wrong)
	require.Equal(t, []FindingID{NamesUnknown, NamesWrong}, ids(l.Audit()))

	misfit := p[0].write(body(TakenIn(put.Ref, []int64{1, 1})))
	back := p[1].write(&Reopened{Names: misfit.Ref})
	require.Equal(t, []FindingID{NamesUnknown}, ids(fold(t, stocked, put, back).Audit()))
	require.Empty(t, fold(t, stocked, put, back, misfit).Audit())
	_, err := mesh.Encode(&Reopened{})
	require.ErrorIs(t, err, mesh.ErrRange)
}

// Goal: a count knows of a reopening only if it had seen it. Method: take
// three in, count none inside, and take the end back before and behind the
// count's vector: only then does the count find three too few.
func TestACountKnowsOnlyTheReopeningsItHadSeen(t *testing.T) {
	for _, knew := range []bool{true, false} {
		p := pens(t, 2)
		stocked, put := passed(p[0])
		in := p[0].write(body(TakenIn(put.Ref, []int64{3})))
		vector := seen(p...)
		back := p[1].write(&Reopened{Names: in.Ref})
		if knew {
			vector = seen(p...)
		}
		count := p[0].write(&Counted{Place: insideA1, Seen: vector, Lines: []Line{{Item: tube, Quantity: Quantity{0, mesh.Each}}}})
		l := fold(t, stocked, put, in, back, count)
		found := l.Counts(insideA1)[0].Adjustments
		if knew {
			require.Empty(t, found)
			require.Zero(t, l.Balance(each(insideA1, tube)))
		} else {
			require.EqualValues(t, -3, found[0].N)
			require.EqualValues(t, -3, l.Balance(each(insideA1, tube)))
		}
	}
}
