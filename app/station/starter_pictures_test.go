package station

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/assets"
	"lintel/kits"
	"lintel/mesh"
)

// Goal: nothing that is embedded has to be fetched, and no drug is led by a
// drawing: what an ampoule of it looks like differs from maker to maker.
// Method: read the starter lists; every hash is that of an embedded picture.
func TestStarterPicturesAreHeldByEveryDevice(t *testing.T) {
	s, err := ReadStarter()
	require.NoError(t, err)
	held, drawn := EmbeddedPictures(), 0
	for _, v := range s.Kits.Items {
		if v.Picture == (mesh.Hash{}) {
			require.True(t, v.Has(kits.IsDrug), "%d %s", v.Number, v.Name)
			continue
		}
		require.False(t, v.Has(kits.IsDrug), "%d %s", v.Number, v.Name)
		require.Contains(t, held, v.Picture)
		drawn++
	}
	require.Greater(t, drawn, 50)
	for _, v := range s.Kits.Places {
		if v.Place.Sort != kits.Supplier {
			require.Contains(t, held, v.Map, v.Name)
		}
	}
}

// Goal: a slip in the table is found at a start, with its row. Method: tables
// with one slip each.
func TestIllustrateNamesTheRowOfASlip(t *testing.T) {
	const head = "of,picture,source\n"
	for table, said := range map[string]string{
		"":                              "row 1",
		"of,picture\n":                  "row 1",
		head + "9999,tube,x\n":          "row 2: there is no item 9999",
		head + "117,nothing,x\n":        "row 2: there is no item 117, or no outline nothing",
		head + "store/none,main,x\n":    "row 2: there is no place",
		head + "store/main,nothing,x\n": "row 2: there is no place store/main, or no map nothing",
	} {
		d, err := kits.ReadDefaults(kits.Files{Catalogue: assets.Catalogue(), Places: assets.Places()})
		require.NoError(t, err)
		require.ErrorContains(t, illustrate(&d, []byte(table)), said, table)
	}
}
