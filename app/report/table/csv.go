package table

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"

	"lintel/app/station"
)

// ErrList says that there is no list of that name.
var ErrList = errors.New("there is no such list")

// CSV writes one list. With harmless, a text that a spreadsheet program would
// take for a formula gets an apostrophe before it; Read takes it away again.
func CSV(c station.Catalogue, name string, harmless bool) ([]byte, error) {
	all := sheetsOf(c)
	i := slices.IndexFunc(all, func(s sheet) bool { return s.name == name })
	if i < 0 {
		return nil, fmt.Errorf("%w: %q", ErrList, name)
	}
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.UseCRLF = true
	for _, row := range all[i].rows {
		quoted := make([]string, len(row))
		for j, text := range row {
			quoted[j] = guard(text, harmless)
		}
		if err := w.Write(quoted); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return out.Bytes(), w.Error()
}

// apostrophe says in a CSV cell that what follows is text.
const apostrophe = "'"

// guard puts an apostrophe before a text that would be read as a formula, or
// whose own apostrophe would be taken away.
func guard(text string, harmless bool) string {
	rest := strings.TrimLeft(text, apostrophe)
	switch {
	case rest == "":
	case rest[0] == '=', strings.ContainsRune("+-@", rune(rest[0])) && (harmless || rest != text):
		return apostrophe + text
	}
	return text
}

// unguard takes guard's apostrophe away. formula tells that the text is one.
func unguard(text string) (plain string, formula bool) {
	rest := strings.TrimLeft(text, apostrophe)
	if rest == "" || !strings.ContainsRune("=+-@", rune(rest[0])) {
		return text, false
	}
	if rest != text {
		return text[len(apostrophe):], false
	}
	return text, rest[0] == '='
}

// Beginnings of files.
const (
	utf8Mark   = "\xef\xbb\xbf"
	utf16Small = "\xff\xfe"
	utf16Big   = "\xfe\xff"
)

// csvGrid reads the rows of a CSV file; nil if there is nothing to go on with.
func (r *reading) csvGrid(name string, b []byte) *grid {
	switch {
	case bytes.HasPrefix(b, []byte(utf16Small)), bytes.HasPrefix(b, []byte(utf16Big)), bytes.IndexByte(b, 0) >= 0:
		r.complain(Problem{ID: "utf16"})
		return nil
	case bytes.HasPrefix(b, []byte(utf8Mark)):
		b = b[len(utf8Mark):]
		r.note("mark")
	}
	in := csv.NewReader(bytes.NewReader(b))
	in.FieldsPerRecord = -1
	heading, err := in.Read()
	if err != nil {
		r.complain(Problem{ID: "no-heading"})
		return nil
	}
	g := &grid{list: r.whichList(name, heading), heading: heading}
	if g.list == "" {
		return nil
	}
	r.csvRows(in, g)
	return g
}

// csvRows reads the rows below the heading, up to the first that cannot be told
// apart from the next.
func (r *reading) csvRows(in *csv.Reader, g *grid) {
	breaks := lineBreaks(g.heading) // within cells: a line of the file is no row then
	for {
		cells, err := in.Read()
		if errors.Is(err, io.EOF) {
			return
		}
		var parse *csv.ParseError
		if errors.As(err, &parse) {
			r.complain(Problem{List: g.list, Row: parse.StartLine - breaks, ID: "quotes"})
			return
		}
		line, _ := in.FieldPos(0)
		if !r.take(g, rowRead{number: line - breaks, cells: cells}, true) {
			return
		}
		breaks += lineBreaks(cells)
	}
}

func lineBreaks(cells []string) (n int) {
	for _, c := range cells {
		n += strings.Count(c, "\n")
	}
	return n
}

// whichList says which list a CSV file holds: the one that it is called like,
// else the one whose columns it has most of.
func (r *reading) whichList(name string, heading []string) string {
	base := strings.TrimSuffix(strings.ToLower(path.Base(strings.ReplaceAll(name, `\`, "/"))), ".csv")
	if slices.Contains(Lists(), base) {
		return base
	}
	best, most := "", 0
	for _, s := range shapes() {
		n := 0
		for _, column := range s.must {
			if slices.ContainsFunc(heading, func(h string) bool { return columnName(h) == column }) {
				n++
			}
		}
		if 2*n > len(s.must) && n > most {
			best, most = s.name, n
		}
	}
	switch {
	case best != "":
	case len(heading) == 1 && strings.ContainsAny(heading[0], ";\t"):
		r.complain(Problem{ID: "commas"})
	default:
		r.complain(Problem{ID: "which-list", Blanks: []any{strings.Join(Lists(), ", ")}})
	}
	return best
}

// columnName is a heading without what does not matter in it.
func columnName(heading string) string { return strings.ToLower(strings.TrimSpace(heading)) }
