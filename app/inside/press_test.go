package inside

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/mesh"
)

// Goal: a key asks as a tap does, and a place that is not there does nothing.
// Method: press places of the board and of the sets.
func TestAKeyPressesAPlaceOfTheBoard(t *testing.T) {
	s := newScene(t, look.Dark, windows()["tablet"])
	require.True(t, s.screen.Press(3))
	require.EqualValues(t, 1108, s.taps.acts[0].(station.Ask).Thing.Item)
	require.True(t, s.screen.Press(PlaceOfSets+3))
	require.Equal(t, s.screen.snap.Sets[3].Number, s.taps.acts[len(s.taps.acts)-1].(station.Ask).Thing.Item)
	require.False(t, s.screen.Press(0))
	require.False(t, s.screen.Press(PlaceOfSets+setsMax))
}

// Goal: a scanned label asks for nothing by itself: behind "drugs" it picks the
// drug, on the board it types the item's number. Method: give two items codes.
func TestALabelPicksAndAsksForNothing(t *testing.T) {
	const code = "09506000134352" // a number of the GS1 example range
	s := newScene(t, look.Dark, windows()["tablet"])
	snap := calm(t)
	drugsInside(&snap)
	at := slices.IndexFunc(snap.Items, func(i Item) bool { return i.Number == 3009 })
	snap.Items[at].Codes = []mesh.Label{code}
	s.screen.Set(snap)
	require.True(t, s.screen.Scanned("01"+code))
	require.Equal(t, "3009", s.screen.hand.digits)
	s.screen.show(pageDrugs)
	require.True(t, s.screen.Scanned("01"+code))
	require.Equal(t, using{item: 3009, whole: true}, s.screen.hand.using)
	require.False(t, s.screen.Scanned("nothing"))
	require.Empty(t, s.taps.acts)
}
