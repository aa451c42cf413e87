package kits

import (
	"slices"

	"lintel/mesh"
)

// Sorts of places that only the fold makes. No body may name them: they are
// the other end of what is not carried from one place to another, so that
// every sum over all places stays zero.
const (
	// DrawnOff takes the containers that were drawn up and gives the syringes.
	DrawnOff PlaceSort = 40
	// Difference takes what a count found missing and gives what it found more.
	Difference PlaceSort = 41
)

// move is one movement: a Moved, a DrawnUp or a LeftWith. The Ledger owns it;
// it changes only inside Ledger.change.
type move struct {
	ref    mesh.Ref
	at     mesh.Order
	wall   mesh.Wall
	by     mesh.By
	kind   mesh.Kind
	from   Place
	to     Place
	then   Place // of a hand-over: where taken goods go; else zero
	lines  []Line
	inCase mesh.Ref
	mark   mesh.Ref
	issue  mesh.Ref
	why    mesh.Label
	drawn  *DrawnUp // of a DrawnUp, else nil
	left   *LeftWith
	named  *named // nil while nothing names it
}

// named is what names one movement, in order of arrival: only its set counts.
type named struct {
	reversals []reversal
	ends      []end
	witnesses []witness
}

type reversal struct {
	ref  mesh.Ref
	at   mesh.Order
	body *Reversed
}

type end struct {
	ref      mesh.Ref
	at       mesh.Order
	body     *Ended
	reopened *reopenings
}

// reopenings are what names one end, in order of arrival, also before the end
// comes: only their set counts.
type reopenings struct{ marks []reopening }

type reopening struct {
	ref mesh.Ref
	at  mesh.Order
}

// by tells whether at least one reopening that e sees takes the end back.
func (r *reopenings) by(e eyes) bool {
	return slices.ContainsFunc(r.marks, func(m reopening) bool { return e.see(m.at) })
}

// refs are the reopenings in the order of their refs.
func (r *reopenings) refs() (out []mesh.Ref) {
	for _, m := range r.marks {
		out = append(out, m.ref)
	}
	slices.SortFunc(out, mesh.Ref.Compare)
	return out
}

// newMove makes a movement of a decoded body, or nil if the body is none.
func newMove(f mesh.Fact, body any) *move {
	m := &move{ref: f.Ref, at: f.At, wall: f.Wall, by: f.By, kind: f.Kind}
	switch b := body.(type) {
	case *Moved:
		m.from, m.to, m.then, m.lines = b.From, b.To, b.Then, b.Lines
		m.inCase, m.mark, m.issue, m.why = b.Case, b.For, b.Issue, b.Why
	case *DrawnUp:
		m.from, m.to, m.lines = b.At, Place{DrawnOff, b.At.ID}, b.Lines
		m.inCase, m.issue, m.drawn = b.Case, b.Issue, b
	case *LeftWith:
		m.from, m.to, m.lines = b.From, Place{LeftWithPatient, b.From.ID}, b.Lines
		m.inCase, m.issue, m.left = b.Case, b.Issue, b
	default:
		return nil
	}
	return m
}

// syringe is what a drawing up made; the zero batch for other movements.
func (m *move) syringe() batch {
	if m.drawn == nil {
		return batch{}
	}
	return batch{item: m.drawn.Item, syringe: m.ref, measure: m.drawn.Amount.Measure}
}

// batch is one sort of thing on a shelf.
type batch struct {
	item    mesh.Number
	lot     mesh.Label
	syringe mesh.Ref
	measure mesh.Measure
}

func (x Line) batch() batch {
	return batch{item: x.Item, lot: x.Lot, syringe: x.Syringe, measure: x.Quantity.Measure}
}

// posting carries n of a batch from one place to another.
type posting struct {
	from, to Place
	what     batch
	n        int64
}

// eyes says which writes are looked at; nil looks at all.
type eyes func(mesh.Order) bool

func (e eyes) see(at mesh.Order) bool { return e == nil || e(at) }

// postings gives what m carries as far as e sees: nothing if it is reversed,
// and for a hand-over also its end, if it has one that counts.
func (m *move) postings(e eyes, give func(posting)) {
	if !e.see(m.at) || m.reversed(e) {
		return
	}
	for _, x := range m.lines {
		give(posting{m.from, m.to, x.batch(), x.Quantity.N})
	}
	if m.drawn != nil {
		give(posting{m.to, m.from, m.syringe(), m.drawn.Amount.N})
	}
	taken, ended := m.outcome(e)
	if !ended {
		return
	}
	for i, x := range m.lines {
		if taken[i] > 0 {
			give(posting{m.to, m.then, x.batch(), taken[i]})
		}
		if back := x.Quantity.N - taken[i]; back > 0 {
			give(posting{m.to, m.from, x.batch(), back})
		}
	}
}

// places are those that m may touch, each once.
func (m *move) places() []Place {
	out := append(make([]Place, 0, 3), m.from)
	for _, p := range [...]Place{m.to, m.then} {
		if p.Sort != 0 && !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	return out
}

// repeats tells whether r says again what m said: both places and every line.
// A drawing up is repeated with its place at both ends.
func (m *move) repeats(r *Reversed) bool {
	to := m.to
	if m.drawn != nil {
		to = m.from
	}
	return r.From == m.from && r.To == to && slices.Equal(r.Lines, m.lines)
}

// reversed tells whether at least one reversal that e sees takes m out.
func (m *move) reversed(e eyes) bool {
	if m.named == nil {
		return false
	}
	for _, r := range m.named.reversals {
		if e.see(r.at) && m.repeats(r.body) {
			return true
		}
	}
	return false
}

// addMove takes a movement and whatever named it before it came.
func (l *Ledger) addMove(m *move) {
	l.moves[m.ref] = m
	m.named = l.named[m.ref]
	if !m.mark.IsZero() {
		l.forMark[m.mark] = append(l.forMark[m.mark], m)
	}
	if !m.issue.IsZero() {
		l.byIssue[m.issue] = append(l.byIssue[m.issue], m)
	}
	for _, p := range m.places() {
		s := l.shelfAt(p)
		s.moves = append(s.moves, m)
	}
	l.apply(m, +1)
	l.watchDoor(m)
}

// addNaming records something that names the movement r, which may be there
// already or come later.
func (l *Ledger) addNaming(r mesh.Ref, record func(*named)) {
	m, n := l.moves[r], l.namedAt(r)
	if m == nil {
		record(n)
		return
	}
	l.apply(m, -1)
	m.named = n
	record(n)
	l.apply(m, +1)
	l.watchDoor(m)
}

// addEnd takes the end of a hand-over.
func (l *Ledger) addEnd(f mesh.Fact, body *Ended) {
	l.ended[f.Ref] = body.Names
	x := end{ref: f.Ref, at: f.At, body: body, reopened: l.reopeningsAt(f.Ref)}
	l.addNaming(body.Names, func(n *named) { n.ends = append(n.ends, x) })
}

// addReopened takes what takes an end back, which may be there already or come later.
func (l *Ledger) addReopened(f mesh.Fact, body *Reopened) {
	r := l.reopeningsAt(body.Names)
	record := func(*named) { r.marks = append(r.marks, reopening{f.Ref, f.At}) }
	if handOver, here := l.ended[body.Names]; here {
		l.addNaming(handOver, record)
		return
	}
	record(nil)
}

// apply adds (sign +1) or takes away (-1) the effect of m on every shelf and on
// what the counts of those shelves had seen.
func (l *Ledger) apply(m *move, sign int64) {
	m.postings(nil, func(p posting) {
		l.shelfAt(p.from).add(p.what, -sign*p.n)
		l.shelfAt(p.to).add(p.what, sign*p.n)
	})
	for _, p := range m.places() {
		for _, c := range l.shelfAt(p).counts {
			c.look(m, sign)
		}
	}
}
