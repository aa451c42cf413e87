package kits

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// wasteOptions are two priced items, one in another currency, and their classes.
func wasteOptions() Options {
	o := testOptions()
	for i := range o.Defaults.Items {
		x := &o.Defaults.Items[i]
		switch x.Number {
		case ampoule:
			x.Waste, x.CostMinor, x.Currency, x.MassMG = "medicine", 101, "gbp", 5000
		case tube:
			x.Waste, x.CostMinor, x.Currency, x.MassMG = "infectious", 350, "eur", 40000
		}
	}
	o.Defaults.Waste = []WasteLine{
		{Class: "medicine", Country: WasteEU, Code: "18 01 09", Name: "Medicines"},
		{Class: "infectious", Country: WasteEU, Code: "18 01 03*", Name: "Infectious"},
		{Class: "infectious", Country: "xx", Code: "7", Name: "Infectious"},
	}
	return o
}

// Goal: waste is told apart by reason with mass and cost, and currencies and
// exercises are never added to anything else. Method: figures worked out by
// hand: 3 tubes used, 1 opened, 1 contaminated, 1 broken, 2 expired, 1 in an
// exercise; 2 ampoules at 101 drawn up to 200 microgram, 50 of them thrown away:
// 202 × 50 ÷ 200 = 50 (rounded down), the other 152 were used.
func TestWasteIsToldApartByReason(t *testing.T) {
	p := pens(t, 1)[0]
	drill := mesh.MakeRef(p.key, mesh.Tap{0xee}, 0)
	out := func(to PlaceSort, n int64, why mesh.Label, c mesh.Ref) mesh.Fact {
		return p.write(&Moved{From: insideA1, To: Place{to, "A1"}, Lines: []Line{Containers(tube, n)}, Why: why, Case: c})
	}
	drawn := p.write(&DrawnUp{At: insideA1, Lines: []Line{Containers(ampoule, 2)}, Item: ampoule, Amount: Quantity{200, mesh.Microgram}, VolumeUL: 4000})
	rest := []Line{{Item: ampoule, Syringe: drawn.Ref, Quantity: Quantity{50, mesh.Microgram}}}
	slip := out(Used, 9, "", mesh.Ref{})
	facts := []mesh.Fact{
		out(Used, 3, "", mesh.Ref{}), out(Wasted, 1, WhyOpened, mesh.Ref{}), out(Wasted, 1, WhyContaminated, mesh.Ref{}),
		out(Broken, 1, "", mesh.Ref{}), out(DestroyedUnopened, 2, WhyExpired, mesh.Ref{}), out(Used, 1, "", drill),
		out(Reprocessing, 5, "", mesh.Ref{}), drawn, slip, reverse(t, p, slip),
		p.write(&Moved{From: insideA1, To: Place{Wasted, "A1"}, Lines: rest}),
		p.write(&Moved{From: insideA1, To: Place{Given, "A1"}, Lines: rest}),
	}
	l := foldWith(wasteOptions(), facts)
	rows := l.WasteRows(WasteQuestion{Drill: func(c mesh.Ref) bool { return c == drill }})
	sums := map[Reason]WasteSum{}
	for _, s := range SumWaste(rows, ByReason) {
		sums[s.Reason] = s
	}
	require.Equal(t, WasteSum{WasteKey: WasteKey{Reason: ReasonUsed}, Containers: 5, MassMG: 130000,
		Costs: []Money{{"eur", 1050}, {"gbp", 152}}}, sums[ReasonUsed])
	require.Equal(t, WasteSum{WasteKey: WasteKey{Reason: ReasonOpened}, Containers: 1, MassMG: 40000,
		Costs: []Money{{"eur", 350}, {"gbp", 50}}}, sums[ReasonOpened])
	require.Equal(t, []Money{{"eur", 350}}, sums[ReasonContaminated].Costs)
	require.Equal(t, []Money{{"eur", 350}}, sums[ReasonBroken].Costs)
	require.Equal(t, []Money{{"eur", 700}}, sums[ReasonExpired].Costs)
	require.Equal(t, WasteKey{Reason: ReasonTraining, Training: true}, sums[ReasonTraining].WasteKey)
	all := SumWaste(rows, 0)
	require.Len(t, all, 2, "exercises stay apart, whatever sums are told apart by")
	require.Equal(t, []Money{{"eur", 2800}, {"gbp", 202}}, all[0].Costs)
	require.Equal(t, []Money{{"eur", 350}}, all[1].Costs)

	classes := SumWaste(rows, ByClass)
	require.Equal(t, mesh.Label("18 01 03*"), classes[0].Code)
	require.Equal(t, mesh.Label("7"), l.WasteRows(WasteQuestion{Country: "xx"})[1].Code)
}

// Goal: nothing that became waste is left out or counted twice. Method: random
// histories; the containers in all rows are those that lie at waste's ends or
// were drawn up, by the ledger's balances.
func TestEveryContainerOfWasteIsCountedOnce(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed: %d", seed)
	rng := rand.New(rand.NewPCG(seed, 0))
	for range 60 {
		facts := shuffled(rng, randomFacts(t, rng, 40))
		l := foldWith(wasteOptions(), facts)
		var want, got int64
		for _, b := range l.Balances() {
			_, waste := wasteReason(b.Cell.Place.Sort, "")
			if (waste || b.Cell.Place.Sort == DrawnOff) && b.Cell.Measure == mesh.Each && b.Cell.Syringe.IsZero() {
				want += b.N
			}
		}
		rows := l.WasteRows(WasteQuestion{})
		for _, r := range rows {
			got += r.Containers
		}
		require.Equal(t, want, got)
		require.Equal(t, rows, foldWith(wasteOptions(), facts).WasteRows(WasteQuestion{}), "the order of rows is fixed")
	}
}

// Goal: waste is told apart by case, room and month of when it happened. Method:
// three movements of two rooms and two months, one of them entered late.
func TestWasteIsToldApartByCaseRoomAndMonth(t *testing.T) {
	p := pens(t, 1)[0]
	c := mesh.MakeRef(p.key, mesh.Tap{0xcc}, 0)
	write := func(room mesh.ID, inCase mesh.Ref, wall, happened mesh.Wall) mesh.Fact {
		f := p.write(&Moved{From: Place{InRoom, room}, To: Place{Used, room}, Lines: []Line{Containers(tube, 1)}, Case: inCase})
		f.Wall, f.By.Happened = wall, happened
		return f
	}
	const november, december = 1_795_564_800_000, 1_798_156_800_000 // 2026-11-25, 2026-12-25, UTC
	l := foldWith(wasteOptions(), []mesh.Fact{
		write("A1", c, november, 0), write("A2", mesh.Ref{}, december, 0), write("A2", mesh.Ref{}, december, november),
	})
	rows := l.WasteRows(WasteQuestion{})
	require.Len(t, SumWaste(rows, ByCase), 2)
	rooms := SumWaste(rows, ByRoom)
	require.Equal(t, []int64{1, 2}, []int64{rooms[0].Containers, rooms[1].Containers})
	months := SumWaste(rows, ByMonth)
	require.Equal(t, []uint32{202611, 202612}, []uint32{months[0].Month, months[1].Month})
	require.Equal(t, []int64{2, 1}, []int64{months[0].Containers, months[1].Containers})
}

// Goal: containers say up to where they may be filled, a missing or repeated
// seal is listed, exercises are apart. Method: boxes of 50, 0.3 and 0.1 litres.
func TestWasteBoxesFillToThreeQuarters(t *testing.T) {
	p := pens(t, 1)[0]
	box := func(litresT int64, seal mesh.Label, drill bool) mesh.Fact {
		return p.write(&WasteBox{Room: "A1", Class: "infectious", Seal: seal, LitresT: litresT, Drill: drill})
	}
	l := foldWith(wasteOptions(), []mesh.Fact{box(500, "W1", false), box(3, "W1", false), box(1, "", false), box(500, "W1", true)})
	rows := l.WasteBoxes(WasteQuestion{})
	require.Equal(t, []int64{375, 2, 0, 375}, []int64{rows[0].FillT, rows[1].FillT, rows[2].FillT, rows[3].FillT})
	require.Equal(t, []bool{false, false, false, true}, []bool{rows[0].Training, rows[1].Training, rows[2].Training, rows[3].Training})
	require.Equal(t, mesh.Label("18 01 03*"), rows[0].Code)
	require.Equal(t, []FindingID{BoxTwice, BoxUnsealed}, ids(l.Audit()))
}
