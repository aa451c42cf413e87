package table

import (
	"slices"

	"lintel/kits"
)

// Names of the lists.
const (
	Catalogue = "catalogue"
	Bundles   = "bundles"
	Templates = "templates"
	Places    = "places"
	Pars      = "pars"
)

// Lists names the lists in the order in which they are written.
func Lists() []string { return []string{Catalogue, Bundles, Templates, Places, Pars} }

// column is one column of a list whose rows are V.
type column[V any] struct {
	name  string
	write func(V) string
	read  func(*cell, *V)
	more  bool // a file may leave it out
}

// list is what one list looks like.
type list[V any] struct {
	name    string
	columns []column[V]
	keys    int      // how many of the first columns say which line it is
	passed  []string // columns that are known and not read
}

// shape is a list without its rows.
type shape struct {
	name           string
	must, may, not []string // columns
}

func (l list[V]) shape() shape {
	s := shape{name: l.name, not: l.passed}
	for _, c := range l.columns {
		if c.more {
			s.may = append(s.may, c.name)
		} else {
			s.must = append(s.must, c.name)
		}
	}
	return s
}

// knows tells whether a list may have a column.
func (s shape) knows(column string) bool {
	return slices.Contains(s.must, column) || slices.Contains(s.may, column) || slices.Contains(s.not, column)
}

// shapes are those of all lists.
func shapes() []shape {
	return []shape{itemList().shape(), bundleList().shape(), templateList().shape(), placeList().shape(), parList().shape()}
}

// texts are the cells of a row.
func (l list[V]) texts(v V) []string {
	out := make([]string, len(l.columns))
	for i, c := range l.columns {
		out[i] = c.write(v)
	}
	return out
}

// differ names the columns in which two rows differ.
func (l list[V]) differ(a, b V) (out []string) {
	for _, c := range l.columns {
		if c.write(a) != c.write(b) {
			out = append(out, c.name)
		}
	}
	return out
}

// flagColumn is a column of yes and no for one flag of an item.
func flagColumn(name string, f kits.Flags) column[kits.ItemLine] {
	return column[kits.ItemLine]{
		name:  name,
		write: func(v kits.ItemLine) string { return yesNo(v.Has(f)) },
		read: func(c *cell, v *kits.ItemLine) {
			v.Flags &^= f
			if c.yes() {
				v.Flags |= f
			}
		},
	}
}
