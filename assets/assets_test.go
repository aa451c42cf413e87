package assets

import (
	"bytes"
	"encoding/csv"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
)

func tables() map[string][]byte {
	return map[string][]byte{
		"catalogue": Catalogue(), "bundles": Bundles(), "places": Places(), "roles": Roles(),
		"pictures": Pictures(), "rooms": Rooms(), "waste": Waste(), "demo stock": DemoStock(), "layout": Layout(),
		"lists": Lists(), "settings": Settings(), "labels": Labels(), "tall man": TallMan(),
	}
}

// Goal: every starter line can be traced. Method: read each table as RFC 4180
// and look for a last column "source" that is never empty.
func TestEveryLineNamesItsSource(t *testing.T) {
	for name, b := range tables() {
		rows, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
		require.NoError(t, err, name)
		require.Greater(t, len(rows), 1, name)
		last := len(rows[0]) - 1
		require.Equal(t, "source", rows[0][last], name)
		for _, r := range rows[1:] {
			require.NotEmpty(t, r[last], "%s: %v", name, r)
		}
	}
}

// Goal: nobody takes demonstration lines for real ones. Method: each line of
// the two invented tables says so.
func TestDemonstrationLinesSayThatTheyAreInvented(t *testing.T) {
	for _, b := range [][]byte{Rooms(), DemoStock()} {
		rows, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
		require.NoError(t, err)
		for _, r := range rows[1:] {
			require.Contains(t, r[len(r)-1], "invented")
		}
	}
}

// Goal: roles are data that the program can read. Method: the six starter ids
// are there, and sides and abilities are words of the fixed set.
func TestRolesUseKnownSidesAndAbilities(t *testing.T) {
	rows, err := csv.NewReader(bytes.NewReader(Roles())).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"id", "name", "side", "abilities", "source"}, rows[0])
	var ids []string
	for _, r := range rows[1:] {
		ids = append(ids, r[0])
		require.Regexp(t, regexp.MustCompile(`^(inside|anteroom|outside)$`), r[2])
		require.Regexp(t, regexp.MustCompile(`^((ask|agree|fetch|observe|scribe|charge|lead)( |$))+$`), r[3])
	}
	require.Equal(t, []string{"lead", "assistant", "scribe", "runner", "observer", "charge"}, ids)
}

// Goal: the caller cannot change what is embedded. Method: scribble on a copy.
func TestCopiesAreTheCallersOwn(t *testing.T) {
	b := Catalogue()
	b[0] = '!'
	require.NotEqual(t, b[0], Catalogue()[0])
}
