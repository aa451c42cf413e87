package station

import (
	"math/rand/v2"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// isCut tells whether the station holds back a link that stands.
func (d *inDrill) isCut(id mesh.LinkID) (cut bool) {
	require.NoError(d.t, d.s.Look(d.ctx, func(View) { cut = d.s.cuts.holds(id) }))
	return cut
}

// Goal: whatever happens in whatever order, a link is cut only while a drill goes
// on whose inject is younger than two minutes, and each link that stands is taken up
// again. Method: random drills, injects, ends, links, frames and time; after each,
// the rule; at the end, two minutes.
func TestNoCutOutlivesItsDrill(t *testing.T) {
	seed := uint64(time.Now().UnixNano()) // not in the bubble, where time always begins alike
	t.Logf("seed %d", seed)
	synctest.Test(t, func(t *testing.T) { noCutOutlivesItsDrill(t, rand.New(rand.NewPCG(seed, 1))) })
}

func noCutOutlivesItsDrill(t *testing.T, random *rand.Rand) {
	cuts := 0
	for range 20 {
		d := newInDrill(t, "A1")
		r := &cutRun{inDrill: d, link: 7, on: true, given: -cutFor}
		for range 60 {
			r.step(random)
			r.renew()
			if d.isCut(r.link) {
				cuts++
				require.True(t, r.on, "no drill goes on")
				require.Less(t, d.now-r.given, cutFor)
			}
		}
		d.later(cutFor + time.Second)
		r.renew()
		require.False(t, d.isCut(r.link))
	}
	require.Greater(t, cuts, 20, "too few were tried")
}

// cutRun is what must be true of a device in a random drill.
type cutRun struct {
	*inDrill
	link  mesh.LinkID
	hung  int
	on    bool          // a drill goes on
	given time.Duration // when a cut was given last
}

// step does one thing at random.
func (r *cutRun) step(random *rand.Rand) {
	switch random.IntN(8) {
	case 0:
		if !r.on {
			r.drill, r.on, r.given = r.do(StartDrill{Room: "A1"}), true, r.now-cutFor
		}
	case 1, 2:
		if r.on {
			r.do(GiveInject{Drill: r.drill, What: injectCut})
			r.given = r.now
		}
	case 3:
		if r.on {
			r.do(EndDrill{Drill: r.drill})
			r.on = false
		}
	case 4:
		r.again()
	case 5:
		r.deliver(mesh.Arrived{Link: r.link, Frame: []byte{0}})
	default:
		r.later(time.Duration(1+random.IntN(50)) * time.Second)
	}
}

// again is a link that goes down and comes up anew, as the network does it.
func (r *cutRun) again() {
	r.deliver(mesh.LinkDown{Link: r.link})
	r.link++
	r.deliver(mesh.LinkUp{Link: r.link, Peer: mesh.Key{2}, Via: mesh.OverMemory})
}

// renew begins a link anew that the station hung up.
func (r *cutRun) renew() {
	synctest.Wait()
	for r.hung != r.wire.hung {
		r.hung = r.wire.hung
		r.again()
	}
}
