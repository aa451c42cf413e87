package table

import (
	"slices"
	"strings"
)

// grid is a list as it was found in a file, before any cell is read.
type grid struct {
	list    string
	heading []string
	rows    []*rowRead
	at      map[string]int // the columns that are read, and where they are
}

// rowRead is one row below the heading.
type rowRead struct {
	number int // as a spreadsheet counts
	cells  []string
	told   []int // cells of which a problem is noted already
	bad    bool  // something is wrong with it
}

// fresh is the grid as it was found, for one reading.
func (g *grid) fresh() *grid {
	c := &grid{list: g.list, heading: g.heading, rows: make([]*rowRead, len(g.rows))}
	for i, row := range g.rows {
		again := *row
		c.rows[i] = &again
	}
	return c
}

// take adds a row to a grid; false says that no more are taken. exact wants as
// many cells as the heading has.
func (r *reading) take(g *grid, row rowRead, exact bool) bool {
	empty := !slices.ContainsFunc(row.cells, func(c string) bool { return c != "" })
	if empty && len(row.told) == 0 {
		return true
	}
	if len(g.rows) == RowsMax {
		r.complain(Problem{List: g.list, Row: row.number, ID: "rows", Blanks: []any{RowsMax}})
		return false
	}
	over := len(row.cells) > len(g.heading) && slices.ContainsFunc(row.cells[len(g.heading):], func(c string) bool { return c != "" })
	if over || exact && len(row.cells) != len(g.heading) {
		r.complain(Problem{List: g.list, Row: row.number, ID: "cells", Blanks: []any{len(row.cells), len(g.heading)}})
		return true // nobody knows which cell belongs to which column
	}
	g.rows = append(g.rows, &row)
	return true
}

// readHeading finds the columns of a list and notes those that are missing,
// twice there or not known.
func (r *reading) readHeading(g *grid, s shape) {
	g.at = map[string]int{}
	if len(g.heading) > ColumnsMax {
		r.complain(Problem{List: g.list, Row: 1, ID: "columns", Blanks: []any{ColumnsMax}})
		return
	}
	var passed []string
	for i, h := range g.heading {
		name := columnName(h)
		where := Problem{List: g.list, Row: 1, Column: h, Cell: cellName(i, 1)}
		first, twice := g.at[name]
		switch {
		case name == "" && g.emptyBelow(i):
			continue
		case twice:
			where.ID, where.Blanks = "column-twice", []any{cellName(first, 1)}
			r.complain(where)
			continue
		case !s.knows(name):
			where.ID, where.Blanks = "column-unknown", []any{strings.Join(slices.Concat(s.must, s.may), " ")}
			r.complain(where)
			continue
		case slices.Contains(s.not, name):
			passed = append(passed, name)
		}
		g.at[name] = i
	}
	for _, name := range s.must {
		if _, there := g.at[name]; !there {
			r.complain(Problem{List: g.list, ID: "column-missing", Blanks: []any{name}})
		}
	}
	if len(passed) > 0 {
		r.note("passed-over", g.list, strings.Join(passed, ", "))
	}
}

// emptyBelow tells whether a column has nothing in it.
func (g *grid) emptyBelow(i int) bool {
	return !slices.ContainsFunc(g.rows, func(row *rowRead) bool { return i < len(row.cells) && row.cells[i] != "" })
}

// where is the place of one cell of a row.
func (g *grid) where(row *rowRead, column string) Problem {
	i, there := g.at[column]
	if !there {
		return Problem{List: g.list, Row: row.number}
	}
	return Problem{List: g.list, Row: row.number, Column: column, Cell: cellName(i, row.number)}
}

// placed is a line that was read, and where it stands.
type placed[V any] struct {
	row *rowRead
	v   V
}

// readRows reads the rows of a list. base gives what stands under the key of a
// row; columns that the file does not have stay as they are there. A row whose
// key cannot be read is left out.
func readRows[V any](r *reading, g *grid, l list[V], base func(V) V) (out []placed[V]) {
	for _, row := range g.rows {
		var v V
		keyed := true
		for i, c := range l.columns {
			if i == l.keys && keyed {
				v = base(v)
			}
			at, there := g.at[c.name]
			if !there || slices.Contains(row.told, at) {
				keyed = keyed && i >= l.keys
				continue
			}
			before := len(r.plan.Problems)
			one := &cell{at: g.where(row, c.name), file: r, row: row}
			if at < len(row.cells) {
				one.text = row.cells[at]
			}
			if r.readCell(one) {
				c.read(one, &v)
			}
			keyed = keyed && (i >= l.keys || len(r.plan.Problems) == before)
		}
		if keyed {
			out = append(out, placed[V]{row, v})
		}
	}
	return out
}

// readCell makes a cell's text ready; false says that it cannot be read.
func (r *reading) readCell(c *cell) bool {
	if !c.clean() {
		return false
	}
	if !r.guarded {
		return true
	}
	text, formula := unguard(c.text)
	if formula {
		c.bad("formula")
		return false
	}
	c.text = text
	return true
}
