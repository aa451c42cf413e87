package kits

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// passed is a store of ten tubes of which three were put at the door.
func passed(p *pen) (stocked, put mesh.Fact) {
	stocked = p.write(stock(store, tube, 10))
	put = p.write(body(PutAtDoor(store, "A1", []Line{Containers(tube, 3)}, mesh.Ref{}, mesh.Ref{})))
	return stocked, put
}

// Goal: a hand-over lies at the door until it is ended. Method: put three at
// the door and look at both places.
func TestHandOverLiesAtTheDoor(t *testing.T) {
	stocked, put := passed(pens(t, 1)[0])
	l := fold(t, stocked, put)
	h, ok := l.HandOver(put.Ref)
	require.True(t, ok)
	require.Equal(t, HandOverOpen, h.State)
	require.EqualValues(t, 7, l.Balance(each(store, tube)))
	require.EqualValues(t, 3, l.Balance(each(doorA1, tube)))
	require.Len(t, l.AtDoor("A1"), 1)
	require.Empty(t, l.AtDoor("A2"))
	require.Empty(t, l.Audit())
}

// Goal: "taken in two" ends the whole hand-over. Method: two go inside, the
// third goes back to the store, nothing stays at the door.
func TestTakenInPartReturnsTheRest(t *testing.T) {
	p := pens(t, 1)[0]
	stocked, put := passed(p)
	l := fold(t, stocked, put, p.write(body(TakenIn(put.Ref, []int64{2}))))
	h, _ := l.HandOver(put.Ref)
	require.Equal(t, HandOverEnded, h.State)
	require.Equal(t, []int64{2}, h.Taken)
	require.EqualValues(t, 2, l.Balance(each(insideA1, tube)))
	require.EqualValues(t, 8, l.Balance(each(store, tube)))
	require.Zero(t, l.Balance(each(doorA1, tube)))
	require.Empty(t, l.AtDoor(""))
	require.Empty(t, l.Audit())
}

// Goal: taken back equals taken in none. Method: one device writes the one, a
// second the other; they agree and everything is in the store again.
func TestTakenBackEqualsTakenInNone(t *testing.T) {
	p := pens(t, 2)
	stocked, put := passed(p[0])
	l := fold(t, stocked, put, p[0].write(body(TakenBack(put.Ref, 1))), p[1].write(body(TakenIn(put.Ref, []int64{0}))))
	h, _ := l.HandOver(put.Ref)
	require.Equal(t, HandOverEnded, h.State)
	require.EqualValues(t, 10, l.Balance(each(store, tube)))
	require.Empty(t, l.Audit())
}

// Goal: two takers who say the same count once. Method: two devices take in
// three each; three are inside.
func TestTwoEqualTakersCountOnce(t *testing.T) {
	p := pens(t, 2)
	stocked, put := passed(p[0])
	l := fold(t, stocked, put, p[0].write(body(TakenIn(put.Ref, []int64{3}))), p[1].write(body(TakenIn(put.Ref, []int64{3}))))
	require.EqualValues(t, 3, l.Balance(each(insideA1, tube)))
	require.Empty(t, l.Audit())
}

// Goal: two takers who differ decide nothing, and the conflict is settled by
// someone who names both. Method: two ends, then a third that settles them.
func TestTwoDifferentTakersStayAtTheDoorUntilSettled(t *testing.T) {
	p := pens(t, 3)
	stocked, put := passed(p[0])
	one, two := p[1].write(body(TakenIn(put.Ref, []int64{3}))), p[2].write(body(TakenIn(put.Ref, []int64{1})))
	l := fold(t, stocked, put, one, two)
	h, _ := l.HandOver(put.Ref)
	require.Equal(t, HandOverConflict, h.State)
	require.EqualValues(t, 3, l.Balance(each(doorA1, tube)))
	require.Zero(t, l.Balance(each(insideA1, tube)))
	require.Equal(t, []FindingID{EndedDifferently}, ids(l.Audit()))
	require.ElementsMatch(t, []mesh.Ref{put.Ref, one.Ref, two.Ref}, l.Audit()[0].Refs)

	settled := fold(t, stocked, put, one, two, p[0].write(body(h.Settle([]int64{1}))))
	require.EqualValues(t, 1, settled.Balance(each(insideA1, tube)))
	require.EqualValues(t, 9, settled.Balance(each(store, tube)))
	require.Empty(t, settled.Audit())
}

// Goal: settling needs to name every end that disagrees. Method: one that names
// only the first of two and disagrees with the second settles nothing; two
// people who settle differently are a conflict again.
func TestSettlingOneOfTwoEndsSettlesNothing(t *testing.T) {
	p := pens(t, 3)
	stocked, put := passed(p[0])
	one, two := p[1].write(body(TakenIn(put.Ref, []int64{3}))), p[2].write(body(TakenIn(put.Ref, []int64{1})))
	half := Ended{Names: put.Ref, Taken: []int64{2}, Settles: []mesh.Ref{one.Ref}}
	l := fold(t, stocked, put, one, two, p[0].write(&half))
	h, _ := l.HandOver(put.Ref)
	require.Equal(t, HandOverConflict, h.State)

	both := []mesh.Ref{one.Ref, two.Ref}
	l = fold(t, stocked, put, one, two,
		p[0].write(&Ended{Names: put.Ref, Taken: []int64{2}, Settles: both}),
		p[1].write(&Ended{Names: put.Ref, Taken: []int64{1}, Settles: both}))
	h, _ = l.HandOver(put.Ref)
	require.Equal(t, HandOverConflict, h.State)
}

// Goal: ends that cannot be meant are listed, not dropped. Method: an end with
// too many numbers, one of something that is no hand-over, one that takes more
// than was passed, one of nothing known.
func TestEndsThatDoNotFitAreListed(t *testing.T) {
	p := pens(t, 1)[0]
	stocked, put := passed(p)
	misfit := p.write(body(TakenIn(put.Ref, []int64{1, 1})))
	wrong := p.write(body(TakenIn(stocked.Ref, []int64{1})))
	nowhere := p.write(body(TakenIn(mesh.MakeRef(p.key, mesh.Tap{99}, 0), []int64{1})))
	l := fold(t, stocked, put, misfit, wrong, nowhere)
	require.Equal(t, []FindingID{EndMisfits, NamesUnknown, NamesWrong}, ids(l.Audit()))
	h, _ := l.HandOver(put.Ref)
	require.Equal(t, HandOverOpen, h.State)

	l = fold(t, stocked, put, p.write(body(TakenIn(put.Ref, []int64{4}))))
	require.Equal(t, []FindingID{BelowZero, TakenMore}, ids(l.Audit()))
	require.EqualValues(t, -1, l.Balance(each(doorA1, tube)))
	require.EqualValues(t, 4, l.Balance(each(insideA1, tube)))
}

// Goal: things come out through the same door. Method: two taken in, one put
// out again and taken on to be reprocessed.
func TestThingsComeOutThroughTheSameDoor(t *testing.T) {
	p := pens(t, 1)[0]
	stocked, put := passed(p)
	in := p.write(body(TakenIn(put.Ref, []int64{2})))
	reprocessing := Place{Reprocessing, ""}
	out := p.write(body(PutOut("A1", reprocessing, []Line{Containers(tube, 1)}, mesh.Ref{}, mesh.Ref{})))
	l := fold(t, stocked, put, in, out, p.write(body(TakenIn(out.Ref, []int64{1}))))
	require.EqualValues(t, 1, l.Balance(each(insideA1, tube)))
	require.EqualValues(t, 1, l.Balance(each(reprocessing, tube)))
	require.Empty(t, l.Audit())
}

// Goal: the request finds its movements. Method: a hand-over for a mark is
// listed under it, another one is not.
func TestMovementsAreFoundByTheirRequestMark(t *testing.T) {
	p := pens(t, 1)[0]
	mark := mesh.MakeRef(p.key, mesh.Tap{7}, 1)
	stocked, other := passed(p)
	put := p.write(body(PutAtDoor(store, "A1", []Line{Containers(tube, 1)}, mesh.Ref{}, mark)))
	l := fold(t, stocked, other, put)
	found := l.MovementsFor(mark)
	require.Len(t, found, 1)
	require.Equal(t, put.Ref, found[0].Ref)
	require.Len(t, l.Movements(), 3)
}
