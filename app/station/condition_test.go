package station

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
	"lintel/requests"
)

// alone is a station that talks to nobody and signs nothing.
type alone struct{}

func (alone) Send(mesh.LinkID, mesh.Stream, []byte)        {}
func (alone) Hang(mesh.LinkID, string)                     {}
func (alone) Sign([]byte) mesh.Signature                   { return mesh.Signature{} }
func (alone) Verify(mesh.Key, []byte, mesh.Signature) bool { return true }
func (alone) counting() func([]byte) {
	n := uint64(0)
	return func(b []byte) {
		n++
		for i := range b {
			b[i] = byte(n >> (8 * (i % 2))) // so that names do not come again after 256
		}
	}
}

// TestABatteryIsRecordedWhenItCrossesAndWhenTheChargerComes lets a battery run
// down, waver at the bounds, be charged and be of nobody's knowledge, one look
// after another: only what crosses is recorded.
func TestABatteryIsRecordedWhenItCrossesAndWhenTheChargerComes(t *testing.T) {
	starter, err := ReadStarter()
	require.NoError(t, err)
	random := alone{}.counting()
	group, founding, err := mesh.Found(mesh.Key{1}, alone{}, "unit", random, 1)
	require.NoError(t, err)
	var now Condition
	ticks := make(chan time.Time)
	s := New(Options{
		Self: mesh.Key{1}, Group: group, Signer: alone{}, Random: random, Net: alone{}, Ticks: ticks,
		Stock:     mesh.Stock{Records: []mesh.Record{{Item: founding}}, Verified: 1},
		Now:       func() mesh.Now { return mesh.Now{Wall: 1} },
		Condition: func() Condition { return now },
		Roles:     starter.Roles, Starter: starter.Kits,
	})
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- s.Run(ctx) }() // joined by the receive below
	for _, c := range []struct {
		battery  int32
		charging bool
		recorded int32 // by then; -1: nothing
	}{
		{80, false, -1}, {21, false, -1}, {20, false, 20}, {21, false, 20}, {22, false, 20}, {24, false, 24}, {19, false, 19},
		{6, false, 19}, {5, false, 5}, {6, false, 5}, {-1, false, 5}, {6, true, 6}, {7, true, 6}, {9, true, 6}, {100, true, 100}, {100, false, 100},
	} {
		now = Condition{Battery: c.battery, Charging: c.charging}
		for range conditionEvery {
			ticks <- time.Time{}
		}
		got := int32(-1)
		require.NoError(t, s.Look(ctx, func(v View) {
			if said, _, known := v.Board.Condition(mesh.Key{1}); known {
				got = said.Battery
			}
		}))
		require.Equal(t, c.recorded, got, "%+v", c)
	}
	stop()
	require.ErrorIs(t, <-ended, context.Canceled)
}

// TestADeviceStaysBehindOnlyWithTwoCleanOnes looks at the devices that are held
// outside: none of them is a member here, so nothing is known to be anywhere.
func TestADeviceStaysBehindOnlyWithTwoCleanOnes(t *testing.T) {
	d, _ := opened(t)
	s := d.v.StayBehind()
	require.False(t, s.May())
	require.Empty(t, s.Clean)
	require.True(t, Stay{Clean: make([]mesh.Key, cleanLeast)}.May())
	require.False(t, Stay{Here: 1, Clean: make([]mesh.Key, cleanLeast)}.May())
}

// TestElapsedCountsFromTheMark asks at one time and looks later, and on a clock
// that was set back.
func TestElapsedCountsFromTheMark(t *testing.T) {
	d, ref := asked(t)
	m := d.request(ref).Asked
	m.Wall = 10_000
	d.v.Now.Wall = 12_500
	require.Equal(t, 2500*time.Millisecond, d.v.Elapsed(m))
	d.v.Now.Wall = 1
	require.Zero(t, d.v.Elapsed(m))
	require.IsType(t, []requests.Call{}, d.v.Calls())
}
