package requests

import (
	"cmp"
	"container/heap"
	"maps"
	"slices"
	"sort"

	"lintel/mesh"
)

// clockName is the clock of a device between two moments at which it was set.
type clockName struct {
	device mesh.Key
	life   int
}

// clockReading says whose clock a time was read off, and when in the order of entries.
type clockReading struct {
	device mesh.Key
	at     mesh.Order
}

// clockOffset is what to add to a clock for the common one, ± how much.
type clockOffset struct{ ms, withinMS int64 }

// clockPair names two clocks of two devices, the smaller key first.
type clockPair struct{ low, high clockName }

// clockEdge leads on to a clock: off is what to add to it.
type clockEdge struct {
	to  clockName
	off clockOffset
}

// clockTable is what follows from the comparisons of one Board.
type clockTable struct {
	measured  []comparison // in order
	steps     map[mesh.Key][]clockStep
	pairs     map[clockPair][]int // of each pair of clocks, its comparisons by their places in measured
	reference mesh.Key            // whose clock is the common one; zero: nothing was compared
	byRoot    map[clockName]*clockWork
}

// clockWork sets clocks against one of them. What it finds is kept until a
// comparison is added.
type clockWork struct {
	b     *Board
	table *clockTable
	root  clockName
	found map[int]map[clockName]clockOffset // by how many comparisons come before
}

// foundMax bounds what is kept: beyond it all is found again.
const foundMax = 4096

// work gives the clocks against the common one as it was set at a fact; nil: now.
func (k *clockBook) work(b *Board, at *fact) *clockWork {
	if k.common == nil {
		k.common = newClockTable(k.inOrder())
	}
	t := k.common
	root := clockName{t.reference, len(t.steps[t.reference])}
	if at != nil {
		root = t.clock(clockReading{t.reference, at.At})
	}
	w := t.byRoot[root]
	if w == nil {
		w = &clockWork{b: b, table: t, root: root, found: map[int]map[clockName]clockOffset{}}
		t.byRoot[root] = w
	}
	return w
}

func newClockTable(measured []comparison) *clockTable {
	t := &clockTable{
		measured: measured, steps: steps(jumps(measured)),
		pairs: map[clockPair][]int{}, byRoot: map[clockName]*clockWork{},
	}
	for i, c := range measured {
		low, high := t.clock(clockReading{c.pair().low, c.at}), t.clock(clockReading{c.pair().high, c.at})
		t.pairs[clockPair{low, high}] = append(t.pairs[clockPair{low, high}], i)
	}
	neighbours := map[mesh.Key]map[mesh.Key]bool{}
	for _, c := range measured {
		for _, d := range []mesh.Key{c.author(), c.peer} {
			if neighbours[d] == nil {
				neighbours[d] = map[mesh.Key]bool{}
			}
			neighbours[d][c.other(d)] = true
		}
	}
	for _, d := range slices.SortedFunc(maps.Keys(neighbours), mesh.Key.Compare) {
		if len(neighbours[d]) > len(neighbours[t.reference]) {
			t.reference = d
		}
	}
	return t
}

// clock names the clock that a reading was read off.
func (t *clockTable) clock(r clockReading) clockName {
	life := sort.Search(len(t.steps[r.device]), func(i int) bool {
		return t.steps[r.device][i].at.Compare(r.at) > 0
	})
	return clockName{r.device, life}
}

func (w *clockWork) clock(r clockReading) clockName { return w.table.clock(r) }

// reading is whose clock says when a mark happened: that of whoever corrected it
// last, else the author's. withinMS is the ± of that correction.
func (w *clockWork) reading(m Mark) (r clockReading, withinMS int64) {
	if n := w.b.facts[m.Ref]; n != nil && m.Corrected != 0 {
		for _, late := range slices.Backward(w.b.aboutOf(n, KindLateTime)) {
			if late.body.(*LateTime).Happened != 0 {
				return clockReading{late.Ref.Author(), late.At}, int64(m.WithinMS)
			}
		}
	}
	return clockReading{m.Device(), m.At}, 0
}

// offset leads from the clock of a reading to the common one; false: no
// comparisons lead there.
func (w *clockWork) offset(r clockReading) (clockOffset, bool) {
	before := sort.Search(len(w.table.measured), func(i int) bool {
		return w.table.measured[i].at.Compare(r.at) >= 0
	})
	offsets, known := w.found[before]
	if !known {
		if len(w.found) >= foundMax {
			clear(w.found)
		}
		offsets = w.table.spread(w.root, before)
		w.found[before] = offsets
	}
	off, known := offsets[w.clock(r)]
	return off, known
}

// edges gives what leads from each clock to its neighbours: of each pair the
// newest of the first so many comparisons, and where there is none the earliest
// later one.
func (t *clockTable) edges(before int) map[clockName][]clockEdge {
	out := map[clockName][]clockEdge{}
	for p, list := range t.pairs {
		i := sort.SearchInts(list, before)
		c := t.measured[list[max(i-1, 0)]]
		within := 2*c.withinMS + ClockUnsaid.Milliseconds()
		low, high := clockOffset{c.highAhead(), within}, clockOffset{-c.highAhead(), within}
		out[p.low] = append(out[p.low], clockEdge{p.high, high})
		out[p.high] = append(out[p.high], clockEdge{p.low, low})
	}
	return out
}

// spread finds the least uncertain way from every clock to root.
func (t *clockTable) spread(root clockName, before int) map[clockName]clockOffset {
	edges := t.edges(before)
	done := map[clockName]clockOffset{}
	next := &frontier{{to: root}}
	for next.Len() > 0 {
		at := heap.Pop(next).(clockEdge)
		if _, known := done[at.to]; known {
			continue
		}
		done[at.to] = at.off
		for _, e := range edges[at.to] {
			if _, known := done[e.to]; !known {
				heap.Push(next, clockEdge{e.to, clockOffset{at.off.ms + e.off.ms, at.off.withinMS + e.off.withinMS}})
			}
		}
	}
	return done
}

// frontier is a heap of ways, the one with the least ± first; of several the one
// to the smallest clock, then with the smallest offset, so that all devices
// choose the same.
type frontier []clockEdge

// Len, Less, Swap, Push and Pop are for container/heap.
func (f frontier) Len() int { return len(f) }

// Less is for container/heap.
func (f frontier) Less(i, j int) bool {
	a, z := f[i], f[j]
	return cmp.Or(cmp.Compare(a.off.withinMS, z.off.withinMS), a.to.compare(z.to), cmp.Compare(a.off.ms, z.off.ms)) < 0
}

// Swap is for container/heap.
func (f frontier) Swap(i, j int) { f[i], f[j] = f[j], f[i] }

// Push is for container/heap.
func (f *frontier) Push(x any) { *f = append(*f, x.(clockEdge)) }

// Pop is for container/heap.
func (f *frontier) Pop() any {
	last := (*f)[len(*f)-1]
	*f = (*f)[:len(*f)-1]
	return last
}

func (n clockName) compare(m clockName) int {
	return cmp.Or(n.device.Compare(m.device), cmp.Compare(n.life, m.life))
}
