package kits

import (
	"cmp"
	"maps"
	"slices"

	"lintel/mesh"
)

// KitState is what a kit is.
type KitState uint8

// States of a kit. Expired stands before prepared and sealed: such a kit is of
// no use, however well it is sealed.
const (
	KitNone       KitState = 0 // nobody prepared it
	KitPrepared   KitState = 1 // filled, not sealed
	KitSealed     KitState = 2
	KitOpened     KitState = 3
	KitBrokenDown KitState = 4
	KitExpired    KitState = 5 // its first line expired before the day asked for
)

// KitLine is one line of a prepared kit with what is known of its lot.
type KitLine struct {
	Line
	How      HowKnown
	Expiry   uint32 // last day of use, as 20271231; 0: not known
	Inferred bool   // the day was not on the label
	HeldBack bool   // the lot is in quarantine
}

// KitMissing is what a kit lacks against its template, in containers.
type KitMissing struct {
	Item      ItemLine
	Where     mesh.ID // WhereInside, WhereAtDoor, WhereOutside
	Want, Got int64
}

// KitOpening is one opening of a kit.
type KitOpening struct {
	Ref   mesh.Ref
	Seal  mesh.Label // as read
	Case  mesh.Ref   // zero: no case
	Whole bool       // the seal was unbroken when found
	By    mesh.By
	Wall  mesh.Wall // when it happened
}

// KitRow is a kit as it is now, by its newest preparation.
type KitRow struct {
	ID         mesh.ID
	Template   mesh.ID
	Name       mesh.Label // of the template; empty: there is none
	Prepared   mesh.Ref   // zero: nobody prepared it
	At         mesh.Wall  // when it was prepared
	PreparedBy mesh.Tag
	CheckedBy  mesh.Tag
	TwoPeople  bool // who checked it is known and is another one
	Lines      []KitLine
	Missing    []KitMissing
	Sealed     mesh.Ref // the seal on it now or last; zero: none
	Seal       mesh.Label
	Openings   []KitOpening // of that seal, or of the kit without one; earliest first
	BrokenDown []mesh.Ref
	Expiry     uint32 // last day of its first line to expire; 0: not known of any
	Undated    int    // lines of which no day is known
	State      KitState
}

// Ready tells whether the kit may be taken: sealed, in date, nothing missing,
// nothing held back.
func (k KitRow) Ready() bool {
	return k.State == KitSealed && len(k.Missing) == 0 &&
		!slices.ContainsFunc(k.Lines, func(x KitLine) bool { return x.HeldBack })
}

// FoundBroken tells whether somebody found the seal open already.
func (k KitRow) FoundBroken() bool {
	return slices.ContainsFunc(k.Openings, func(o KitOpening) bool { return !o.Whole })
}

// Kits lists every kit that was ever prepared, by id, as on a day (20271231);
// on day 0 nothing is expired.
func (l *Ledger) Kits(on uint32) []KitRow {
	var out []KitRow
	for _, id := range slices.Sorted(maps.Keys(l.trays.ofKit)) {
		out = append(out, l.Kit(id, on))
	}
	return out
}

// Kit returns a kit as on a day.
func (l *Ledger) Kit(id mesh.ID, on uint32) KitRow {
	p, ok := l.newest(id)
	if !ok {
		return KitRow{ID: id}
	}
	k := l.kitRow(p)
	switch {
	case len(k.BrokenDown) > 0:
		k.State = KitBrokenDown
	case len(k.Openings) > 0:
		k.State = KitOpened
	case expiredOn(k.Expiry, on):
		k.State = KitExpired
	case !k.Sealed.IsZero():
		k.State = KitSealed
	default:
		k.State = KitPrepared
	}
	return k
}

// newest is the preparation of a kit that was written last.
func (l *Ledger) newest(id mesh.ID) (noted[Prepared], bool) {
	all := l.trays.ofKit[id]
	if len(all) == 0 {
		return noted[Prepared]{}, false
	}
	return slices.MaxFunc(all, noted[Prepared].compare), true
}

// kitRow is one preparation, all but its state.
func (l *Ledger) kitRow(p noted[Prepared]) KitRow {
	k := KitRow{
		ID: p.body.Kit, Template: p.body.Template, Prepared: p.ref, At: p.wall,
		PreparedBy: p.body.PreparedBy, CheckedBy: p.body.CheckedBy, TwoPeople: twoPeople(p.body),
		BrokenDown: refsOf(l.trays.broken[p.ref]),
	}
	for _, x := range p.body.Lines {
		k.Lines = append(k.Lines, l.kitLine(x))
	}
	if t, ok := l.Template(k.Template); ok {
		k.Name = t.Value.Name
		k.Missing = l.missing(t.Value, p.body.Lines)
	}
	for _, x := range k.Lines {
		if x.Expiry == 0 {
			k.Undated++
			continue
		}
		k.Expiry = sooner(k.Expiry, x.Expiry)
	}
	openings := l.loose(p)
	if s, ok := l.sealOn(p); ok {
		k.Sealed, k.Seal = s.ref, s.body.Seal
		k.Expiry = sooner(k.Expiry, LastDay(s.body.Expiry))
		openings = slices.DeleteFunc(openings, func(o noted[SealOpened]) bool { return o.at.Compare(s.at) < 0 })
		openings = append(openings, l.trays.opened[s.ref]...)
	}
	for _, o := range inOrder(openings) {
		k.Openings = append(k.Openings, KitOpening{o.ref, o.body.Seal, o.body.Case, o.body.Whole, o.by, o.wall})
	}
	return k
}

// sooner is the earlier of two days of which 0 is not known.
func sooner(a, b uint32) uint32 {
	if a == 0 || b == 0 {
		return max(a, b)
	}
	return min(a, b)
}

// kitLine says what is known of a line's lot: as its batch was entered; a lot
// that was only named is assumed.
func (l *Ledger) kitLine(x Line) KitLine {
	k := KitLine{Line: x, HeldBack: l.HeldBack(x.Item, x.Lot)}
	if x.Lot == "" {
		return k
	}
	k.How = Assumed
	if lot, ok := l.Lot(x.Item, x.Lot); ok {
		k.How, k.Expiry = lot.Value.How, LastDay(lot.Value.Expiry)
		k.Inferred = lot.Value.Inferred || k.Expiry != lot.Value.Expiry
	}
	return k
}

// missing is what lines lack against a template, in the template's order.
func (l *Ledger) missing(t Template, lines []Line) (out []KitMissing) {
	have := map[mesh.Number]int64{}
	for _, x := range lines {
		if x.Quantity.Measure == mesh.Each && x.Syringe.IsZero() {
			have[x.Item] += x.Quantity.N
		}
	}
	for _, w := range t.Lines {
		got := min(have[w.Item], w.Count)
		have[w.Item] -= got
		if got < w.Count {
			item, _ := l.Item(w.Item)
			item.Value.Number = w.Item
			out = append(out, KitMissing{Item: item.Value, Where: w.Where, Want: w.Count, Got: got})
		}
	}
	return out
}

// sealOn is the seal that was put on a preparation last.
func (l *Ledger) sealOn(p noted[Prepared]) (noted[Sealed], bool) {
	all := l.trays.seals[p.ref]
	if len(all) == 0 {
		return noted[Sealed]{}, false
	}
	return slices.MaxFunc(all, noted[Sealed].compare), true
}

// loose are the openings of a preparation that name no seal: they name the
// preparation, or only the kit, while this was the newest one of it.
func (l *Ledger) loose(p noted[Prepared]) []noted[SealOpened] {
	out := slices.Clone(l.trays.opened[p.ref])
	for _, o := range l.trays.opened[mesh.Ref{}] {
		if o.body.Kit == p.body.Kit && l.standingAt(o.body.Kit, o.at) == p.ref {
			out = append(out, o)
		}
	}
	return out
}

// standingAt is the newest preparation of a kit that was written before a
// place in the order of entries; zero: there is none.
func (l *Ledger) standingAt(kit mesh.ID, at mesh.Order) mesh.Ref {
	var best noted[Prepared]
	for _, p := range l.trays.ofKit[kit] {
		if p.at.Compare(at) < 0 && (best.body == nil || p.compare(best) > 0) {
			best = p
		}
	}
	return best.ref
}

// templateAt is the template in use when something was written.
func (l *Ledger) templateAt(id mesh.ID, at mesh.Order) (Template, bool) {
	values := map[mesh.Ref]*Template{}
	var writes []mesh.Write
	for _, t := range l.trays.templates[id] {
		if t.at.Compare(at) < 0 {
			values[t.ref] = t.body
			writes = append(writes, mesh.Write{Ref: t.ref, At: t.at, Replaces: t.body.Replaces})
		}
	}
	if len(writes) == 0 {
		t, ok := l.defaults.templates[id]
		return t, ok
	}
	return *values[mesh.Standing(writes)[0].Ref], true
}

// Template returns what kits of this sort are prepared from, also one that is Gone.
func (l *Ledger) Template(id mesh.ID) (Chosen[Template], bool) {
	return choose(&l.lines.templates, id, l.defaults.templates)
}

// Templates lists what kits are prepared from, without what is Gone, by id.
func (l *Ledger) Templates() []Template {
	var out []Template
	for _, id := range keys(&l.lines.templates, l.defaults.templates, cmp.Compare) {
		if c, ok := l.Template(id); ok && !c.Value.Gone {
			out = append(out, c.Value)
		}
	}
	return out
}
