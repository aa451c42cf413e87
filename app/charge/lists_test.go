package charge

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/kits"
)

// files is Lists for tests: what it reads is said beforehand.
type files struct {
	of    Import
	err   error
	wrote string
}

func (f *files) ReadLists(_ string, done func(Import, error)) { done(f.of, f.err) }

func (f *files) WriteLists(path string, done func(string, error)) {
	f.wrote = path
	done(path, f.err)
}

// Goal: a file is only looked through when it is dropped, its problems say where
// and leave no way to take it, and one tap takes what has none. Method: drop one
// with a problem, one that cannot be read, and a good one; tap.
func TestAFileIsLookedThroughBeforeItIsTaken(t *testing.T) {
	u := busy(t)
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageCatalogue})
	require.False(t, s.screen.Dropped("/photo.png"))
	s.files.of = Import{Problems: []string{"pars, row 3, column par (C3): x is not a whole number"}}
	require.True(t, s.screen.Dropped("/lists.xlsx"))
	s.look()
	require.Contains(t, s.Text(), "1 problem")
	require.Contains(t, s.Text(), "row 3, column par")
	require.False(t, s.Try("take it"))
	s.files.err = errFull
	require.True(t, s.screen.Dropped("/other.CSV"))
	s.look()
	require.False(t, s.Try("take it"))
	line := kits.ParLine{Place: trolley, Item: bougie, Par: 9}
	s.files.of, s.files.err = Import{Changes: []string{"pars, row 2: trolley/airway changes: par"}, Write: station.Catalogue{Pars: []kits.ParLine{line}}}, nil
	require.True(t, s.screen.Dropped("/lists.xlsx"))
	s.look()
	require.Empty(t, s.acts)
	s.find("take it")
	par, _ := u.Ledger.Par(trolley, bougie)
	require.EqualValues(t, 9, par.Value.Par)
	s.page(Wanted{Page: PageLists}).find("write a file")
	s.words("/tmp/pars.csv", "pars.csv")
	require.Equal(t, "/tmp/pars.csv", s.files.wrote)
}

// Goal: bundles and templates keep what is not touched; a line is taken out, moved
// and added, and a new template can be filled from. Method: change the first
// tray, and make a list for kits.
func TestSetsAreChangedLineByLine(t *testing.T) {
	u := busy(t)
	s := newScene(t, "desk", look.Dark, u).page(Wanted{Page: PageSets})
	was, _ := u.Ledger.Template("first-tray")
	first := named(Look(u.View, Wanted{Page: PageItem, Item: was.Value.Lines[0].Item}).Item.ItemLine)
	s.find("First tray", first)
	s.screen.hand.typed = ""
	s.keys("0")
	s.find("write it down")
	now, _ := u.Ledger.Template("first-tray")
	require.Equal(t, was.Value.Lines[1:], now.Value.Lines)
	s.find("new list for kits", "Short name")
	s.words("night")
	s.find("Name")
	s.words("Night kit")
	s.find("One more line")
	s.keys("1108")
	s.find("write it down")
	require.Contains(t, s.Text(), "“How many” cannot be like this")
	s.find("How many")
	s.keys("2")
	s.find("Where it is", "at the door", "write it down")
	night, known := u.Ledger.Template("night")
	require.True(t, known)
	require.Equal(t, []kits.TemplateLine{{Item: bougie, Count: 2, Where: kits.WhereAtDoor}}, night.Value.Lines)
}
