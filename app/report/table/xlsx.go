package table

import (
	"bytes"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"lintel/app/station"
)

// textFormat is the number of the format in which a cell holds text, whatever is
// typed into it.
const textFormat = 49

// XLSX writes all lists, each as a sheet. Every cell is text and stays text, so
// that nothing in it is counted, and no zero before a number goes. The same
// lists give the same bytes.
func XLSX(c station.Catalogue) ([]byte, error) {
	f := excelize.NewFile()
	defer func() { _ = f.Close() }() // nothing is left open: no temporary file is used
	text, err := f.NewStyle(&excelize.Style{NumFmt: textFormat})
	if err != nil {
		return nil, err
	}
	strong, err := f.NewStyle(&excelize.Style{NumFmt: textFormat, Font: &excelize.Font{Bold: true}})
	if err != nil {
		return nil, err
	}
	for i, s := range sheetsOf(c) {
		if i == 0 {
			err = f.SetSheetName(f.GetSheetName(0), s.name)
		} else {
			_, err = f.NewSheet(s.name)
		}
		if err == nil {
			err = fill(f, s, text, strong)
		}
		if err != nil {
			return nil, err
		}
	}
	out, err := f.WriteToBuffer()
	if err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// fill writes one sheet; its heading stays in sight.
func fill(f *excelize.File, s sheet, text, strong int) error {
	last := strings.TrimRight(cellName(len(s.rows[0])-1, 1), "1")
	if err := f.SetColStyle(s.name, "A:"+last, text); err != nil {
		return err
	}
	for i, row := range s.rows {
		if err := f.SetSheetRow(s.name, cellName(0, i+1), &row); err != nil {
			return err
		}
	}
	if err := f.SetCellStyle(s.name, "A1", last+"1", strong); err != nil {
		return err
	}
	return f.SetPanes(s.name, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"})
}

// xlsxGrids reads the sheets of a spreadsheet. What it says to hold, and where
// its formulas are, is looked at before the library sees it.
func (r *reading) xlsxGrids(file []byte) (grids []*grid) {
	u, ok := r.unpack(file)
	if !ok {
		return nil
	}
	parts, err := u.sheetParts()
	if err != nil || len(parts) == 0 {
		r.complain(Problem{ID: "no-spreadsheet"})
		return nil
	}
	defer func() {
		// The library is not ours, and what it reads comes from anywhere: a
		// fault in it is a fault of the file to whoever brought it.
		if recover() != nil {
			grids = nil
			r.complain(Problem{ID: "no-spreadsheet"})
		}
	}()
	f, err := excelize.OpenReader(bytes.NewReader(file), excelize.Options{
		RawCellValue: true, UnzipSizeLimit: UnpackedLenMax, UnzipXMLSizeLimit: UnpackedLenMax, // and never a temporary file
	})
	if err != nil {
		r.complain(Problem{ID: "no-spreadsheet"})
		return nil
	}
	defer func() { _ = f.Close() }() // it was only read
	seen := map[string]bool{}
	for _, name := range f.GetSheetList() {
		list := columnName(name)
		if !slices.Contains(Lists(), list) || seen[list] {
			r.complain(Problem{ID: "sheet-unknown", Blanks: []any{name, strings.Join(Lists(), ", ")}})
			continue
		}
		seen[list] = true
		if g := r.xlsxSheet(f, u, name, parts[name]); g != nil {
			grids = append(grids, g)
		}
	}
	return grids
}

// xlsxSheet reads one sheet; nil if it cannot be.
func (r *reading) xlsxSheet(f *excelize.File, u unpacked, name, part string) *grid {
	g := &grid{list: columnName(name)}
	cells, err := u.scan(part)
	if err != nil {
		r.complain(Problem{List: g.list, ID: "part", Blanks: []any{part}})
		return nil
	}
	if cells.beyond.row > 0 {
		r.complain(Problem{List: g.list, Row: cells.beyond.row, ID: "beyond", Blanks: []any{RowsMax, ColumnsMax}})
		return nil
	}
	rows, err := f.Rows(name)
	if err != nil {
		r.complain(Problem{List: g.list, ID: "part", Blanks: []any{part}})
		return nil
	}
	defer func() { _ = rows.Close() }() // it was only read
	for number := 1; rows.Next(); number++ {
		texts, err := rows.Columns()
		if err != nil || number > RowsMax+1 {
			r.complain(Problem{List: g.list, Row: number, ID: "part", Blanks: []any{part}})
			return nil
		}
		if g.heading == nil && number == 1 {
			g.heading = texts
			r.formulas(g, cells, rowRead{number: 1, cells: texts})
			continue
		}
		row := r.formulas(g, cells, rowRead{number: number, cells: texts})
		if !r.take(g, row, false) {
			return nil
		}
	}
	if len(cells.formulas) > 0 { // in a row that the library does not see
		r.complain(Problem{List: g.list, ID: "part", Blanks: []any{part}})
		return nil
	}
	if len(g.heading) == 0 {
		r.complain(Problem{List: g.list, ID: "no-heading"})
		return nil
	}
	return g
}

// formulas notes the formulas of a row and takes them off the list, and notes
// codes that are stored as numbers.
func (r *reading) formulas(g *grid, cells scanned, row rowRead) rowRead {
	for i := range ColumnsMax {
		at := position{row.number, i}
		isCode := i < len(g.heading) && columnName(g.heading[i]) == columnCodes
		p := Problem{List: g.list, Row: row.number, Column: cellName(i, row.number), Cell: cellName(i, row.number)}
		if i < len(g.heading) {
			p.Column = g.heading[i]
		}
		switch {
		case cells.formulas[at]:
			p.ID = "formula"
			delete(cells.formulas, at)
		case isCode && cells.numbers[at] && row.number > 1:
			p.ID = "code-number"
		default:
			continue
		}
		row.told, row.bad = append(row.told, i), true
		r.complain(p)
	}
	return row
}
