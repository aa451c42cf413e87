package kits

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"lintel/mesh"
)

// ErrList says that a starter list cannot be used; the text names row and column.
var ErrList = errors.New("the list cannot be used")

// ListRowsMax bounds the rows of one starter list.
const ListRowsMax = 5000

// row is one row of a table, read by column name. The first complaint is kept.
type row struct {
	number int // as a spreadsheet counts, the heading is row 1
	cells  map[string]string
	err    error
}

// readTable reads an RFC 4180 table whose heading is exactly columns, and gives
// each row to read. It stops at the first complaint.
func readTable(b []byte, columns []string, read func(*row)) error {
	if len(b) == 0 {
		return nil
	}
	r := csv.NewReader(bytes.NewReader(b))
	head, err := r.Read()
	if err != nil || !slices.Equal(head, columns) {
		return fmt.Errorf("%w: row 1 must be %s", ErrList, strings.Join(columns, ","))
	}
	for n := 2; n <= ListRowsMax; n++ {
		cells, err := r.Read()
		if cells == nil && err != nil {
			return endOf(err, n)
		}
		if err != nil {
			return fmt.Errorf("%w: row %d: %v", ErrList, n, err)
		}
		x := &row{number: n, cells: map[string]string{}}
		for i, c := range cells {
			x.cells[columns[i]] = c
		}
		if read(x); x.err != nil {
			return x.err
		}
	}
	return fmt.Errorf("%w: more than %d rows", ErrList, ListRowsMax)
}

func endOf(err error, n int) error {
	if errors.Is(err, io.EOF) {
		return nil
	}
	return fmt.Errorf("%w: row %d: %v", ErrList, n, err)
}

// fail keeps the first complaint about a column.
func (x *row) fail(column, format string, args ...any) {
	if x.err == nil {
		x.err = fmt.Errorf("%w: row %d, column %s: %s", ErrList, x.number, column, fmt.Sprintf(format, args...))
	}
}

func (x *row) text(column string) string { return x.cells[column] }

// label is a line for people; must says that it may not be empty.
func (x *row) label(column string, must bool) mesh.Label {
	v := mesh.Label(x.text(column))
	if err := v.Valid(); err != nil {
		x.fail(column, "%v", err)
	}
	if must && v == "" {
		x.fail(column, "it is empty")
	}
	return v
}

func (x *row) id(column string, must bool) mesh.ID {
	v := mesh.ID(x.text(column))
	if err := v.Valid(); err != nil {
		x.fail(column, "%v", err)
	}
	if must && v == "" {
		x.fail(column, "it is empty")
	}
	return v
}

// whole is a number from 0 to high; an empty cell is 0.
func (x *row) whole(column string, high int64) int64 {
	if x.text(column) == "" {
		return 0
	}
	n, err := strconv.ParseInt(x.text(column), 10, 64)
	if err != nil || n < 0 || n > high {
		x.fail(column, "%q is not a number from 0 to %d", x.text(column), high)
		return 0
	}
	return n
}

// numbered is the spoken number in a column: its check digit must fit.
func (x *row) numbered(column string) mesh.Number { return x.spoken(column, x.text(column)) }

func (x *row) spoken(column, digits string) mesh.Number {
	n, ok := ParseNumber(digits)
	if !ok {
		x.fail(column, "%q is not a spoken number: the last digit does not fit", digits)
	}
	return n
}

func (x *row) yes(column string) bool {
	switch x.text(column) {
	case "yes":
		return true
	case "no":
	default:
		x.fail(column, "%q is neither yes nor no", x.text(column))
	}
	return false
}

// place is written sort/id, or the sort alone.
func (x *row) place(column string, must bool) Place {
	if x.text(column) == "" && !must {
		return Place{}
	}
	p, ok := ParsePlace(x.text(column))
	if !ok {
		x.fail(column, "%q is not a place such as trolley/airway", x.text(column))
	}
	return p
}

// ParseNumber reads a spoken number of three to six digits and checks its last one.
func ParseNumber(digits string) (mesh.Number, bool) {
	if len(digits) < 3 || len(digits) > 6 || digits[0] == '0' || !mesh.DammFits(digits) {
		return 0, false
	}
	n, err := strconv.ParseUint(digits, 10, 32)
	return mesh.Number(n), err == nil
}
