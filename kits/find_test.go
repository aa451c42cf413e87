package kits_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/kits"
	"lintel/mesh"
)

func starterLedger(t testing.TB) *kits.Ledger {
	return kits.NewLedger(kits.Options{Defaults: starter(t)})
}

func names(items []kits.ItemLine) (out []string) {
	for _, i := range items {
		out = append(out, fmt.Sprintf("%s %s", i.Name, i.Detail))
	}
	return out
}

// Goal: what a person types names what was meant. Method: numbers, whole names,
// beginnings and strengths, in any letter case.
func TestFindNamesWhatWasMeant(t *testing.T) {
	l := starterLedger(t)
	for text, want := range map[string][]string{
		"1032":                          {"Tracheal tube, cuffed 7.5"},
		"tube 7.5":                      {"Tracheal tube, cuffed 7.5"},
		"KETAMINE 50":                   {"Ketamine 50 mg/mL, 10 mL"},
		"ketamine":                      {"Ketamine 10 mg/mL, 20 mL", "Ketamine 50 mg/mL, 10 mL", "Ketamine 100 mg/mL, 5 mL"},
		" bougie ":                      {"Bougie 15 Fr"},
		"phenyl 10 mg":                  {"Phenylephrine 10 mg/mL, 1 mL"},
		"rescue set d":                  {"Rescue set D "},
		"adrenaline 100 microgram/ml":   {"Adrenaline 100 microgram/mL, 10 mL"},
		"Supraglottic airway (size 4) ": {"Supraglottic airway size 4"},
	} {
		f := l.Find(text)
		require.Equal(t, want, names(f.Items), text)
		require.Empty(t, f.Near, text)
	}
}

// Goal: what names nothing gives a hint and never a guess. Method: a swapped and
// a wrong digit, a misspelt name, nothing alike, nothing at all.
func TestFindHintsButNeverGuesses(t *testing.T) {
	l := starterLedger(t)
	for text, hint := range map[string]string{
		"1302":     "Tracheal tube, cuffed 7.5",
		"1033":     "Tracheal tube, cuffed 7.5",
		"ketamin3": "Ketamine 10 mg/mL, 20 mL",
		"bugie":    "Bougie 15 Fr",
	} {
		f := l.Find(text)
		require.Empty(t, f.Items, text)
		require.Contains(t, names(f.Near), hint, text)
		require.LessOrEqual(t, len(f.Near), kits.NearMax)
	}
	for _, text := range []string{"", "  ", "helicopter", "999999", "-", "/"} {
		f := l.Find(text)
		require.Empty(t, f.Near, text)
		require.Empty(t, f.Items, text)
	}
}

// Goal: what is missing to par is listed by where it is fetched. Method: fill
// the demonstration's places, take two tubes off the trolley and one ampoule of
// ketamine out of its cupboard.
func TestRestockGroupsByWhereItIsFetched(t *testing.T) {
	stock, err := kits.ReadStock(demoStock())
	require.NoError(t, err)
	l := starterLedger(t)
	require.NotEmpty(t, l.Restock(), "nothing is there at first")
	w := &writer{t: t}
	for _, m := range kits.Opening(stock) {
		l.Add(w.fact(kits.KindMoved, &m))
	}
	require.Empty(t, l.Restock())

	airway, pharmacy := kits.Place{Sort: kits.Trolley, ID: "airway"}, kits.Place{Sort: kits.Store, ID: "pharmacy"}
	const tube, ketamine mesh.Number = 1032, 3038
	require.EqualValues(t, "Ketamine", l.Find(fmt.Sprint(ketamine)).Items[0].Name)
	for _, m := range []kits.Moved{
		{From: airway, To: kits.Place{Sort: kits.Used}, Lines: []kits.Line{kits.Containers(tube, 2)}},
		{From: pharmacy, To: kits.Place{Sort: kits.Given}, Lines: []kits.Line{kits.Containers(ketamine, 1)}},
	} {
		l.Add(w.fact(kits.KindMoved, &m))
	}
	got := l.Restock()
	require.Len(t, got, 2)
	require.Equal(t, kits.Place{Sort: kits.Supplier}, got[0].From)
	require.Equal(t, ketamine, got[0].Item.Number)
	require.EqualValues(t, 1, got[0].Missing)
	require.Equal(t, kits.Place{Sort: kits.Store, ID: "main"}, got[1].From)
	require.Equal(t, airway, got[1].Place)
	require.Equal(t, []int64{4, 2, 2}, []int64{got[1].Par, got[1].Have, got[1].Missing})
	require.Len(t, l.Restock(airway), 1)
}
