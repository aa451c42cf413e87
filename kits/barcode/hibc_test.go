package barcode

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// sealed puts the check character behind data of HIBC.
func sealed(t testing.TB, text string) string {
	t.Helper()
	check, ok := CheckCharacterOf(text)
	require.True(t, ok, text)
	return text + string(check)
}

// Goal: every form of ANSI/HIBC 2.6 is read: primary, secondary with its dates
// and quantities, joined, with what stands behind data identifiers. Method: one
// row for each form, with what it says.
func TestHibcIsReadInEveryForm(t *testing.T) {
	for text, want := range map[string]Scan{
		"+A123BJC5D6E71":                        {primary: "+A123BJC5D6E71"},
		"+A99912345/$LOT3":                      {primary: "+A99912345", Lot: "LOT3"},
		"+A99912345/$+S3":                       {primary: "+A99912345", Serial: "S3"},
		"+A99912345/20015LOT":                   {primary: "+A99912345", Lot: "LOT", Expiry: Date{Year: 2020, Month: 1, Day: 15}},
		"+A99912345/S3":                         {primary: "+A99912345", Serial: "3"},
		"+A99912345/Q12":                        {primary: "+A99912345", Quantity: 12, Counted: true},
		"+$$0928LOTX":                           {Link: "X", Lot: "LOT", Expiry: Date{Year: 2028, Month: 9, Day: 30, Inferred: true}},
		"+$$1228X":                              {Link: "X", Expiry: Date{Year: 2028, Month: 12, Day: 31, Inferred: true}},
		"+$$2092805LX":                          {Link: "X", Lot: "L", Expiry: Date{Year: 2005, Month: 9, Day: 28}},
		"+$$3050928LX":                          {Link: "X", Lot: "L", Expiry: Date{Year: 2005, Month: 9, Day: 28}},
		"+$$405092823LX":                        {Link: "X", Lot: "L", Expiry: Date{Year: 2005, Month: 9, Day: 28, Hour: 23, Timed: true}},
		"+$$505271LX":                           {Link: "X", Lot: "L", Expiry: Date{Year: 2005, Month: 9, Day: 28}},
		"+$$60527123LX":                         {Link: "X", Lot: "L", Expiry: Date{Year: 2005, Month: 9, Day: 28, Hour: 23, Timed: true}},
		"+$$528366LX":                           {Link: "X", Lot: "L", Expiry: Date{Year: 2028, Month: 12, Day: 31}},
		"+$$73C001X":                            {Link: "X", Lot: "3C001"},
		"+$$+73C001X":                           {Link: "X", Serial: "3C001"},
		"+$$8123050928LX":                       {Link: "X", Lot: "L", Quantity: 12, Counted: true, Expiry: Date{Year: 2005, Month: 9, Day: 28}},
		"+$$8120928LX":                          {Link: "X", Lot: "L", Quantity: 12, Counted: true, Expiry: Date{Year: 2028, Month: 9, Day: 30, Inferred: true}},
		"+$$90001278LX":                         {Link: "X", Lot: "8L", Quantity: 12, Counted: true},
		"+$$900012LX":                           {Link: "X", Lot: "L", Quantity: 12, Counted: true},
		"+$$812X":                               {Link: "X", Quantity: 12, Counted: true},
		"+$LOT/":                                {Link: "/", Lot: "LOT"},
		"+$LOT ":                                {Link: " ", Lot: "LOT"},
		"+05271LOTX":                            {Link: "X", Lot: "LOT", Expiry: Date{Year: 2005, Month: 9, Day: 28}},
		"+$$73C001/14D20050928/16D20040228/Q5X": {Link: "X", Lot: "3C001", Expiry: Date{Year: 2005, Month: 9, Day: 28}, Quantity: 5, Counted: true},
	} {
		text = sealed(t, text)
		got := read(t, text)
		require.Equal(t, HIBC, got.Scheme)
		require.Equal(t, text, got.String(), "never trimmed")
		require.Equal(t, want.primary, got.Item(), text)
		require.Nil(t, got.ElementString())
		for _, e := range got.Elements {
			require.Equal(t, text[e.Position:e.Position+len(e.Value)], e.Value)
		}
		require.Empty(t, got.Warnings, text)
		want.Scheme, want.AsScanned, want.bare, want.Check, want.Elements = HIBC, []byte(text), text, text[len(text)-1:], got.Elements
		require.Equal(t, want, got, text)
	}
	require.Equal(t, read(t, sealed(t, "+A99912345")).Elements, []Element{
		{ID: "LIC", Title: "LABELER", Value: "A999", Position: 1},
		{ID: "PCN", Title: "PRODUCT or CATALOGUE No.", Value: "1234", Position: 5},
		{ID: "UM", Title: "UNIT OF MEASURE", Value: "5", Position: 9},
	})
}

// Goal: two dates of expiry that cannot mean the same day are a doubt, and the
// earlier one counts. Method: a month and a day in it, and two months.
func TestOfTwoExpiriesTheEarlierCounts(t *testing.T) {
	s := read(t, sealed(t, "+A99912345/$$0928LOT/14D20280915"))
	require.Empty(t, s.Warnings)
	require.Equal(t, "2028-09-15", s.Expiry.String())
	s = read(t, sealed(t, "+A99912345/$$0928LOT/14D20281015"))
	require.Equal(t, []Warning{{Doubt: TwoExpiries, Position: 24, ID: "EXP"}}, s.Warnings)
	require.Equal(t, "2028-09-30", s.Expiry.String())
	require.Equal(t, []Warning{{Doubt: Repeated, Position: 17, ID: "SERIAL"}}, read(t, sealed(t, "+A99912345/$+S3/SS3")).Warnings)
	s = read(t, "(01)09501101530003(17)261231(7003)2612311430")
	require.Empty(t, s.Warnings)
	require.Equal(t, "2026-12-31T14:30", s.Expiry.String())
}

// Goal: what breaks the rules is refused at the byte that breaks them. Method:
// one row for each rule, with a fitting check character where the rule is about
// something else.
func TestHibcIsRefusedWhereItBreaksRules(t *testing.T) {
	for text, want := range map[string]Error{
		"+A1":                             {Code: ValueShort, Position: 3, ID: "PCN"},
		"+A1234":                          {Code: ValueShort, Position: 6, ID: "PCN"},
		"+A1231234567890123456789" + "1":  {Code: ValueLong, Position: 23, ID: "PCN"},
		"+A123B":                          {Code: ValueShort, Position: 6, ID: "PCN"},
		"+A123BB":                         {Code: BadCharacter, Position: 6, ID: "UM"},
		"+A-23BB1":                        {Code: BadCharacter, Position: 2, ID: "LIC"},
		"+A123B-1":                        {Code: BadCharacter, Position: 6, ID: "PCN"},
		"+-123BB1":                        {Code: BadCharacter, Position: 1, ID: "LIC"},
		"+A99912345/":                     {Code: UnknownID, Position: 11},
		"+A99912345/LOT":                  {Code: UnknownID, Position: 11, ID: "LOT"},
		"+A99912345/$":                    {Code: ValueShort, Position: 12, ID: "LOT"},
		"+A99912345/S":                    {Code: ValueShort, Position: 12, ID: "SERIAL"},
		"+A99912345/Q":                    {Code: ValueShort, Position: 12, ID: "QTY"},
		"+A99912345/Q1A":                  {Code: BadCharacter, Position: 13, ID: "QTY"},
		"+A99912345/Q123456":              {Code: ValueLong, Position: 17, ID: "QTY"},
		"+A99912345/14D2028093":           {Code: ValueShort, Position: 21, ID: "EXP"},
		"+A99912345/14D202809311":         {Code: ValueLong, Position: 22, ID: "EXP"},
		"+A99912345/14D20280931":          {Code: BadDay, Position: 20, ID: "EXP"},
		"+A99912345/16D20281301":          {Code: BadMonth, Position: 18, ID: "MFD"},
		"+A99912345/$$":                   {Code: ValueShort, Position: 13, ID: "EXP"},
		"+A99912345/$$A":                  {Code: BadValue, Position: 13, ID: "EXP"},
		"+A99912345/$$81":                 {Code: ValueShort, Position: 15, ID: "QTY"},
		"+A99912345/$$9123A5":             {Code: BadCharacter, Position: 17, ID: "QTY"},
		"+A99912345/$$092":                {Code: ValueShort, Position: 16, ID: "EXP"},
		"+A99912345/$$1328":               {Code: BadMonth, Position: 13, ID: "EXP"},
		"+A99912345/$$2093128":            {Code: BadDay, Position: 16, ID: "EXP"},
		"+A99912345/$$3280900":            {Code: BadDay, Position: 18, ID: "EXP"},
		"+A99912345/$$428093024":          {Code: BadHour, Position: 20, ID: "EXP"},
		"+A99912345/$$527366":             {Code: BadDay, Position: 16, ID: "EXP"},
		"+A99912345/$$527000":             {Code: BadDay, Position: 16, ID: "EXP"},
		"+A99912345/$$62736524":           {Code: BadHour, Position: 19, ID: "EXP"},
		"+A99912345/$1234567890123456789": {Code: ValueLong, Position: 30, ID: "LOT"},
		"+A99912345/$LOT/$$7LAT":          {Code: RepeatDiffers, Position: 19, ID: "LOT"},
		"+A99912345" + strings.Repeat("/S1", ElementsMax): {Code: TooMany, Position: 11 + 3*(ElementsMax-3)},
		"+A99912345/20015/20015":                          {Code: UnknownID, Position: 17, ID: "2001"},
	} {
		require.Equal(t, want, failure(t, sealed(t, text)), text)
	}
	for text, want := range map[string]Error{
		"+":                   {Code: ValueShort, Position: 1},
		"+A":                  {Code: ValueShort, Position: 2},
		"+$5":                 {Code: CheckDigit, Position: 2},
		"+a123BJC5D6E71G":     {Code: BadCharacter, Position: 1},
		"]A0+A123BJC5D6E71H":  {Code: CheckDigit, Position: 17},
		"]A0+A123BJC5D6E71G ": {Code: CheckDigit, Position: 18},
	} {
		require.Equal(t, want, failure(t, text), text)
	}
}

// Goal: a secondary symbol belongs to the primary whose check character it
// carries. Method: the standard's example pair, in both orders, and another item.
func TestHibcSymbolsOfOneLabelAreLinked(t *testing.T) {
	primary, secondary := sealed(t, "+A123BJC5D6E71"), "+$$52001510X3GD"
	for _, order := range [][][]byte{{[]byte(primary), []byte(secondary)}, {[]byte("]C0" + secondary), []byte("]C0" + primary)}} {
		s, err := ParseLabel(order, yearOfTests)
		require.NoError(t, err)
		require.Equal(t, "+A123BJC5D6E71", s.Item())
		require.Equal(t, "10X3", s.Lot)
		require.Equal(t, "2020-01-15", s.Expiry.String())
		require.Empty(t, s.Link)
	}
	for other, want := range map[string]Error{
		sealed(t, "+A99912345"): {Code: LinkDiffers, Position: 13},
		"]E09501101530003":      {Code: Mixed, Part: 1},
	} {
		_, err := ParseLabel([][]byte{[]byte(secondary), []byte(other)}, yearOfTests)
		var e *Error
		require.True(t, errors.As(err, &e))
		require.Equal(t, want, *e)
	}
	_, err := ParseLabel([][]byte{[]byte(primary), []byte(sealed(t, "+A99912345"))}, yearOfTests)
	require.Equal(t, &Error{Code: Mixed, Part: 1}, err)
}
