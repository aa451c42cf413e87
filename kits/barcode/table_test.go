package barcode

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// everyIdentifier looks up all numbers of two to four digits.
func everyIdentifier() (all []identifier) {
	for n, most := range map[int]int{2: 100, 3: 1000, 4: 10000} {
		for i := range most {
			if id, known := lookUp(fmt.Sprintf("%0*d", n, i)); known {
				all = append(all, id)
			}
		}
	}
	return all
}

// Goal: the table is one that can be read by: no identifier is the beginning of
// another, everything that a line names exists, and a length that is known
// beforehand is one length. Method: every line, every number of two to four digits.
func TestTableOfIdentifiersIsSound(t *testing.T) {
	all := everyIdentifier()
	require.Greater(t, len(all), 450)
	var ids []string
	for _, id := range all {
		ids = append(ids, id.id)
	}
	slices.Sort(ids)
	for i := 1; i < len(ids); i++ {
		require.False(t, strings.HasPrefix(ids[i], ids[i-1]), ids[i])
	}
	some := func(pattern string) bool {
		return slices.ContainsFunc(ids, func(id string) bool { return matches(pattern, id) })
	}
	for _, id := range all {
		least, most := lengthOf(readParts(id.parts))
		require.Positive(t, least, id.id)
		require.LessOrEqual(t, most, 90, id.id)
		require.True(t, !id.predefined || least == most, id.id)
		require.NotEmpty(t, id.title)
		_, orders, _ := strings.Cut(id.path, "=")
		for pattern := range strings.FieldsFuncSeq(id.needs+" "+id.excludes+" "+orders, func(r rune) bool { return strings.ContainsRune(" ,+&|", r) }) {
			require.True(t, some(pattern), "%s names %s", id.id, pattern)
		}
	}
	for line := range strings.Lines(identifiers) {
		if line[0] != '#' {
			require.Len(t, strings.Split(line, ";"), 7, line)
		}
	}
}

// Goal: lengths that are known beforehand are those of the General
// Specifications, by the first two digits of the identifier. Method: their
// figure of element strings with predefined length, written down here again;
// 04, 18, 19 and 14 are not given out yet.
func TestPredefinedLengthsAreTheStandards(t *testing.T) {
	whole := map[string]int{"00": 20, "01": 16, "02": 16, "03": 16, "11": 8, "12": 8, "13": 8, "15": 8, "16": 8, "17": 8, "20": 4, "31": 10, "32": 10, "33": 10, "34": 10, "35": 10, "36": 10, "41": 16}
	for _, id := range everyIdentifier() {
		length, predefined := whole[id.id[:2]]
		require.Equal(t, predefined, id.predefined, id.id)
		if predefined {
			_, most := lengthOf(readParts(id.parts))
			require.Equal(t, length, len(id.id)+most, id.id)
		}
	}
}

// Goal: a year is put into its century as the General Specifications say (7.12).
// Method: all two-digit years against all reference years of two centuries.
func TestEveryYearLiesInTheWindow(t *testing.T) {
	for reference := 1950; reference < 2150; reference++ {
		for two := range 100 {
			full := century(two, reference)
			require.Equal(t, two, full%100)
			require.GreaterOrEqual(t, full, reference-49)
			require.LessOrEqual(t, full, reference+50)
		}
	}
}

// Goal: days of the year are days of months, and back. Method: every day of a
// common and of a leap year, counted up one by one.
func TestDaysOfTheYearCountUp(t *testing.T) {
	for _, year := range []int{2027, 2028, 2000, 2100} {
		n := 0
		for month := 1; month <= 12; month++ {
			for day := 1; day <= daysIn(year, month); day++ {
				n++
				got, wrong := readDayOfYear(fmt.Sprintf("%02d%03d", year%100, n), year)
				require.Empty(t, wrong.code)
				require.Equal(t, Date{Year: year, Month: month, Day: day}, got)
			}
		}
		require.Equal(t, 365+map[bool]int{true: 1}[year%4 == 0 && year != 2100], n)
		_, wrong := readDayOfYear(fmt.Sprintf("%02d%03d", year%100, n+1), year)
		require.Equal(t, BadDay, wrong.code)
	}
}

// Goal: measures and prices have their point where the identifier says.
// Method: every number of decimals, short values, and a currency before it.
func TestAmountsHaveTheirDecimalPoint(t *testing.T) {
	for text, want := range map[string]string{
		"(01)09501101530003(3100)001250":               "1250",
		"(01)09501101530003(3103)001250":               "1.250",
		"(01)09501101530003(3105)001250":               "0.01250",
		"(01)09501101530003(3150)000000":               "0",
		"(01)09501101530003(3152)000005":               "0.05",
		"(01)09501101530003(30)1(3922)5":               "0.05",
		"(01)09501101530003(30)1(3932)9781250":         "12.50",
		"(01)09501101530003(30)1(3930)978999":          "999",
		"(01)09501101530003(30)1(3953)001250":          "1.250",
		"(01)09501101530003(3920)123456789012345(30)1": "123456789012345",
	} {
		s := read(t, text)
		i := slices.IndexFunc(s.Elements, func(e Element) bool { return e.Amount != "" })
		require.GreaterOrEqual(t, i, 0, text)
		require.Equal(t, want, s.Elements[i].Amount, text)
	}
	require.Empty(t, read(t, "(01)09501101530003(30)12").Elements[1].Amount)
}

// Goal: the check character pair of a model number is the standard's. Method:
// the example of GS1 General Specifications 7.9.5; every change of one character
// is found.
func TestCheckCharacterPairFindsEveryChange(t *testing.T) {
	const model = "1987654Ad4X4bL5ttr2310c2K"
	require.True(t, checkedPair(model))
	require.Equal(t, model, read(t, "(8013)"+model).Elements[0].Value)
	for i := range len(model) {
		for j := range len(characters) {
			changed := model[:i] + characters[j:j+1] + model[i+1:]
			require.Equal(t, changed == model, checkedPair(changed), changed)
		}
	}
	require.Equal(t, CheckDigit, failure(t, "(8013)"+model[:24]+strconv.Itoa(3)).Code)
}
