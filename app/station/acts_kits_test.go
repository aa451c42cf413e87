package station

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Items of the starter catalogue.
const (
	ketamine mesh.Number = 3046 // controlled: 500 mg in 10 mL
	tube75   mesh.Number = 1032
)

// filled is the invented unit with its stock and an open case in A1.
func filled(t *testing.T) (*door, mesh.Ref) {
	d, of := opened(t)
	acts, _, err := DemoStock()
	require.NoError(t, err)
	for _, act := range acts {
		d.do(act)
	}
	return d, of
}

// holds is how many containers of an item of one lot are at a place.
func (d *door) holds(p kits.Place, item mesh.Number, lot mesh.Label) int64 {
	return d.v.Ledger.Balance(kits.Cell{Place: p, Item: item, Lot: lot, Measure: mesh.Each})
}

// prepare fills a kit as proposed; what is nowhere comes first.
func (d *door) prepare(kit mesh.ID, by, checked mesh.Tag) {
	d.t.Helper()
	f, err := d.v.FillKit(kit, DemoTemplate)
	require.NoError(d.t, err)
	for _, x := range f.Short {
		d.do(Receive{Item: x.Item.Number, Count: x.Want - x.Got})
	}
	f, err = d.v.FillKit(kit, DemoTemplate)
	require.NoError(d.t, err)
	require.Empty(d.t, f.Short)
	f.PreparedBy, f.CheckedBy = by, checked
	for _, act := range f.Entries() {
		d.do(act)
	}
}

// TestAKitIsFilledFirstExpiredFirstOut brings a lot with a day and prepares a
// kit: that lot is taken before containers of which no day is known; what is in
// it is what its template asks for, and a second person's check counts.
func TestAKitIsFilledFirstExpiredFirstOut(t *testing.T) {
	d, _ := filled(t)
	trolley := kits.Place{Sort: kits.Trolley, ID: "airway"}
	d.do(Receive{Item: tube75, Count: 2, Lot: "X9", Expiry: 20310300, Inferred: true, How: kits.ByScanner, To: trolley})
	d.prepare("tray-1", "C1", "")
	require.EqualValues(t, 1, d.holds(kitPlace("tray-1"), tube75, "X9"))
	require.EqualValues(t, 1, d.holds(trolley, tube75, "X9"))
	k := d.v.Ledger.Kit("tray-1", 0)
	require.Equal(t, kits.KitPrepared, k.State)
	require.Empty(t, k.Missing)
	require.False(t, k.TwoPeople)
	require.ErrorIs(t, d.refused(CheckKit{Kit: "tray-1", CheckedBy: "C1"}), ErrSameTag)
	require.Contains(t, d.found(), kits.KitUnchecked)
	d.do(CheckKit{Kit: "tray-1", CheckedBy: "R2"})
	require.Empty(t, d.found())
	d.do(SealKit{Kit: "tray-1", Seal: "4711"})
	k = d.v.Ledger.Kit("tray-1", 20270101)
	require.True(t, k.Ready())
	require.EqualValues(t, 20310331, k.Expiry, "the month's last day")
	d.do(HoldLot{Item: tube75, Lot: "X9", Held: true, Why: "recalled"})
	require.False(t, d.v.Ledger.Kit("tray-1", 20270101).Ready())
	f, err := d.v.FillKit("tray-1", DemoTemplate)
	require.NoError(t, err)
	require.Len(t, f.Leave, 1, "what is held back does not stay in use")
	d.do(HoldLot{Item: tube75, Lot: "X9"})
	require.True(t, d.v.Ledger.Kit("tray-1", 20270101).Ready(), "let go again")
}

// TestAKitGoesInsideAndAnotherIsTakenApart opens one kit for a case with what
// belongs inside, takes another apart, and counts the room: nothing is left in
// either, and all of the second is where it was kept.
func TestAKitGoesInsideAndAnotherIsTakenApart(t *testing.T) {
	d, of := filled(t)
	trolley := kits.Place{Sort: kits.Trolley, ID: "airway"}
	for _, kit := range []mesh.ID{"tray-1", "tray-2"} {
		d.prepare(kit, "C1", "R2")
		d.do(SealKit{Kit: kit, Seal: mesh.Label("seal of " + kit)})
	}
	had := d.v.Ledger.Held(trolley, tube75)
	d.do(OpenKit{Kit: "tray-1", Inside: true})
	k := d.v.Ledger.Kit("tray-1", 0)
	require.Equal(t, kits.KitOpened, k.State)
	require.Equal(t, of, k.Openings[0].Case)
	require.True(t, k.Openings[0].Whole)
	require.Empty(t, d.v.Ledger.BalancesAt(kitPlace("tray-1")))
	inside := kits.Place{Sort: kits.InRoom, ID: "A1"}
	require.EqualValues(t, 1, d.v.Ledger.Held(inside, tube75))
	d.do(BreakDown{Kit: "tray-2"})
	require.Empty(t, d.v.Ledger.BalancesAt(kitPlace("tray-2")))
	require.Equal(t, had+1, d.v.Ledger.Held(trolley, tube75))
	for _, act := range d.v.AcceptEnds("A1", of, d.v.Ledger.Proposal("A1")) {
		d.do(act)
	}
	require.Empty(t, d.v.Ledger.BalancesAt(inside))
	require.Empty(t, d.v.Ledger.Audit())
}

// TestWhatIsFetchedIsAtPar throws stock away, fetches the whole plan, orders
// and receives the rest: nothing is missing anywhere any more. Then a count finds
// one container fewer.
func TestWhatIsFetchedIsAtPar(t *testing.T) {
	d, _ := filled(t)
	trolley := kits.Place{Sort: kits.Trolley, ID: "airway"}
	d.do(Move{Movements: []kits.Moved{{
		From: trolley, To: kits.Place{Sort: kits.Wasted}, Lines: []kits.Line{kits.Containers(tube75, 3), kits.Containers(bougie, 4)}, Why: kits.WhyExpired,
	}}})
	q := kits.RestockQuestion{}
	plan := d.v.Ledger.Plan(q)
	require.True(t, plan.Missing())
	var all PickLines
	for _, g := range plan.Groups {
		all.Picks = append(all.Picks, g.Picks...)
	}
	for _, act := range all.Entries() {
		d.do(act)
	}
	plan = d.v.Ledger.Plan(q)
	require.Empty(t, plan.Groups)
	require.Len(t, plan.Orders, 2)
	for _, o := range plan.Orders {
		d.do(Order{Item: o.Item.Number, Count: o.Order, From: "supplier"})
		require.Equal(t, o.Order, d.v.Ledger.Outstanding(o.Item.Number))
		for _, f := range o.For {
			d.do(Receive{Item: o.Item.Number, Count: f.N, To: f.Place})
		}
	}
	require.False(t, d.v.Ledger.Plan(q).Missing())
	d.do(CountPlace{Place: trolley, Lines: []kits.Line{kits.Containers(tube75, 3)}})
	require.EqualValues(t, 3, d.v.Ledger.Held(trolley, tube75))
	require.True(t, d.v.Ledger.Plan(q).Missing())
	require.Empty(t, d.v.Ledger.Audit())
}

// TestAGreatKitIsPreparedInEntriesThatFit fills a kit from ten places with many
// long lots: every act fits one entry, and the kit holds all of it.
func TestAGreatKitIsPreparedInEntriesThatFit(t *testing.T) {
	d, _ := filled(t)
	great := PrepareKit{Kit: "great", Template: DemoTemplate, PreparedBy: "C1", CheckedBy: "R2"}
	for i := range 10 {
		take := kits.Moved{From: kits.Place{Sort: kits.Store, ID: mesh.ID(rune('a' + i))}}
		for k := range 6 {
			lot := mesh.Label(fmt.Sprintf("%d-%d-%0100d", i, k, 0))
			take.Lines = append(take.Lines, kits.Line{Item: tube75, Lot: lot, Quantity: kits.Quantity{N: 1, Measure: mesh.Each}})
		}
		great.Takes = append(great.Takes, take)
	}
	acts := great.Entries()
	require.Greater(t, len(acts), 1)
	for _, act := range acts {
		parts, err := Compose(d.v, mesh.Key{1}, mesh.Tap{1}, mesh.By{}, act)
		require.NoError(t, err)
		size := 0
		for _, p := range parts {
			size += len(p.Body)
		}
		require.Less(t, size, mesh.EntryLenMax-1024)
		d.do(act)
	}
	require.Len(t, d.v.Ledger.Kit("great", 0).Lines, 60)
	require.EqualValues(t, 60, d.v.Ledger.Held(kitPlace("great"), tube75))
}

// TestMistakesOfStockAreReversedAndSettled reverses a movement with a reason,
// and settles a hand-over that was ended differently.
func TestMistakesOfStockAreReversedAndSettled(t *testing.T) {
	d, of := filled(t)
	came := d.do(Receive{Item: tube75, Count: 9})
	trolley := kits.Place{Sort: kits.Trolley, ID: "airway"}
	require.ErrorIs(t, d.refused(Reverse{Movement: came}), ErrNoReason)
	require.ErrorIs(t, d.refused(Reverse{Movement: of, Why: "slip"}), ErrNoMovement)
	d.do(Reverse{Movement: came, Why: "counted twice"})
	require.EqualValues(t, 4, d.v.Ledger.Held(trolley, tube75))
	require.ErrorIs(t, d.refused(Reverse{Movement: came, Why: "again"}), ErrNothing)
	issue := d.do(IssueDrug{Thing: requests.Thing{Item: ketamine, Count: 2}, AtDoor: true, TakenBy: "R1"})
	passed := issue.Sibling(2)
	require.ErrorIs(t, d.refused(Settle{HandOver: came, Taken: []int64{1}}), ErrNoHandOver)
	require.ErrorIs(t, d.refused(Settle{HandOver: passed, Taken: []int64{1, 2}}), ErrCount)
	for _, n := range []int64{2, 1, 2} {
		d.do(Settle{HandOver: passed, Taken: []int64{n}})
	}
	h, known := d.v.Ledger.HandOver(passed)
	require.True(t, known)
	require.Equal(t, kits.HandOverEnded, h.State)
	require.Equal(t, []int64{2}, h.Taken)
}

// TestActsOfStockThatNobodyCanMeanAreNotRecorded gives each act a slip.
func TestActsOfStockThatNobodyCanMeanAreNotRecorded(t *testing.T) {
	d, of := filled(t)
	d.prepare("tray-1", "C1", "R2")
	for _, c := range []struct {
		act  Act
		want error
	}{
		{PrepareKit{Template: DemoTemplate}, ErrNoKit},
		{PrepareKit{Kit: "tray-2", Template: "none"}, ErrNoTemplate},
		{PrepareKit{Kit: "tray-2", Template: DemoTemplate}, ErrNothing},
		{CheckKit{Kit: "tray-2", CheckedBy: "R2"}, ErrNoKit},
		{CheckKit{Kit: "tray-1"}, ErrNoTag},
		{SealKit{Kit: "tray-1"}, ErrNoSeal},
		{SealKit{Kit: "tray-2", Seal: "1"}, ErrNoKit},
		{OpenKit{Kit: "tray-2"}, ErrNoKit},
		{BreakDown{Kit: "tray-2"}, ErrNoKit},
		{CountPlace{Whole: true}, ErrNoPlace},
		{CountPlace{Place: kits.Place{Sort: kits.Store}}, ErrNothing},
		{AcceptCount{}, ErrNothing},
		{PickLines{}, ErrNothing},
		{Order{Item: 7, Count: 1}, ErrNoItem},
		{Order{Item: tube75}, ErrCount},
		{Receive{Item: 7, Count: 1}, ErrNoItem},
		{Receive{Item: tube75}, ErrCount},
		{WriteLot{Lot: kits.LotLine{Item: tube75}}, ErrNoLot},
		{HoldLot{Item: tube75}, ErrNoLot},
		{HoldLot{Item: 7, Lot: "X"}, ErrNoItem},
		{SealWaste{Class: "none", Seal: "1"}, ErrNoWaste},
		{SealWaste{Class: "infectious"}, ErrNoSeal},
		{CloseIssue{Issue: of}, ErrNoIssue},
		{Witness{Tag: "O1"}, ErrNothing},
		{Witness{Tag: "O1", Movements: []mesh.Ref{of}}, ErrNoMovement},
		{IssueDrug{Request: of}, ErrNoRequest},
		{IssueDrug{Thing: requests.Thing{Item: ketamine}}, ErrCount},
		{GiveDrug{Portion: Portion{Item: ketamine}}, ErrCount},
		{GiveDrug{Portion: Portion{Item: bougie, VolumeUL: 5}}, ErrNoDrug},
		{GiveDrug{Portion: Portion{Syringe: of}}, ErrNoSyringe},
	} {
		require.ErrorIs(t, d.refused(c.act), c.want, "%T %+v", c.act, c.act)
	}
}
