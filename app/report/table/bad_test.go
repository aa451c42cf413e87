package table

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/unicode"

	"lintel/app/words"
	"lintel/assets"
)

// bad is a file that cannot be used, and what is said of it.
type bad struct {
	what string
	name string
	file []byte
	says []string // every problem, in order
}

// badFiles are CSV files of every sort that is refused.
func badFiles(t testing.TB) []bad {
	c := assets.Catalogue()
	head, _, _ := strings.Cut(string(c), "\n")
	tube := rowOf(t, c, "1032")
	at := func(column, cell string) string {
		return fmt.Sprintf("catalogue, row %d, column %s (%s%d): ", tube, column, cell, tube)
	}
	utf16, err := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().Bytes(c)
	require.NoError(t, err)
	whole := len(itemList().shape().must)
	return []bad{
		{"nothing", "catalogue.csv", nil, []string{"The file is empty."}},
		{"UTF-16", "catalogue.csv", utf16, []string{"The file is not in UTF-8, but looks like UTF-16. Save it as CSV in UTF-8."}},
		{"Latin-1", "catalogue.csv", changed(t, c, tube, "kept_words", "T\xfcr"), []string{at("kept_words", "R") + "The text is not in UTF-8."}},
		{"a line break in a cell", "catalogue.csv", changed(t, c, tube, "detail", "7.5\nlong"), []string{at("detail", "D") + "The text holds a character that is not shown, such as a line break."}},
		{"semicolons", "x.csv", []byte("place;item;par\nstore/main;1032;4\n"), []string{"The columns are divided by something else than commas. Save it as CSV with commas."}},
		{"another heading", "x.csv", []byte("a,b\n1,2\n"), []string{"The heading belongs to none of the lists: catalogue, bundles, templates, places, pars. Call the file like its list, or give it the columns of one."}},
		{"two columns missing", "catalogue.csv", []byte(strings.Replace(strings.Replace(head, ",waste", ",wasted", 1), ",source", "", 1) + "\n"), []string{
			"catalogue, row 1, column wasted (N1): The list has no such column. It has: number name group detail measure content volume_ul use controlled must_be_seen high_alert look_alike label_class waste exit exit_days kept_at kept_words alternatives source tall_man codes cost_minor currency mass_mg gone.",
			"catalogue: No column is headed waste.", "catalogue: No column is headed source.",
		}},
		{"a column twice", "pars.csv", []byte("place,item,par,item\nstore/main,1032,4,1032\n"), []string{"pars, row 1, column item (D1): The column is there twice, first at B1."}},
		{"a number twice", "catalogue.csv", append(bytes.Clone(c), []byte(lineOf(c, tube))...), []string{
			fmt.Sprintf("catalogue, row %d, column number (A%d): It is there already, in row %d.", 1+bytes.Count(c, []byte("\n")), 1+bytes.Count(c, []byte("\n")), tube),
		}},
		{"a wrong check digit", "catalogue.csv", changed(t, c, tube, "number", "1033"), []string{at("number", "A") + "1033 is not a spoken number: three to six digits, of which the last one must fit."}},
		{"a formula", "catalogue.csv", changed(t, c, tube, "detail", "=A1&B1"), []string{at("detail", "D") + "This is a formula. Put in what it gives; text that begins with = needs an apostrophe before it."}},
		{"cut off within quotes", "catalogue.csv", []byte(head + "\n" + `1032,"Tub`), []string{"catalogue, row 2: A quotation mark is missing or stands where none can, or the file is cut off. What follows was not read."}},
		{"cut off within a row", "catalogue.csv", []byte(head + "\n1032,Tube"), []string{fmt.Sprintf("catalogue, row 2: The row has 2 cells, the heading %d.", whole)}},
		{"several in one row", "catalogue.csv", changed(t, c, tube, "use", "twice", tube, "measure", "kg", tube, "exit", ""), []string{
			at("measure", "E") + "kg is none of each, microgram, microlitre, unit, micromole.", at("use", "H") + "twice is none of single, reprocessed, none.",
			at("exit", "O") + "The cell is empty.",
		}},
		{"what is in no list", "pars.csv", []byte("place,item,par\nstore/main,4105,4\nshelf,1032,\n"), []string{
			"pars, row 3, column place (A3): shelf is not a place such as trolley/airway.", "pars, row 3, column par (C3): The cell is empty.", "pars, row 2, column item (B2): There is no item 4105, neither in the file nor in the unit.",
		}},
		{"a code that two have", "catalogue.csv", codesFile(t, "0099|012345678905", "00012345678905"), []string{at(columnCodes, "V") + "The code 00012345678905 belongs to item 1029 already."}},
		{"a code with a slip", "catalogue.csv", codesFile(t, "", "00012345678906"), []string{at(columnCodes, "V") + "The last digit of the code 00012345678906 does not fit."}},
	}
}

// codesFile is a catalogue of two lines with barcodes.
func codesFile(t testing.TB, one, two string) []byte {
	file, err := CSV(Of(unit(t).Ledger), Catalogue, false)
	require.NoError(t, err)
	return changed(t, file, rowOf(t, file, "1029"), columnCodes, one, rowOf(t, file, "1032"), columnCodes, two)
}

func lineOf(file []byte, row int) string { return strings.Split(string(file), "\n")[row-1] + "\n" }

// Goal: a bad file says every problem with its place and changes nothing.
// Method: files of every sort that is refused, with what must be said of each.
func TestBadFilesSayWhereAndChangeNothing(t *testing.T) {
	for _, x := range badFiles(t) {
		v := unit(t)
		before := v.Ledger.State()
		p := Read(x.name, x.file, v.Ledger)
		require.Equal(t, x.says, said(p), x.what)
		require.Zero(t, p.Write.Len(), x.what)
		require.Empty(t, p.Changes, x.what)
		require.Equal(t, before, v.Ledger.State(), x.what)
	}
}

// Goal: 100,000 rows are bounded, and the limit is said. Method: a file of as
// many par levels, the same one again and again.
func TestTooManyRowsSayTheLimit(t *testing.T) {
	file := []byte("place,item,par\n" + strings.Repeat("store/main,1032,4\n", 100_000))
	p := Read("pars.csv", file, unit(t).Ledger)
	require.Equal(t, "pars, row 20002: There are more than 20000 rows. What follows was not read.", said(p)[0])
	require.Len(t, p.Problems, RowsMax, "and each row but the first is there twice")
	require.Zero(t, p.Write.Len())
	p = Read("pars.csv", bytes.Repeat([]byte("x"), FileLenMax+1), unit(t).Ledger)
	require.Equal(t, []string{"The file is too long: at most 16 MiB are read."}, said(p))
}

// Goal: a byte order mark is tolerated and said. Method: put one before the
// starter list.
func TestAByteOrderMarkIsSaid(t *testing.T) {
	p := Read("catalogue.csv", append([]byte(utf8Mark), assets.Catalogue()...), unit(t).Ledger)
	require.Empty(t, said(p))
	require.Equal(t, "The file begins with a byte order mark, which was passed over.", p.Notes[0].Say(words.English()))
}

// Goal: bundles and templates are checked row by row. Method: a file in which a
// bundle is torn apart, described in two ways, and holds what is in no list.
func TestRowsOfABundleAreHeldTogether(t *testing.T) {
	file := "number,name,rescue,lies_at,lies_words,item,count,where,source\n" +
		"229,Set B,b,trolley/rescue,left,1032,1,inside,x\n" +
		"229,Set C,b,trolley/rescue,left,4105,1,inside,y\n" +
		"335,Set C,c,,,1032,,,x\n" +
		"229,Set B,b,trolley/rescue,left,1029,1,inside,x\n" +
		"1032,Tube,,,,,,,x\n"
	require.Equal(t, []string{
		"bundles, row 3, column name (B3): The rows of one thing must say the same here as row 2.",
		"bundles, row 4, column count (G4): The cell is empty.",
		"bundles, row 4, column where (H4): The cell is empty.",
		"bundles, row 5, column number (A5): The rows of one thing must follow each other; it began in row 2.",
		"bundles, row 3, column item (F3): There is no item 4105, neither in the file nor in the unit.",
		"bundles, row 4, column lies_words (E4): A rescue set needs words that say where it lies.",
		"bundles, row 6, column number (A6): The catalogue has something else than a bundle under 1032.",
	}, said(Read("bundles.csv", []byte(file), unit(t).Ledger)))
}
