package table

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"lintel/app/words"
	"lintel/kits"
	"lintel/kits/barcode"
	"lintel/mesh"
)

// cell is one cell while it is read. A problem is noted where it stands, and
// reading goes on.
type cell struct {
	at   Problem // where
	text string
	file *reading
	row  *rowRead
}

// bad notes a problem of the cell.
func (c *cell) bad(id words.ID, blanks ...any) {
	p := c.at
	p.ID, p.Blanks = id, blanks
	c.file.plan.Problems = append(c.file.plan.Problems, p)
	c.row.bad = true
}

// clean makes sure that the text can be stored as far as its characters go.
func (c *cell) clean() bool {
	if !utf8.ValidString(c.text) {
		c.bad("not-utf8")
		return false
	}
	normal := norm.NFC.String(c.text)
	if mesh.CleanText(normal) != normal {
		c.bad("hidden")
		return false
	}
	c.text = normal
	return true
}

// word is the text without the blanks around it.
func (c *cell) word() string { return strings.TrimSpace(c.text) }

// filled notes an empty cell.
func (c *cell) filled() bool {
	if c.word() == "" {
		c.bad("empty")
		return false
	}
	return true
}

// wrong notes a word that is none of those expected, or that there is none.
func (c *cell) wrong(id words.ID, word string) {
	if word == "" {
		c.bad("empty")
		return
	}
	c.bad(id, word)
}

// label is a line for people.
func (c *cell) label() mesh.Label {
	v := mesh.Label(c.text)
	if v.Valid() != nil {
		c.bad("long", mesh.LabelLenMax)
	}
	return v
}

func (c *cell) id() mesh.ID {
	v := mesh.ID(c.word())
	if v.Valid() != nil {
		c.bad("id", c.word(), mesh.IDLenMax)
	}
	return v
}

// whole is a number up to high; an empty cell is 0.
func (c *cell) whole(high int64) int64 {
	if c.word() == "" {
		return 0
	}
	n, err := strconv.ParseInt(c.word(), 10, 64)
	if err != nil || n < 0 || n > high {
		c.bad("whole", c.word(), high)
		return 0
	}
	return n
}

// spoken is a spoken number.
func (c *cell) spoken() mesh.Number { return c.spokenAs(c.word()) }

func (c *cell) spokenAs(digits string) mesh.Number {
	n, ok := kits.ParseNumber(digits)
	if !ok {
		c.wrong("number", digits)
	}
	return n
}

// numbers are spoken numbers with blanks between.
func (c *cell) numbers() (out []mesh.Number) {
	for _, f := range strings.Fields(c.text) {
		out = append(out, c.spokenAs(f))
	}
	return out
}

func (c *cell) yes() bool {
	switch c.word() {
	case yes:
		return true
	case no:
	default:
		c.wrong("yes-no", c.word())
	}
	return false
}

// gone is yes, no, or empty for no.
func (c *cell) gone() bool { return c.word() != "" && c.yes() }

// place is written sort/id, or the sort alone; an empty cell is none.
func (c *cell) place() kits.Place {
	if c.word() == "" {
		return kits.Place{}
	}
	p, ok := kits.ParsePlace(c.word())
	if !ok {
		c.bad("place", c.word())
	}
	return p
}

// amount is a whole number and a base measure; an empty cell is none.
func (c *cell) amount() kits.Quantity {
	if c.word() == "" {
		return kits.Quantity{}
	}
	digits, word, _ := strings.Cut(c.word(), " ")
	n, err := strconv.ParseInt(digits, 10, 64)
	m, ok := kits.ParseMeasure(word)
	if err != nil || !ok || n < 1 || n > kits.QuantityMax {
		c.bad("amount", c.word())
		return kits.Quantity{}
	}
	return kits.Quantity{N: n, Measure: m}
}

// codes are barcodes with | between. Those that are trade item numbers by their
// length must end in their check digit.
func (c *cell) codes() (out []mesh.Label) {
	for _, code := range splitCodes(c.text) {
		v := mesh.Label(code)
		if v.Valid() != nil {
			c.bad("long", mesh.LabelLenMax)
		}
		if tradeNumber(code) && barcode.CheckDigitOf(code[:len(code)-1]) != code[len(code)-1] {
			c.bad("code-digit", code)
		}
		out = append(out, v)
	}
	return out
}

// tradeNumber tells whether a code is a trade item number of 12, 13 or 14
// digits. One of 8 may as well be a hospital's own.
func tradeNumber(code string) bool {
	return len(code) >= 12 && len(code) <= 14 && strings.Trim(code, "0123456789") == ""
}

// sameCode is what two writings of one code share: a trade item number is 14
// digits.
func sameCode(code mesh.Label) string {
	if tradeNumber(string(code)) {
		return strings.Repeat("0", 14-len(code)) + string(code)
	}
	return string(code)
}

// Words of cells.
const (
	yes = "yes"
	no  = "no"
)

func yesNo(b bool) string {
	if b {
		return yes
	}
	return no
}

// wholeText is a number as a cell holds it; 0 is an empty cell.
func wholeText(n int64) string {
	if n == 0 {
		return ""
	}
	return strconv.FormatInt(n, 10)
}

func placeText(p kits.Place) string {
	if p == (kits.Place{}) {
		return ""
	}
	return p.Words()
}

// joinCodes writes codes so that splitCodes reads the same ones.
func joinCodes(codes []mesh.Label) string {
	mark := strings.NewReplacer(`\`, `\\`, `|`, `\|`)
	texts := make([]string, len(codes))
	for i, c := range codes {
		texts[i] = mark.Replace(string(c))
	}
	return strings.Join(texts, "|")
}

// splitCodes reads codes with | between. Empty ones do not count, nor do blanks
// around digits; the check character of a code may be a blank.
func splitCodes(text string) (out []string) {
	var one strings.Builder
	end := func() {
		code := one.String()
		if bare := strings.TrimSpace(code); strings.Trim(bare, "0123456789") == "" {
			code = bare
		}
		if code != "" {
			out = append(out, code)
		}
		one.Reset()
	}
	marked := false
	for _, r := range text {
		switch {
		case r == '\\' && !marked:
			marked = true
			continue
		case r == '|' && !marked:
			end()
		default:
			one.WriteRune(r)
		}
		marked = false
	}
	end()
	return out
}
