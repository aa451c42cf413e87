package integration

import (
	"fmt"
	"os"
	"slices"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/mesh/meshtest"
	"lintel/requests"
)

// Devices of the room in these schedules: two inside, two runners outside.
const needDevices = 4

// need is one thing that somebody inside needs. Each has an item of its own, so
// that it is known in the physical world whatever was recorded.
type need struct {
	item  mesh.Number
	by    int      // the device it was asked on
	ref   mesh.Ref // the request asked there
	coded bool     // a runner entered it as asked by voice, with the code read through the glass
	voice bool     // a runner entered it as asked by voice
	lies  bool     // it lies at the door
	taken int      // how often it was taken in
}

// cubicle is a room whose people follow what their screens show, with a door that
// cuts the radio now and then.
type cubicle struct {
	sim   *meshtest.Sim
	needs []*need
	left  int // needs that nobody asked for yet
	cut   bool
	since int      // rounds since the door shut or opened
	rang  []string // promises that were broken on the way
}

// skipFold is a faulty device: it folds everything but one kind.
type skipFold struct {
	meshtest.Fold
	skip mesh.Kind
}

// Add leaves one kind out.
func (f skipFold) Add(x mesh.Fact) {
	if x.Kind != f.skip {
		f.Fold.Add(x)
	}
}

func newCubicle(seed uint64, fold func(int) meshtest.Fold, needs int) *cubicle {
	s := meshtest.NewSim(meshtest.Options{Seed: seed, Devices: needDevices, NewFold: fold})
	w := &cubicle{sim: s, left: needs}
	for i := range needDevices {
		w.do(i, station.Hold{Holds: requests.Holds{Role: people(i).Role, Tag: people(i).Tag, Rooms: []mesh.ID{"A1"}}})
	}
	s.RunFor(8 * time.Second)
	return w
}

// look is what device i shows.
func (w *cubicle) look(i int) station.View {
	f := w.sim.Fold(i)
	if faulty, is := f.(skipFold); is {
		f = faulty.Fold
	}
	x := f.(*world)
	return station.View{Board: x.board, Ledger: x.ledger, Peer: w.sim.Peer(i), Now: w.sim.Now(i)}
}

// do records an act on a device; what a screen would not let them do is left out.
func (w *cubicle) do(i int, act station.Act) (mesh.Ref, bool) {
	var tap mesh.Tap
	w.sim.Fill(tap[:])
	parts, err := station.Compose(w.look(i), w.sim.Key(i), tap, people(i), act)
	if err != nil {
		return mesh.Ref{}, false
	}
	w.sim.Tap(i, tap, parts)
	return mesh.MakeRef(w.sim.Key(i), tap, 1), true
}

func (w *cubicle) needOf(item mesh.Number) *need {
	i := slices.IndexFunc(w.needs, func(n *need) bool { return n.item == item })
	return w.needs[i]
}

// round is something that one of them does.
func (w *cubicle) round() {
	w.since++
	switch w.sim.IntN(6) {
	case 0:
		w.ask()
	case 1:
		w.door()
	case 2:
		w.call()
	case 3:
		w.takeIn()
	default:
		w.run(2 + w.sim.IntN(2))
	}
	w.sim.RunFor(time.Duration(100+w.sim.IntN(1500)) * time.Millisecond)
	w.listen()
}

// ask asks inside for the next need.
func (w *cubicle) ask() {
	if w.left == 0 {
		return
	}
	w.left--
	item := []mesh.Number{1007, 1010, 1029, 1032, 1055, 1064, 1078, 1093}[w.left]
	n := &need{item: item, by: w.sim.IntN(2)}
	n.ref, _ = w.do(n.by, station.Ask{Room: "A1", Thing: requests.Thing{Item: item, Count: 1}, Urgency: requests.RightNow})
	w.needs = append(w.needs, n)
}

// door shuts the radio out, or lets it in again.
func (w *cubicle) door() {
	switch {
	case !w.cut && w.since > 2:
		w.sim.Cut(0, 1)
	case w.cut && w.since > 12: // the outside agrees among itself in the meantime
		w.sim.Heal()
	default:
		return
	}
	w.cut, w.since = !w.cut, 0
}

// call has somebody inside shout a need while the radio is out: a runner enters
// it, with the joining code if it is read through the glass.
func (w *cubicle) call() {
	if !w.cut || len(w.needs) == 0 {
		return
	}
	n := w.needs[w.sim.IntN(len(w.needs))]
	runner := 2 + w.sim.IntN(2)
	_, known := w.look(runner).Board.Request(n.ref)
	if known || n.voice || n.taken > 0 || n.lies {
		return
	}
	act := station.Ask{Room: "A1", Thing: requests.Thing{Item: n.item, Count: 1}, Urgency: requests.RightNow, Origin: requests.AskedByVoice, Tag: people(n.by).Tag}
	if w.sim.IntN(2) == 0 {
		act.Code, n.coded = mesh.Label(requests.Code(n.ref)), true
	}
	n.voice = true
	w.do(runner, act)
}

// run is one thing that a runner does: first say that two requests are the same
// where the list shows it, then bring what was promised, then go for what calls.
func (w *cubicle) run(i int) {
	v := w.look(i)
	if one, other, same := sameNeed(v.Board); same {
		w.do(i, station.Join{One: one, Other: other})
		return
	}
	for _, r := range v.Board.Open() {
		mine := slices.ContainsFunc(r.Acknowledged, func(g requests.Going) bool { return g.Still && g.Device() == v.Peer.Self() })
		if n := w.needOf(r.Thing.Item); mine && r.Step == requests.StepAcknowledged && !n.lies && n.taken == 0 {
			w.do(i, station.ReadBack{Request: r.Ref, Thing: r.Thing, How: requests.Chosen})
			w.do(i, station.PutAtDoor{Request: r.Ref})
			n.lies = true
			return
		}
	}
	for _, r := range v.Board.Open() {
		if v.Board.Ringing(r) {
			w.do(i, station.Go{Request: r.Ref})
			return
		}
	}
}

// sameNeed finds two requests for one item that nobody joined yet: a person
// looking at the list sees them one below the other.
func sameNeed(b *requests.Board) (one, other mesh.Ref, found bool) {
	all := b.Requests()
	for i, r := range all {
		for _, q := range all[i+1:] {
			if q.Thing.Item == r.Thing.Item && !slices.Contains(r.JoinedWith, q.Ref) {
				return r.Ref, q.Ref, true
			}
		}
	}
	return one, other, false
}

// takeIn takes what lies at the door, and records it inside, or, while the radio
// is out, outside as seen through the glass.
func (w *cubicle) takeIn() {
	i := w.sim.IntN(2)
	if w.cut {
		i += 2
	}
	for _, r := range w.look(i).Board.Open() {
		if n := w.needOf(r.Thing.Item); n.lies && r.WaitsAtDoor() {
			if _, done := w.do(i, station.TakeIn{Request: r.Ref}); done {
				n.lies = false
				n.taken++
			}
			return
		}
	}
}

// listen notes a call outside for what was served under its code.
func (w *cubicle) listen() {
	for i := 2; i < needDevices; i++ {
		b := w.look(i).Board
		for _, n := range w.needs {
			if r, here := b.Request(n.ref); here && n.coded && n.taken > 0 && b.Ringing(r) {
				w.rang = append(w.rang, fmt.Sprintf("device %d rings for %d, which was served", i, n.item))
			}
		}
	}
}

// play lets them work until everything was asked and served, and says what was
// broken.
func (w *cubicle) play() []string {
	for range 120 {
		w.round()
	}
	if w.cut {
		w.sim.Heal()
		w.cut = false
	}
	for range 60 {
		w.sim.RunFor(200 * time.Millisecond)
		w.listen()
	}
	for range 100 {
		for w.left > 0 {
			w.ask()
		}
		w.run(2 + w.sim.IntN(2))
		w.sim.RunFor(300 * time.Millisecond)
		w.takeIn()
	}
	w.sim.RunFor(10 * time.Second)
	broken := append(w.rang, w.sim.Broken()...)
	for _, n := range w.needs {
		if n.taken != 1 {
			broken = append(broken, fmt.Sprintf("%d was brought %d times", n.item, n.taken))
		}
	}
	for i := range needDevices {
		b := w.look(i).Board
		if b.Delivered() != len(w.needs) || len(b.Needs()) != len(w.needs) || b.Busy() {
			broken = append(broken, fmt.Sprintf("device %d counts %d delivered of %d needs, where there were %d", i, b.Delivered(), len(b.Needs()), len(w.needs)))
		}
	}
	return broken
}

// seedsAsked is how many schedules are played; LINTEL_SEEDS asks for others.
func seedsAsked(usual uint64) uint64 {
	if n, err := strconv.ParseUint(os.Getenv("LINTEL_SEEDS"), 10, 32); err == nil {
		return n
	}
	return usual
}

// Goal: whatever the radio does, every need is brought exactly once, every
// device counts as many deliveries as there were needs, and nothing that was
// served under its joining code rings outside when the radio is back. Method:
// seeded schedules in which people ask, shout, read codes through the glass, go
// and bring by what their own screens show.
func TestDeliveriesAreTheDistinctNeedsWhateverTheRadioDoes(t *testing.T) {
	fold := newWorlds(t)
	voiced, coded := 0, 0
	for seed := range seedsAsked(150) {
		w := newCubicle(seed, fold, 3+int(seed%6))
		if broken := w.play(); len(broken) > 0 {
			t.Fatalf("seed %d: %d promises broken, the first: %s", seed, len(broken), broken[0])
		}
		for _, n := range w.needs {
			if n.voice {
				voiced++
			}
			if n.coded {
				coded++
			}
		}
	}
	t.Logf("%d needs were asked by voice, %d of them with a code", voiced, coded)
	require.NotZero(t, coded)
	require.Greater(t, voiced, coded)
}

// Goal: the test above would notice. Method: devices that do not fold the join
// by a code, and devices that do not fold the join by a tap.
func TestDevicesThatForgetAJoinAreFound(t *testing.T) {
	fold := newWorlds(t)
	for _, kind := range []mesh.Kind{requests.KindJoinedCode, requests.KindJoined} {
		faulty := func(i int) meshtest.Fold { return skipFold{fold(i), kind} }
		require.Condition(t, func() bool {
			for seed := range uint64(30) {
				if broken := newCubicle(seed, faulty, 5).play(); len(broken) > 0 {
					t.Logf("without 0x%04x, seed %d: %s", uint16(kind), seed, broken[0])
					return true
				}
			}
			return false
		}, "nothing was found without kind 0x%04x", uint16(kind))
	}
}
