package table

import (
	"fmt"

	"lintel/app/words"
)

// Problem is one thing for which a file cannot be used.
type Problem struct {
	List   string   // its name; empty: the whole file
	Row    int      // as a spreadsheet counts, the heading is 1; 0: the whole list
	Column string   // its name; empty: the whole row
	Cell   string   // as a spreadsheet calls it: C7; empty: the whole row
	ID     words.ID // of the sentence, without the "table." before it
	Blanks []any    // what the sentence needs
}

// Say tells where and what.
func (p Problem) Say(w words.Words) string {
	what := w.Say("table."+p.ID, p.Blanks...)
	switch {
	case p.List == "":
		return what
	case p.Row == 0:
		return w.Say("table.at-list", p.List, what)
	case p.Column == "":
		return w.Say("table.at-row", p.List, p.Row, what)
	}
	return w.Say("table.at-cell", p.List, p.Row, p.Column, p.Cell, what)
}

// Note is something that a reader tolerated or left out, and says.
type Note struct {
	ID     words.ID // of the sentence, without the "table." before it
	Blanks []any
}

// Say tells it.
func (n Note) Say(w words.Words) string { return w.Say("table."+n.ID, n.Blanks...) }

// cellName is how a spreadsheet calls a cell: column from 0, row from 1.
func cellName(column, row int) string {
	name := ""
	for column++; column > 0; column = (column - 1) / 26 {
		name = string(rune('A'+(column-1)%26)) + name
	}
	return fmt.Sprintf("%s%d", name, row)
}
