package table

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// workbook is the starter lists as a spreadsheet after something was done to it.
func workbook(t testing.TB, do func(*excelize.File)) []byte {
	t.Helper()
	file, err := XLSX(Of(unit(t).Ledger))
	require.NoError(t, err)
	f, err := excelize.OpenReader(bytes.NewReader(file))
	require.NoError(t, err)
	defer func() { require.NoError(t, f.Close()) }()
	do(f)
	out, err := f.WriteToBuffer()
	require.NoError(t, err)
	return out.Bytes()
}

// claiming is a zip whose one part says that it unpacks to length bytes.
func claiming(t testing.TB, content []byte, length uint32) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	w, err := z.Create("xl/workbook.xml")
	require.NoError(t, err)
	_, err = w.Write(content)
	require.NoError(t, err)
	require.NoError(t, z.Close())
	b := out.Bytes()
	at := bytes.LastIndex(b, []byte("PK\x01\x02"))
	binary.LittleEndian.PutUint32(b[at+24:], length) // its uncompressed size in the directory
	return b
}

// Goal: a spreadsheet that cannot be used says every problem with its place and
// changes nothing. Method: the starter lists with formulas, codes stored as
// numbers, sheets and columns of other names, cells far away.
func TestBadSpreadsheetsSayWhereAndChangeNothing(t *testing.T) {
	must := func(err error) { require.NoError(t, err) }
	v := unit(t)
	before := v.Ledger.State()
	for _, x := range []struct {
		what string
		do   func(*excelize.File)
		says []string
	}{
		{"formulas", func(f *excelize.File) {
			must(f.SetCellFormula(Catalogue, "D5", "A1+1"))
			must(f.SetCellFormula(Places, "AA3", "1+1"))
		}, []string{
			"catalogue, row 5, column detail (D5): This is a formula. Put in what it gives; text that begins with = needs an apostrophe before it.",
			"places, row 3, column AA3 (AA3): This is a formula. Put in what it gives; text that begins with = needs an apostrophe before it.",
		}},
		{"a code that is a number", func(f *excelize.File) { must(f.SetCellInt(Catalogue, "V4", 12345678905)) }, []string{
			"catalogue, row 4, column codes (V4): The code is stored as a number, which loses zeros and long ends. Format the cell as text and put the code in again.",
		}},
		{"another sheet", func(f *excelize.File) { _, err := f.NewSheet("notes"); must(err) }, []string{
			"There is no list for the sheet notes, or it is there twice. The lists are: catalogue, bundles, templates, places, pars.",
		}},
		{"another column", func(f *excelize.File) { must(f.SetCellStr(Places, "B1", "called")) }, []string{
			"places, row 1, column called (B1): The list has no such column. It has: place name shelf gone.", "places: No column is headed name.",
		}},
		{"a row far below", func(f *excelize.File) { must(f.SetCellStr(Pars, "A30000", "x")) }, []string{
			"pars, row 30000: A cell lies beyond row 20000 or column 64. The sheet was not read.",
		}},
		{"a cell far to the right", func(f *excelize.File) { must(f.SetCellStr(Pars, "XFD2", "x")) }, []string{
			"pars, row 2: A cell lies beyond row 20000 or column 64. The sheet was not read.",
		}},
		{"a cell beside the list", func(f *excelize.File) { must(f.SetCellStr(Places, "F3", "see there")) }, []string{
			"places, row 3: The row has 6 cells, the heading 4.",
		}},
		{"an empty sheet", func(f *excelize.File) { must(f.DeleteSheet(Pars)); _, err := f.NewSheet(Pars); must(err) }, []string{
			"pars: There is no heading that can be read.",
		}},
	} {
		p := Read("unit.xlsx", workbook(t, x.do), v.Ledger)
		require.Equal(t, x.says, said(p), x.what)
		require.Zero(t, p.Write.Len(), x.what)
	}
	require.Equal(t, before, v.Ledger.State())
}

// Goal: what cannot be a spreadsheet is refused before anything is unpacked.
// Method: a claim of 2 GiB, a claim below what is there, old spreadsheets, files
// cut off at every length in steps, a part that is there twice.
func TestWhatClaimsTooMuchIsNotUnpacked(t *testing.T) {
	l := unit(t).Ledger
	tooMuch := fmt.Sprintf("The spreadsheet says that it unpacks to more than %d MiB, or to more than %d parts. It was not unpacked.", UnpackedLenMax>>20, PartsMax)
	require.Equal(t, []string{tooMuch}, said(Read("u.xlsx", claiming(t, []byte("<x/>"), 2<<30), l)))
	lies := "The part xl/workbook.xml of the spreadsheet cannot be unpacked or read, or is not as long as it says."
	require.Equal(t, []string{lies}, said(Read("u.xlsx", claiming(t, make([]byte, 1<<20), 100), l)))
	require.Equal(t, []string{lies}, said(Read("u.xlsx", claiming(t, []byte("<x/>"), 100), l)))
	require.Equal(t, []string{"The file is an old spreadsheet or has a password. Save it as XLSX without one."}, said(Read("u.xls", []byte(oleMark+"rest"), l)))

	file, err := XLSX(Of(l))
	require.NoError(t, err)
	for n := 4; n < len(file); n += max(1, len(file)/40) {
		require.Equal(t, []string{"The spreadsheet is cut off: its directory is missing. Copy it again."}, said(Read("u.xlsx", file[:n], l)), "%d of %d bytes", n, len(file))
	}
	var twice bytes.Buffer
	z := zip.NewWriter(&twice)
	for range 2 {
		w, err := z.Create("xl/workbook.xml")
		require.NoError(t, err)
		_, err = io.WriteString(w, "<workbook/>")
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	require.Equal(t, []string{"The spreadsheet holds its part xl/workbook.xml twice."}, said(Read("u.xlsx", twice.Bytes(), l)))
	require.Equal(t, []string{"The file begins like a spreadsheet and cannot be read as one."}, said(Read("u.xlsx", claiming(t, []byte("<x/>"), 4), l)))
}

// Goal: a spreadsheet is what people expect of one. Method: open what was
// written with the library: five sheets, every cell of the heading and below it
// text, codes with their zeros, also in cells that are still to be filled.
func TestEveryCellOfASpreadsheetIsText(t *testing.T) {
	file, err := XLSX(Of(unit(t).Ledger))
	require.NoError(t, err)
	f, err := excelize.OpenReader(bytes.NewReader(file))
	require.NoError(t, err)
	defer func() { require.NoError(t, f.Close()) }()
	require.Equal(t, Lists(), f.GetSheetList())
	for _, name := range []string{"A2", "G2", "V2", "V500"} {
		id, err := f.GetCellStyle(Catalogue, name)
		require.NoError(t, err)
		style, err := f.GetStyle(id)
		require.NoError(t, err)
		require.Equal(t, textFormat, style.NumFmt, name)
	}
	rows, err := f.GetRows(Catalogue)
	require.NoError(t, err)
	require.Equal(t, "number name group", strings.Join(rows[0][:3], " "))
	kind, err := f.GetCellType(Catalogue, "A2")
	require.NoError(t, err)
	require.Equal(t, excelize.CellTypeSharedString, kind)
}

// FuzzRead: whatever a file holds, reading it ends, plans nothing where there is
// a problem, and what it plans can be written and is then no difference any
// more. Method: bytes as they come; the seeds are the starter lists, every bad
// file and a spreadsheet.
func FuzzRead(f *testing.F) {
	for name, file := range starterFiles() {
		f.Add(name, file)
	}
	for _, x := range badFiles(f) {
		f.Add(x.name, x.file)
	}
	file, err := XLSX(Of(unit(f).Ledger))
	require.NoError(f, err)
	f.Add("unit.xlsx", file)
	f.Add("u.xlsx", claiming(f, []byte("<x/>"), 2<<30))
	f.Fuzz(func(t *testing.T, name string, file []byte) {
		v := unit(t)
		p := Read(name, file, v.Ledger)
		said(p)
		if len(p.Problems) > 0 {
			require.Zero(t, p.Write.Len())
			return
		}
		require.Equal(t, len(p.Changes), p.Write.Len())
		carryOut(t, v, 1, p.Write)
		require.Zero(t, Read(name, file, v.Ledger).Write.Len())
	})
}

// sheetAs is a spreadsheet whose one sheet, pars, has the given XML.
func sheetAs(t testing.TB, sheet []byte) []byte {
	t.Helper()
	f := excelize.NewFile()
	require.NoError(t, f.SetSheetName("Sheet1", Pars))
	plain, err := f.WriteToBuffer()
	require.NoError(t, err)
	in, err := zip.NewReader(bytes.NewReader(plain.Bytes()), int64(plain.Len()))
	require.NoError(t, err)
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, part := range in.File {
		r, err := part.Open()
		require.NoError(t, err)
		content, err := io.ReadAll(r)
		require.NoError(t, err)
		if part.Name == "xl/worksheets/sheet1.xml" {
			content = sheet
		}
		w, err := z.Create(part.Name)
		require.NoError(t, err)
		_, err = w.Write(content)
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return out.Bytes()
}

// sheets are the insides of sheets, with what is said of each.
func sheets() map[string][]string {
	heading := `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1">` +
		`<c r="A1" t="inlineStr"><is><t>place</t></is></c><c r="B1" t="inlineStr"><is><t>item</t></is></c><c r="C1" t="inlineStr"><is><t>par</t></is></c></row>`
	cell := `<c r="A2" t="inlineStr"><is><t>store/main</t></is></c>`
	broken := []string{"pars: The part xl/worksheets/sheet1.xml of the spreadsheet cannot be unpacked or read, or is not as long as it says."}
	return map[string][]string{
		heading + `<row r="2">` + cell + `<c r="B2"><v>1032</v></c><c r="C2"><v>4</v></c></row></sheetData></worksheet>`:          nil,
		heading + `<row r="2">` + cell + `<c r="C2"><v>4</v></c><c r="B2"><v>1032</v></c></row></sheetData></worksheet>`:          broken,
		heading + `<row r="9">` + cell + `</row></sheetData></worksheet>`:                                                         broken,
		heading + `<row r="1">` + cell + `</row></sheetData></worksheet>`:                                                         broken,
		heading + `<row r="2">` + cell + `<c r="B2"><f>A1</f><v>1032</v></c><c r="C2"><v>4</v></c></row></sheetData></worksheet>`: {"pars, row 2, column item (B2): This is a formula. Put in what it gives; text that begins with = needs an apostrophe before it."},
		heading + `<row r="2">` + cell: broken,
		`no markup`:                    {"pars: There is no heading that can be read."},
	}
}

// Goal: what a sheet is made of is looked at, whoever made it. Method: insides of
// sheets in order and out of order, with a formula, cut off.
func TestCellsOutOfOrderAreRefused(t *testing.T) {
	for inside, says := range sheets() {
		p := Read("unit.xlsx", sheetAs(t, []byte(inside)), unit(t).Ledger)
		require.Equal(t, says, said(p), inside)
		if says == nil {
			require.Len(t, p.Write.Pars, 1, "numbers in cells are read as what stands there")
		}
	}
}

// FuzzSheet: whatever the inside of a sheet is, reading it ends, and what it plans
// can be written. Method: bytes put into a spreadsheet that is whole otherwise.
func FuzzSheet(f *testing.F) {
	for inside := range sheets() {
		f.Add([]byte(inside))
	}
	f.Fuzz(func(t *testing.T, sheet []byte) {
		v := unit(t)
		p := Read("unit.xlsx", sheetAs(t, sheet), v.Ledger)
		if len(p.Problems) > 0 {
			require.Zero(t, p.Write.Len())
			return
		}
		carryOut(t, v, 1, p.Write)
	})
}
