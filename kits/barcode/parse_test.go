package barcode

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// failure reads a scan that cannot be read, in notation, and gives the error.
func failure(t testing.TB, text string) Error {
	t.Helper()
	_, err := Parse(scanned(text), yearOfTests)
	var e *Error
	require.True(t, errors.As(err, &e), text)
	require.Contains(t, Codes(), e.Code)
	require.LessOrEqual(t, e.Position, len(scanned(text)), text)
	return *e
}

// read reads a scan, in notation.
func read(t testing.TB, text string) Scan {
	t.Helper()
	s, err := Parse(scanned(text), yearOfTests)
	require.NoError(t, err, text)
	return s
}

// Goal: what the rest of the program asks for stands ready. Method: one scan of
// a box of ampoules with everything that such a box says.
func TestScanSummarizesItsElements(t *testing.T) {
	text := "]d2" + "01095011015300031726120030" + "12{GS}10Lot-42/a{GS}21sn'1{GS}3103001250"
	s := read(t, text)
	require.Equal(t, "]d2", s.Symbology)
	require.Equal(t, GS1, s.Scheme)
	require.Equal(t, scanned(text), s.AsScanned)
	require.Equal(t, "09501101530003", s.GTIN14)
	require.Equal(t, s.GTIN14, s.Item())
	require.Equal(t, "Lot-42/a", s.Lot, "never in capitals")
	require.Equal(t, "sn'1", s.Serial)
	require.Equal(t, Date{Year: 2026, Month: 12, Day: 31, Inferred: true}, s.Expiry)
	require.Equal(t, int64(12), s.Quantity)
	require.True(t, s.Counted)
	require.Empty(t, s.Warnings)
	require.Equal(t, Element{ID: "3103", Title: "NET WEIGHT (kg)", Value: "001250", Position: 50, Amount: "1.250"}, s.Elements[5])
	require.Equal(t, "(01)09501101530003(17)261200(30)12(10)Lot-42/a(21)sn'1(3103)001250", s.String())
	require.Equal(t, string(scanned(text))[3:], string(s.ElementString()))
}

// Goal: a prefix decides, and without one the data does. Method: each kind of
// symbol with data that it carries, and with data that it does not.
func TestPrefixSaysWhatASymbolCarries(t *testing.T) {
	const elements = "010950110153000310L1"
	for _, p := range []string{"", "]C1", "]e0", "]e1", "]e2", "]d2", "]Q3", "]J1"} {
		require.Equal(t, "L1", read(t, p+elements).Lot, p)
	}
	for _, p := range []string{"]c1", "]E0", "]D2", "]d1", "]Q1", "]C0", "]A0", "]q3"} {
		require.Equal(t, Error{Code: NotKnown, Position: 3}, failure(t, p+elements), p)
	}
	for text, want := range map[string]string{
		"]E09501101530003": "09501101530003", "9501101530003": "09501101530003", "]E0" + "0416000336108": "00416000336108",
		"416000336108": "00416000336108", "]E402345673": "00000002345673", "02345673": "00000002345673",
		"]I112345678901231": "12345678901231", "12345678901231": "12345678901231", "]E3" + "950110153000312": "09501101530003",
		"]E3" + "950110153000312345": "09501101530003",
	} {
		s := read(t, text)
		require.Equal(t, Plain, s.Scheme, text)
		require.Equal(t, want, s.GTIN14, text)
		require.True(t, strings.HasPrefix(text, s.Symbology+s.String()))
		require.Empty(t, s.ElementString())
	}
	for text, want := range map[string]Error{
		"":                              {Code: Empty},
		"]":                             {Code: BadPrefix},
		"]d":                            {Code: BadPrefix},
		"]1d":                           {Code: BadPrefix},
		"]d2":                           {Code: Empty, Position: 3},
		"]A0":                           {Code: Empty, Position: 3},
		"{GS}":                          {Code: Empty, Position: 1},
		"hello":                         {Code: NotKnown},
		" 9501101530003":                {Code: NotKnown},
		"9501101530004":                 {Code: CheckDigit, Position: 12, ID: "01"},
		"]E09501101530004":              {Code: CheckDigit, Position: 15, ID: "01"},
		"]E3" + "9501101530":            {Code: CheckDigit, Position: 12, ID: "01"},
		"]E3" + strings.Repeat("9", 20): {Code: ValueLong, Position: 17, ID: "01"},
	} {
		require.Equal(t, want, failure(t, text), "%q", text)
	}
}

// Goal: separators are needed where the rules say so, and only a needless one
// is forgiven. Method: separators missing, doubled, at the ends, inside a value
// of a length known beforehand.
func TestSeparatorsEndWhatHasNoKnownLength(t *testing.T) {
	s := read(t, "{GS}0109501101530003{GS}17261231{GS}10L{GS}21S{GS}")
	require.Equal(t, "(01)09501101530003(17)261231(10)L(21)S", s.String())
	var at []int
	for _, w := range s.Warnings {
		require.Equal(t, NeedlessSeparator, w.Doubt)
		at = append(at, w.Position)
	}
	require.Equal(t, []int{0, 17, 26, 34}, at, "behind the lot one is needed")
	for text, want := range map[string]Error{
		"]d2{GS}{GS}0109501101530003":        {Code: UnknownID, Position: 4},
		"]d20109501101530003{GS}{GS}10L":     {Code: UnknownID, Position: 20},
		"]d20109501101530003" + "10{GS}21S":  {Code: ValueShort, Position: 21, ID: "10"},
		"]d2010950110153{GS}0003":            {Code: ValueShort, Position: 15, ID: "01"},
		"]d201095011015":                     {Code: ValueShort, Position: 14, ID: "01"},
		"]d20109501101530003" + "0":          {Code: UnknownID, Position: 19, ID: "0"},
		"]d20109501101530003" + "0512345678": {Code: UnknownID, Position: 19, ID: "0512"},
		"]d20109501101530003" + "1726123x10": {Code: BadCharacter, Position: 26, ID: "17"},
		"]d20109501101530003" + "10L\x00":    {Code: BadCharacter, Position: 22, ID: "10"},
		"]d20109501101530003" + "10Lé":       {Code: BadCharacter, Position: 22, ID: "10"},
	} {
		require.Equal(t, want, failure(t, text), "%q", text)
	}
}

// Goal: a lot that swallowed what followed it is warned of, and ordinary lots
// are not. Method: rows with a lost separator, and rows without one.
func TestLostSeparatorsAreWarnedOf(t *testing.T) {
	const item = "]d20109501101530003"
	for text, want := range map[string]Warning{
		item + "17261231" + "10LOT42A21SN0001":          {Position: 35, ID: "10", Other: "21"},
		item + "10LOT42A17261231":                       {Position: 27, ID: "10", Other: "17"},
		item + "10LOT42A1726123121SN1":                  {Position: 27, ID: "10", Other: "17"},
		item + "21SN0001" + "10LOT42A":                  {Position: 27, ID: "21", Other: "10"},
		item + "17261231" + "10AB30100":                 {Position: 31, ID: "10", Other: "30"},
		item + "10LOT17261231{GS}21S":                   {Position: 24, ID: "10", Other: "17"},
		"]d217261231" + "10LOT0109501101530003{GS}21SN": {},
	} {
		if want.ID == "" {
			require.Equal(t, Incomplete, failure(t, text).Code)
			continue
		}
		want.Doubt = LostSeparator
		s := read(t, text)
		require.Equal(t, []Warning{want}, s.Warnings, text)
		require.NotEmpty(t, s.Lot+s.Serial, "nothing is cut off")
	}
	for _, text := range []string{
		item + "17261231" + "10LOT42A",
		item + "17261231" + "10LOT42A21SN0001{GS}21X", // the separator came
		item + "17261231" + "10A21SN{GS}240X",         // a scanner that sends separators
		item + "10A17263131",                          // no such day
		item + "1726123110A21",                        // too little to be a serial number
		item + "10170117",
	} {
		require.Empty(t, read(t, text).Warnings, text)
	}
}

// Goal: elements are looked at together, across all symbols of a label. Method:
// repeats, exclusions and requisites in one scan and in two.
func TestElementsAreReadTogether(t *testing.T) {
	s := read(t, "(01)09501101530003(10)L(10)L")
	require.Equal(t, []Warning{{Doubt: Repeated, Position: 24, ID: "10"}}, s.Warnings)
	require.Equal(t, Error{Code: RepeatDiffers, Position: 24, ID: "10"}, failure(t, "(01)09501101530003(10)L(10)M"))
	require.Equal(t, Error{Code: Excluded, Position: 19, ID: "37", Other: "01"}, failure(t, "(01)09501101530003(37)12"))
	require.Equal(t, Error{Code: Excluded, Position: 31, ID: "3102", Other: "3101"}, failure(t, "(01)09501101530003(3101)123456(3102)123456"))

	half, err := Parse(scanned("]C117261231"+"10LOT42A"), yearOfTests)
	var e *Error
	require.True(t, errors.As(err, &e))
	require.Equal(t, Error{Code: Incomplete, Position: 3, ID: "17", Other: "01,02,03,255,8006,8026"}, *e)
	require.Equal(t, "LOT42A", half.Lot, "what was read is there")
	require.Equal(t, "2026-12-31", half.Expiry.String())
	require.Empty(t, half.Item())

	for _, number := range []string{"]C10109501101530003", "]E09501101530003", "https://example.com/01/09501101530003"} {
		whole, err := ParseLabel([][]byte{scanned("]C117261231" + "10LOT42A"), []byte(number)}, yearOfTests)
		require.NoError(t, err)
		require.Equal(t, "(17)261231(10)LOT42A(01)09501101530003", whole.String())
		require.Equal(t, "09501101530003", whole.Item())
		require.Equal(t, 1, whole.Elements[2].Part)
	}
	_, err = ParseLabel([][]byte{[]byte("]C1" + "0109501101530003"), []byte("]C1" + "0119501101530000")}, yearOfTests)
	require.True(t, errors.As(err, &e))
	require.Equal(t, Error{Code: RepeatDiffers, Position: 3, Part: 1, ID: "01"}, *e)
}

// Goal: bounds come first. Method: scans, numbers of elements and of scans, and
// years at and beyond their bounds.
func TestBoundsComeFirst(t *testing.T) {
	require.Equal(t, Error{Code: TooLong, Position: ScanLenMax}, failure(t, strings.Repeat("9", ScanLenMax+1)))
	require.Equal(t, NotKnown, failure(t, "x"+strings.Repeat("9", ScanLenMax-1)).Code)
	many := "(01)09501101530003" + strings.Repeat("(90)A", ElementsMax-1)
	require.Len(t, read(t, many).Elements, ElementsMax)
	require.Equal(t, Error{Code: TooMany, Position: len(many)}, failure(t, many+"(90)A"))
	plain := "]d2" + strings.Repeat("90A{GS}", ElementsMax)
	require.Equal(t, Error{Code: TooMany, Position: len(scanned(plain))}, failure(t, plain+"90A"))
	for _, year := range []int{YearMin - 1, YearMax + 1, 0, -1} {
		_, err := Parse([]byte("02345673"), year)
		require.Equal(t, &Error{Code: BadYear}, err)
	}
	_, err := ParseLabel(nil, yearOfTests)
	require.Equal(t, &Error{Code: Empty}, err)
	_, err = ParseLabel(make([][]byte, PartsMax+1), yearOfTests)
	require.Equal(t, &Error{Code: TooMany, Part: PartsMax}, err)
}

// Goal: a number that says who somebody is does not pass unseen. Method: a
// service relation number of a recipient, and a name.
func TestNumbersOfPeopleAreWarnedOf(t *testing.T) {
	s := read(t, "(8018)950110153000000014(7254)X")
	require.Equal(t, []Warning{{Doubt: AboutPerson, Position: 1, ID: "8018"}, {Doubt: AboutPerson, Position: 25, ID: "7254"}}, s.Warnings)
}

// Goal: a catalogue finds an item by its number in either form. Method: a label
// of each scheme, and one that names no item.
func TestItemsAreKnownByEachOfTheirNames(t *testing.T) {
	for text, want := range map[string][]string{
		"]d2" + "010950110153000310L":                 {"09501101530003"},
		"9501101530003":                               {"09501101530003", "9501101530003"},
		"12345678901231":                              {"12345678901231"},
		"+A123BJC5D6E71G":                             {"+A123BJC5D6E71", "+A123BJC5D6E71G"},
		"+A99912345/$$52001510X33":                    {"+A99912345", sealed(t, "+A99912345")},
		"+$$52001510X3GD":                             nil,
		"(00)095011015300000010":                      nil,
		"https://example.com/8006/095011015300030102": {"09501101530003"},
	} {
		require.Equal(t, want, read(t, text).Names(), text)
	}
}
