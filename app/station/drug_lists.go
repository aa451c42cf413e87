package station

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"slices"
	"strings"

	"lintel/mesh"
	"lintel/requests"
)

// ErrDrugList says that a list of labels or spellings cannot be used; the text
// names the row.
var ErrDrugList = errors.New("the list of drug labels cannot be used")

// LabelColumns is the heading of the classes of drugs.
func LabelColumns() []string { return []string{"class", "colour", "stripes", "source"} }

// SpellingColumns is the heading of the tall-man tables.
func SpellingColumns() []string { return []string{"table", "name", "tall_man", "source"} }

// ReadLabels reads an RFC 4180 table of classes into lines of ListLabels.
func ReadLabels(b []byte) (out []requests.ListLine, err error) {
	err = readDrugRows(b, LabelColumns(), func(n int, cells []string) error {
		line := requests.ListLine{
			List: ListLabels, ID: mesh.ID(cells[0]), Words: mesh.Text(cells[1]), Place: uint32(n), Source: mesh.Label(cells[3]),
		}
		if _, ok := ParseColour(cells[1]); !ok {
			return fmt.Errorf("%q is no colour such as #ff9a3d", cells[1])
		}
		switch cells[2] {
		case "yes":
			line.Marks = LabelStriped
		case "no":
		default:
			return fmt.Errorf("%q is neither yes nor no", cells[2])
		}
		out = append(out, line)
		return mesh.Check(&line)
	})
	return out, err
}

// ReadSpellings reads an RFC 4180 table of names in tall-man letters into lines
// of ListSpelling. A spelling changes nothing but which letters are capitals,
// and never makes all of them so.
func ReadSpellings(b []byte) (out []requests.ListLine, err error) {
	err = readDrugRows(b, SpellingColumns(), func(n int, cells []string) error {
		name, tall := cells[1], cells[2]
		switch {
		case cells[0] == "" || name == "":
			return errors.New("no table or no name")
		case !strings.EqualFold(name, tall):
			return fmt.Errorf("%q is another word than %q", tall, name)
		case tall == strings.ToUpper(tall):
			return fmt.Errorf("%q is all capitals", tall)
		}
		line := requests.ListLine{
			List: ListSpelling + mesh.ID(cells[0]), ID: SpellingID(name), Words: mesh.Text(tall), Place: uint32(n), Source: mesh.Label(cells[3]),
		}
		out = append(out, line)
		return mesh.Check(&line)
	})
	return out, err
}

// readDrugRows gives each row behind the heading to read, with its number from 1.
func readDrugRows(b []byte, columns []string, read func(n int, cells []string) error) error {
	rows, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
	if err != nil {
		return fmt.Errorf("%w: %v", ErrDrugList, err)
	}
	if len(rows) == 0 || !slices.Equal(rows[0], columns) {
		return fmt.Errorf("%w: row 1 must be %s", ErrDrugList, strings.Join(columns, ","))
	}
	for i, cells := range rows[1:] {
		err := read(i+1, cells)
		if err == nil && cells[len(cells)-1] == "" {
			err = errors.New("it has no source")
		}
		if err != nil {
			return fmt.Errorf("%w: row %d: %v", ErrDrugList, i+2, err)
		}
	}
	return nil
}
