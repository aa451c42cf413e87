package table

import (
	"bytes"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/assets"
	"lintel/kits"
	"lintel/mesh"
)

// filesOf are a ledger's lists in every form in which they can be written.
func filesOf(t testing.TB, l *kits.Ledger) map[string][]byte {
	t.Helper()
	files := map[string][]byte{}
	for _, list := range Lists() {
		for _, harmless := range []bool{false, true} {
			b, err := CSV(Of(l), list, harmless)
			require.NoError(t, err)
			name := list + ".csv"
			if harmless {
				name = "harmless/" + name
			}
			files[name] = b
		}
	}
	b, err := XLSX(Of(l))
	require.NoError(t, err)
	files["unit.xlsx"] = b
	return files
}

// Goal: what was written out and comes back changes nothing. Method: random
// catalogues, texts with formulas and quotes among them, are written into a
// unit; every list of it is written in every form, and its dry run finds no
// problem and no difference.
func TestWhatWasWrittenOutComesBackUnchanged(t *testing.T) {
	for range 25 {
		seed := rand.Uint64()
		v := bare()
		c := random(rand.New(rand.NewPCG(seed, 1)))
		carryOut(t, v, 1, c)
		for name, file := range filesOf(t, v.Ledger) {
			p := Read(name, file, v.Ledger)
			require.Empty(t, said(p), "seed %d, %s", seed, name)
			require.Empty(t, p.Changes, "seed %d, %s", seed, name)
			require.Zero(t, p.Write.Len(), "seed %d, %s", seed, name)
		}
	}
}

// Goal: a unit can be made out of another one's files. Method: a spreadsheet of
// a random catalogue is carried out in a unit without lists, twice: then both
// write the same files, and the second time changes nothing.
func TestAnotherUnitIsMadeFromAFile(t *testing.T) {
	for range 10 {
		seed := rand.Uint64()
		one, other := bare(), bare()
		carryOut(t, one, 1, random(rand.New(rand.NewPCG(seed, 2))))
		files := filesOf(t, one.Ledger)
		p := Read("unit.xlsx", files["unit.xlsx"], other.Ledger)
		require.Empty(t, said(p), "seed %d", seed)
		for _, c := range p.Changes {
			require.True(t, c.New, "seed %d", seed)
		}
		require.Equal(t, len(p.Changes), p.Write.Len())
		carryOut(t, other, 2, p.Write)
		again := filesOf(t, other.Ledger)
		for _, list := range Lists() {
			require.Equal(t, string(files[list+".csv"]), string(again[list+".csv"]), "seed %d, %s", seed, list)
		}
		require.Zero(t, Read("unit.xlsx", files["unit.xlsx"], other.Ledger).Write.Len(), "seed %d", seed)
	}
}

// Goal: the starter lists are files of this sort. Method: read each over the unit
// that stands on them; nothing differs. A stock list gives par levels.
func TestTheStarterListsAreRead(t *testing.T) {
	v := unit(t)
	for name, file := range starterFiles() {
		p := Read(name, file, v.Ledger)
		require.Empty(t, said(p), name)
		require.Empty(t, p.Changes, name)
		require.Positive(t, p.Rows)
		p = Read("nameless", file, v.Ledger)
		require.Empty(t, said(p), "%s, told by its heading", name)
	}
	p := Read("stock.csv", assets.DemoStock(), v.Ledger)
	require.Empty(t, said(p))
	require.Len(t, p.Write.Pars, p.Rows)
	require.Equal(t, []Note{{ID: "passed-over", Blanks: []any{Pars, "opening, source"}}}, p.Notes)
}

// Goal: the columns are those of the starter lists, in their order. Method:
// compare the beginning of each heading with what the program reads there.
func TestTheColumnsBeginAsInTheStarterLists(t *testing.T) {
	shapesByName := map[string][]string{}
	for _, s := range sheetsOf(station.Catalogue{}) {
		shapesByName[s.name] = s.rows[0]
	}
	for name, want := range map[string][]string{
		Catalogue: kits.CatalogueColumns(), Bundles: kits.BundleColumns(), Templates: kits.TemplateColumns(),
		Places: kits.PlaceColumns()[:3], Pars: kits.StockColumns()[:3],
	} {
		require.Equal(t, want, shapesByName[name][:len(want)], name)
	}
}

// Goal: only what differs is written, in place of what stands, and what a file
// leaves out stays. Method: one price and one name change in a file of three
// columns more; then the line goes by its column gone, while all others stay.
func TestOnlyWhatDiffersIsWritten(t *testing.T) {
	v := unit(t)
	picture := mesh.Hash{7}
	item, _ := v.Ledger.Item(1032)
	item.Value.Picture = picture
	carryOut(t, v, 1, station.Catalogue{Items: []kits.ItemLine{item.Value}})
	all := len(v.Ledger.Items())

	file, err := CSV(Of(v.Ledger), Catalogue, false)
	require.NoError(t, err)
	at := rowOf(t, file, "1032")
	p := Read("catalogue.csv", changed(t, file, at, "cost_minor", "125", at, "currency", "EUR", at, "codes", "00012345678905|0099"), v.Ledger)
	require.Empty(t, said(p))
	require.Equal(t, []Change{{
		List: Catalogue, Row: at, Key: "1032", Name: string(item.Value.Name + " " + item.Value.Detail), Columns: []string{"codes", "cost_minor", "currency"},
	}}, p.Changes)
	require.Equal(t, 1, carryOut(t, v, 2, p.Write))
	now, _ := v.Ledger.Item(1032)
	require.EqualValues(t, 125, now.Value.CostMinor)
	require.Equal(t, []mesh.Label{"00012345678905", "0099"}, now.Value.Codes)
	require.Equal(t, picture, now.Value.Picture)
	require.False(t, now.TwoValues)

	file, err = CSV(station.Catalogue{Items: []kits.ItemLine{now.Value}}, Catalogue, true)
	require.NoError(t, err)
	p = Read("catalogue.csv", changed(t, file, 2, "gone", "yes"), v.Ledger)
	require.Empty(t, said(p))
	carryOut(t, v, 3, p.Write)
	require.Len(t, v.Ledger.Items(), all-1)
	p = Read("catalogue.csv", assets.Catalogue(), v.Ledger)
	require.Empty(t, said(p))
	require.Empty(t, p.Changes, "a column that is not there leaves what stands")
}

// Goal: a file that is open can be held against what stands again and again.
// Method: one with a problem and one without, twice over each of two ledgers.
func TestAFileIsHeldAgainstSeveralLedgers(t *testing.T) {
	one, other := unit(t).Ledger, bare().Ledger
	for _, file := range [][]byte{assets.Places(), []byte("place,name,shelf\nshelf,Shelf,\n")} {
		f := Open("places.csv", file)
		require.Equal(t, f.Against(one), f.Against(one))
		require.Equal(t, f.Against(other), f.Against(other))
	}
	require.NotEqual(t, Open("places.csv", assets.Places()).Against(one).Write.Len(), Open("places.csv", assets.Places()).Against(other).Write.Len())
}

// rowOf is the row that begins with a text.
func rowOf(t testing.TB, file []byte, begin string) int {
	t.Helper()
	for i, line := range strings.Split(string(file), "\n") {
		if strings.HasPrefix(line, begin+",") {
			return i + 1
		}
	}
	t.Fatalf("no row %s", begin)
	return 0
}

// Goal: equal lists, equal bytes. Method: write the starter lists twice.
func TestTheSameListsHaveTheSameBytes(t *testing.T) {
	one, again := filesOf(t, unit(t).Ledger), filesOf(t, unit(t).Ledger)
	for name := range one {
		require.True(t, bytes.Equal(one[name], again[name]), name)
	}
}

// Goal: a spreadsheet program takes no text for a formula, and a plain file is
// exact. Method: a table of texts with both forms; each comes back.
func TestTextsThatLookLikeFormulasAreMadeHarmless(t *testing.T) {
	for _, x := range []struct{ text, plain, harmless string }{
		{"=1+1", "'=1+1", "'=1+1"},
		{"+H123", "+H123", "'+H123"},
		{"-20 °C", "-20 °C", "'-20 °C"},
		{"@here", "@here", "'@here"},
		{"'=x", "''=x", "''=x"},
		{"'-x", "''-x", "''-x"},
		{"'tis", "'tis", "'tis"},
		{"", "", ""},
		{"'", "'", "'"},
		{"a=b", "a=b", "a=b"},
		{"007", "007", "007"},
	} {
		require.Equal(t, x.plain, guard(x.text, false))
		require.Equal(t, x.harmless, guard(x.text, true))
		for _, guarded := range []string{x.plain, x.harmless} {
			back, formula := unguard(guarded)
			require.False(t, formula)
			require.Equal(t, x.text, back)
		}
	}
	_, formula := unguard("=1+1")
	require.True(t, formula)
}
