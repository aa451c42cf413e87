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
	by     *mesh.By // shared with those written before and after it
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

	shelves  shelves
	sameTap  *move // the one that came before it of the same tap
	sameMark *move // and of the same request mark, where that is of another entry
}

// isSibling tells whether r is a part of the entry that m is a part of.
func (m *move) isSibling(r mesh.Ref) bool { return m.ref.Sibling(r.Part()) == r }

// shelves are those of a movement's places; of a movement that is no hand-over
// then is nil.
type shelves struct{ from, to, then *shelf }

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
	return r != nil && slices.ContainsFunc(r.marks, func(m reopening) bool { return e.see(m.at) })
}

// refs are the reopenings in the order of their refs.
func (r *reopenings) refs() (out []mesh.Ref) {
	if r == nil {
		return nil
	}
	for _, m := range r.marks {
		out = append(out, m.ref)
	}
	slices.SortFunc(out, mesh.Ref.Compare)
	return out
}

// newMove makes a movement of a decoded body, or nil if the body is none. It
// keeps the body's lines and, of a DrawnUp or LeftWith, the body.
func (l *Ledger) newMove(f mesh.Fact, body any) *move {
	switch b := body.(type) {
	case *Moved:
		m := l.roomFor(f)
		m.from, m.to, m.then, m.lines = b.From, b.To, b.Then, b.Lines
		m.inCase, m.mark, m.issue, m.why = b.Case, b.For, b.Issue, b.Why
		return m
	case *DrawnUp:
		m := l.roomFor(f)
		m.from, m.to, m.lines = b.At, Place{DrawnOff, b.At.ID}, b.Lines
		m.inCase, m.issue, m.drawn = b.Case, b.Issue, b
		return m
	case *LeftWith:
		m := l.roomFor(f)
		m.from, m.to, m.lines = b.From, Place{LeftWithPatient, b.From.ID}, b.Lines
		m.inCase, m.issue, m.left = b.Case, b.Issue, b
		return m
	}
	return nil
}

// roomFor gives a movement that holds what the fact itself says.
func (l *Ledger) roomFor(f mesh.Fact) *move {
	m := l.spare.moves.one()
	if l.by == nil || *l.by != f.By {
		l.by = new(f.By)
	}
	m.ref, m.at, m.wall, m.by, m.kind = f.Ref, f.At, f.Wall, l.by, f.Kind
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
	l.moves.put(m)
	if n := l.waiting[m.ref]; n != nil {
		m.named = n
		delete(l.waiting, m.ref)
	}
	if !m.mark.IsZero() && !m.isSibling(m.mark) {
		m.sameMark = l.forMark[m.mark]
		l.forMark[m.mark] = m
	}
	if !m.issue.IsZero() {
		l.byIssue[m.issue] = append(l.byIssue[m.issue], m)
	}
	m.shelves.from, m.shelves.to = l.shelfAt(m.from), l.shelfAt(m.to)
	if m.then.Sort != 0 {
		m.shelves.then = l.shelfAt(m.then)
	}
	m.eachShelf(func(s *shelf) { s.moves = append(s.moves, m) })
	m.look(+1)
	x := m.effect()
	if !x.out {
		m.carry(+1)
	}
	m.carryOn(x, +1)
	l.watchDoor(m, x)
}

// eachShelf gives the shelves that m may touch, each once.
func (m *move) eachShelf(give func(*shelf)) {
	s := m.shelves
	give(s.from)
	if s.to != s.from {
		give(s.to)
	}
	if s.then != nil && s.then != s.from && s.then != s.to {
		give(s.then)
	}
}

// naming gives what names the movement r, which is there already or comes later.
func (l *Ledger) naming(r mesh.Ref) (*named, *move) {
	m := l.moves.get(r)
	if m == nil {
		n := l.waiting[r]
		if n == nil {
			n = l.spare.named.one()
			l.waiting[r] = n
		}
		return n, nil
	}
	if m.named == nil {
		m.named = l.spare.named.one()
	}
	return m.named, m
}

// addReversed takes a reversal.
func (l *Ledger) addReversed(f mesh.Fact, body *Reversed) {
	n, m := l.naming(body.Names)
	l.change(m, func() { n.reversals = append(n.reversals, reversal{ref: f.Ref, at: f.At, body: body}) })
}

// addWitnessed takes a witness, who changes no quantity.
func (l *Ledger) addWitnessed(f mesh.Fact, body *Witnessed) {
	n, _ := l.naming(body.Names)
	n.witnesses = append(n.witnesses, witness{f.Ref, body})
}

// addEnd takes the end of a hand-over.
func (l *Ledger) addEnd(f mesh.Fact, body *Ended) {
	l.ended[f.Ref] = body
	n, m := l.naming(body.Names)
	x := end{ref: f.Ref, at: f.At, body: body, reopened: l.reopens[f.Ref]}
	if n.ends == nil {
		n.ends = l.spare.ends.some(1)[:0]
	}
	l.change(m, func() { n.ends = append(n.ends, x) })
}

// addReopened takes what takes an end back, which may be there already or come later.
func (l *Ledger) addReopened(f mesh.Fact, body *Reopened) {
	r := l.reopens[body.Names]
	if r == nil {
		r = &reopenings{}
		l.reopens[body.Names] = r
	}
	n, m := &named{}, (*move)(nil)
	if end := l.ended[body.Names]; end != nil {
		n, m = l.naming(end.Names)
	}
	l.change(m, func() {
		r.marks = append(r.marks, reopening{f.Ref, f.At})
		for i := range n.ends {
			if n.ends[i].ref == body.Names {
				n.ends[i].reopened = r
			}
		}
	})
}

// effect is what follows from all that names a movement.
type effect struct {
	out   bool    // it was reversed
	ended bool    // it is a hand-over, and taken went on, the rest back
	taken []int64 // of each line
}

func (m *move) effect() (x effect) {
	if m.named != nil {
		x.out = m.reversed(nil)
		x.taken, x.ended = m.outcome(nil)
	}
	return x
}

// change records what names m, which is nil while it has not come, and brings
// in order what follows from it.
func (l *Ledger) change(m *move, record func()) {
	if m == nil {
		record()
		return
	}
	was := m.effect()
	m.look(-1)
	record()
	m.look(+1)
	is := m.effect()
	switch {
	case is.out && !was.out:
		m.carry(-1)
	case was.out && !is.out:
		m.carry(+1)
	}
	m.carryOn(was, -1)
	m.carryOn(is, +1)
	l.watchDoor(m, is)
}

// look adds (sign +1) or takes away (-1) what m did from what the counts of its
// places had seen.
func (m *move) look(sign int64) {
	m.eachShelf(func(s *shelf) {
		for _, c := range s.counts {
			c.look(m, sign)
		}
	})
}

// carry does on the shelves what m says by itself.
func (m *move) carry(sign int64) {
	from, to := m.shelves.from, m.shelves.to
	for i := range m.lines {
		id, n := from.known.id(m.lines[i].batch()), sign*m.lines[i].Quantity.N
		from.add(id, -n)
		to.add(id, n)
	}
	if m.drawn != nil {
		id, n := from.known.id(m.syringe()), sign*m.drawn.Amount.N
		to.add(id, -n)
		from.add(id, n)
	}
}

// carryOn does on the shelves what the end of a hand-over says: what was taken
// goes on, the rest goes back.
func (m *move) carryOn(x effect, sign int64) {
	if x.out || !x.ended {
		return
	}
	s := m.shelves
	for i := range m.lines {
		id, n, taken := s.from.known.id(m.lines[i].batch()), m.lines[i].Quantity.N, x.taken[i]
		back := max(n-taken, 0)
		s.to.add(id, -sign*(taken+back))
		s.then.add(id, sign*taken)
		s.from.add(id, sign*back)
	}
}
