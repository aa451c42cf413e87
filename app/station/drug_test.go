package station

import (
	"image/color"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Numbers of the catalogue that these tests use.
const (
	fentanyl   mesh.Number = 3102
	ephedrine  mesh.Number = 3177
	sugammadex mesh.Number = 3254
)

// settle writes a register into a view, in a turn.
func settle(t *testing.T, v View, turn mesh.Turn, kind mesh.Kind, line any) {
	t.Helper()
	body, err := mesh.Encode(line)
	require.NoError(t, err)
	f := mesh.Fact{Ref: mesh.MakeRef(mesh.Key{1}, mesh.Tap{byte(turn)}, 0), At: mesh.Order{Turn: turn}, Kind: kind, Body: body}
	v.Board.Add(f)
	v.Ledger.Add(f)
}

// Goal: a drug is shown by name, strength, volume and class, and nothing else
// is shown as one. Method: an opioid, an antagonist and a bougie.
func TestADrugIsShownByItsLabel(t *testing.T) {
	v := empty(t)
	d, ok := v.Drug(fentanyl)
	require.True(t, ok)
	require.Equal(t, Drug{
		Name: "fentaNYL", Strength: "50 microgram/mL", Volume: "2 mL", Class: "opioid", Colour: d.Colour,
		HighAlert: true, Counted: true,
	}, d)
	reversal, ok := v.Drug(sugammadex)
	require.True(t, ok)
	require.True(t, reversal.Striped)
	require.Equal(t, mesh.ID("relaxant-antagonist"), reversal.Class)
	require.True(t, reversal.LookAlike)
	_, ok = v.Drug(bougie)
	require.False(t, ok)
	_, ok = v.Drug(999)
	require.False(t, ok)
}

// Goal: spelling is the unit's. Method: the same drug by the table of one
// country, of another, of one that nobody wrote, by a line that the unit wrote,
// and by the item's own line.
func TestNamesAreSpelledAsTheUnitWrites(t *testing.T) {
	v := empty(t)
	name := func(item mesh.Number) string { d, _ := v.Drug(item); return d.Name }
	require.Equal(t, "ePHEDrine", name(ephedrine))
	settle(t, v, 2, requests.KindSetting, &requests.Setting{Name: SettingSpelling, Value: "au"})
	require.Equal(t, "Ephedrine", name(ephedrine), "that table leaves it alone")
	require.Equal(t, "fentaNYL", name(fentanyl))
	settle(t, v, 3, requests.KindListLine, &requests.ListLine{List: ListSpelling + "au", ID: "ephedrine", Words: "ephedRINE"})
	require.Equal(t, "ephedRINE", name(ephedrine))
	settle(t, v, 4, requests.KindSetting, &requests.Setting{Name: SettingSpelling, Value: "nowhere"})
	require.Equal(t, "Fentanyl", name(fentanyl))
	line, _ := v.Ledger.Item(fentanyl)
	own := line.Value
	own.TallMan = "FENTanyl"
	settle(t, v, 5, kits.KindItemLine, &own)
	require.Equal(t, "FENTanyl", name(fentanyl))
}

// Goal: a class that nobody coloured is shown as other, in white. Method: take
// a class away, then other as well.
func TestAClassWithoutAColourIsOther(t *testing.T) {
	v := empty(t)
	settle(t, v, 2, requests.KindListLine, &requests.ListLine{List: ListLabels, ID: "opioid", Gone: true})
	d, _ := v.Drug(fentanyl)
	require.Equal(t, ClassOther, d.Class)
	settle(t, v, 3, requests.KindListLine, &requests.ListLine{List: ListLabels, ID: ClassOther, Words: "blue"})
	d, _ = v.Drug(fentanyl)
	require.Equal(t, color.NRGBA{R: 255, G: 255, B: 255, A: 255}, d.Colour)
}

// badDrugLists are tables that are refused.
func badDrugLists() (labels, spellings []string) {
	head := strings.Join(LabelColumns(), ",") + "\n"
	tall := strings.Join(SpellingColumns(), ",") + "\n"
	return []string{
			"", "class\n", head + "opioid,blue,no,x\n", head + "opioid,#12345,no,x\n", head + "opioid,#123456,perhaps,x\n",
			head + "opioid,#123456,no,\n", head + "an opioid,#123456,no,x\n", head + "opioid\n",
		}, []string{
			"", "table\n", tall + "us,Fentanyl,sufentaNYL,x\n", tall + "us,Fentanyl,FENTANYL,x\n", tall + ",Fentanyl,fentaNYL,x\n",
			tall + "us,,,x\n", tall + "us,Fentanyl,fentaNYL,\n",
		}
}

// Goal: a bad list is refused with its row. Method: a table of them.
func TestBadLabelsAndSpellingsAreRefused(t *testing.T) {
	labels, spellings := badDrugLists()
	for _, bad := range labels {
		_, err := ReadLabels([]byte(bad))
		require.ErrorIs(t, err, ErrDrugList, bad)
	}
	for _, bad := range spellings {
		_, err := ReadSpellings([]byte(bad))
		require.ErrorIs(t, err, ErrDrugList, bad)
	}
}

// FuzzReadDrugLists: no table makes the readers panic, and a spelling that is
// taken is never all capitals.
func FuzzReadDrugLists(f *testing.F) {
	labels, spellings := badDrugLists()
	for _, seed := range append(labels, spellings...) {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		_, _ = ReadLabels(b)
		lines, err := ReadSpellings(b)
		if err != nil {
			return
		}
		for _, line := range lines {
			require.NotEqual(t, strings.ToUpper(string(line.Words)), string(line.Words))
		}
	})
}
