package kits

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: whatever an exercise takes, brings in, uses and puts back, and however it
// is mixed with a patient's movements, restock reads as if it had never been, and
// every sum is zero. Method: random movements and hand-overs, some of an
// exercise; the plan of all of them against the plan of the patient's alone.
func TestNoExerciseChangesWhatIsRestocked(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 0))
	touched := 0
	for range 200 {
		p := pens(t, 1)[0]
		drill := mesh.MakeRef(p.key, mesh.Tap{0xdd}, 0)
		facts := []mesh.Fact{p.write(stock(trolley, tube, 3)), p.write(stock(store, tube, 12))}
		patient := append([]mesh.Fact{}, facts...)
		for range 1 + rng.IntN(12) {
			c := pick(rng, []mesh.Ref{{}, drill, drill})
			some := crossing(p, rng, c)
			facts = append(facts, some...)
			if c != drill {
				patient = append(patient, some...)
			}
		}
		q := RestockQuestion{Places: []Place{trolley, store}, On: 20261125, Drill: func(c mesh.Ref) bool { return c == drill }}
		all, alone := fold3(t, shuffled(rng, facts)), foldWith(planOptions(), patient)
		require.Equal(t, alone.Plan(q), all.Plan(q))
		if !sameStock(alone, all) {
			touched++
		}
	}
	require.Greater(t, touched, 100, "exercises that moved nothing show nothing")
}

// crossing is one movement between places of the clean side and the room, or a
// hand-over of which one may be taken in or none.
func crossing(p *pen, rng *rand.Rand, c mesh.Ref) []mesh.Fact {
	line := Line{Item: tube, Lot: pick(rng, []mesh.Label{"", "LOT7", "TRAINING"}), Quantity: Quantity{1 + rng.Int64N(2), mesh.Each}}
	if rng.IntN(3) > 0 {
		shelves := []Place{store, trolley, insideA1, {Used, "A1"}}
		from, to := rng.IntN(len(shelves)-1), rng.IntN(len(shelves))
		if from == to {
			to++
		}
		return []mesh.Fact{p.write(&Moved{From: shelves[from], To: shelves[to], Lines: []Line{line}, Case: c})}
	}
	put := p.write(body(PutAtDoor(trolley, "A1", []Line{line}, c, mesh.Ref{})))
	return []mesh.Fact{put, p.write(body(TakenIn(put.Ref, []int64{rng.Int64N(2)})))}
}

// sameStock reports whether both hold the same at the shelves that are restocked.
func sameStock(a, b *Ledger) bool {
	for _, p := range []Place{store, trolley} {
		x, y := a.BalancesAt(p), b.BalancesAt(p)
		if len(x) != len(y) {
			return false
		}
		for i := range x {
			if x[i].Cell != y[i].Cell || x[i].N != y[i].N {
				return false
			}
		}
	}
	return true
}
