package station

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"slices"
	"strconv"

	"lintel/mesh"
)

// BoardTile is one place of the board inside. Places are learned by hands: a
// place keeps its number on every screen and on the printed card.
type BoardTile struct {
	Place int
	Item  mesh.Number
	Word  string // what stands on the tile, as on the card
}

// BoardLayout is a numbered, dated list of places.
type BoardLayout struct {
	Name  string // with its date, as on the printed card
	Tiles []BoardTile
}

// ErrLayout says that a layout cannot be used; the text names the row.
var ErrLayout = errors.New("the layout cannot be used")

// LayoutColumns is the heading of a layout.
func LayoutColumns() []string { return []string{"layout", "place", "item", "word", "source"} }

// ReadLayout reads an RFC 4180 table of places, in the order of their numbers
// from 1 without gaps.
func ReadLayout(b []byte) (out BoardLayout, err error) {
	rows, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
	if err != nil {
		return out, fmt.Errorf("%w: %v", ErrLayout, err)
	}
	if len(rows) < 2 || !slices.Equal(rows[0], LayoutColumns()) {
		return out, fmt.Errorf("%w: it begins with %v and has places", ErrLayout, LayoutColumns())
	}
	for i, cells := range rows[1:] {
		item, err := strconv.ParseUint(cells[2], 10, 32)
		switch {
		case cells[1] != strconv.Itoa(i+1):
			return out, fmt.Errorf("%w: row %d: place %q, not %d", ErrLayout, i+2, cells[1], i+1)
		case err != nil || !mesh.DammFits(cells[2]):
			return out, fmt.Errorf("%w: row %d: %q is no spoken number", ErrLayout, i+2, cells[2])
		case cells[3] == "" || cells[0] == "" || i > 0 && cells[0] != out.Name:
			return out, fmt.Errorf("%w: row %d: a place has a word, and all have the same layout", ErrLayout, i+2)
		}
		out.Name = cells[0]
		out.Tiles = append(out.Tiles, BoardTile{Place: i + 1, Item: mesh.Number(item), Word: cells[3]})
	}
	return out, nil
}
