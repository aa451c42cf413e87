package requests

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

func wait(n byte, ready, due float64) Waiting {
	return Waiting{Ref: mesh.Ref{n}, Door: "A1", Ready: seconds(ready), Due: seconds(due)}
}

func waitNow(n byte, ready float64) Waiting {
	return Waiting{Ref: mesh.Ref{n}, Door: "A1", Ready: seconds(ready), Due: seconds(ready + 999), Now: true}
}

func carried(bytes ...byte) (refs []mesh.Ref) {
	for _, n := range bytes {
		refs = append(refs, mesh.Ref{n})
	}
	return refs
}

// Goal: plans that people can check in their head. Method: a table; the
// comment beside each row says why.
func TestOpeningsServeWhatCanTravelTogether(t *testing.T) {
	for name, row := range map[string]struct {
		now   float64
		waits []Waiting
		want  []Opening
	}{
		"nothing waits": {},
		"what is wanted now opens, and what is ready travels with it": {
			waits: []Waiting{waitNow(1, 60), wait(2, 10, 600), wait(3, 61, 600)},
			want: []Opening{
				{Door: "A1", At: seconds(60), Carries: carried(2, 1), Now: true},
				{Door: "A1", At: seconds(61), Carries: carried(3)},
			},
		},
		"one opening when the last of several is ready": {
			waits: []Waiting{wait(1, 0, 100), wait(2, 50, 200), wait(3, 100, 300)},
			want:  []Opening{{Door: "A1", At: seconds(100), Carries: carried(1, 2, 3)}},
		},
		"two openings where one thing cannot wait for the other, split where less waits": {
			waits: []Waiting{wait(1, 0, 20), wait(2, 15, 200), wait(3, 100, 300)},
			want: []Opening{
				{Door: "A1", At: seconds(15), Carries: carried(1, 2)},
				{Door: "A1", At: seconds(100), Carries: carried(3)},
			},
		},
		"what was due before it is ready goes as soon as it is": {
			now:   500,
			waits: []Waiting{wait(1, 0, 100), wait(2, 510, 900)},
			want: []Opening{
				{Door: "A1", At: seconds(500), Carries: carried(1)},
				{Door: "A1", At: seconds(510), Carries: carried(2)},
			},
		},
		"doors are apart": {
			waits: []Waiting{{Ref: mesh.Ref{9}, Door: "A2", Ready: seconds(5), Due: seconds(50)}, wait(1, 5, 50)},
			want: []Opening{
				{Door: "A1", At: seconds(5), Carries: carried(1)},
				{Door: "A2", At: seconds(5), Carries: carried(9)},
			},
		},
	} {
		require.Equal(t, row.want, Openings(seconds(row.now), row.waits), name)
	}
}

// cost is what makes one plan worse than another.
type cost struct {
	openings int
	waiting  time.Duration
}

func (c cost) less(d cost) bool {
	return c.openings < d.openings || c.openings == d.openings && c.waiting < d.waiting
}

// cheapest tries every way of putting requests into openings: each opening when
// the last of its things is ready, none beyond what may wait.
func cheapest(waits []Waiting, groups [][]Waiting) (best cost, found bool) {
	if len(waits) == 0 {
		c := cost{openings: len(groups)}
		for _, g := range groups {
			at, due := g[0].Ready, g[0].Due
			for _, w := range g {
				at, due = max(at, w.Ready), min(due, w.Due)
			}
			if at > due {
				return cost{}, false
			}
			for _, w := range g {
				c.waiting += at - w.Ready
			}
		}
		return c, true
	}
	for i := 0; i <= len(groups); i++ {
		next := slices.Clone(groups)
		if i == len(groups) {
			next = append(next, nil)
		}
		next[i] = append(slices.Clone(next[i]), waits[0])
		if c, ok := cheapest(waits[1:], next); ok && (!found || c.less(best)) {
			best, found = c, true
		}
	}
	return best, found
}

// openingCases is how many random doors are planned by both ways.
const openingCases = 20_000

// randomDoor gives up to eight things at one door; few moments, so that many coincide.
func randomDoor(random *rand.Rand) []Waiting {
	n := 1 + random.IntN(5)
	if random.IntN(20) == 0 {
		n = 6 + random.IntN(3)
	}
	waits := make([]Waiting, n)
	for i := range waits {
		ready := float64(random.IntN(12))
		waits[i] = wait(byte(i+1), ready, ready+float64(random.IntN(10)))
		if random.IntN(4) == 0 {
			waits[i].Due, waits[i].Now = waits[i].Ready, true
		}
	}
	return waits
}

// Goal: no plan has fewer openings, and none with as few lets things wait less;
// nothing that is wanted now is delayed, nothing is forgotten or waits beyond
// its limit, and everything that is ready travels. Method: 20,000 random doors
// of up to eight things, against every way of putting them into openings.
func TestOpeningsAreTheBestOfAllWays(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 11))
	for range openingCases {
		waits := randomDoor(random)
		best, found := cheapest(waits, nil)
		require.True(t, found)
		plan := Openings(0, waits)
		at := map[mesh.Ref]time.Duration{}
		for _, o := range plan {
			for _, ref := range o.Carries {
				require.NotContains(t, at, ref)
				at[ref] = o.At
			}
		}
		require.Len(t, at, len(waits))
		got := cost{openings: len(plan)}
		for _, w := range waits {
			got.waiting += at[w.Ref] - w.Ready
			require.LessOrEqual(t, at[w.Ref], w.Due, "seed %d: %v", seed, waits)
			if w.Now {
				require.Equal(t, w.Ready, at[w.Ref], "seed %d: %v", seed, waits)
			}
			for _, o := range plan {
				require.False(t, o.At >= w.Ready && o.At < at[w.Ref], "seed %d: %v: ready, and left behind", seed, waits)
			}
		}
		require.Equal(t, best, got, "seed %d: %v", seed, waits)
	}
}
