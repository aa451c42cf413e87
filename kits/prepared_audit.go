package kits

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// twoPeople tells whether a kit was checked by somebody else than who prepared it.
func twoPeople(p *Prepared) bool { return p.CheckedBy != "" && p.CheckedBy != p.PreparedBy }

// checkedSince tells whether a second person said the same of a kit before
// anybody sealed or opened it as it was prepared by one.
func (l *Ledger) checkedSince(p noted[Prepared]) bool {
	if len(l.trays.seals[p.ref]) > 0 || len(l.loose(p)) > 0 {
		return false
	}
	return slices.ContainsFunc(l.trays.ofKit[p.body.Kit], func(q noted[Prepared]) bool {
		return p.compare(q) < 0 && twoPeople(q.body) && q.body.PreparedBy == p.body.PreparedBy && slices.Equal(q.body.Lines, p.body.Lines)
	})
}

// kits checks every preparation, also one that is past, with its seals.
func (a *auditor) kits() {
	for r, p := range a.l.trays.prepared {
		at := Cell{Place: Place{Kit, p.body.Kit}}
		if !twoPeople(p.body) && !a.l.checkedSince(p) {
			a.find(KitUnchecked, at, 0, 0, r)
		}
		a.kitLots(p)
		for _, o := range a.l.loose(p) {
			if !sealedBefore(a.l.trays.seals[r], p.body.Kit, o.at) {
				a.find(KitUnsealed, at, 0, 0, r, o.ref)
			}
		}
	}
	for _, o := range a.l.trays.opened[mesh.Ref{}] {
		alone := o.body.Kit != "" && a.l.standingAt(o.body.Kit, o.at).IsZero()
		if alone && !sealedBefore(a.l.trays.seals[mesh.Ref{}], o.body.Kit, o.at) {
			a.find(KitUnsealed, Cell{Place: Place{Kit, o.body.Kit}}, 0, 0, o.ref)
		}
	}
	for r, all := range a.l.trays.broken {
		for _, b := range all {
			if _, ok := a.l.trays.prepared[r]; !ok {
				a.unknown(b.ref, r)
			}
		}
	}
	for _, s := range a.l.trays.sealed {
		a.seal(s)
	}
	a.openings()
}

func sealedBefore(seals []noted[Sealed], kit mesh.ID, at mesh.Order) bool {
	return slices.ContainsFunc(seals, func(s noted[Sealed]) bool { return s.body.Kit == kit && s.at.Compare(at) < 0 })
}

// kitLots checks the lots of a kit: against the day that it was prepared on, by
// its author's clock in UTC, and, until it is broken down, against quarantine.
func (a *auditor) kitLots(p noted[Prepared]) {
	day := DayOf(p.wall)
	var held int64
	for _, x := range p.body.Lines {
		k := a.l.kitLine(x)
		c := x.batch().at(Place{Kit, p.body.Kit})
		if expiredOn(k.Expiry, day) {
			a.find(KitLotExpired, c, int64(k.Expiry), int64(day), p.ref)
		}
		if k.HeldBack {
			held++
		}
	}
	if held > 0 && len(a.l.trays.broken[p.ref]) == 0 {
		a.find(KitHeldBack, Cell{Place: Place{Kit, p.body.Kit}}, 0, held, p.ref)
	}
}

// seal checks that nothing was missing when it was put on, by the template as
// it stood then, and that it promises no more than the first line to expire.
func (a *auditor) seal(s noted[Sealed]) {
	p, ok := a.l.trays.prepared[s.body.Names]
	if !ok {
		if !s.body.Names.IsZero() {
			a.unknown(s.ref, s.body.Names)
		}
		return
	}
	at := Cell{Place: Place{Kit, p.body.Kit}}
	if t, known := a.l.templateAt(p.body.Template, s.at); known {
		var want, got int64
		for _, x := range t.Lines {
			want += x.Count
		}
		got = want
		for _, m := range a.l.missing(t, p.body.Lines) {
			got -= m.Want - m.Got
		}
		if got < want {
			a.find(KitIncomplete, at, want, got, p.ref, s.ref)
		}
	}
	var first uint32
	for _, x := range p.body.Lines {
		first = sooner(first, a.l.kitLine(x).Expiry)
	}
	if stated := LastDay(s.body.Expiry); first != 0 && stated > first {
		a.find(SealLate, at, int64(first), int64(stated), p.ref, s.ref)
	}
}

// openings checks what names a seal.
func (a *auditor) openings() {
	for r, opened := range a.l.trays.opened {
		if _, kit := a.l.trays.prepared[r]; kit || r.IsZero() {
			continue
		}
		put, known := a.l.trays.sealed[r]
		for _, o := range opened {
			switch {
			case !known:
				a.unknown(o.ref, r)
			case put.body.Seal != o.body.Seal:
				a.find(SealDiffers, Cell{}, 0, 0, r, o.ref)
			}
		}
		if len(opened) > 1 {
			a.find(SealTwice, Cell{}, 0, 0, append([]mesh.Ref{r}, refsOf(opened)...)...)
		}
	}
}

// boxes checks the seals of waste containers; those of exercises are apart.
func (a *auditor) boxes() {
	type seal struct {
		number mesh.Label
		drill  bool
	}
	on := map[seal][]noted[WasteBox]{}
	for _, b := range a.l.trays.boxes {
		if b.body.Seal == "" {
			a.find(BoxUnsealed, Cell{}, 0, 0, b.ref)
			continue
		}
		s := seal{b.body.Seal, b.body.Drill}
		on[s] = append(on[s], b)
	}
	for _, all := range on {
		if len(all) > 1 {
			a.find(BoxTwice, Cell{}, 0, 0, refsOf(all)...)
		}
	}
}

// stateOfTrays holds which preparation is the newest of its kit, what belongs
// to each part, and what is still to come of what was ordered.
func (l *Ledger) stateOfTrays(w *stateWriter) {
	w.section("kits", len(l.trays.prepared))
	for _, r := range sortedRefs(l.trays.prepared) {
		p := l.trays.prepared[r]
		newest, _ := l.newest(p.body.Kit)
		w.ref(r)
		w.flag(newest.ref == r)
		w.flag(twoPeople(p.body))
		s, _ := l.sealOn(p)
		w.ref(s.ref)
		w.refs(refsOf(l.trays.seals[r]))
		w.refs(refsOf(l.loose(p)))
		w.refs(refsOf(l.trays.broken[r]))
	}
	stateOfNaming(w, "openings", l.trays.opened)
	stateOfNaming(w, "seals", l.trays.seals)
	stateOfNaming(w, "broken down", l.trays.broken)
	items := make([]mesh.Number, 0, len(l.trays.orders))
	for n := range l.trays.orders {
		items = append(items, n)
	}
	slices.SortFunc(items, cmp.Compare)
	w.section("ordered", len(items))
	for _, n := range items {
		w.number(int64(n))
		w.number(l.Outstanding(n))
	}
	boxes := refsOf(l.trays.boxes)
	w.section("boxes", len(boxes))
	for _, r := range boxes {
		w.ref(r)
	}
}

// stateOfNaming writes what names what.
func stateOfNaming[B any](w *stateWriter, name string, by map[mesh.Ref][]noted[B]) {
	w.section(name, len(by))
	for _, r := range sortedRefs(by) {
		w.ref(r)
		w.refs(refsOf(by[r]))
	}
}
