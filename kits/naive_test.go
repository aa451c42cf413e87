package kits

import (
	"slices"

	"lintel/mesh"
)

// naive works the ledger out from the rules in the plainest way: it decodes
// every fact again for every question and keeps nothing. It shares no code with
// the Ledger but the bodies. Its faults are mistakes that a fold could make.
type naive struct {
	facts  []mesh.Fact
	faults faults
}

// faults are deliberate mistakes.
type faults struct {
	countsRepeats     bool // a fact that comes twice counts twice
	firstEndWins      bool // the first end to arrive decides
	looseReversal     bool // a reversal that differs counts
	everyReversal     bool // two reversals take a movement out twice
	countIgnoresSeen  bool // a count takes everything for seen
	lastCountHolds    bool // of two counts beside each other the later holds
	forgetsWhatGoBack bool // what was not taken in does not go back
	keepsReopened     bool // an end that was taken back stands
	reopensSettled    bool // what an end settled stands again when that end was taken back
}

// each decodes every fact of type T, repeats apart.
func eachBody[T any](n naive, kind mesh.Kind, give func(mesh.Fact, T)) {
	var had []mesh.Ref
	for _, f := range n.facts {
		if f.Kind != kind || slices.Contains(had, f.Ref) && !n.faults.countsRepeats {
			continue
		}
		had = append(had, f.Ref)
		v := new(T)
		if mesh.Decode(f.Body, v) == nil {
			give(f, *v)
		}
	}
}

// carried is one step of a quantity from a place to a place.
type carried struct {
	from, to Place
	line     Line
}

// movement is a record and the steps it states by itself.
type naiveMovement struct {
	fact     mesh.Fact
	from, to Place // as a reversal repeats them
	then     Place
	lines    []Line
	steps    []carried
}

func (n naive) movements() (out []naiveMovement) {
	eachBody(n, KindMoved, func(f mesh.Fact, b Moved) {
		m := naiveMovement{fact: f, from: b.From, to: b.To, then: b.Then, lines: b.Lines}
		for _, x := range b.Lines {
			m.steps = append(m.steps, carried{b.From, b.To, x})
		}
		out = append(out, m)
	})
	eachBody(n, KindLeftWith, func(f mesh.Fact, b LeftWith) {
		m := naiveMovement{fact: f, from: b.From, to: Place{28, b.From.ID}, lines: b.Lines}
		for _, x := range b.Lines {
			m.steps = append(m.steps, carried{m.from, m.to, x})
		}
		out = append(out, m)
	})
	eachBody(n, KindDrawnUp, func(f mesh.Fact, b DrawnUp) {
		m := naiveMovement{fact: f, from: b.At, to: b.At, lines: b.Lines}
		off := Place{40, b.At.ID}
		for _, x := range b.Lines {
			m.steps = append(m.steps, carried{b.At, off, x})
		}
		m.steps = append(m.steps, carried{off, b.At, Line{Item: b.Item, Syringe: f.Ref, Quantity: b.Amount}})
		out = append(out, m)
	})
	return out
}

// steps are everything that is carried by what sees lets through.
func (n naive) steps(sees func(mesh.Order) bool) (out []carried) {
	for _, m := range n.movements() {
		if !sees(m.fact.At) {
			continue
		}
		reversals := 0
		eachBody(n, KindReversed, func(f mesh.Fact, b Reversed) {
			same := b.From == m.from && b.To == m.to && slices.Equal(b.Lines, m.lines) || n.faults.looseReversal
			if b.Names == m.fact.Ref && same && sees(f.At) {
				reversals++
			}
		})
		if reversals == 0 {
			out = append(append(out, m.steps...), n.ended(m, sees)...)
		}
		for i := 1; i < reversals && n.faults.everyReversal; i++ {
			for _, x := range m.steps {
				out = append(out, carried{x.to, x.from, x.line})
			}
		}
	}
	return out
}

// ended are the steps that end a hand-over.
func (n naive) ended(m naiveMovement, sees func(mesh.Order) bool) (out []carried) {
	if m.fact.Kind != KindMoved || m.to.Sort != 5 {
		return nil
	}
	taken, ok := n.agreed(m, sees)
	if !ok {
		return nil
	}
	for i, x := range m.lines {
		in, back := x, x
		in.Quantity.N = taken[i]
		back.Quantity.N = max(0, x.Quantity.N-taken[i])
		out = append(out, carried{m.to, m.then, in})
		if !n.faults.forgetsWhatGoBack {
			out = append(out, carried{m.to, m.from, back})
		}
	}
	return out
}

// agreed is what all ends say that no other end settles.
func (n naive) agreed(m naiveMovement, sees func(mesh.Order) bool) (taken []int64, ok bool) {
	var refs, settled []mesh.Ref
	says := map[mesh.Ref][]int64{}
	reopened := n.reopened(sees)
	eachBody(n, KindEnded, func(f mesh.Fact, b Ended) {
		if b.Names != m.fact.Ref || len(b.Taken) != len(m.lines) || !sees(f.At) {
			return
		}
		refs = append(refs, f.Ref)
		says[f.Ref] = b.Taken
		for _, s := range b.Settles {
			if s != f.Ref && !(n.faults.reopensSettled && slices.Contains(reopened, f.Ref)) {
				settled = append(settled, s)
			}
		}
	})
	stand := slices.DeleteFunc(slices.Clone(refs), func(r mesh.Ref) bool { return slices.Contains(settled, r) })
	if len(stand) == 0 {
		stand = slices.Clone(refs)
	}
	stand = slices.DeleteFunc(stand, func(r mesh.Ref) bool { return slices.Contains(reopened, r) })
	for i, r := range stand {
		switch {
		case i == 0:
			taken, ok = says[r], true
		case n.faults.firstEndWins:
		case !slices.Equal(taken, says[r]):
			return nil, false
		}
	}
	return taken, ok
}

// reopened are the ends that were taken back.
func (n naive) reopened(sees func(mesh.Order) bool) (out []mesh.Ref) {
	eachBody(n, KindReopened, func(f mesh.Fact, b Reopened) {
		if sees(f.At) && !n.faults.keepsReopened {
			out = append(out, b.Names)
		}
	})
	return out
}

// balances are all cells that are not zero.
func (n naive) balances() map[Cell]int64 {
	all := func(mesh.Order) bool { return true }
	out := map[Cell]int64{}
	for _, s := range n.steps(all) {
		out[cellOf(s.from, s.line)] -= s.line.Quantity.N
		out[cellOf(s.to, s.line)] += s.line.Quantity.N
	}
	var places []Place
	eachBody(n, KindCounted, func(_ mesh.Fact, b Counted) {
		if !slices.Contains(places, b.Place) {
			places = append(places, b.Place)
		}
	})
	for _, p := range places {
		for c, by := range n.adjusted(p) {
			out[c] += by
			c.Place = Place{41, p.ID}
			out[c] -= by
		}
	}
	for c, v := range out {
		if v == 0 {
			delete(out, c)
		}
	}
	return out
}

// adjusted is the sum of what the counts of a place found more or missing.
func (n naive) adjusted(p Place) map[Cell]int64 {
	sum := map[Cell]int64{}
	before := mesh.Ref{}
	for {
		f, b, ok := n.countAfter(p, before)
		if !ok {
			return sum
		}
		there := map[Cell]int64{} // what should be at p, by what the counter had seen
		for _, s := range n.steps(n.eyesOf(b)) {
			if s.from == p {
				there[cellOf(p, s.line)] -= s.line.Quantity.N
			}
			if s.to == p {
				there[cellOf(p, s.line)] += s.line.Quantity.N
			}
		}
		for c, by := range sum {
			there[c] += by
		}
		found := map[Cell]int64{}
		for c := range there {
			if spokenFor(b, c) {
				found[c] -= there[c]
			}
		}
		for _, x := range b.Lines {
			found[cellOf(p, x)] += x.Quantity.N
		}
		for c, by := range found {
			sum[c] += by
		}
		before = f.Ref
	}
}

func (n naive) eyesOf(b Counted) func(mesh.Order) bool {
	return func(at mesh.Order) bool {
		return n.faults.countIgnoresSeen || slices.ContainsFunc(b.Seen, func(h mesh.Head) bool {
			return h.Feed == at.Feed && at.Seq <= h.Seq
		})
	}
}

func spokenFor(b Counted, c Cell) bool {
	return b.Whole || slices.ContainsFunc(b.Lines, func(x Line) bool {
		return x.Item == c.Item && x.Quantity.Measure == c.Measure
	})
}

// countAfter is the count of a place that holds after the count before.
func (n naive) countAfter(p Place, before mesh.Ref) (best mesh.Fact, b Counted, ok bool) {
	eachBody(n, KindCounted, func(f mesh.Fact, c Counted) {
		if c.Place != p || c.Before != before {
			return
		}
		earlier := f.At.Compare(best.At) < 0
		if !ok || earlier != n.faults.lastCountHolds {
			best, b, ok = f, c, true
		}
	})
	return best, b, ok
}

func cellOf(p Place, x Line) Cell { return Cell{p, x.Item, x.Lot, x.Syringe, x.Quantity.Measure} }
