package integration

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
	"lintel/mesh/meshtest"
	"lintel/requests"
)

// world is the real folds of one simulated device.
type world struct {
	starter station.Starter
	board   *requests.Board
	ledger  *kits.Ledger
}

// newWorlds gives the constructor that a simulation needs.
func newWorlds(t testing.TB) func(int) meshtest.Fold {
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	return func(int) meshtest.Fold {
		w := &world{starter: starter}
		w.Reset()
		return w
	}
}

// Reset begins both folds again.
func (w *world) Reset() {
	w.board = requests.NewBoard(w.starter.Roles)
	w.ledger = kits.NewLedger(kits.Options{Defaults: w.starter.Kits})
}

// Add takes one fact.
func (w *world) Add(f mesh.Fact) {
	w.board.Add(f)
	w.ledger.Add(f)
}

// State is both folds' states.
func (w *world) State() []byte { return append(w.board.State(), w.ledger.State()...) }

// people is who holds which simulated device: two inside, the rest outside.
func people(i int) mesh.By {
	switch i {
	case 0:
		return mesh.By{Role: "lead", Tag: "L1"}
	case 1:
		return mesh.By{Role: "assistant", Tag: "D1"}
	}
	return mesh.By{Role: "runner", Tag: mesh.Tag([]string{"R1", "R2", "R3", "R4", "R5", "R6", "R7"}[i%7])}
}

// view is what a device's station would look at.
func view(s *meshtest.Sim, i int) station.View {
	w := s.Fold(i).(*world)
	return station.View{Board: w.board, Ledger: w.ledger, Peer: s.Peer(i), Now: s.Now(i)}
}

// compose makes the tap and the parts of an act on a simulated device.
func compose(s *meshtest.Sim, i int, act station.Act) (tap mesh.Tap, parts []mesh.Part, err error) {
	s.Fill(tap[:])
	by := people(i)
	parts, err = station.Compose(view(s, i), s.Key(i), tap, by, act)
	return tap, parts, err
}

// do has a person on a device carry out an act, and returns its request.
func do(t testing.TB, s *meshtest.Sim, i int, act station.Act) mesh.Ref {
	t.Helper()
	tap, parts, err := compose(s, i, act)
	require.NoError(t, err)
	s.Tap(i, tap, parts)
	return mesh.MakeRef(s.Key(i), tap, 1)
}

// settled lets time pass until all devices have the same state.
func settled(t testing.TB, s *meshtest.Sim, devices int) {
	t.Helper()
	for range 60 {
		s.RunFor(1e9)
		same := true
		for i := range devices {
			same = same && view(s, i).StateHash() == view(s, 0).StateHash()
		}
		if same {
			return
		}
	}
	t.Fatal("the devices did not agree within a simulated minute")
}
