package mesh

import (
	"maps"
	"slices"
)

// Status is what a device is to the group.
type Status uint8

// What a device can be.
const (
	Stranger   Status = 0 // never admitted
	Member     Status = 1
	RemovedOut Status = 2 // removed; its entries count up to the cut
	Unreached  Status = 3 // admitted only by entries that no longer count
)

// Person-free facts about one device of the group.
type Device struct {
	Key        Key
	Name       Label
	Status     Status
	AdmittedBy Key
	Cuts       []Cut // of a removed device
}

type admission struct {
	ref  Ref
	key  Key
	name Label
	at   Order
}

type line struct {
	write Write
	name  Label
}

type removal struct {
	at  Order
	key Key
	cut []Cut
}

// Members folds founding, admissions and removals into who belongs to the
// group. The result depends on the set of entries only, never on their order.
//
// It goes in two steps. First, everyone ever admitted counts, whatever was
// removed, and a removal written by two of these takes effect (by one, in a
// group that never had more than two before, other than by what the remover
// itself wrote behind it), also against each other. Then, from the
// founder outwards, those count who are reached by admissions below their
// authors' cuts. Of several cuts of one incarnation the highest holds.
type Members struct {
	paired Key     // this device, if it was let in by pairing: it counts here before its admission arrives
	group  GroupID // only the entry with this hash founds
	// later tells whether the second entry stands behind the first in one line
	// of one feed, which nobody can feign.
	later      func(Order, Order) bool
	founder    Key
	founded    bool
	unit       Label
	admissions []admission
	removals   []removal
	lines      map[Key][]line

	ever   map[Key]bool
	cuts   map[Key]map[Incarnation]Seq // of removed devices
	reach  map[Key]bool
	rank   map[Key]int // order of admission, for serving feeds
	names  map[Key]Label
	by     map[Key]Key
	wanted bool // something was added since compute
}

// add takes one part of an entry into account and says whether it was a
// membership part that could be read.
func (m *Members) add(feed Feed, at Order, ref Ref, p Part) (bool, error) {
	switch p.Kind {
	case KindFounded:
		var f Founded
		if err := Decode(p.Body, &f); err != nil {
			return false, err
		}
		if GroupID(at.Hash) == m.group && f.Founder == feed.Author() && !m.founded {
			m.founder, m.founded, m.unit = f.Founder, true, f.Unit
			m.wanted = true
		}
		return true, nil
	case KindAdmitted:
		var a Admitted
		if err := Decode(p.Body, &a); err != nil {
			return false, err
		}
		m.admissions = append(m.admissions, admission{ref: ref, key: a.Key, name: a.Name, at: at})
		m.wanted = true
		return true, nil
	case KindRemoved:
		var r Removed
		if err := Decode(p.Body, &r); err != nil {
			return false, err
		}
		m.removals = append(m.removals, removal{at: at, key: r.Key, cut: r.Cuts})
		m.wanted = true
		return true, nil
	}
	if p.Kind == KindDeviceLine {
		var d DeviceLine
		if err := Decode(p.Body, &d); err != nil {
			return false, err
		}
		if m.lines == nil {
			m.lines = map[Key][]line{}
		}
		m.lines[d.Key] = append(m.lines[d.Key], line{write: Write{Ref: ref, At: at, Replaces: d.Replaces}, name: d.Name})
		m.wanted = true
		return true, nil
	}
	return false, nil
}

// compute works out the two steps. It returns whether entries that were
// already counted, or left out, must be looked at again; wrote tells whether
// entries of a device are held.
func (m *Members) compute(wrote func(Key) bool) (refold bool) {
	if !m.wanted {
		return false
	}
	m.wanted = false
	oldCuts, oldReach := m.cuts, m.reach
	slices.SortFunc(m.admissions, compareAdmissions)
	m.ever = m.spread(func(admission) bool { return true })
	m.cuts = m.effective()
	m.reach = m.spread(func(a admission) bool { return m.below(a.at.Feed, a.at.Seq) })
	if m.paired != (Key{}) && !m.ever[m.paired] {
		m.ever[m.paired], m.reach[m.paired] = true, true
	}
	m.name()
	for k := range m.reach {
		refold = refold || !oldReach[k] && wrote(k)
	}
	for k := range oldReach {
		refold = refold || !m.reach[k]
	}
	return refold || !maps.EqualFunc(oldCuts, m.cuts, func(a, b map[Incarnation]Seq) bool { return maps.Equal(a, b) })
}

// compareAdmissions orders admissions; those of one entry by their part.
func compareAdmissions(a, b admission) int {
	if c := a.at.Compare(b.at); c != 0 {
		return c
	}
	return a.ref.Compare(b.ref)
}

// spread returns who is reached from the founder by admissions that pass.
func (m *Members) spread(pass func(admission) bool) map[Key]bool {
	in := map[Key]bool{}
	if !m.founded {
		return in
	}
	lets := map[Key][]Key{}
	for _, a := range m.admissions {
		if pass(a) {
			lets[a.at.Feed.Author()] = append(lets[a.at.Feed.Author()], a.key)
		}
	}
	in[m.founder] = true
	for next := []Key{m.founder}; len(next) > 0; next = next[1:] {
		for _, k := range lets[next[0]] {
			if !in[k] {
				in[k] = true
				next = append(next, k)
			}
		}
	}
	return in
}

// effective returns the cuts of every key whose removal takes effect.
func (m *Members) effective() map[Key]map[Incarnation]Seq {
	voices := map[Key]map[Key]bool{}
	cuts := map[Key]map[Incarnation]Seq{}
	for _, r := range m.removals {
		by := r.at.Feed.Author()
		if !m.ever[by] {
			continue
		}
		if voices[r.key] == nil {
			voices[r.key], cuts[r.key] = map[Key]bool{}, map[Incarnation]Seq{}
		}
		voices[r.key][by] = voices[r.key][by] || m.alone(r)
		for _, c := range r.cut {
			cuts[r.key][c.Incarnation] = max(cuts[r.key][c.Incarnation], c.Seq)
		}
	}
	for k, v := range voices {
		one := false
		for _, alone := range v {
			one = one || alone
		}
		if len(v) < 2 && !one {
			delete(cuts, k)
		}
	}
	return cuts
}

// alone tells whether one voice was enough for a removal: the group had two
// devices, also if the remover let more in afterwards.
func (m *Members) alone(r removal) bool {
	if len(m.ever) <= 2 {
		return true
	}
	return len(m.spread(func(a admission) bool { return a.at.Feed != r.at.Feed || !m.later(r.at, a.at) })) <= 2
}

// name settles what each device is called and how early it came.
func (m *Members) name() {
	m.names, m.by, m.rank = map[Key]Label{}, map[Key]Key{}, map[Key]int{m.founder: 0}
	for i, a := range m.admissions {
		if _, ok := m.by[a.key]; !ok {
			m.by[a.key], m.names[a.key] = a.at.Feed.Author(), a.name
		}
		if _, ok := m.rank[a.key]; !ok {
			m.rank[a.key] = i + 1
		}
	}
	for k := range m.lines {
		if lines := m.standingLines(k); len(lines) > 0 {
			m.names[k] = lines[0].name
		}
	}
}

// standingLines are the names of a device that stand, the one in use first. Of
// two lines that bear one Ref the one of lower order is used.
func (m *Members) standingLines(k Key) []line {
	byRef := map[Ref]line{}
	for _, l := range m.lines[k] {
		if !m.counts(l.write.At.Feed, l.write.At.Seq) {
			continue
		}
		if old, known := byRef[l.write.Ref]; !known || l.write.At.Compare(old.write.At) < 0 {
			byRef[l.write.Ref] = l
		}
	}
	writes := make([]Write, 0, len(byRef))
	for _, l := range byRef {
		writes = append(writes, l.write)
	}
	lines := make([]line, 0, 1)
	for _, w := range Standing(writes) {
		lines = append(lines, byRef[w.Ref])
	}
	return lines
}

// below tells whether a sequence of a feed is not above its author's cut.
func (m *Members) below(f Feed, s Seq) bool {
	cut, removed := m.cuts[f.Author()]
	return !removed || s <= cut[f.Incarnation()]
}

// counts tells whether the folds use the entry of this feed and sequence.
func (m *Members) counts(f Feed, s Seq) bool { return m.reach[f.Author()] && m.below(f, s) }

// Status says what a key is to the group.
func (m *Members) Status(k Key) Status {
	_, removed := m.cuts[k]
	switch {
	case !m.ever[k]:
		return Stranger
	case removed:
		return RemovedOut
	case !m.reach[k]:
		return Unreached
	}
	return Member
}

// deviceLines are the standing names of a device, the one in use first.
func (m *Members) deviceLines(k Key) (refs []Ref) {
	for _, l := range m.standingLines(k) {
		refs = append(refs, l.write.Ref)
	}
	return refs
}

// Devices lists everyone ever admitted, in the order of their keys.
func (m *Members) Devices() []Device {
	out := []Device{}
	for _, k := range slices.SortedFunc(maps.Keys(m.ever), Key.Compare) {
		d := Device{Key: k, Name: m.names[k], Status: m.Status(k), AdmittedBy: m.by[k]}
		for i, s := range m.cuts[k] {
			d.Cuts = append(d.Cuts, Cut{Incarnation: i, Seq: s})
		}
		slices.SortFunc(d.Cuts, func(a, b Cut) int { return slices.Compare(a.Incarnation[:], b.Incarnation[:]) })
		out = append(out, d)
	}
	return out
}
