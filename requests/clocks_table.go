package requests

import (
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

// clockOffset leads from one clock to another: what to add, ± how much.
type clockOffset struct{ ms, withinMS int64 }

// clockTable is what follows from the comparisons of one Board.
type clockTable struct {
	measured  []comparison // in order
	steps     map[mesh.Key][]clockStep
	reference mesh.Key // whose clock is the common one; zero: nothing was compared
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
	t := &clockTable{measured: measured, steps: steps(jumps(measured)), byRoot: map[clockName]*clockWork{}}
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
		offsets = w.table.spread(w.root, before)
		w.found[before] = offsets
	}
	off, known := offsets[w.clock(r)]
	return off, known
}

// clockPair names two clocks that were compared.
type clockPair struct{ from, to clockName }

// edges gives what leads from each clock to its neighbours: the newest of the
// first so many comparisons, and where there is none the earliest later one.
func (t *clockTable) edges(before int) map[clockName]map[clockName]clockOffset {
	chosen := map[clockPair]bool{}
	out := map[clockName]map[clockName]clockOffset{}
	put := func(from, to clockName, off clockOffset) {
		if out[from] == nil {
			out[from] = map[clockName]clockOffset{}
		}
		out[from][to] = off
	}
	take := func(c comparison) {
		from := t.clock(clockReading{c.author(), c.at})
		to := t.clock(clockReading{c.peer, c.at})
		if chosen[clockPair{from, to}] {
			return
		}
		chosen[clockPair{from, to}], chosen[clockPair{to, from}] = true, true
		within := 2*c.withinMS + ClockUnsaid.Milliseconds()
		put(from, to, clockOffset{-c.ms, within}) // what the peer's clock says, seen from here
		put(to, from, clockOffset{c.ms, within})
	}
	for _, c := range slices.Backward(t.measured[:before]) {
		take(c)
	}
	for _, c := range t.measured[before:] {
		take(c)
	}
	return out
}

// spread finds the least uncertain way from every clock to root.
func (t *clockTable) spread(root clockName, before int) map[clockName]clockOffset {
	edges := t.edges(before)
	done := map[clockName]clockOffset{}
	reached := map[clockName]clockOffset{root: {}}
	for len(reached) > 0 {
		at := nearestClock(reached)
		done[at] = reached[at]
		delete(reached, at)
		for next, off := range edges[at] {
			if _, known := done[next]; known {
				continue
			}
			way := clockOffset{done[at].ms + off.ms, done[at].withinMS + off.withinMS}
			old, known := reached[next]
			if !known || way.withinMS < old.withinMS {
				reached[next] = way
			}
		}
	}
	return done
}

// nearestClock is the clock with the least ±; of several the smallest name.
func nearestClock(reached map[clockName]clockOffset) (best clockName) {
	first := true
	for name, off := range reached {
		old := reached[best]
		if first || off.withinMS < old.withinMS || off.withinMS == old.withinMS && name.less(best) {
			best, first = name, false
		}
	}
	return best
}

func (n clockName) less(m clockName) bool {
	if c := n.device.Compare(m.device); c != 0 {
		return c < 0
	}
	return n.life < m.life
}
