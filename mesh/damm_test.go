package mesh

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// Goal: the table is the published one. Method: its published example, the
// zero column, and the two properties that make it a check: every row and
// column holds each digit once, and the diagonal is zero.
func TestDammTableIsTheStandardOne(t *testing.T) {
	check, ok := Damm("572") // the worked example usually given with the table
	require.True(t, ok)
	require.Equal(t, byte('4'), check)
	require.True(t, DammFits("5724"))
	require.Len(t, dammTable, 100)
	for r := range 10 {
		row, column := map[byte]bool{}, map[byte]bool{}
		for c := range 10 {
			row[dammTable[r*10+c]], column[dammTable[c*10+r]] = true, true
		}
		require.Len(t, row, 10, "row %d", r)
		require.Len(t, column, 10, "column %d", r)
		require.Equal(t, byte('0'), dammTable[r*10+r], "diagonal %d", r)
	}
}

// Goal: no single wrong digit and no swap of neighbours passes. Method: brute
// force over all 1,000,000 six-digit codes, every position of the seven digits.
func TestDammFindsEverySlipOfSixDigitCodes(t *testing.T) {
	for n := range 1_000_000 {
		var code [7]byte
		body := fmt.Appendf(code[:0], "%06d", n)
		check, ok := Damm(string(body))
		if !ok {
			t.Fatalf("%s refused", body)
		}
		code[6] = check
		if !dammFits(code) {
			t.Fatalf("%s does not fit itself", code)
		}
		slipsFound(t, code)
	}
}

// slipsFound tries every single-digit error and every swap of neighbours.
func slipsFound(t *testing.T, code [7]byte) {
	for i := range code {
		wrong := code
		for d := byte('0'); d <= '9'; d++ {
			if wrong[i] = d; d != code[i] && dammFits(wrong) {
				t.Fatalf("%s passes for %s", wrong, code)
			}
		}
		if i == 0 || code[i] == code[i-1] {
			continue
		}
		swapped := code
		swapped[i], swapped[i-1] = code[i-1], code[i]
		if dammFits(swapped) {
			t.Fatalf("%s passes for %s", swapped, code)
		}
	}
}

func dammFits(code [7]byte) bool { return DammFits(string(code[:])) }

// Goal: rubbish has no check digit, and zeros in front change nothing, so that
// a number means the same however many digits it is shown with. Method: a table.
func TestDammRefusesWhatIsNotDigits(t *testing.T) {
	for _, s := range []string{"", "12a", "１２", "1 2", "-1", "12\n"} {
		_, ok := Damm(s)
		require.False(t, ok, "%q", s)
		require.False(t, DammFits(s), "%q", s)
	}
	require.False(t, DammFits("0"))
	plain, _ := Damm("572")
	padded, _ := Damm("000572")
	require.Equal(t, plain, padded)
}
