package station

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
	"lintel/requests"
)

// Goal: after "not in stock" the next request of the drilled room, and no other,
// is answered so, until the drill is over. Method: requests before and after it,
// in that room and beside it, and the end.
func TestNotInStockIsOfTheNextRequest(t *testing.T) {
	d, _ := opened(t)
	asked := func(room mesh.ID) requests.Request {
		return d.request(d.do(Ask{Room: room, Thing: requests.Thing{Item: 1032, Count: 1}, Urgency: requests.RightNow}))
	}
	drill := d.do(StartDrill{Room: "A1"})
	before := asked("A1")
	d.do(GiveInject{Drill: drill, What: injectNoStock})
	elsewhere, next, after := asked("A2"), asked("A1"), asked("A1")
	for _, r := range []requests.Request{before, elsewhere, after} {
		require.Empty(t, d.v.InjectOn(r))
	}
	require.Equal(t, "Asked item is not in stock", d.v.InjectOn(next))
	d.do(EndDrill{Drill: drill})
	require.Empty(t, d.v.InjectOn(next))
}

// Goal: a second patient is a case and a drill in it with one tap, in a room without
// a case. Method: a room that has one, one that has none, no room; and the end.
func TestASecondPatientIsACaseAndADrill(t *testing.T) {
	d, of := opened(t)
	require.ErrorIs(t, d.refused(SecondPatient{Room: "A1"}), ErrCaseThere)
	require.ErrorIs(t, d.refused(SecondPatient{}), ErrNoRoom)
	drill := d.do(SecondPatient{Room: "A2", Label: "monthly"})
	c, open := d.v.Board.CaseIn("A2")
	require.True(t, open)
	require.True(t, d.v.Board.IsDrill(c.Ref))
	require.False(t, d.v.Board.IsDrill(of), "the first case is what it was")
	x, on := d.v.ExerciseIn("A2")
	require.True(t, on)
	require.Equal(t, drill.Sibling(2), x.Ref)
	d.do(EndDrill{Drill: x.Ref})
	_, on = d.v.ExerciseIn("A2")
	require.False(t, on)
}
