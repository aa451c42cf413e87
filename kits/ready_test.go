package kits

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: every gap of a room is named, and a room without one is ready. Method:
// a room that lacks everything and one that lacks nothing, by hand.
func TestEveryGapIsNamed(t *testing.T) {
	rescue := Place{Trolley, "rescue"}
	in := ReadyInput{
		Rooms: []ReadyRoom{
			{Room: "A1", CaseOpen: true, Uncounted: 3, KitsNeeded: 2, Rescue: []ReadySet{{"b", rescue, 2}, {"c", rescue, 0}}, InsideNeeded: 1, OutsideNeeded: 2, Outside: 1},
			{Room: "A2", AirKnown: true, KitsNeeded: 1, Runner: true, Inside: 1, InsideNeeded: 1},
			{Room: "A3", AirKnown: true, AirMinutes: 12, Runner: true},
		},
		Kits: []ReadyKit{{"t1", true, true, true, true}, {"t2", false, false, false, false}},
	}
	t2 := Place{Kit, "t2"}
	require.Equal(t, []Gap{
		{"A1", GapCaseOpen, "", Place{}, 1}, {"A1", GapUncounted, "", insideA1, 3}, {"A1", GapAirUnknown, "", Place{}, 1},
		{"A1", GapKits, "", Place{}, 1}, {"A1", GapKitUnsealed, "t2", t2, 1}, {"A1", GapKitExpired, "t2", t2, 1},
		{"A1", GapKitMissing, "t2", t2, 1}, {"A1", GapKitHeldBack, "t2", t2, 1}, {"A1", GapRescue, "b", rescue, 2},
		{"A1", GapRunner, "", Place{}, 1}, {"A1", GapInside, "", Place{}, 1}, {"A1", GapOutside, "", Place{}, 1},
		{"A3", GapAir, "", Place{}, 12},
	}, Ready(in))
	require.Equal(t, []mesh.ID{"A2"}, ReadyRooms(in))
}

// naiveReady decides for one room by asking one question after the other, and
// shares nothing with Ready.
func naiveReady(r ReadyRoom, kits []ReadyKit) bool {
	if r.CaseOpen || r.Uncounted > 0 || !r.AirKnown || r.AirMinutes > 0 || !r.Runner {
		return false
	}
	for need := r.KitsNeeded; need > 0; need-- {
		found := -1
		for i, k := range kits {
			if k == (ReadyKit{ID: k.ID, Sealed: true, InDate: true, Full: true, Free: true}) {
				found = i
			}
		}
		if found < 0 {
			return false
		}
		kits = append(append([]ReadyKit{}, kits[:found]...), kits[found+1:]...)
	}
	for _, s := range r.Rescue {
		if s.Missing > 0 {
			return false
		}
	}
	return r.Inside >= r.InsideNeeded && r.Outside >= r.OutsideNeeded
}

// randomReady is a unit of three rooms that is often nearly ready.
func randomReady(rng *rand.Rand) (in ReadyInput) {
	mostly := func() bool { return rng.IntN(8) > 0 }
	few := func() int64 { return max(0, rng.Int64N(12)-9) }
	for i := range rng.IntN(4) {
		in.Kits = append(in.Kits, ReadyKit{mesh.ID("t" + string(rune('1'+i))), mostly(), mostly(), mostly(), mostly()})
	}
	for _, room := range []mesh.ID{"A1", "A2", "A3"} {
		r := ReadyRoom{Room: room, CaseOpen: !mostly(), Uncounted: few(), AirKnown: mostly(), AirMinutes: few(), KitsNeeded: few(),
			Runner: mostly(), Inside: few(), InsideNeeded: few(), Outside: few(), OutsideNeeded: few()}
		for _, set := range []mesh.ID{"b", "d"} {
			r.Rescue = append(r.Rescue, ReadySet{Set: set, Missing: few()})
		}
		in.Rooms = append(in.Rooms, r)
	}
	return in
}

// better fills one thing, or adds a kit or a device.
func better(rng *rand.Rand, in ReadyInput) ReadyInput {
	out := ReadyInput{Rooms: append([]ReadyRoom{}, in.Rooms...), Kits: append([]ReadyKit{}, in.Kits...)}
	r := &out.Rooms[rng.IntN(len(out.Rooms))]
	r.Rescue = append([]ReadySet{}, r.Rescue...)
	switch rng.IntN(10) {
	case 0:
		r.CaseOpen = false
	case 1:
		r.Uncounted = max(0, r.Uncounted-1)
	case 2:
		r.AirMinutes = max(0, r.AirMinutes-1)
	case 3:
		r.Runner = true
	case 4:
		r.Inside++
	case 5:
		r.Outside++
	case 6:
		s := &r.Rescue[rng.IntN(2)]
		s.Missing = max(0, s.Missing-1)
	case 7:
		out.Kits = append(out.Kits, ReadyKit{"t9", true, true, true, true})
	case 8:
		if len(out.Kits) > 0 {
			k := &out.Kits[rng.IntN(len(out.Kits))]
			*pick(rng, []*bool{&k.Sealed, &k.InDate, &k.Full, &k.Free}) = true
		}
	case 9:
		if !r.AirKnown {
			r.AirKnown, r.AirMinutes = true, 0 // measured, and clear
		}
	}
	return out
}

// Goal: filling a gap never opens another one, and readiness is what a naive
// evaluator says. Method: random units, each improved step by step; every gap
// afterwards was there before and not smaller.
func TestFillingAGapNeverMakesAUnitLessReady(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed: %d", seed)
	rng := rand.New(rand.NewPCG(seed, 0))
	ready := 0
	for range 300 {
		in := randomReady(rng)
		for range 12 {
			for _, r := range in.Rooms {
				only := ReadyInput{Rooms: []ReadyRoom{r}, Kits: in.Kits}
				require.Equal(t, naiveReady(r, in.Kits), len(Ready(only)) == 0, "%+v", only)
			}
			next := better(rng, in)
			was := map[Gap]int64{}
			for _, g := range Ready(in) {
				n := g.N
				g.N = 0
				was[g] = n
			}
			for _, g := range Ready(next) {
				n := g.N
				g.N = 0
				require.LessOrEqual(t, n, was[g], "%+v is new: %+v became %+v", g, in, next)
			}
			require.Subset(t, ReadyRooms(next), ReadyRooms(in))
			ready += len(ReadyRooms(next))
			in = next
		}
	}
	require.NotZero(t, ready, "some unit was ready")
}

// Goal: kits and rescue sets come from the ledger as they are. Method: a sealed
// kit, an opened one and one that was taken apart; two sets that need the same
// item at one place, where there is enough for one.
func TestReadinessComesFromTheLedger(t *testing.T) {
	p := pens(t, 2)
	prepare := func(id mesh.ID) (mesh.Fact, mesh.Fact) {
		made := p[0].write(&Prepared{Kit: id, Template: "first", Lines: []Line{ofLot(tube, "T1", 2), Containers(saline, 1)}, PreparedBy: "T1", CheckedBy: "T2"})
		return made, p[1].write(&Sealed{Names: made.Ref, Kit: id, Seal: "S" + mesh.Label(id)})
	}
	a, sealA := prepare("a")
	b, sealB := prepare("b")
	c, sealC := prepare("c")
	rescue := Place{Trolley, "rescue"}
	o := planOptions()
	o.Defaults.Bundles = []BundleLine{
		{Number: 91, Rescue: "d", LiesAt: rescue, Lines: []TemplateLine{{tube, 1, WhereInside}}},
		{Number: 92, Rescue: "b", LiesAt: rescue, Lines: []TemplateLine{{tube, 1, WhereInside}, {saline, 1, WhereInside}}},
		{Number: 93, LiesAt: rescue, Lines: []TemplateLine{{tube, 9, WhereInside}}},
	}
	l := foldWith(o, []mesh.Fact{a, sealA, b, sealB, c, sealC,
		p[0].write(&LotLine{Item: tube, Lot: "T1", Expiry: 20261200}),
		p[0].write(&SealOpened{Names: sealB.Ref, Kit: "b", Seal: "Sb", Whole: true}),
		p[0].write(&BrokenDown{Names: c.Ref, Kit: "c"}),
		p[0].write(stock(rescue, tube, 1)),
	})
	require.Equal(t, []ReadyKit{{"a", true, true, true, true}, {"b", false, true, true, true}}, l.ReadyKits(20261231))
	require.False(t, l.ReadyKits(20270101)[0].InDate)
	require.Equal(t, []ReadySet{{"b", rescue, 2}, {"d", rescue, 0}}, l.ReadySets(RestockQuestion{}))
}
