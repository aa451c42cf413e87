package station

import (
	"context"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
	"lintel/requests"
)

// wire notes the frames that a station sends.
type wire struct {
	alone
	sent, hung int
}

func (w *wire) Send(mesh.LinkID, mesh.Stream, []byte) { w.sent++ }
func (w *wire) Hang(mesh.LinkID, string)              { w.hung++ }

// inDrill is a station inside A1, in an exercise, with one link.
type inDrill struct {
	t     *testing.T
	ctx   context.Context
	s     *Station
	wire  *wire
	now   time.Duration
	ticks chan time.Time
	drill mesh.Ref
}

func newInDrill(t *testing.T, rooms ...mesh.ID) *inDrill {
	starter, err := ReadStarter()
	require.NoError(t, err)
	random := alone{}.counting()
	group, founding, err := mesh.Found(mesh.Key{1}, alone{}, "unit", random, 1)
	require.NoError(t, err)
	d := &inDrill{t: t, wire: &wire{}, ticks: make(chan time.Time)}
	d.s = New(Options{
		Self: mesh.Key{1}, Group: group, Signer: alone{}, Random: random, Net: d.wire, Ticks: d.ticks,
		Stock: mesh.Stock{Records: []mesh.Record{{Item: founding}}, Verified: 1},
		Now:   func() mesh.Now { return mesh.Now{Mono: d.now, Wall: mesh.Wall(1_000_000 + d.now.Milliseconds())} },
		Roles: starter.Roles, Starter: starter.Kits,
	})
	ctx, stop := context.WithCancel(t.Context())
	d.ctx = ctx
	ended := make(chan error, 1)
	go func() { ended <- d.s.Run(ctx) }() // joined by the cleanup
	t.Cleanup(func() { stop(); require.ErrorIs(t, <-ended, context.Canceled) })
	d.do(Hold{Holds: requests.Holds{Role: "lead", Tag: "L1", Rooms: rooms}})
	d.drill = d.do(StartDrill{Room: "A1", Label: "monthly"})
	d.deliver(mesh.LinkUp{Link: 7, Peer: mesh.Key{2}, Via: mesh.OverMemory})
	require.True(t, d.linked())
	return d
}

func (d *inDrill) do(act Act) mesh.Ref {
	r, err := d.s.Do(d.ctx, mesh.By{Role: "lead", Tag: "L1"}, act)
	require.NoError(d.t, err)
	synctest.Wait()
	return r.Ref
}

// later lets seconds go by.
func (d *inDrill) later(by time.Duration) {
	for range by / time.Second {
		d.now += time.Second
		d.ticks <- time.Time{}
		synctest.Wait() // the clock belongs to the loop while it works
	}
}

// deliver hands over an event of the network and waits until it is worked off.
func (d *inDrill) deliver(ev mesh.Event) {
	d.s.Deliver(ev)
	synctest.Wait()
}

// linked tells whether the station knows of a link.
func (d *inDrill) linked() (up bool) {
	require.NoError(d.t, d.s.Look(d.ctx, func(v View) {
		for _, p := range v.Peer.Peers() {
			up = up || p.Health != mesh.NotConnected
		}
	}))
	return up
}

// Goal: an exercise's cut lasts two minutes by the device's own clock and nothing
// is sent in that time; then the link is there again. Method: cut, look just
// before and after the end, and count frames.
func TestACutOfAnExerciseEndsAfterTwoMinutes(t *testing.T) {
	synctest.Test(t, aCutOfAnExerciseEndsAfterTwoMinutes)
}

func aCutOfAnExerciseEndsAfterTwoMinutes(t *testing.T) {
	d := newInDrill(t, "A1")
	d.do(GiveInject{Drill: d.drill, What: "cut-link"})
	require.False(t, d.linked())
	sent := d.wire.sent
	d.later(cutFor - time.Second)
	require.False(t, d.linked())
	require.Equal(t, sent, d.wire.sent)
	d.later(2 * time.Second)
	require.True(t, d.linked())
	require.Greater(t, d.wire.sent, sent)
	require.Zero(t, d.wire.hung)
}

// Goal: "this is real" ends a cut at once, and so does a frame of the other side
// once none can be on its way any more; one that was on its way makes both sides
// begin the link anew. Method: each of the three.
func TestACutEndsWhenEitherSideSaysThatItIsReal(t *testing.T) {
	synctest.Test(t, aCutEndsWhenEitherSideSaysThatItIsReal)
}

func aCutEndsWhenEitherSideSaysThatItIsReal(t *testing.T) {
	d := newInDrill(t, "A1")
	d.do(GiveInject{Drill: d.drill, What: "cut-link"})
	require.False(t, d.linked())
	d.do(EndDrill{Drill: d.drill})
	require.True(t, d.linked())

	d = newInDrill(t, "A1")
	d.do(GiveInject{Drill: d.drill, What: "cut-link"})
	d.later(cutSettles)
	d.deliver(mesh.Arrived{Link: 7, Frame: []byte{0}})
	require.Equal(t, 1, d.wire.hung, "the Peer hears it: it is rubbish, which ends a link")
	d.deliver(mesh.LinkDown{Link: 7})
	d.deliver(mesh.LinkUp{Link: 8, Peer: mesh.Key{2}, Via: mesh.OverMemory})
	require.True(t, d.linked(), "it is over here")

	d = newInDrill(t, "A1")
	d.do(GiveInject{Drill: d.drill, What: "cut-link"})
	d.deliver(mesh.Arrived{Link: 7, Frame: []byte{0}})
	require.False(t, d.linked(), "it was on its way")
	d.do(EndDrill{Drill: d.drill})
	require.False(t, d.linked())
	require.Equal(t, 1, d.wire.hung)
	d.deliver(mesh.LinkDown{Link: 7})
	d.deliver(mesh.LinkUp{Link: 8, Peer: mesh.Key{2}, Via: mesh.OverMemory})
	require.True(t, d.linked())
}

// Goal: nobody else is cut off: not without an exercise, not in another room, not
// a device that is for several rooms, not by another inject, not by one that is
// long over. Method: each.
func TestAnExerciseCutsNobodyElse(t *testing.T) { synctest.Test(t, anExerciseCutsNobodyElse) }

func anExerciseCutsNobodyElse(t *testing.T) {
	d := newInDrill(t, "A1")
	d.do(GiveInject{Drill: d.drill, What: "battery"})
	require.True(t, d.linked(), "another inject")
	d.do(EndDrill{Drill: d.drill})
	d.do(GiveInject{Drill: d.drill, What: "cut-link"})
	require.True(t, d.linked(), "it is real")

	for _, rooms := range [][]mesh.ID{{"A2"}, {"A1", "A2"}, nil} {
		d = newInDrill(t, rooms...)
		d.do(GiveInject{Drill: d.drill, What: "cut-link"})
		require.True(t, d.linked(), rooms)
	}
	d = newInDrill(t, "A1")
	d.do(GiveInject{Drill: d.drill, What: "cut-link"})
	d.later(cutFor)
	require.True(t, d.linked())
	d.deliver(mesh.LinkDown{Link: 7})
	d.deliver(mesh.LinkUp{Link: 8, Peer: mesh.Key{2}, Via: mesh.OverMemory})
	require.True(t, d.linked(), "it is over")
}
