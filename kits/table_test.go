package kits

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

const goodRow = "1007,Tube,airway,7.5,each,,,single,no,no,no,no,,,discard,,trolley/airway,drawer 2,,memory"

func catalogueOf(rows ...string) []byte {
	return []byte(strings.Join(CatalogueColumns(), ",") + "\n" + strings.Join(rows, "\n") + "\n")
}

// badLists are catalogues that cannot be used, and what the error must say.
// The fuzz target begins with them.
func badLists() map[string][]byte {
	change := func(old, new string) []byte { return catalogueOf(strings.Replace(goodRow, old, new, 1)) }
	return map[string][]byte{
		"row 1 must be":                  []byte("number,name\n1007,Tube\n"),
		"row 2, column number: \"1008\"": change("1007", "1008"),
		"row 3, column number":           catalogueOf(goodRow, goodRow),
		"column number: \"07\"":          change("1007", "07"),
		"column name: it is empty":       change("Tube", ""),
		"column name: \"TUBE\" is all":   change("Tube", "TUBE"),
		"column group":                   change("airway", "air way"),
		"column measure":                 change("each", "box"),
		"column use":                     change("single", "twice"),
		"column controlled":              change("single,no", "single,maybe"),
		"column exit:":                   change("discard", "burn"),
		"column exit_days":               change("discard,", "discard,-1"),
		"column kept_at":                 change("trolley/airway", "attic/left"),
		"column alternatives":            change("drawer 2,", "drawer 2,1008"),
		"column source: it is empty":     change("memory", ""),
		"column content":                 change("airway,7.5", "drug,7.5"),
		"column content: \"5 mg\"":       change("each,,", "each,5 mg,"),
		"row 2: ":                        catalogueOf("1007,Tube"),
		"row 2: record on line 2":        catalogueOf("1007,Tube"),
	}
}

// Goal: a list that cannot be used says where. Method: one fault in each list;
// the error is ErrList and names row and column.
func TestListErrorsNameRowAndColumn(t *testing.T) {
	items, err := ReadCatalogue(catalogueOf(goodRow))
	require.NoError(t, err)
	require.Equal(t, []ItemLine{{
		Number: tube, Name: "Tube", Group: "airway", Detail: "7.5", Stocked: mesh.Each, Exit: Discard,
		KeptAt: trolley, KeptWords: "drawer 2", Source: "memory",
	}}, items)
	for want, b := range badLists() {
		_, err := ReadCatalogue(b)
		require.ErrorIs(t, err, ErrList)
		require.ErrorContains(t, err, want)
	}
}

// Goal: bundles are one thing each. Method: rows of a bundle that are apart or
// describe it in two ways are refused with the row.
func TestBundleRowsBelongTogether(t *testing.T) {
	head := strings.Join(BundleColumns(), ",") + "\n"
	row := "229,Set B,b,trolley/rescue,left,1007,1,inside,memory\n"
	other := "335,Set C,c,trolley/rescue,middle,1007,1,inside,memory\n"
	got, err := ReadBundles([]byte(head + row + strings.Replace(row, "1007,1", "3001,2", 1) + other))
	require.Error(t, err, "3001 has a wrong check digit")
	require.Empty(t, got[1:])
	got, err = ReadBundles([]byte(head + row + strings.Replace(row, "1007,1", "1010,2", 1) + other))
	require.NoError(t, err)
	require.Len(t, got, 2)
	require.Equal(t, []TemplateLine{{1007, 1, "inside"}, {1010, 2, "inside"}}, got[0].Lines)
	for want, rows := range map[string]string{
		"row 4, column number":                  row + other + row,
		"row 3, column name":                    row + strings.Replace(row, "left", "right", 1),
		"row 2, column count: it is 0":          strings.Replace(row, ",1,inside", ",0,inside", 1),
		"row 2, column where: \"under\"":        strings.Replace(row, ",1,inside", ",1,under", 1),
		"row 2, column lies_words: it is empty": strings.Replace(row, "left", "", 1),
	} {
		_, err := ReadBundles([]byte(head + rows))
		require.ErrorIs(t, err, ErrList)
		require.ErrorContains(t, err, want)
	}
}

// Goal: lists that name what is in no list are refused. Method: an unknown
// alternative, waste class, bundle item and par item.
func TestListsMustFitTogether(t *testing.T) {
	catalogue := catalogueOf(goodRow)
	waste := []byte(strings.Join(WasteColumns(), ",") + "\nsharps,eu,18 01 01,Sharps,memory\n")
	for want, f := range map[string]Files{
		"alternative 1010": {Catalogue: catalogueOf(strings.Replace(goodRow, "drawer 2,", "drawer 2,1010", 1))},
		"waste class":      {Catalogue: catalogueOf(strings.Replace(goodRow, "no,,,discard", "no,,odd,discard", 1)), Waste: waste},
		"its item 1010": {Catalogue: catalogue, Bundles: []byte(strings.Join(BundleColumns(), ",") +
			"\n229,Set B,b,trolley/rescue,left,1010,1,inside,memory\n")},
		"par at store/main": {Catalogue: catalogue, Stock: []byte(strings.Join(StockColumns(), ",") + "\nstore/main,1010,4,4,memory\n")},
		"places":            {Catalogue: catalogue, Places: []byte("place\nx\n")},
	} {
		_, err := ReadDefaults(f)
		require.ErrorIs(t, err, ErrList)
		require.ErrorContains(t, err, want)
	}
}

// Goal: places are written and read in one form. Method: every sort that a body
// may name goes there and back; the two derived ones do not.
func TestPlacesAreWrittenAndReadInOneForm(t *testing.T) {
	sorts := 0
	for s := range PlaceSort(50) {
		for _, id := range []mesh.ID{"", "A1"} {
			p := Place{s, id}
			back, ok := ParsePlace(p.Words())
			require.Equal(t, s != 0 && p.Valid() == nil, ok, p.Words())
			if ok {
				require.Equal(t, p, back)
				sorts++
			}
		}
	}
	require.Equal(t, 2*16, sorts)
}

// Goal: opening stock fits into entries. Method: 250 lines at one place become
// three movements in the order of the list, each of which can be encoded.
func TestOpeningStockFitsIntoEntries(t *testing.T) {
	var lines []StockLine
	for i := range 250 {
		lines = append(lines, StockLine{Place: store, Item: mesh.Number(1000 + i), Opening: 3})
	}
	lines = append(lines, StockLine{Place: trolley, Item: tube, Opening: 0}, StockLine{Place: trolley, Item: saline, Opening: 1})
	got := Opening(lines)
	require.Len(t, got, 4)
	require.Len(t, got[0].Lines, LinesMax)
	require.Len(t, got[2].Lines, 50)
	require.Equal(t, trolley, got[3].To)
	for i := range got {
		b, err := mesh.Encode(&got[i])
		require.NoError(t, err)
		require.Less(t, len(b), mesh.EntryLenMax/2)
	}
}

// FuzzReadLists: no list from outside makes a reader panic, and what is read
// without an error can be encoded.
func FuzzReadLists(f *testing.F) {
	f.Add(catalogueOf(goodRow))
	for _, b := range badLists() {
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		if items, err := ReadCatalogue(b); err == nil {
			for _, i := range items {
				_, err := mesh.Encode(&i)
				require.NoError(t, err)
			}
		}
		for _, read := range []func([]byte) error{
			func(b []byte) error { _, err := ReadBundles(b); return err },
			func(b []byte) error { _, err := ReadPlaces(b); return err },
			func(b []byte) error { _, err := ReadStock(b); return err },
			func(b []byte) error { _, err := ReadWaste(b); return err },
		} {
			if err := read(b); err != nil {
				require.ErrorIs(t, err, ErrList)
			}
		}
	})
}
