package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestReconSaysWhatWrittenCasesSay works out the cases of controlled.json (own
// composition, beside the fold that they are written for) through the program
// and compares state and residual with what is written there.
func TestReconSaysWhatWrittenCasesSay(t *testing.T) {
	name := filepath.Join("..", "..", "kits", "testdata", "controlled.json")
	b, err := os.ReadFile(name)
	require.NoError(t, err)
	var file struct {
		Cases []struct {
			ID       string `json:"id"`
			State    string `json:"state"`
			Residual *int64 `json:"residual"`
		} `json:"cases"`
	}
	require.NoError(t, json.Unmarshal(b, &file))
	require.NotEmpty(t, file.Cases)
	code, out, errs := called(t, "recon", "-json", name)
	require.Equal(t, exitFine, code, errs)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	require.Len(t, lines, len(file.Cases))
	for i, want := range file.Cases {
		var got struct {
			Event, ID, State string
			Residual         int64
		}
		require.NoError(t, json.Unmarshal([]byte(lines[i]), &got))
		require.Equal(t, "recon", got.Event)
		require.Equal(t, want.ID, got.ID)
		if want.State != "" {
			require.Equal(t, want.State, got.State, want.ID)
		}
		if want.Residual != nil {
			require.Equal(t, *want.Residual, got.Residual, want.ID)
		}
	}
}

// TestAmountsAreReadAndSaid reads volumes as they are typed and says amounts as
// people read them.
func TestAmountsAreReadAndSaid(t *testing.T) {
	for text, want := range map[string]int64{
		"5 mL": 5_000, "0.25 mL": 250, "3.333 mL": 3_333, "100000 mL": 100_000_000,
		"0 mL": 0, "-1 mL": 0, "1e3 mL": 0, "1.2345 mL": 0, "5 ml": 0, "100001 mL": 0, "NaN mL": 0, "Inf mL": 0, "0x10 mL": 0, ". mL": 0,
	} {
		all, err := split(text)
		require.NoError(t, err)
		a := &arguments{words: all}
		ul, ok := a.volume()
		require.Equal(t, want, ul, text)
		require.Equal(t, want > 0, ok, text)
	}
	require.Equal(t, "-2.5", decimals(-2_500))
	require.Equal(t, "2031-03", day(20310300))
	require.Equal(t, "", day(0))
	for _, text := range []string{"2031", "20311301", "20310132", "x0310101"} {
		_, err := readDay(text)
		require.Error(t, err, text)
	}
}
