package barcode

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Goal: an address of any host reads as the elements in it. Method: addresses
// in every shape, beside the printed form of what they say (GS1 Digital Link
// Standard: URI Syntax; identifiers of the GS1 Barcode Syntax Dictionary).
func TestDigitalLinksReadAsTheirElements(t *testing.T) {
	for text, want := range map[string]string{
		"https://id.gs1.org/01/09501101530003":                                        "(01)09501101530003",
		"http://example.com/01/09501101530003":                                        "(01)09501101530003",
		"HTTPS://EXAMPLE.COM:8080/a/b/01/09501101530003/":                             "(01)09501101530003",
		"]Q1https://example.com/01/09501101530003/22/V/10/L/21/S":                     "(01)09501101530003(22)V(10)L(21)S",
		"]d1https://example.com/01/09501101530003/21/S":                               "(01)09501101530003(21)S",
		"https://example.com/01/09501101530003?17=261231":                             "(01)09501101530003(17)261231",
		"https://example.com/01/09501101530003/10/a%2Fb%28?17=261200&linkType=all#10": `(01)09501101530003(10)a/b\((17)261200`,
		"https://example.com/01/09501101530003?17=261231;3103=001250":                 "(01)09501101530003(17)261231(3103)001250",
		"https://example.com/01/09501101530003?240=A;B&30=2":                          "(01)09501101530003(240)A;B(30)2",
		"https://example.com/01/09501101530003?x&=1&y=":                               "(01)09501101530003",
		"https://example.com/01/01/09501101530003/10/01":                              "(01)09501101530003(10)01",
		"https://example.com/00/095011015300000010":                                   "(00)095011015300000010",
		"https://example.com/414/9501101530003/254/A1":                                "(414)9501101530003(254)A1",
	} {
		s := read(t, text)
		require.Equal(t, want, s.String(), text)
		require.Equal(t, DigitalLink, s.Scheme)
	}
	s := read(t, "https://example.com/01/09501101530003/10/a%2fb?17=261231")
	require.Equal(t, []int{20, 38, 47}, []int{s.Elements[0].Position, s.Elements[1].Position, s.Elements[2].Position})
}

// Goal: an address that breaks the rules is refused at the byte that breaks
// them. Method: one address for each rule.
func TestDigitalLinksAreRefusedWhereTheyBreakRules(t *testing.T) {
	const item = "https://example.com/01/09501101530003"
	for text, want := range map[string]Error{
		"https://":                                {Code: NoKey, Position: 8},
		"https:///01/09501101530003":              {Code: NoKey, Position: 26},
		"https://example.com":                     {Code: NoKey, Position: 19},
		"https://example.com/":                    {Code: NoKey, Position: 19},
		"https://example.com?01=09501101530003":   {Code: NoKey, Position: 19},
		"https://example.com/gtin/09501101530003": {Code: NoKey, Position: 19},
		"https://example.com/10/L":                {Code: NoKey, Position: 19},
		"https://example.com/01/9501101530003":    {Code: ValueShort, Position: 36, ID: "01"},
		"https://example.com/01/09501101530004":   {Code: CheckDigit, Position: 36, ID: "01"},
		item + "/21/S/10/L":                       {Code: BadPath, Position: 43, ID: "10", Other: "01"},
		item + "/10/L/10/L":                       {Code: BadPath, Position: 43, ID: "10", Other: "01"},
		item + "/17/261231":                       {Code: BadPath, Position: 38, ID: "17", Other: "01"},
		item + "/235/T/10/L":                      {Code: BadPath, Position: 44, ID: "10", Other: "01"},
		item + "/99/A":                            {Code: BadPath, Position: 38, ID: "99", Other: "01"},
		item + "/05/A":                            {Code: UnknownID, Position: 38, ID: "05"},
		item + "/10/":                             {Code: NoKey, Position: 19},
		item + "/10//21/S":                        {Code: ValueShort, Position: 41, ID: "10"},
		item + "/10/%4":                           {Code: BadEscape, Position: 41, ID: "10"},
		item + "/10/%4g":                          {Code: BadEscape, Position: 41, ID: "10"},
		item + "/10/A%23B":                        {Code: BadCharacter, Position: 42, ID: "10"},
		item + "?10=L":                            {Code: NotInQuery, Position: 38, ID: "10"},
		item + "/235/T?21=S":                      {Code: NotInQuery, Position: 44, ID: "21"},
		item + "?1234=1":                          {Code: UnknownID, Position: 38, ID: "1234"},
		item + "?240=A+B":                         {Code: BadCharacter, Position: 43, ID: "240"},
		item + "?17=2612%332":                     {Code: BadDay, Position: 45, ID: "17"},
		item + "?17":                              {Code: ValueShort, Position: 40, ID: "17"},
		item + "?37=2":                            {Code: Excluded, Position: 38, ID: "37", Other: "01"},
	} {
		require.Equal(t, want, failure(t, text), text)
	}
}
