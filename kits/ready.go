package kits

import (
	"cmp"
	"slices"

	"lintel/mesh"
)

// ReadyInput is what is known of a unit when somebody asks whether another
// patient could be taken now: plain values, from wherever they come.
type ReadyInput struct {
	Rooms []ReadyRoom
	Kits  []ReadyKit // of the whole unit: any of them serves any room
}

// ReadyRoom is one room.
type ReadyRoom struct {
	Room          mesh.ID
	CaseOpen      bool  // a case goes on there
	Uncounted     int64 // lines that are still inside, without an end
	AirKnown      bool  // somebody measured how often the air changes
	AirMinutes    int64 // until the air is clear by the estimate; 0 or below: it is
	KitsNeeded    int64
	Rescue        []ReadySet
	Runner        bool  // a person outside holds the runner's role for it
	Inside        int64 // devices that may go inside: charged, admitted, reached
	InsideNeeded  int64
	Outside       int64 // devices outside that are reached
	OutsideNeeded int64
}

// ReadyKit is one kit. It serves if all four hold.
type ReadyKit struct {
	ID     mesh.ID
	Sealed bool
	InDate bool
	Full   bool // nothing is missing against its template
	Free   bool // none of its lots is held back
}

// ReadySet is one rescue set.
type ReadySet struct {
	Set     mesh.ID // b, c, d, arrest
	LiesAt  Place
	Missing int64 // containers that it lacks there
}

// GapID names a gap for the table of words.
type GapID string

// Gaps. N is how much is missing, in what the gap counts.
const (
	GapCaseOpen    GapID = "case-open"
	GapUncounted   GapID = "uncounted" // N lines inside
	GapAirUnknown  GapID = "air-unknown"
	GapAir         GapID = "air"          // N minutes
	GapKits        GapID = "kits"         // N kits too few serve
	GapKitUnsealed GapID = "kit-unsealed" // of a kit that would serve
	GapKitExpired  GapID = "kit-expired"
	GapKitMissing  GapID = "kit-missing"
	GapKitHeldBack GapID = "kit-held-back"
	GapRescue      GapID = "rescue" // N containers of a set
	GapRunner      GapID = "runner"
	GapInside      GapID = "devices-inside"  // N too few
	GapOutside     GapID = "devices-outside" // N too few
)

// Gap is one reason why a room cannot take a patient.
type Gap struct {
	Room mesh.ID
	ID   GapID
	Of   mesh.ID // the kit or the rescue set
	At   Place   // what a pick list would fill; zero: none would
	N    int64   // 1 where there is nothing to count
}

// Ready lists every gap of every room, in the order of the rooms given, then as
// the gaps are named above; a room without any could take a patient. Filling a
// gap never opens another one.
func Ready(in ReadyInput) (out []Gap) {
	for _, r := range in.Rooms {
		add := func(id GapID, of mesh.ID, at Place, n int64) {
			if n > 0 {
				out = append(out, Gap{Room: r.Room, ID: id, Of: of, At: at, N: n})
			}
		}
		add(GapCaseOpen, "", Place{}, one(r.CaseOpen))
		add(GapUncounted, "", Place{InRoom, r.Room}, r.Uncounted)
		add(GapAirUnknown, "", Place{}, one(!r.AirKnown))
		if r.AirKnown {
			add(GapAir, "", Place{}, r.AirMinutes)
		}
		if short := r.KitsNeeded - serving(in.Kits); short > 0 {
			add(GapKits, "", Place{}, short)
			for _, k := range in.Kits {
				at := Place{Kit, k.ID}
				add(GapKitUnsealed, k.ID, at, one(!k.Sealed))
				add(GapKitExpired, k.ID, at, one(!k.InDate))
				add(GapKitMissing, k.ID, at, one(!k.Full))
				add(GapKitHeldBack, k.ID, at, one(!k.Free))
			}
		}
		for _, s := range r.Rescue {
			add(GapRescue, s.Set, s.LiesAt, s.Missing)
		}
		add(GapRunner, "", Place{}, one(!r.Runner))
		add(GapInside, "", Place{}, r.InsideNeeded-r.Inside)
		add(GapOutside, "", Place{}, r.OutsideNeeded-r.Outside)
	}
	return out
}

// ReadyRooms are the rooms that could take a patient, in the order given.
func ReadyRooms(in ReadyInput) (out []mesh.ID) {
	gaps := Ready(in)
	for _, r := range in.Rooms {
		if !slices.ContainsFunc(gaps, func(g Gap) bool { return g.Room == r.Room }) {
			out = append(out, r.Room)
		}
	}
	return out
}

func one(gap bool) int64 {
	if gap {
		return 1
	}
	return 0
}

// serving is how many kits serve.
func serving(kits []ReadyKit) (n int64) {
	for _, k := range kits {
		n += one(k.Sealed && k.InDate && k.Full && k.Free)
	}
	return n
}

// ReadyKits are the kits as Ready asks for them on a day, by id, without those
// that were taken apart.
func (l *Ledger) ReadyKits(on uint32) (out []ReadyKit) {
	for _, k := range l.Kits(on) {
		if k.State == KitBrokenDown {
			continue
		}
		out = append(out, ReadyKit{
			ID:     k.ID,
			Sealed: !k.Sealed.IsZero() && len(k.Openings) == 0,
			InDate: !expiredOn(k.Expiry, on),
			Full:   len(k.Missing) == 0,
			Free:   !slices.ContainsFunc(k.Lines, func(x KitLine) bool { return x.HeldBack }),
		})
	}
	return out
}

// ReadySets are the rescue sets as Ready asks for them on a day. Sets that lie
// at one place do not share containers: what the one needs the next has not.
func (l *Ledger) ReadySets(q RestockQuestion) (out []ReadySet) {
	p := &planner{l: l, q: q, stock: map[Place]map[mesh.Number][]LotHeld{}}
	for _, b := range l.Bundles() {
		if b.Rescue == "" {
			continue
		}
		s := ReadySet{Set: b.Rescue, LiesAt: b.LiesAt}
		for _, x := range b.Lines {
			if item, _ := l.Item(x.Item); item.Value.Has(IsPerson) {
				continue // who is called is no stock
			}
			got := picked(p.lots(b.LiesAt, x.Item), x.Count)
			p.take(b.LiesAt, x.Item, got.Lots)
			s.Missing += got.Short
		}
		out = append(out, s)
	}
	slices.SortStableFunc(out, func(a, b ReadySet) int { return cmp.Compare(a.Set, b.Set) })
	return out
}
