package report

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// keep writes a paper into the folder LINTEL_PICTURES, for people to look at.
func keep(t *testing.T, name string, paper []byte) {
	t.Helper()
	if dir := os.Getenv("LINTEL_PICTURES"); dir != "" {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), paper, 0o600))
	}
}

// textOf reads a paper as poppler-utils does, in the order of its content.
func textOf(t *testing.T, paper []byte) string {
	t.Helper()
	program, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext of poppler-utils is not here, so nothing apart from us reads the paper")
	}
	path := filepath.Join(t.TempDir(), "paper.pdf")
	require.NoError(t, os.WriteFile(path, paper, 0o600))
	out, err := exec.CommandContext(t.Context(), program, "-raw", path, "-").CombinedOutput()
	require.NoError(t, err, string(out))
	return string(out)
}

// unit is a device's view of a unit in which nothing was recorded.
func unit(t *testing.T) (station.View, station.Starter) {
	t.Helper()
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	return station.Read(mesh.GroupID{}, nil, nil, starter).View, starter
}

// learn records an act as a device's n-th entry.
func learn(t *testing.T, v station.View, n int, by mesh.By, act station.Act) mesh.Ref {
	t.Helper()
	self, tap := mesh.Key{1}, mesh.Tap{byte(n), byte(n >> 8)}
	parts, err := station.Compose(v, self, tap, by, act)
	require.NoError(t, err)
	at := mesh.Wall(1_790_000_000_000) + mesh.Wall(n)*60_000
	for i, p := range parts {
		f := mesh.Fact{Ref: mesh.MakeRef(self, tap, i), At: mesh.Order{Turn: mesh.Turn(n)}, Wall: at, By: by, Kind: p.Kind, Body: p.Body}
		v.Board.Add(f)
		v.Ledger.Add(f)
	}
	return mesh.MakeRef(self, tap, 1)
}

// Goal: whatever stands on the board stands on the card, at the same place with
// the same number, and another program reads it. Method: poppler's pdftotext
// over the starter card; each place's number, word, size and spoken number are
// looked for, and the sets with where they lie.
func TestTheCardHasEveryPlaceOfTheBoard(t *testing.T) {
	v, starter := unit(t)
	c := CardOf(v, starter)
	require.Len(t, c.Tiles, len(starter.Board.Tiles))
	require.Len(t, c.Sets, 4)
	paper, err := Card(words.English(), c)
	require.NoError(t, err)
	keep(t, "card.pdf", paper)
	text := strings.Join(strings.Fields(textOf(t, paper)), " ")
	for i, tile := range c.Tiles {
		b := starter.Board.Tiles[i]
		require.Equal(t, []any{b.Place, b.Word, b.Item}, []any{tile.Place, tile.Word, tile.Number})
		all := fmt.Sprintf("%d %d %s %s", tile.Place, tile.Number, tile.Word, strings.Replace(tile.Detail, ", ", " ", 1))
		require.Contains(t, text, strings.Join(strings.Fields(all), " ")) // spaces that hold a unit to its number are spaces
	}
	for _, set := range c.Sets {
		require.Contains(t, text, set.Name)
	}
	require.Contains(t, text, c.Name)
}

// Goal: the same card gives the same bytes, and another layout another card.
// Method: draw it twice; then accept a layout with two places swapped.
func TestTheSameCardHasTheSameBytes(t *testing.T) {
	v, starter := unit(t)
	w := words.English()
	one, err := Card(w, CardOf(v, starter))
	require.NoError(t, err)
	again, err := Card(w, CardOf(v, starter))
	require.NoError(t, err)
	require.Equal(t, one, again)

	layout := requests.Layout{Name: "ward layout 2026-11-25", Accepted: "C1"}
	for i, b := range starter.Board.Tiles {
		layout.Tiles = append(layout.Tiles, requests.Tile{Place: uint32(i + 1), Item: b.Item})
	}
	layout.Tiles[0].Item, layout.Tiles[1].Item = layout.Tiles[1].Item, layout.Tiles[0].Item
	learn(t, v, 1, mesh.By{Role: "charge", Tag: "C1"}, station.AcceptLayout{Layout: layout})
	c := CardOf(v, starter)
	require.Equal(t, starter.Board.Tiles[1].Item, c.Tiles[0].Number)
	require.Equal(t, mesh.Tag("C1"), c.By)
	other, err := Card(w, c)
	require.NoError(t, err)
	require.NotEqual(t, one, other)
	require.Contains(t, textOf(t, other), "accepted by C1")
}
