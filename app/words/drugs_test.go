package words

import (
	"bytes"
	"encoding/csv"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"lintel/assets"
)

// shortMax is how many letters a tile has for the class of a drug.
const shortMax = 15

// TestEveryClassOfDrugsHasAWord goes through the starter list of labels: each
// class has a word of its own, and one that is short enough for a tile.
func TestEveryClassOfDrugsHasAWord(t *testing.T) {
	w := English()
	rows, err := csv.NewReader(bytes.NewReader(assets.Labels())).ReadAll()
	require.NoError(t, err)
	seen := map[string]bool{}
	for _, r := range rows[1:] {
		require.True(t, w.Has(DrugClassID(r[0])), r[0])
		short := w.DrugClassShort(r[0])
		require.LessOrEqual(t, utf8.RuneCountInString(short), shortMax, short)
		require.False(t, seen[short] || seen[w.DrugClass(r[0])], short)
		seen[short], seen[w.DrugClass(r[0])] = true, true
	}
	require.Equal(t, "ours", w.DrugClass("ours"), "a class that a unit made")
	require.Equal(t, "ours", w.DrugClassShort("ours"))
}
