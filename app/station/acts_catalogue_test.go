package station

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/kits"
	"lintel/mesh"
)

// catalogueOf is n par levels, and a bundle that is long by itself.
func catalogueOf(n int) (c Catalogue) {
	for i := range n {
		c.Pars = append(c.Pars, kits.ParLine{Place: kits.Place{Sort: kits.Store, ID: "main"}, Item: mesh.Number(100 + i), Par: 1})
	}
	long := kits.BundleLine{Number: 117, Name: "First tray", Words: mesh.Label(strings.Repeat("w", mesh.LabelLenMax))}
	for range 900 {
		long.Lines = append(long.Lines, kits.TemplateLine{Item: 1032, Count: 1, Where: kits.WhereInside})
	}
	c.Bundles = []kits.BundleLine{long}
	return c
}

// TestLinesAreDividedIntoEntriesThatFit divides a long bundle and many par
// levels: no line is lost, none is in two entries, and each entry can be made.
func TestLinesAreDividedIntoEntriesThatFit(t *testing.T) {
	v := empty(t)
	c := catalogueOf(50)
	entries := c.Entries()
	require.Len(t, entries, 1+(50+LinesMax-1)/LinesMax, "the long bundle is alone")
	var all []mesh.Number
	for i, act := range entries {
		learn(t, v, i+1, act)
		for _, p := range act.Pars {
			all = append(all, p.Item)
		}
		n := 0
		for _, p := range mustCompose(t, v, act) {
			n += len(p.Body)
		}
		require.Less(t, n, mesh.EntryLenMax)
	}
	require.Len(t, all, 50)
	require.True(t, slices.IsSorted(all) && len(slices.Compact(all)) == 50, "in their order")
	bundle, known := v.Ledger.Bundle(117)
	require.True(t, known)
	require.Len(t, bundle.Value.Lines, 900)
	require.False(t, bundle.TwoValues)
	require.Empty(t, Catalogue{}.Entries())
}

func mustCompose(t *testing.T, v View, act Act) []mesh.Part {
	t.Helper()
	parts, err := Compose(v, mesh.Key{1}, mesh.Tap{9}, mesh.By{}, act)
	require.NoError(t, err)
	return parts
}

// TestACatalogueLineReplacesWhatStandsThere writes every sort of line twice, one
// knowing of the other: the later one stands, alone, and the lists have it.
func TestACatalogueLineReplacesWhatStandsThere(t *testing.T) {
	v := empty(t)
	place := kits.Place{Sort: kits.Trolley, ID: "airway"}
	for n, name := range []mesh.Label{"first", "second"} {
		learn(t, v, n+1, Catalogue{
			Items:     []kits.ItemLine{{Number: 1032, Name: name, Stocked: mesh.Each, Exit: kits.Discard}},
			Bundles:   []kits.BundleLine{{Number: 117, Name: name}},
			Templates: []kits.Template{{ID: "tray", Name: name}},
			Places:    []kits.PlaceLine{{Place: place, Name: name}},
			Pars:      []kits.ParLine{{Place: place, Item: 1032, Par: int64(n)}},
		})
	}
	item, _ := v.Ledger.Item(1032)
	bundle, _ := v.Ledger.Bundle(117)
	template, _ := v.Ledger.Template("tray")
	named, _ := v.Ledger.Place(place)
	par, _ := v.Ledger.Par(place, 1032)
	for _, got := range []mesh.Label{item.Value.Name, bundle.Value.Name, template.Value.Name, named.Value.Name} {
		require.EqualValues(t, "second", got)
	}
	require.EqualValues(t, 1, par.Value.Par)
	require.Equal(t, []bool{false, false, false, false, false}, []bool{item.TwoValues, bundle.TwoValues, template.TwoValues, named.TwoValues, par.TwoValues})
	require.True(t, slices.ContainsFunc(v.Ledger.Places(), func(p kits.PlaceLine) bool { return p.Name == "second" }))
	require.Len(t, v.Ledger.Pars(), 1)
	_, err := Compose(v, mesh.Key{1}, mesh.Tap{1}, mesh.By{}, Catalogue{})
	require.ErrorIs(t, err, ErrNothing)
}
