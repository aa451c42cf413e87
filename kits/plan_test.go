package kits

import (
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// pharmacy is where the trolley's ampoules come from in these tests.
var pharmacy = Place{Store, "pharmacy"}

// planOptions: tubes go store → trolley → kit, ampoules pharmacy → trolley.
func planOptions() Options {
	o := testOptions()
	for i := range o.Defaults.Items {
		x := &o.Defaults.Items[i]
		switch x.Number {
		case tube:
			x.KeptAt, x.KeptWords = trolley, "drawer 1"
		case ampoule:
			x.KeptAt, x.KeptWords = pharmacy, "safe"
		}
	}
	o.Defaults.Templates = []Template{{ID: "first", Name: "First tray", Lines: []TemplateLine{{tube, 2, WhereInside}, {saline, 1, WhereInside}}}}
	o.Defaults.Pars = []ParLine{
		{Place: store, Item: tube, Par: 10}, {Place: trolley, Item: tube, Par: 3},
		{Place: trolley, Item: ampoule, Par: 2}, {Place: pharmacy, Item: ampoule, Par: 6}, {Place: store, Item: saline, Par: 5},
	}
	return o
}

// ofLot is n containers of a lot.
func ofLot(item mesh.Number, lot mesh.Label, n int64) Line {
	return Line{Item: item, Lot: lot, Quantity: Quantity{n, mesh.Each}}
}

// Goal: a plan says what to take where, of which lots, and what to order.
// Method: worked out by hand: the kit lacks two tubes and a saline, the trolley
// has one tube (of a lot that expires first) and needs three, the store has four.
func TestAPlanSaysWhatToTakeAndWhatToOrder(t *testing.T) {
	p := pens(t, 1)[0]
	facts := []mesh.Fact{
		p.write(&Moved{From: Place{Sort: Supplier}, To: trolley, Lines: []Line{ofLot(tube, "T1", 1)}}),
		p.write(&Moved{From: Place{Sort: Supplier}, To: store, Lines: []Line{ofLot(tube, "T2", 3), ofLot(tube, "T3", 1), ofLot(saline, "", 5)}}),
		p.write(&LotLine{Item: tube, Lot: "T2", Expiry: 20271231}), p.write(&LotLine{Item: tube, Lot: "T3", Expiry: 20270131}),
		p.write(&Prepared{Kit: "tray-1", Template: "first", PreparedBy: "T1", CheckedBy: "T2"}),
		p.write(&Ordered{Item: tube, Count: 4, From: "supplier"}),
	}
	plan := foldWith(planOptions(), facts).Plan(RestockQuestion{On: 20261125})
	require.Len(t, plan.Groups, 2)
	fromStore, fromTrolley := plan.Groups[0], plan.Groups[1]
	require.Equal(t, store, fromStore.From)
	require.Equal(t, trolley, fromTrolley.From)
	require.EqualValues(t, "drawer 1", fromTrolley.Where)
	require.Len(t, fromTrolley.Picks, 1)
	require.EqualValues(t, 1, fromTrolley.Picks[0].Missing, "the trolley's only tube goes into the kit")

	require.Equal(t, []mesh.Number{tube, tube, saline}, []mesh.Number{
		fromStore.Picks[0].Item.Number, fromStore.Picks[1].Item.Number, fromStore.Picks[2].Item.Number})
	trolleys, kits := fromStore.Picks[0], fromStore.Picks[1]
	require.Equal(t, trolley, trolleys.Place)
	require.EqualValues(t, 3, trolleys.Missing, "the trolley has given its one away")
	require.EqualValues(t, "T2", trolleys.Lots[0].Lot, "the kit took T3, which expires first")
	require.EqualValues(t, 1, kits.Missing)
	require.EqualValues(t, "T3", kits.Lots[0].Lot)

	require.Len(t, plan.Orders, 3)
	tubes := plan.Orders[0]
	require.Equal(t, tube, tubes.Item.Number)
	require.EqualValues(t, []int64{10, 4, 6}, []int64{tubes.Needed, tubes.Outstanding, tubes.Order})
	require.Equal(t, []OrderFor{{store, 10}}, tubes.For)
	require.EqualValues(t, 8, plan.Orders[1].Order, "six for the pharmacy, two for the trolley")
	require.Equal(t, []OrderFor{{pharmacy, 8}}, plan.Orders[1].For)
	require.EqualValues(t, 1, plan.Orders[2].Order, "the saline that goes into the kit")
}

// Goal: fetching and ordering what a plan says brings everything to par, and no
// lot that must not be taken moves. Method: random stock, some of it expired or
// held back, some of it below zero; plan, fetch and receive until nothing is
// missing, at most as often as there are places on the way.
func TestAPlanBringsEverythingToPar(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed: %d", seed)
	rng := rand.New(rand.NewPCG(seed, 0))
	const on = 20261125
	for range 60 {
		p := pens(t, 1)[0]
		var facts []mesh.Fact
		for i := range 6 {
			lot := mesh.Label("L" + strconv.Itoa(i))
			facts = append(facts, p.write(&LotLine{Item: tube, Lot: lot, Expiry: pick(rng, []uint32{0, 20261124, 20261125, 20270100})}),
				p.write(&Quarantine{Item: tube, Lot: lot, Held: i == 5}))
			facts = append(facts, p.write(&Moved{From: Place{Sort: Supplier}, To: pick(rng, []Place{store, trolley, pharmacy, {Kit, "tray-1"}}),
				Lines: []Line{ofLot(pick(rng, []mesh.Number{tube, tube, ampoule, saline}), lot, 1+rng.Int64N(6))}}))
		}
		facts = append(facts, p.write(&Prepared{Kit: "tray-1", Template: "first"}))
		rounds := 0
		for ; rounds < 5; rounds++ {
			l := foldWith(planOptions(), facts)
			plan := l.Plan(RestockQuestion{On: on})
			if !plan.Missing() {
				break
			}
			facts = append(facts, fetched(t, p, l, plan)...)
		}
		require.Less(t, rounds, 5)
		l := foldWith(planOptions(), facts)
		requireConserved(t, l)
		require.NotContains(t, ids(l.Audit()), BelowZero)
		for _, w := range l.wants(RestockQuestion{}) {
			require.GreaterOrEqual(t, usable(l.LotsAt(w.place, w.item, on)), w.par)
		}
	}
}

// fetched writes what a plan says and checks that no lot is refused.
func fetched(t *testing.T, p *pen, l *Ledger, plan RestockPlan) (facts []mesh.Fact) {
	for _, g := range plan.Groups {
		for _, x := range g.Picks {
			var n int64
			for _, lot := range x.Lots {
				require.Equal(t, Picks, lot.Refused)
				n += lot.N
			}
			require.Equal(t, x.Missing, n)
		}
		for _, m := range Fetched(g.Picks) {
			require.Equal(t, g.From, m.From)
			facts = append(facts, p.write(&m))
		}
	}
	for _, o := range plan.Orders {
		var n int64
		for _, to := range o.For {
			n += to.N
			facts = append(facts, p.write(stock(to.Place, o.Item.Number, to.N)))
		}
		require.Equal(t, o.Needed, n)
	}
	return facts
}

// Goal: stock of exercises is apart: what an exercise moved leaves restock as it
// was, also when a count saw some of it. Method: a plan before and after
// movements of an exercise; a count of the trolley that saw the first of them.
func TestExercisesLeaveRestockAsItWas(t *testing.T) {
	p := pens(t, 1)[0]
	drill := mesh.MakeRef(p.key, mesh.Tap{0xdd}, 0)
	facts := []mesh.Fact{p.write(stock(trolley, tube, 3)), p.write(stock(store, tube, 10))}
	q := RestockQuestion{Places: []Place{trolley, store}, On: 20261125, Drill: func(c mesh.Ref) bool { return c == drill }}
	before := foldWith(planOptions(), facts).Plan(q)
	took := func(c mesh.Ref) mesh.Fact {
		return p.write(&Moved{From: trolley, To: insideA1, Lines: []Line{Containers(tube, 2)}, Case: c})
	}
	facts = append(facts, took(drill))
	require.Equal(t, before, foldWith(planOptions(), facts).Plan(q))
	counted := p.write(&Counted{Place: trolley, Seen: seen(p), Lines: []Line{Containers(tube, 3)}})
	facts = append(facts, counted, took(drill))
	require.Equal(t, before, fold3(t, facts).Plan(q), "the count says what lies there, the exercise after it is apart")
	facts = append(facts, took(mesh.Ref{}))
	require.NotEqual(t, before, foldWith(planOptions(), facts).Plan(q), "a real one counts")
}

// fold3 folds in the planOptions and checks conservation.
func fold3(t *testing.T, facts []mesh.Fact) *Ledger {
	l := foldWith(planOptions(), facts)
	requireConserved(t, l)
	return l
}

// Goal: what is ordered is outstanding until it comes. Method: orders and
// deliveries in the order of entries, by hand: 2 come before any order, 5 are
// ordered, 3 come, one of these movements was a slip, then 9 come.
func TestOrdersAreOutstandingUntilTheyCome(t *testing.T) {
	p := pens(t, 1)[0]
	facts := []mesh.Fact{p.write(stock(store, tube, 2)), p.write(&Ordered{Item: tube, Count: 5})}
	require.EqualValues(t, 5, fold(t, facts...).Outstanding(tube))
	slip := p.write(stock(store, tube, 1))
	facts = append(facts, p.write(stock(trolley, tube, 3)), slip, reverse(t, p, slip))
	require.EqualValues(t, 2, fold(t, facts...).Outstanding(tube))
	facts = append(facts, p.write(stock(store, tube, 9)))
	require.Zero(t, fold(t, facts...).Outstanding(tube))
	require.EqualValues(t, 7, fold(t, append(facts, p.write(&Ordered{Item: tube, Count: 7}))...).Outstanding(tube))
	require.Zero(t, fold(t, facts...).Outstanding(saline))
}

// Goal: a recall says where a lot is, in which kits, into which cases it came
// and how certain that is. Method: a scanned lot in a store, a kit that was
// opened in a case, a syringe drawn from it in another case, and containers of
// an unknown lot in a third.
func TestARecallSaysWhereAndHowCertain(t *testing.T) {
	p := pens(t, 1)[0]
	cases := []mesh.Ref{mesh.MakeRef(p.key, mesh.Tap{0xc1}, 0), mesh.MakeRef(p.key, mesh.Tap{0xc2}, 0), mesh.MakeRef(p.key, mesh.Tap{0xc3}, 0)}
	tray := p.write(&Prepared{Kit: "tray-1", Template: "first", Lines: []Line{ofLot(ampoule, "F1", 1)}, PreparedBy: "T1", CheckedBy: "T2"})
	seal := p.write(&Sealed{Names: tray.Ref, Kit: "tray-1", Seal: "S1"})
	drawn := p.write(&DrawnUp{Case: cases[1], At: insideA1, Lines: []Line{ofLot(ampoule, "F1", 1)}, Item: ampoule, Amount: Quantity{100, mesh.Microgram}})
	l := fold(t, tray, seal, drawn,
		p.write(&LotLine{Item: ampoule, Lot: "F1", How: ByScanner, Expiry: 20270131}),
		p.write(&Moved{From: Place{Sort: Supplier}, To: store, Lines: []Line{ofLot(ampoule, "F1", 6), ofLot(ampoule, "F2", 6)}}),
		p.write(&Moved{From: store, To: insideA1, Lines: []Line{ofLot(ampoule, "F1", 1)}, Case: cases[1]}),
		p.write(&SealOpened{Names: seal.Ref, Kit: "tray-1", Seal: "S1", Case: cases[0], Whole: true}),
		p.write(&Moved{From: store, To: insideA1, Lines: []Line{Containers(ampoule, 1)}, Case: cases[2]}),
		p.write(&Moved{From: store, To: insideA1, Lines: []Line{ofLot(ampoule, "F2", 1)}, Case: mesh.MakeRef(p.key, mesh.Tap{0xc4}, 0)}))
	a := l.Recall(ampoule, "F1")
	require.Equal(t, []RecallCase{{cases[0], ByScanner}, {cases[1], ByScanner}, {cases[2], Unknown}}, a.Cases)
	require.Equal(t, []RecallKit{{"tray-1", 1, ByScanner, KitOpened}}, a.Kits)
	got := map[Cell]HowKnown{}
	for _, w := range a.Where {
		got[w.Cell] = w.How
	}
	require.Equal(t, map[Cell]HowKnown{
		{store, ampoule, "", mesh.Ref{}, mesh.Each}:        Unknown,
		{store, ampoule, "F1", mesh.Ref{}, mesh.Each}:      ByScanner,
		{insideA1, ampoule, "", mesh.Ref{}, mesh.Each}:     Unknown,
		{insideA1, ampoule, "", drawn.Ref, mesh.Microgram}: ByScanner,
	}, got)
	require.Equal(t, Assumed, l.Recall(ampoule, "F2").Cases[1].How, "named, and nobody scanned it")
}
