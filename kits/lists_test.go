package kits_test

import (
	"fmt"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"lintel/assets"
	"lintel/kits"
	"lintel/mesh"
)

func starter(t testing.TB) kits.Defaults {
	d, err := kits.ReadDefaults(kits.Files{
		Catalogue: assets.Catalogue(), Bundles: assets.Bundles(), Places: assets.Places(),
		Stock: assets.DemoStock(), Waste: assets.Waste(),
	})
	require.NoError(t, err)
	return d
}

// Goal: the starter lists can be read and fit together. Method: read them as
// the program does and look at sizes and at what must be there.
func TestStarterListsFitTogether(t *testing.T) {
	d := starter(t)
	require.InDelta(t, 95, len(d.Items), 15)
	groups := map[mesh.ID]int{}
	for _, i := range d.Items {
		groups[i.Group]++
	}
	for _, g := range []mesh.ID{"airway", "breathing", "drug", "line", "fluid", "ppe", "cleaning", "people", "bundle", "out"} {
		require.NotZero(t, groups[g], g)
	}
	rescue := map[mesh.ID]bool{}
	for _, b := range d.Bundles {
		rescue[b.Rescue] = true
		require.NotEmpty(t, b.Words, "where bundle %d lies", b.Number)
	}
	require.Equal(t, map[mesh.ID]bool{"": true, "b": true, "c": true, "d": true, "arrest": true}, rescue)
	require.Len(t, d.Waste, 5)
}

// Goal: every bundle of the demonstration can be taken from where it lies.
// Method: compare the opening stock there with each of its lines, people apart.
func TestBundlesAreStockedWhereTheyLie(t *testing.T) {
	stock, err := kits.ReadStock(assets.DemoStock())
	require.NoError(t, err)
	have := map[kits.Place]map[mesh.Number]int64{}
	for _, s := range stock {
		if have[s.Place] == nil {
			have[s.Place] = map[mesh.Number]int64{}
		}
		require.NotContains(t, have[s.Place], s.Item)
		have[s.Place][s.Item] = s.Opening
	}
	l := starterLedger(t)
	for _, b := range l.Bundles() {
		for _, x := range b.Lines {
			item, ok := l.Item(x.Item)
			require.True(t, ok)
			if !item.Value.Has(kits.IsPerson) {
				require.GreaterOrEqual(t, have[b.LiesAt][x.Item], x.Count, "%s of %s", item.Value.Name, b.Name)
			}
		}
	}
}

// Goal: no slip of the tongue asks for something else. Method: by brute force,
// change each digit of each number and swap each pair of neighbours; none gives
// a number of the list, and none passes the check digit.
func TestNoSlipGivesAnotherSpokenNumber(t *testing.T) {
	numbers := map[string]bool{}
	for _, i := range starter(t).Items {
		spoken := fmt.Sprint(i.Number)
		require.False(t, numbers[spoken], spoken)
		require.True(t, len(spoken) == 3 || len(spoken) == 4, spoken)
		numbers[spoken] = true
	}
	for spoken := range numbers {
		for _, slip := range slips(spoken) {
			require.False(t, numbers[slip], "%s is one slip from %s", slip, spoken)
			require.False(t, mesh.DammFits(slip), slip)
		}
	}
}

// slips are spoken with one digit wrong, and with two neighbours swapped.
func slips(spoken string) (out []string) {
	for i := range len(spoken) {
		for d := byte('0'); d <= '9'; d++ {
			if d != spoken[i] {
				out = append(out, spoken[:i]+string(d)+spoken[i+1:])
			}
		}
		if i > 0 && spoken[i] != spoken[i-1] {
			out = append(out, spoken[:i-1]+string(spoken[i])+string(spoken[i-1])+spoken[i+1:])
		}
	}
	return out
}

// Goal: drugs are named so that they cannot be taken for each other. Method:
// generic names in sentence case, strength and volume that fit the content,
// look-alikes marked wherever one name has several lines.
func TestDrugsAreToldApart(t *testing.T) {
	lines := map[mesh.Label][]kits.ItemLine{}
	for _, i := range starter(t).Items {
		if !i.Has(kits.IsDrug) {
			continue
		}
		lines[i.Name] = append(lines[i.Name], i)
		require.True(t, unicode.IsUpper(rune(i.Name[0])), i.Name)
		require.Equal(t, strings.ToLower(string(i.Name[1:])), string(i.Name[1:]))
		require.NotZero(t, i.Content.N, i.Name)
		require.NotZero(t, i.VolumeUL, i.Name)
		require.NotEmpty(t, i.LabelClass, i.Name)
		require.Equal(t, i.Content, contentByLabel(t, i), "%s %s", i.Name, i.Detail)
	}
	for name, same := range lines {
		for _, i := range same {
			require.True(t, len(same) == 1 || i.Has(kits.LookAlike), name)
		}
	}
	require.Len(t, lines["Ketamine"], 3)
	require.Len(t, lines["Phenylephrine"], 2)
	require.Len(t, lines["Ephedrine"], 2)
}

// contentByLabel works the content out of "10 mg/mL, 5 mL" or "2 %, 5 mL".
func contentByLabel(t *testing.T, i kits.ItemLine) kits.Quantity {
	var strength, ml float64
	var word string
	text := strings.Replace(string(i.Detail), " %,", " percent/mL,", 1)
	text = strings.Replace(text, "/mL,", " ", 1)
	_, err := fmt.Sscanf(text, "%f %s %f mL", &strength, &word, &ml)
	require.NoError(t, err, text)
	require.EqualValues(t, i.VolumeUL, ml*1000)
	switch word {
	case "mg":
		return kits.Quantity{N: int64(strength*1000*ml + 0.5), Measure: mesh.Microgram}
	case "percent":
		return kits.Quantity{N: int64(strength*10_000*ml + 0.5), Measure: mesh.Microgram}
	case "microgram":
		return kits.Quantity{N: int64(strength*ml + 0.5), Measure: mesh.Microgram}
	case "unit":
		return kits.Quantity{N: int64(strength*ml + 0.5), Measure: mesh.Unit}
	case "mmol":
		return kits.Quantity{N: int64(strength*1000*ml + 0.5), Measure: mesh.Micromole}
	}
	t.Fatalf("strength %q", word)
	return kits.Quantity{}
}

// Goal: contents of containers agree with what is sold. Method: those openFDA
// drug listings that were looked up: strength × volume of each container.
func TestContainersAgreeWithOpenFDAListings(t *testing.T) {
	type sold struct {
		name    mesh.Label
		content int64 // microgram
		ul      int64
	}
	have := map[sold]bool{}
	for _, i := range starter(t).Items {
		have[sold{i.Name, i.Content.N, i.VolumeUL}] = true
	}
	for _, s := range []sold{
		{"Rocuronium", 50_000, 5000}, {"Rocuronium", 100_000, 10_000}, {"Suxamethonium", 200_000, 10_000},
		{"Ketamine", 200_000, 20_000}, {"Ketamine", 500_000, 5000}, {"Etomidate", 20_000, 10_000},
		{"Etomidate", 40_000, 20_000}, {"Propofol", 200_000, 20_000}, {"Propofol", 500_000, 50_000},
		{"Phenylephrine", 500, 5000}, {"Phenylephrine", 10_000, 1000}, {"Ephedrine", 25_000, 5000}, {"Ephedrine", 50_000, 1000},
	} {
		require.True(t, have[s], s)
	}
}

// Goal: the codes of waste are those of the European List of Waste, group 18 01.
// Method: compare each, stars and blanks included.
func TestWasteCodesAreThoseOfTheEuropeanList(t *testing.T) {
	codes := map[mesh.ID]mesh.Label{}
	for _, w := range starter(t).Waste {
		require.EqualValues(t, "eu", w.Country)
		codes[w.Class] = w.Code
	}
	require.Equal(t, map[mesh.ID]mesh.Label{
		"sharps": "18 01 01", "infectious": "18 01 03*", "general": "18 01 04", "cytotoxic": "18 01 08*", "medicine": "18 01 09",
	}, codes)
}
