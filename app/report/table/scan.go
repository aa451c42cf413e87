package table

import (
	"encoding/xml"
	"errors"
	"strconv"
	"strings"
)

// position is a cell by numbers: row from 1, column from 0.
type position struct{ row, column int }

// scanned is what must be known of a sheet before its values are read.
type scanned struct {
	formulas map[position]bool
	numbers  map[position]bool // stored as numbers, not as text
	beyond   position          // the first cell that lies outside the limits; row 0: none
}

// errBeyond ends a scan at the first cell outside the limits.
var errBeyond = errors.New("a cell lies beyond the limits")

// scan reads the cells of a sheet without their values. Rows and cells must come
// in their order: what the library would make of others is not known.
func (u unpacked) scan(part string) (scanned, error) {
	s := scanned{formulas: map[position]bool{}, numbers: map[position]bool{}}
	at := position{column: -1}
	kind := ""
	err := u.each(part, func(e xml.StartElement) error {
		switch e.Name.Local {
		case "row":
			next := position{at.row + 1, -1}
			if n, err := strconv.Atoi(attribute(e, "r")); err == nil {
				next.row = n
			}
			if next.row <= at.row {
				return errPart
			}
			at = next
		case "c":
			next := position{at.row, at.column + 1}
			if there, ok := positionOf(attribute(e, "r")); ok {
				next = there
			}
			if next.row != at.row || next.column <= at.column {
				return errPart
			}
			at, kind = next, attribute(e, "t")
		case "f":
			s.formulas[at] = true
		case "v":
			if kind == "" || kind == "n" {
				s.numbers[at] = true
			}
		}
		if at.row > RowsMax+1 || at.column >= ColumnsMax {
			s.beyond = at
			return errBeyond
		}
		return nil
	})
	if errors.Is(err, errBeyond) {
		err = nil
	}
	return s, err
}

// positionOf reads C7.
func positionOf(name string) (p position, ok bool) {
	digits := strings.TrimLeft(name, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
	letters := name[:len(name)-len(digits)]
	if letters == "" || len(letters) > 3 {
		return p, false
	}
	for _, l := range letters {
		p.column = p.column*26 + int(l-'A') + 1
	}
	p.column--
	n, err := strconv.Atoi(digits)
	p.row = n
	return p, err == nil && n > 0
}
