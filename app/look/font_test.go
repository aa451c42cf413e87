package look

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/words"
	"lintel/assets"
)

// Goal: nobody sees an empty box. Method: every character of every sentence,
// of every starter list, and those that screens put in themselves.
func TestTheFontHasEveryCharacterThatIsSaid(t *testing.T) {
	runes, err := ShippedRunes()
	require.NoError(t, err)
	w := words.English()
	require.NotEmpty(t, w.IDs())
	for _, id := range w.IDs() {
		require.Empty(t, string(runes.Missing(w.Say(id))), "%s", id)
	}
	for _, list := range [][]byte{assets.Catalogue(), assets.Bundles(), assets.Places(), assets.Roles(), assets.Rooms(), assets.Waste(), assets.DemoStock(),
		assets.Lists(), assets.Settings(), assets.TallMan(), assets.Labels(), assets.Layout()} {
		require.Empty(t, string(runes.Missing(string(list))))
	}
	require.Empty(t, string(runes.Missing("✓ → ← ↑ ↓ ≥ ≤ ± × − · • – — … µ μ ° ½ ₂ \u00a0 éüßøčžąłőşğıİ HYDROmorphone")))
}

// Goal: the check above can fail. Method: characters that the font lacks.
func TestAMissingCharacterIsNamedOnce(t *testing.T) {
	runes, err := ShippedRunes()
	require.NoError(t, err)
	require.Equal(t, []rune("☐漢"), runes.Missing("a☐b漢☐\n"))
}
