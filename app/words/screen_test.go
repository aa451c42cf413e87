package words

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestNumbersStayWithTheirMeasures joins them, and nothing else.
func TestNumbersStayWithTheirMeasures(t *testing.T) {
	for in, want := range map[string]string{
		"50 mg/mL, 10 mL": "50\u00a0mg/mL, 10\u00a0mL", "7.0": "7.0", "full, with regulator": "full, with regulator",
		"2 %, 5 mL": "2\u00a0%, 5\u00a0mL", "size 4": "size 4", "": "",
	} {
		require.Equal(t, want, Measured(in))
	}
}

// TestThingsAreSaidWithTheirCount words things, and shortens names only where
// that tells nothing apart.
func TestThingsAreSaidWithTheirCount(t *testing.T) {
	w := English()
	require.Equal(t, "2 × Ketamine 50 mg/mL", w.Thing(2, "Ketamine", "50 mg/mL"))
	require.Equal(t, "1 × Visor", w.Thing(1, "Visor", ""))
	require.Equal(t, "Tracheal tube", ShortName("Tracheal tube, cuffed", false))
	require.Equal(t, "Insulin, soluble", ShortName("Insulin, soluble", true))
	require.Equal(t, "50 mg/mL", FirstPart("50 mg/mL, 10 mL"))
	require.Equal(t, "at least 0:42", w.Ago("0:42", true))
}
