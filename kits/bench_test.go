package kits

import (
	"encoding/binary"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// plain makes n movements of one device, as a busy store writes them: opening
// stock, hand-overs and their ends in turn.
func plain(t testing.TB, from, n int) []mesh.Fact {
	key := mesh.Key{1}
	feed := mesh.MakeFeed(key, mesh.Incarnation{1})
	out := make([]mesh.Fact, 0, n)
	var last mesh.Ref
	for i := from; i < from+n; i++ {
		var tap mesh.Tap
		binary.BigEndian.PutUint64(tap[:], uint64(i))
		f := mesh.Fact{
			Ref: mesh.MakeRef(key, tap, 0),
			At:  mesh.Order{Turn: mesh.Turn(i + 1), Feed: feed, Seq: mesh.Seq(i + 1)},
		}
		var b any
		switch i % 3 {
		case 0:
			f.Kind, b = KindMoved, stock(store, tube, 2)
		case 1:
			f.Kind, b = KindMoved, body(PutAtDoor(store, "A1", []Line{Containers(tube, 2)}, mesh.Ref{}, mesh.Ref{}))
			last = f.Ref
		case 2:
			f.Kind, b = KindEnded, body(TakenIn(last, []int64{1}))
		}
		var err error
		f.Body, err = mesh.Encode(b)
		require.NoError(t, err)
		out = append(out, f)
	}
	return out
}

// BenchmarkAdd: the cost of one more fact after so many; the goal is that it
// does not grow.
func BenchmarkAdd(b *testing.B) {
	for _, held := range []int{1_000, 100_000} {
		b.Run(fmt.Sprint(held), func(b *testing.B) {
			l := foldWith(testOptions(), plain(b, 0, held))
			more := plain(b, held/3*3, 30_000)
			b.ReportAllocs()
			b.ResetTimer()
			for i := range b.N {
				l.Add(more[i%len(more)])
			}
		})
	}
}

// BenchmarkFold: everything from the beginning, as at a start.
func BenchmarkFold(b *testing.B) {
	facts := plain(b, 0, 30_000)
	b.ReportAllocs()
	for range b.N {
		foldWith(testOptions(), facts)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(facts)), "ns/fact")
}

// Goal: one more movement costs the same however many there are. Method: count
// what 900 more allocate after 1,000 and after 60,000; a walk through the
// movements would show.
func TestOneMoreMovementCostsTheSame(t *testing.T) {
	cost := func(held int) float64 {
		l := foldWith(testOptions(), plain(t, 0, held))
		more := plain(t, held, 900*2)
		next := 0
		return testing.AllocsPerRun(1, func() {
			for range 900 {
				l.Add(more[next])
				next++
			}
		})
	}
	few, many := cost(999), cost(60_000)
	require.InEpsilon(t, few, many, 0.1)
}
