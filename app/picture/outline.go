package picture

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strconv"
	"strings"
)

// Form and bounds of outlines.
const (
	OutlineLenMax = 8 << 10 // bytes
	FieldSide     = 48      // of the field that they stand in
	Stroke        = 2       // its width in that field
	ShapesMax     = 40      // of one outline
	numbersMax    = 1000    // of one outline
)

// attributes are exactly those that an element of an outline has; a value
// "" is a number within the field.
func attributes(element string) map[string]string {
	switch element {
	case "svg":
		return map[string]string{"xmlns": "http://www.w3.org/2000/svg", "width": "48", "height": "48", "viewBox": "0 0 48 48"}
	case "g":
		return map[string]string{"fill": "none", "stroke": "#000000", "stroke-width": "2", "stroke-linecap": "round", "stroke-linejoin": "round"}
	case "rect":
		return map[string]string{"x": "", "y": "", "width": "", "height": "", "rx": "", "ry": ""}
	case "circle":
		return map[string]string{"cx": "", "cy": "", "r": ""}
	case "ellipse":
		return map[string]string{"cx": "", "cy": "", "rx": "", "ry": ""}
	}
	return nil
}

// checkOutline takes an SVG only in the one form that the package comment shows.
func checkOutline(b []byte) error {
	if len(b) > OutlineLenMax {
		return &Refused{Why: WhyLong}
	}
	c := &outlineCheck{}
	d := xml.NewDecoder(bytes.NewReader(b))
	d.Strict = true
	for {
		t, err := d.RawToken()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return &Refused{Why: WhyOutline}
		}
		if err := c.token(t); err != nil {
			return err
		}
	}
	if c.shapes == 0 || len(c.open) > 0 {
		return &Refused{Why: WhyOutline}
	}
	return nil
}

// outlineCheck is where in an outline a reader is.
type outlineCheck struct {
	open    []string // elements that stand around
	roots   int
	groups  int
	shapes  int
	numbers int
}

func (c *outlineCheck) token(t xml.Token) error {
	switch t := t.(type) {
	case xml.StartElement:
		return c.begin(t)
	case xml.EndElement:
		if len(c.open) == 0 || c.open[len(c.open)-1] != t.Name.Local {
			return &Refused{Why: WhyOutline, Cell: t.Name.Local}
		}
		c.open = c.open[:len(c.open)-1]
		return nil
	case xml.CharData:
		if strings.TrimSpace(string(t)) == "" {
			return nil
		}
	}
	return &Refused{Why: WhyOutline} // a comment, a directive, text
}

// begin takes one element where it may stand.
func (c *outlineCheck) begin(e xml.StartElement) error {
	name, bad := e.Name.Local, &Refused{Why: WhyOutline, Cell: e.Name.Local}
	if e.Name.Space != "" {
		return bad
	}
	switch around := strings.Join(c.open, " "); {
	case around == "" && name == "svg" && c.roots == 0:
		c.roots++
	case around == "svg" && name == "g" && c.groups == 0:
		c.groups++
	case around == "svg g" && c.shapes < ShapesMax && (name == "path" || attributes(name) != nil && name != "svg" && name != "g"):
		c.shapes++
	default:
		return bad
	}
	c.open = append(c.open, name)
	if name == "path" {
		if len(e.Attr) != 1 || e.Attr[0].Name.Space != "" || e.Attr[0].Name.Local != "d" || !c.path(e.Attr[0].Value) {
			return bad
		}
		return nil
	}
	return c.holds(e, bad)
}

// holds compares the attributes of an element with those that it may have.
func (c *outlineCheck) holds(e xml.StartElement, bad error) error {
	may := attributes(e.Name.Local)
	seen := map[string]bool{}
	for _, a := range e.Attr {
		want, known := may[a.Name.Local]
		if !known || a.Name.Space != "" || seen[a.Name.Local] {
			return bad
		}
		seen[a.Name.Local] = true
		if want != "" && a.Value != want || want == "" && !c.within(a.Value, 0) {
			return bad
		}
	}
	for name := range may {
		if round := e.Name.Local == "rect" && (name == "rx" || name == "ry"); !seen[name] && !round {
			return bad
		}
	}
	return nil
}

// within tells whether a text is a number from least to the field's side.
func (c *outlineCheck) within(text string, least float64) bool {
	c.numbers++
	for _, r := range text {
		if (r < '0' || r > '9') && r != '.' && r != '-' {
			return false // no exponent, no infinity
		}
	}
	v, err := strconv.ParseFloat(text, 64)
	return err == nil && v >= least && v <= FieldSide && c.numbers <= numbersMax
}

// pathNumbers is how many numbers follow each step of a path that is allowed:
// moves, lines, curves of the third and second order, closing.
func pathNumbers(step byte) (n int, known bool) {
	switch step {
	case 'M', 'm', 'L', 'l':
		return 2, true
	case 'H', 'h', 'V', 'v':
		return 1, true
	case 'C', 'c':
		return 6, true
	case 'Q', 'q', 'S', 's':
		return 4, true
	case 'Z', 'z':
		return 0, true
	}
	return 0, false
}

// path tells whether a path has only steps that are allowed, each with all its
// numbers, written with one space or comma between.
func (c *outlineCheck) path(d string) bool {
	if d == "" || d[0] != 'M' {
		return false
	}
	for len(d) > 0 {
		n, known := pathNumbers(d[0])
		if !known {
			return false
		}
		end := 1
		for end < len(d) && strings.IndexByte("0123456789.-, ", d[end]) >= 0 {
			end++
		}
		numbers := strings.FieldsFunc(d[1:end], func(r rune) bool { return r == ' ' || r == ',' })
		if n == 0 && len(numbers) > 0 || n > 0 && (len(numbers) == 0 || len(numbers)%n != 0) {
			return false
		}
		for _, text := range numbers {
			if !c.within(text, -FieldSide) {
				return false
			}
		}
		d = d[end:]
	}
	return true
}
