package barcode

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Goal: what an identifier takes beside characters and lengths is asked of it.
// Method: for each check of the table a value that passes and one that does
// not, with the byte of the value where it fails (GS1 Barcode Syntax Dictionary,
// whose checks these are).
func TestValuesAreHeldAgainstEveryCheck(t *testing.T) {
	for _, c := range []struct {
		id, good, bad string
		code          Code
		at            int
	}{
		{"00", "095011015300000010", "095011015300000011", CheckDigit, 17},
		{"10", "ABCDEFGHIJKLMNOPQRST", "ABCDEFGHIJKLMNOPQRSTU", ValueLong, 20},
		{"37", "12345678", "123456789", ValueLong, 8},
		{"253", "9501101530003", "950110153000", ValueShort, 12},
		{"253", "9501101530003ABCDEFGHIJKLMNOPQ", "9501101530003ABCDEFGHIJKLMNOPQR", ValueLong, 30},
		{"401", "1234", "123", ValueShort, 3},
		{"401", "1234A", "123A", BadCharacter, 3},
		{"3910", "9781", "97A1", BadCharacter, 2},
		{"4321", "1", "2", BadValue, 0},
		{"4330", "001234-", "001234A", BadValue, 6},
		{"7007", "261231270101", "26123127", ValueShort, 8},
		{"7007", "261231270101", "261231270132", BadDay, 10},
		{"7250", "20281231", "20281331", BadMonth, 4},
		{"7251", "202812312359", "202812312400", BadHour, 8},
		{"8001", "00010000100119", "00000000100119", BadValue, 0},
		{"8003", "09501101530003S", "19501101530003S", BadValue, 0},
		{"8006", "095011015300030102", "095011015300030201", BadValue, 14},
		{"8006", "095011015300030102", "095011015300030001", BadValue, 14},
		{"8008", "26123123", "26123124", BadHour, 6},
		{"8008", "2612312359", "2612312360", BadMinute, 8},
		{"8008", "261231235959", "261231235960", BadMinute, 10},
		{"8008", "261231235959", "2612312359591", ValueLong, 12},
		{"8010", "1234-A/#", "1234a", BadCharacter, 4},
		{"8011", "0", "01", BadValue, 0},
		{"8013", "1987654Ad4X4bL5ttr2310c2K", "1", CheckDigit, 0},
		{"8014", "1987654Ad4X4bL5ttr2310c2K", "12345678", CheckDigit, 6},
	} {
		id, known := lookUp(c.id)
		require.True(t, known, c.id)
		_, s := readValue(id, c.good, yearOfTests)
		require.Equal(t, slip{}, s, "%s %s", c.id, c.good)
		_, s = readValue(id, c.bad, yearOfTests)
		require.Equal(t, slip{c.code, c.at}, s, "%s %s", c.id, c.bad)
	}
}

// Goal: every character stands in its set and in no other. Method: every byte
// against every set, as the General Specifications print them (7.11).
func TestCharacterSetsAreTheStandards(t *testing.T) {
	for set, count := range map[byte]int{'N': 10, 'X': 82, 'Y': 39, 'Z': 65} {
		n := 0
		for b := range 256 {
			if checkCharacters(set, string([]byte{byte(b)})).code == "" {
				n++
			}
		}
		require.Equal(t, count, n, string(set))
	}
	for _, b := range " #$@[\\]^`{|}~\x00\x1d\x7f" {
		require.Equal(t, slip{BadCharacter, 0}, checkCharacters('X', string(b)))
	}
	require.Len(t, hibcCharacters, 43)
	_, ok := CheckCharacterOf("+a")
	require.False(t, ok)
	require.Equal(t, byte('0'), CheckDigitOf(""))
	require.Equal(t, byte('0'), CheckDigitOf("12A"))
}

// Goal: bounds hold in every form. Method: one element too many in an address,
// a lot that is too long, a character that a lot may not have.
func TestBoundsHoldInEveryForm(t *testing.T) {
	link := "https://example.com/01/09501101530003?" + strings.Repeat("90=A&", ElementsMax-1)
	require.Len(t, read(t, link).Elements, ElementsMax)
	require.Equal(t, Error{Code: TooMany, Position: len(link)}, failure(t, link+"91=B"))
	require.Equal(t, UnknownID, failure(t, sealed(t, "+A99912345/$LOT/3")).Code)
	require.Equal(t, "A;B/=C", read(t, "https://example.com/01/09501101530003?240=A;B/=C").Elements[1].Value)
	require.Empty(t, Date{}.String())
	require.Equal(t, "day (17) at byte 3 of scan 1", (&Error{Code: BadDay, ID: "17", Position: 3, Part: 1}).Error())
}
