package kits_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/assets"
	"lintel/kits"
	"lintel/mesh"
)

func demoStock() []byte { return assets.DemoStock() }

// writer writes the facts of one device, each with the next turn.
type writer struct {
	t   testing.TB
	seq mesh.Seq
}

func (w *writer) fact(k mesh.Kind, body any) mesh.Fact {
	b, err := mesh.Encode(body)
	require.NoError(w.t, err)
	w.seq++
	key := mesh.Key{1}
	at := mesh.Order{Turn: mesh.Turn(w.seq), Feed: mesh.MakeFeed(key, mesh.Incarnation{}), Seq: w.seq}
	return mesh.Fact{Ref: mesh.MakeRef(key, mesh.Tap{byte(w.seq >> 8), byte(w.seq)}, 0), At: at, Kind: k, Body: b}
}

// Goal: the unit's own line stands over the starter line, two that do not know
// of each other are shown as two, a third that names both settles it, and the
// order of arrival does not matter. Method: every order of the three writes.
func TestUnitsOwnLineStandsOverTheStarterLine(t *testing.T) {
	w := &writer{t: t}
	line := func(detail mesh.Label, replaces ...mesh.Ref) mesh.Fact {
		return w.fact(kits.KindItemLine, &kits.ItemLine{
			Number: 1032, Name: "Tracheal tube", Detail: detail, Stocked: mesh.Each, Exit: kits.Discard, Replaces: replaces})
	}
	one, two := line("7.5 short"), line("7.5 long")
	three := line("7.5 soft", one.Ref, two.Ref)
	l := starterLedger(t)
	c, ok := l.Item(1032)
	require.True(t, ok)
	require.EqualValues(t, "7.5", c.Value.Detail)
	require.Empty(t, c.Writes)

	l.Add(two)
	l.Add(one)
	c, _ = l.Item(1032)
	require.EqualValues(t, "7.5 long", c.Value.Detail)
	require.True(t, c.TwoValues)
	require.Equal(t, []mesh.Ref{two.Ref, one.Ref}, c.Writes)

	for _, order := range [][]mesh.Fact{{one, two, three}, {three, one, two}, {two, three, one, three}} {
		l := starterLedger(t)
		for _, f := range order {
			l.Add(f)
		}
		c, _ := l.Item(1032)
		require.EqualValues(t, "7.5 soft", c.Value.Detail)
		require.False(t, c.TwoValues)
	}
}

// Goal: what is gone is not offered any more but still known. Method: a line and
// a bundle that the unit takes out of use.
func TestWhatIsGoneIsStillKnown(t *testing.T) {
	w := &writer{t: t}
	l := starterLedger(t)
	before, bundles := len(l.Items()), len(l.Bundles())
	l.Add(w.fact(kits.KindItemLine, &kits.ItemLine{Number: 1032, Name: "Tracheal tube", Stocked: mesh.Each, Exit: kits.Discard, Gone: true}))
	l.Add(w.fact(kits.KindBundleLine, &kits.BundleLine{Number: 335, Name: "Rescue set C", Gone: true}))
	require.Len(t, l.Items(), before-1)
	require.Len(t, l.Bundles(), bundles-1)
	require.Empty(t, l.Find("1032").Items)
	c, ok := l.Item(1032)
	require.True(t, ok)
	require.True(t, c.Value.Gone)
	_, ok = l.Item(999)
	require.False(t, ok)
}

// Goal: places, pars, waste, lots and quarantine are registers too. Method:
// write one of each and read it back; a held lot does not count for restock.
func TestOtherRegistersAreReadBack(t *testing.T) {
	w := &writer{t: t}
	l := starterLedger(t)
	p := kits.Place{Sort: kits.Trolley, ID: "airway"}
	for k, body := range map[mesh.Kind]any{
		kits.KindPlaceLine:  &kits.PlaceLine{Place: p, Name: "Blue trolley"},
		kits.KindParLine:    &kits.ParLine{Place: p, Item: 1032, Par: 6},
		kits.KindWasteLine:  &kits.WasteLine{Class: "sharps", Country: "eu", Code: "other", Name: "Sharps"},
		kits.KindLotLine:    &kits.LotLine{Item: 1032, Lot: "L1", Expiry: 20271231, How: kits.ByScanner},
		kits.KindQuarantine: &kits.Quarantine{Item: 1032, Lot: "L1", Held: true, Why: "recall"},
		kits.KindTemplate:   &kits.Template{ID: "tray", Name: "Tray"},
	} {
		l.Add(w.fact(k, body))
	}
	place, _ := l.Place(p)
	require.EqualValues(t, "Blue trolley", place.Value.Name)
	par, _ := l.Par(p, 1032)
	require.EqualValues(t, 6, par.Value.Par)
	waste, _ := l.Waste("sharps", "eu")
	require.EqualValues(t, "other", waste.Value.Code)
	lot, _ := l.Lot(1032, "L1")
	require.EqualValues(t, 20271231, lot.Value.Expiry)
	require.True(t, l.HeldBack(1032, "L1"))
	require.False(t, l.HeldBack(1032, ""))

	held := kits.Line{Item: 1032, Lot: "L1", Quantity: kits.Quantity{N: 9, Measure: mesh.Each}}
	l.Add(w.fact(kits.KindMoved, &kits.Moved{From: kits.Place{Sort: kits.Supplier}, To: p, Lines: []kits.Line{held}}))
	for _, r := range l.Restock(p) {
		if r.Item.Number == 1032 {
			require.Zero(t, r.Have)
			require.EqualValues(t, 6, r.Missing)
		}
	}
	require.EqualValues(t, 9, l.Held(p, 1032))
}
