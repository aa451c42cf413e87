package look

import (
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// wide counts every character as one.
func wide(text string) float32 { return float32(utf8.RuneCountInString(text)) }

// Goal: text is broken where people would break it. Method: a table, with
// characters that are all one wide.
func TestTextWrapsAtSpacesAndTallManLetters(t *testing.T) {
	for _, c := range []struct {
		text  string
		width float32
		n     int
		rows  []string
	}{
		{"", 10, 2, nil},
		{"Bougie", 10, 2, []string{"Bougie"}},
		{"Tracheal tube, cuffed", 14, 2, []string{"Tracheal tube,", "cuffed"}},
		{"Tracheal tube, cuffed", 14, 1, []string{"Tracheal tube…"}},
		{"50\u00a0mg/mL, 10\u00a0mL", 10, 2, []string{"50\u00a0mg/mL,", "10\u00a0mL"}},
		{"HYDROmorphone", 10, 2, []string{"HYDRO-", "morphone"}},
		{"dexmedetomidine", 10, 2, []string{"dexmedeto-", "midine"}},
		{"dexmedetomidine", 10, 1, []string{"dexmedeto…"}},
		{"abcdef", 3, 2, []string{"ab…"}},
		{"two\nrows", 10, 2, []string{"two rows"}},
	} {
		require.Equal(t, c.rows, wrap(c.text, c.width, c.n, wide), "%q in %v", c.text, c.width)
	}
}

// Goal: nothing of a text gets lost unseen, and nothing is wider than its row.
// Method: random texts, widths and rows; put the rows together again.
func TestWrappedTextIsWholeOrSaysThatItIsCut(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for range 5000 {
		var text strings.Builder
		for range r.IntN(30) {
			text.WriteByte("abcDEF  "[r.IntN(8)])
		}
		width, n := float32(r.IntN(20)+1), r.IntN(4)+1
		rows := wrap(text.String(), width, n, wide)
		require.LessOrEqual(t, len(rows), n)
		for _, row := range rows {
			require.LessOrEqual(t, wide(row), width, "%q in %v", text.String(), width)
		}
		whole := strings.ReplaceAll(strings.Join(rows, ""), " ", "")
		wanted := strings.ReplaceAll(text.String(), " ", "")
		if strings.HasSuffix(whole, Cut) {
			require.True(t, strings.HasPrefix(wanted, strings.ReplaceAll(strings.TrimSuffix(whole, Cut), "-", "")), "%q: %q", text.String(), rows)
			continue
		}
		require.Equal(t, wanted, strings.ReplaceAll(whole, "-", ""), "%q in %v × %d", text.String(), width, n)
	}
}
