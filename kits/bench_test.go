package kits

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"runtime"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// busy writes what a unit writes for years, five facts at a time: stock comes
// in, goes to a door for a request, is partly taken in, is used, and goes to a
// trolley. Items, lots and rooms change from turn to turn; four of five facts
// are movements. Bodies are encoded once for each form, then only renamed.
type busy struct {
	t      testing.TB
	n      int
	put    mesh.Ref
	bodies map[busyForm][]byte
}

type busyForm struct{ step, turn int }

const (
	busySteps = 5
	busyTurns = 280 // of items, lots and rooms, before they come again
)

func newBusy(t testing.TB) *busy { return &busy{t: t, bodies: map[busyForm][]byte{}} }

// step gives the body of one step of a turn.
func (w *busy) step(step, turn int) any {
	line := Line{Item: mesh.Number(1000 + turn%40), Lot: mesh.Label(fmt.Sprint("LOT", turn%7)), Quantity: Quantity{2, mesh.Each}}
	lines, room, inCase := []Line{line}, mesh.ID(fmt.Sprint("A", turn%8)), mesh.MakeRef(mesh.Key{9}, mesh.Tap{byte(turn % 8)}, 0)
	switch step {
	case 0:
		return &Moved{From: Place{Sort: Supplier}, To: store, Lines: lines}
	case 1:
		return body(PutAtDoor(store, room, lines, inCase, mesh.MakeRef(mesh.Key{1}, mesh.Tap{1}, 0)))
	case 2:
		return body(TakenIn(mesh.MakeRef(mesh.Key{1}, mesh.Tap{1}, 1), []int64{1}))
	case 3:
		return &Moved{From: Place{InRoom, room}, To: Place{Used, room}, Lines: lines, Case: inCase}
	}
	return &Moved{From: store, To: trolley, Lines: lines}
}

// next writes one fact.
func (w *busy) next() mesh.Fact {
	step, turn := w.n%busySteps, w.n/busySteps
	key := mesh.Key{byte(1 + turn%5)}
	var tap mesh.Tap
	binary.BigEndian.PutUint64(tap[:], uint64(w.n)*0x9e3779b97f4a7c15) // spread as random ones are
	w.n++
	f := mesh.Fact{
		Ref: mesh.MakeRef(key, tap, 1), Kind: KindMoved, By: mesh.By{Role: "runner", Tag: "R1"}, Wall: mesh.Wall(w.n),
		At: mesh.Order{Turn: mesh.Turn(w.n), Feed: mesh.MakeFeed(key, mesh.Incarnation{1}), Seq: mesh.Seq(w.n)},
	}
	form := busyForm{step, turn % busyTurns}
	if w.bodies[form] == nil {
		b, err := mesh.Encode(w.step(step, turn))
		require.NoError(w.t, err)
		w.bodies[form] = b
	}
	f.Body = bytes.Clone(w.bodies[form])
	switch step {
	case 1: // the request's mark is the part before it
		w.put = f.Ref
		named := mesh.MakeRef(mesh.Key{1}, mesh.Tap{1}, 0)
		mark := f.Ref.Sibling(0)
		copy(f.Body[bytes.Index(f.Body, named[:]):], mark[:])
	case 2:
		f.Kind = KindEnded
		copy(f.Body[3:], w.put[:])
	}
	return f
}

// some writes n facts.
func (w *busy) some(n int) []mesh.Fact {
	out := make([]mesh.Fact, 0, n)
	for range n {
		out = append(out, w.next())
	}
	return out
}

// addBusy adds facts until the ledger has so many movements and gives the time
// that Add took, without what writing them took.
func (w *busy) addBusy(l *Ledger, movements int) (took time.Duration) {
	for l.moves.n < movements {
		facts := w.some(min(5_000, (movements-l.moves.n+3)/4*busySteps))
		begin := time.Now()
		for _, f := range facts {
			l.Add(f)
		}
		took += time.Since(begin)
	}
	return took
}

// BenchmarkMillion: a million movements from the beginning, as at a start, and
// their ends; time of the machine's clock and bytes that stay.
func BenchmarkMillion(b *testing.B) {
	const movements = 1_000_000
	for b.Loop() {
		var before, after runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		o := testOptions()
		o.Expect = movements
		l := NewLedger(o)
		took := newBusy(b).addBusy(l, movements)
		runtime.GC()
		runtime.ReadMemStats(&after)
		b.ReportMetric(took.Seconds(), "s/million")
		b.ReportMetric(float64(after.HeapAlloc-before.HeapAlloc)/float64(l.moves.n), "B/movement")
		runtime.KeepAlive(l)
	}
}

// oneMore is what one more fact costs after so many movements: the median of
// many turns, so that neither collecting nor growing nor a busy machine speaks.
func oneMore(t testing.TB, movements int) time.Duration {
	l, w := NewLedger(testOptions()), newBusy(t)
	w.addBusy(l, movements)
	runtime.GC()
	turns := make([]time.Duration, 0, 400)
	for range cap(turns) {
		facts := w.some(8 * busySteps)
		begin := time.Now()
		for _, f := range facts {
			l.Add(f)
		}
		turns = append(turns, time.Since(begin)/time.Duration(len(facts)))
	}
	slices.Sort(turns)
	return turns[len(turns)/2]
}

// BenchmarkOneMore: one more fact after a thousand movements and after a
// million; the goal is less than twice the time.
func BenchmarkOneMore(b *testing.B) {
	for b.Loop() {
		few, many := oneMore(b, 1_000), oneMore(b, 1_000_000)
		b.ReportMetric(float64(few.Nanoseconds()), "ns/fact-at-1000")
		b.ReportMetric(float64(many.Nanoseconds()), "ns/fact-at-1000000")
		b.ReportMetric(float64(many)/float64(few), "times")
	}
}

// Goal: the facts of the benchmarks are what they say. Method: a ledger of some
// of them has no findings but stock that was used before it came inside.
func TestBusyUnitAddsUp(t *testing.T) {
	const turns = 600
	l := foldWith(testOptions(), newBusy(t).some(turns*busySteps))
	require.Empty(t, l.Unreadable())
	require.Equal(t, 4*turns, l.moves.n)
	require.Empty(t, l.AtDoor(""))
	requireConserved(t, l)
	first := l.Movements()[1]
	require.Equal(t, []Movement{first}, l.MovementsFor(first.For))
	lot := Cell{Place: trolley, Item: 1000, Lot: "LOT0", Measure: mesh.Each} // of the turns 0, 280 and 560
	require.Equal(t, int64(3*2), l.Balance(lot))
}
