package station

import (
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/requests"
)

// Goal: an inject is shown in its words for a while, a battery's until the
// exercise is over, and none of it is recorded as measured. Method: give two
// injects, let time go by, end the exercise.
func TestInjectsAreShownAndNotRecorded(t *testing.T) { synctest.Test(t, injectsAreShownAndNotRecorded) }

func injectsAreShownAndNotRecorded(t *testing.T) {
	d := newInDrill(t, "A1")
	d.do(Condition{Battery: 81, Charging: true})
	see := func() (x Exercise, on bool, shown, recorded requests.Condition) {
		require.NoError(t, d.s.Look(d.ctx, func(v View) {
			x, on = v.ExerciseIn("A1")
			h, _ := v.Board.Holder(v.Peer.Self())
			shown, _ = v.BatteryShown(h)
			recorded, _, _ = v.Board.Condition(v.Peer.Self())
			require.Len(t, v.Exercises(), map[bool]int{true: 1}[on])
		}))
		return x, on, shown, recorded
	}
	x, on, shown, _ := see()
	require.True(t, on)
	require.Empty(t, x.Inject)
	require.EqualValues(t, 81, shown.Battery)
	d.do(GiveInject{Drill: d.drill, What: "battery"})
	given := d.do(GiveInject{Drill: d.drill, What: "glove"})
	x, _, shown, recorded := see()
	require.Equal(t, "A glove tears", x.Inject)
	require.Equal(t, given, x.Given)
	require.EqualValues(t, drillBattery, shown.Battery)
	require.False(t, shown.Charging)
	require.EqualValues(t, 81, recorded.Battery)
	d.later(injectFor + time.Second)
	x, _, shown, _ = see()
	require.Empty(t, x.Inject)
	require.EqualValues(t, drillBattery, shown.Battery)
	d.do(EndDrill{Drill: d.drill})
	_, on, shown, _ = see()
	require.False(t, on)
	require.EqualValues(t, 81, shown.Battery)
}
