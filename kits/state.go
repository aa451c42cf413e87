package kits

import (
	"bytes"
	"encoding/binary"
	"maps"
	"slices"

	"lintel/mesh"
)

// State is the folded state in its one byte form: equal on every device with
// the same facts. It holds what was decided (what counts, what is where, how
// hand-overs ended, which counts hold, which writes stand), not the starter
// lists and not the site's grades. Each section is a name and a number of
// elements; integers are 8 bytes big-endian, texts have their length before them.
func (l *Ledger) State() []byte {
	w := &stateWriter{}
	w.text("lintel kits state")
	w.number(FoldVersion)
	l.stateOfMoves(w)
	l.stateOfNamed(w)
	l.stateOfCounts(w)
	balances := l.Balances()
	w.section("balances", len(balances))
	for _, b := range balances {
		w.cell(b.Cell)
		w.number(b.N)
	}
	l.stateOfIssues(w)
	l.stateOfTrays(w)
	l.stateOfRegisters(w)
	others := maps.Clone(l.known)
	for r := range l.ended {
		others[r] = KindEnded
	}
	w.section("others", len(others))
	for _, r := range sortedRefs(others) {
		w.ref(r)
		w.number(int64(others[r]))
	}
	w.section("unreadable", len(l.unread))
	for _, u := range l.Unreadable() {
		w.ref(u.Ref)
	}
	return w.out.Bytes()
}

func (l *Ledger) stateOfMoves(w *stateWriter) {
	w.section("movements", l.moves.n)
	for _, m := range slices.SortedFunc(l.moves.all(), func(a, b *move) int { return a.ref.Compare(b.ref) }) {
		w.ref(m.ref)
		w.flag(m.reversed(nil))
		if !m.isHandOver() {
			w.number(0)
			continue
		}
		w.number(int64(m.handOverState()))
		taken, _ := m.outcome(nil)
		w.number(int64(len(taken)))
		for _, n := range taken {
			w.number(n)
		}
	}
}

func (l *Ledger) stateOfNamed(w *stateWriter) {
	all := maps.Clone(l.waiting)
	for m := range l.moves.all() {
		if m.named != nil {
			all[m.ref] = m.named
		}
	}
	w.section("named", len(all))
	for _, r := range sortedRefs(all) {
		w.ref(r)
		m, n := l.moves.get(r), all[r]
		w.flag(m != nil)
		marks := map[mesh.Ref]bool{} // and whether each one does what it is meant to do
		for _, x := range n.reversals {
			marks[x.ref] = m != nil && m.repeats(x.body)
		}
		for _, x := range n.ends {
			marks[x.ref] = false
		}
		for _, x := range n.witnesses {
			marks[x.ref] = m != nil && slices.Equal(x.body.Lines, m.lines) && m.otherPerson(x.body.Tag, x.ref.Author())
		}
		if m != nil {
			for _, x := range m.standing(nil) {
				marks[x.ref] = true
			}
		}
		w.number(int64(len(marks)))
		for _, x := range sortedRefs(marks) {
			w.ref(x)
			w.flag(marks[x])
		}
	}
}

func (l *Ledger) stateOfCounts(w *stateWriter) {
	var all []Count
	for _, p := range slices.SortedFunc(maps.Keys(l.shelves), Place.Compare) {
		all = append(all, l.Counts(p)...)
	}
	w.section("counts", len(all))
	for _, c := range all {
		w.ref(c.Ref)
		w.flag(c.Holds)
		w.number(int64(len(c.Adjustments)))
		for _, a := range c.Adjustments {
			w.cell(a.Cell)
			w.number(a.N)
		}
	}
}

// stateOfIssues holds which movements and closings belong to which issue; what
// they add up to follows from the movements and the catalogue.
func (l *Ledger) stateOfIssues(w *stateWriter) {
	belongs := map[mesh.Ref][]mesh.Ref{}
	for r, moves := range l.byIssue {
		for _, m := range moves {
			belongs[r] = append(belongs[r], m.ref)
		}
	}
	for r, marks := range l.shut {
		for _, s := range marks {
			belongs[r] = append(belongs[r], s.ref)
		}
	}
	w.section("belongs", len(belongs))
	for _, r := range sortedRefs(belongs) {
		w.ref(r)
		w.refs(slices.SortedFunc(slices.Values(belongs[r]), mesh.Ref.Compare))
	}
}

func (l *Ledger) stateOfRegisters(w *stateWriter) {
	standing(w, "items", &l.lines.items)
	standing(w, "bundles", &l.lines.bundles)
	standing(w, "templates", &l.lines.templates)
	standing(w, "places", &l.lines.places)
	standing(w, "pars", &l.lines.pars)
	standing(w, "waste", &l.lines.waste)
	standing(w, "lots", &l.lines.lots)
	standing(w, "quarantine", &l.lines.quarantine)
}

// standing writes the standing writes of each register, the registers in the
// order of their first standing write.
func standing[K comparable, V any](w *stateWriter, name string, r *mesh.Register[K, V]) {
	var all [][]mesh.Ref
	for _, k := range r.Keys() {
		var refs []mesh.Ref
		for _, s := range r.Standing(k) {
			refs = append(refs, s.Ref)
		}
		all = append(all, refs)
	}
	slices.SortFunc(all, func(a, b []mesh.Ref) int { return a[0].Compare(b[0]) })
	w.section(name, len(all))
	for _, refs := range all {
		w.refs(refs)
	}
}

func sortedRefs[V any](m map[mesh.Ref]V) []mesh.Ref {
	return slices.SortedFunc(maps.Keys(m), mesh.Ref.Compare)
}

// stateWriter writes the pieces of State.
type stateWriter struct{ out bytes.Buffer }

func (w *stateWriter) number(n int64) {
	w.out.Write(binary.BigEndian.AppendUint64(nil, uint64(n)))
}

func (w *stateWriter) flag(b bool) {
	n := byte(0)
	if b {
		n = 1
	}
	w.out.WriteByte(n)
}

func (w *stateWriter) text(s string) {
	w.number(int64(len(s)))
	w.out.WriteString(s)
}

func (w *stateWriter) section(name string, n int) {
	w.text(name)
	w.number(int64(n))
}

func (w *stateWriter) ref(r mesh.Ref) { w.out.Write(r[:]) }

func (w *stateWriter) refs(all []mesh.Ref) {
	w.number(int64(len(all)))
	for _, r := range all {
		w.ref(r)
	}
}

func (w *stateWriter) cell(c Cell) {
	w.number(int64(c.Place.Sort))
	w.text(string(c.Place.ID))
	w.number(int64(c.Item))
	w.text(string(c.Lot))
	w.ref(c.Syringe)
	w.number(int64(c.Measure))
}
