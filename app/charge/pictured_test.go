package charge

import (
	"crypto/sha256"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/assets"
	"lintel/kits"
	"lintel/mesh"
)

// held are the pictures that a device has.
type held map[mesh.Hash][]byte

func (h held) Picture(x mesh.Hash) ([]byte, bool) { b, ok := h[x]; return b, ok }

// Goal: an item's page shows what it looks like and a place its shelves, where
// the device holds them, and the design is kept. Method: give the bougie an
// outline and the stores a map, and look on a desk and on a phone.
func TestAnItemShowsWhatItLooksLikeAndAPlaceItsShelves(t *testing.T) {
	outline, known := assets.Outline("tube")
	require.True(t, known)
	shelves, known := assets.ShelfMap("airway")
	require.True(t, known)
	u := busy(t)
	item, _ := u.Ledger.Item(bougie)
	item.Value.Picture = mesh.Hash(sha256.Sum256(outline))
	place, _ := u.Ledger.Place(trolley)
	place.Value.Map = mesh.Hash(sha256.Sum256(shelves))
	u.do(station.Catalogue{Items: []kits.ItemLine{item.Value}, Places: []kits.PlaceLine{place.Value}})
	for _, glass := range []string{"desk", "phone"} {
		s := newScene(t, glass, look.Dark, u, held{item.Value.Picture: outline, place.Value.Map: shelves})
		s.page(Wanted{Page: PageItem, Item: bougie})
		require.True(t, s.screen.parts.shown.Held())
		require.Empty(t, s.Audit())
		s.Draw("charge-" + glass + "-pictured-item-dark")
		s.page(Wanted{Page: PageForm, Form: FormPlace, Place: trolley})
		require.True(t, s.screen.parts.shown.IsMap())
		require.Empty(t, s.Audit())
		s.Draw("charge-" + glass + "-pictured-place-dark")
		s.page(Wanted{Page: PageCatalogue})
		require.False(t, s.screen.parts.shown.Held())
	}
}
