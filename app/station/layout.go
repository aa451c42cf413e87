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

// BoardLayout is the board as it stands: the layout that a named person
// accepted, else the starter one. A place shows the word that the starter layout
// has for its item, else the item's name.
func (v View) BoardLayout(starter BoardLayout) BoardLayout {
	accepted, stands := v.Board.Layout()
	if !stands || len(accepted.Tiles) == 0 {
		return starter
	}
	out := BoardLayout{Name: string(accepted.Name)}
	for _, t := range accepted.Tiles {
		item, _ := v.Ledger.Item(t.Item)
		word := string(item.Value.Name)
		for _, s := range starter.Tiles {
			if s.Item == t.Item {
				word = s.Word
			}
		}
		out.Tiles = append(out.Tiles, BoardTile{Place: int(t.Place), Item: t.Item, Word: word})
	}
	slices.SortStableFunc(out.Tiles, func(a, b BoardTile) int { return a.Place - b.Place })
	return out
}
