package kits

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: what no body may say is refused before it is written, by the same check
// as after it was read. Method: one body for each bound, just outside it.
func TestBodiesOutsideTheirBoundsAreNotWritten(t *testing.T) {
	none := []Line{{Item: tube, Quantity: Quantity{0, mesh.Each}}}
	for name, bad := range map[string]any{
		"a movement from nowhere":        &Moved{To: store, Lines: []Line{Containers(tube, 1)}},
		"a movement to where it is":      &Moved{From: store, To: store, Lines: []Line{Containers(tube, 1)}},
		"a movement without a line":      &Moved{From: store, To: trolley},
		"a movement of nothing":          &Moved{From: store, To: trolley, Lines: none},
		"a hand-over that leads nowhere": &Moved{From: store, To: doorA1, Lines: []Line{Containers(tube, 1)}},
		"a movement that leads on":       &Moved{From: store, To: trolley, Then: insideA1, Lines: []Line{Containers(tube, 1)}},
		"a derived place":                &Moved{From: store, To: Place{DrawnOff, "A1"}, Lines: []Line{Containers(tube, 1)}},
		"too much":                       &Moved{From: store, To: trolley, Lines: []Line{Containers(tube, QuantityMax+1)}},
		"less than nothing":              &Moved{From: store, To: trolley, Lines: []Line{Containers(tube, -1)}},
		"a line without an item":         &Moved{From: store, To: trolley, Lines: []Line{Containers(0, 1)}},
		"a quantity without a measure":   &Moved{From: store, To: trolley, Lines: []Line{{Item: tube, Quantity: Quantity{1, 0}}}},
		"less than none taken":           &Ended{Taken: []int64{-1}},
		"an empty syringe":               &DrawnUp{At: insideA1, Lines: []Line{Containers(ampoule, 1)}, Item: ampoule},
		"a syringe of nothing":           &DrawnUp{At: insideA1, Item: ampoule, Amount: Quantity{1, mesh.Microgram}},
		"a leaving of nothing":           &LeftWith{From: insideA1, Lines: none},
		"an unknown grade":               &Witnessed{Grade: 5},
		"unknown flags":                  &ItemLine{Exit: Discard, Flags: 1 << 9},
		"an unknown exit":                &ItemLine{Exit: 5},
		"a negative volume":              &ItemLine{Exit: Discard, VolumeUL: -1},
		"an unknown way":                 &LotLine{How: 3},
		"a negative par":                 &ParLine{Par: -1},
		"too large an order":             &Ordered{Count: PiecesMax + 1},
		"a negative box":                 &WasteBox{LitresT: -1},
		"a negative bundle line":         &BundleLine{Lines: []TemplateLine{{Count: -1}}},
	} {
		_, err := mesh.Encode(bad)
		require.ErrorIs(t, err, mesh.ErrRange, name)
	}
}

// Goal: what others build on gives bodies that count. Method: take everything
// of a hand-over, waste an ampoule and witness it by what its view gives.
func TestMadeBodiesCount(t *testing.T) {
	p := pens(t, 2)
	stocked := p[0].write(stock(store, ampoule, 2))
	m := PutAtDoor(store, "A1", []Line{Containers(ampoule, 2)}, mesh.Ref{}, mesh.Ref{})
	put := p[0].write(&m)
	in := p[1].write(body(TakenIn(put.Ref, m.All())))
	waste := p[1].write(&Moved{From: insideA1, To: Place{Wasted, "A1"}, Lines: []Line{Containers(ampoule, 1)}})
	l := fold(t, stocked, put, in, waste)
	require.Equal(t, []FindingID{Unwitnessed}, ids(l.Audit()))
	v, _ := l.Movement(waste.Ref)
	l = fold(t, stocked, put, in, waste, p[0].write(body(v.Witness("T1", OwnDevice))))
	require.Empty(t, l.Audit())
	require.EqualValues(t, 1, l.Held(insideA1, ampoule))
}

// Goal: asking for what is not there gives nothing. Method: ask an empty ledger.
func TestAnEmptyLedgerHoldsNothing(t *testing.T) {
	l := fold(t)
	r := mesh.MakeRef(mesh.Key{1}, mesh.Tap{1}, 0)
	_, ok := l.HandOver(r)
	require.False(t, ok)
	_, ok = l.Movement(r)
	require.False(t, ok)
	_, ok = l.Issue(r)
	require.False(t, ok)
	require.Zero(t, l.Balance(each(store, tube)))
	require.True(t, l.LastCount(store).IsZero())
	require.Empty(t, l.Witnesses(r))
	require.Empty(t, l.Counts(store))
	require.Empty(t, l.Balances())
	require.Empty(t, l.Audit())
}
