package kits

import (
	"slices"

	"lintel/mesh"
)

// Movement is one recorded movement as people see it. Its slices belong to the
// ledger and must not be changed.
type Movement struct {
	Ref      mesh.Ref
	At       mesh.Order
	Wall     mesh.Wall
	By       mesh.By
	Kind     mesh.Kind // KindMoved, KindDrawnUp or KindLeftWith
	From     Place
	To       Place // of a drawing up: DrawnOff
	Then     Place // of a hand-over: where what is taken goes
	Lines    []Line
	Case     mesh.Ref
	For      mesh.Ref // the request mark it belongs to; zero: none
	Issue    mesh.Ref
	Why      mesh.Label
	Syringe  Line       // of a drawing up: what it made
	Reversed []mesh.Ref // the reversals that take it out, in the order of their refs
}

// Counts tells whether the movement carries anything: nobody reversed it.
func (m Movement) Counts() bool { return len(m.Reversed) == 0 }

func compareMovements(a, b Movement) int {
	if c := a.At.Compare(b.At); c != 0 {
		return c
	}
	return a.Ref.Compare(b.Ref)
}

// Movement returns the movement r.
func (l *Ledger) Movement(r mesh.Ref) (Movement, bool) {
	m := l.moves.get(r)
	if m == nil {
		return Movement{}, false
	}
	return l.movement(m), true
}

// MovementsFor lists the movements that belong to a request mark, earliest first.
func (l *Ledger) MovementsFor(mark mesh.Ref) []Movement {
	var all []*move
	for m := range l.moves.each(tapOf(mark)) {
		if m.mark == mark && m.isSibling(mark) {
			all = append(all, m)
		}
	}
	for m := l.forMark[mark]; m != nil; m = m.sameMark {
		all = append(all, m)
	}
	return l.views(all)
}

// Movements lists all movements, earliest first.
func (l *Ledger) Movements() []Movement {
	all := make([]*move, 0, l.moves.n)
	for m := range l.moves.all() {
		all = append(all, m)
	}
	return l.views(all)
}

func (l *Ledger) views(moves []*move) []Movement {
	out := make([]Movement, 0, len(moves))
	for _, m := range moves {
		out = append(out, l.movement(m))
	}
	slices.SortFunc(out, compareMovements)
	return out
}

func (l *Ledger) movement(m *move) Movement {
	v := Movement{
		Ref: m.ref, At: m.at, Wall: m.wall, By: *m.by, Kind: m.kind,
		From: m.from, To: m.to, Then: m.then, Lines: m.lines,
		Case: m.inCase, For: m.mark, Issue: m.issue, Why: m.why,
	}
	if m.drawn != nil {
		v.Syringe = Line{Item: m.drawn.Item, Syringe: m.ref, Quantity: m.drawn.Amount}
	}
	if m.named != nil {
		for _, r := range m.named.reversals {
			if m.repeats(r.body) {
				v.Reversed = append(v.Reversed, r.ref)
			}
		}
		slices.SortFunc(v.Reversed, mesh.Ref.Compare)
	}
	return v
}
