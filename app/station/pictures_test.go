package station

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/kits"
	"lintel/mesh"
)

// Goal: a picture changes nothing else of a line, is listed, and can be taken
// away; what does not exist gets none. Method: both acts on a device.
func TestPicturesOfItemsAndPlacesAreSetAndTakenAway(t *testing.T) {
	d, _ := opened(t)
	place := kits.Place{Sort: kits.Trolley, ID: "airway"}
	before, known := d.v.Ledger.Item(bougie)
	require.True(t, known)
	item, plan := mesh.Hash{1}, mesh.Hash{2}
	d.do(SetPicture{Item: bougie, Hash: item})
	d.do(SetMap{Place: place, Hash: plan})
	require.Subset(t, d.v.Pictures(), []mesh.Hash{item, plan})
	after, _ := d.v.Ledger.Item(bougie)
	require.Equal(t, item, after.Value.Picture)
	after.Value.Picture = before.Value.Picture
	require.Equal(t, bytesOf(t, before.Value), bytesOf(t, after.Value))
	at, _ := d.v.Ledger.Place(place)
	require.Equal(t, plan, at.Value.Map)
	require.NotEmpty(t, at.Value.Name)
	d.do(SetPicture{Item: bougie})
	d.do(SetMap{Place: place})
	require.NotContains(t, d.v.Pictures(), item)
	require.NotContains(t, d.v.Pictures(), plan)
	require.ErrorIs(t, d.refused(SetPicture{Item: 999_999}), ErrNoItem)
	require.ErrorIs(t, d.refused(SetMap{Place: kits.Place{Sort: kits.Store, ID: "none"}}), ErrNoPlace)
}

// Goal: only what can name a picture makes a device look for missing ones.
// Method: facts of both kinds.
func TestOnlyLinesOfItemsAndPlacesNamePictures(t *testing.T) {
	require.True(t, NamesPicture([]mesh.Fact{{Kind: kits.KindMoved}, {Kind: kits.KindPlaceLine}}))
	require.True(t, NamesPicture([]mesh.Fact{{Kind: kits.KindItemLine}}))
	require.False(t, NamesPicture([]mesh.Fact{{Kind: kits.KindMoved}}))
	require.False(t, NamesPicture(nil))
}

func bytesOf(t *testing.T, v kits.ItemLine) []byte {
	t.Helper()
	p, err := mesh.MakePart(kits.KindItemLine, &v)
	require.NoError(t, err)
	return p.Body
}
