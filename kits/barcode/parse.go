package barcode

import (
	"errors"
	"strings"
)

// Parse reads one scan. year is the reference year for years of two digits,
// YearMin to YearMax. Errors are of type *Error. With Incomplete the Scan holds
// what was read: another symbol of the label may complete it.
func Parse(scan []byte, year int) (Scan, error) { return ParseLabel([][]byte{scan}, year) }

// ParseLabel reads the scans of all symbols of one label as one: elements of GS1
// and plain numbers together, or primary and secondary data of HIBC whose link
// character fits.
func ParseLabel(scans [][]byte, year int) (Scan, error) {
	switch {
	case year < YearMin || year > YearMax:
		return Scan{}, &Error{Code: BadYear}
	case len(scans) == 0:
		return Scan{}, &Error{Code: Empty}
	case len(scans) > PartsMax:
		return Scan{}, &Error{Code: TooMany, Part: PartsMax}
	}
	var out Scan
	var fields []field
	for i, scan := range scans {
		r := &reading{scan: scan, year: year, part: i}
		one, err := r.read()
		if err != nil {
			return Scan{}, err
		}
		if err := out.join(one, i); err != nil {
			return Scan{}, err
		}
		out.Warnings = append(out.Warnings, r.warnings...)
		fields = append(fields, r.fields...)
	}
	if err := out.linked(scans); err != nil {
		return Scan{}, err
	}
	if err := out.repeats(); err != nil {
		return Scan{}, err
	}
	doubts, err := checkPairs(fields)
	out.Warnings = append(out.Warnings, doubts...)
	var e *Error
	if errors.As(err, &e) && e.Code != Incomplete {
		return Scan{}, err
	}
	out.summarize()
	return out, err
}

// read finds out what a scan is, and reads it.
func (r *reading) read() (out Scan, err error) {
	if len(r.scan) > ScanLenMax {
		return Scan{}, r.fault(TooLong, ScanLenMax, "")
	}
	out.AsScanned = append([]byte(nil), r.scan...)
	at, err := r.prefix(&out)
	if err != nil {
		return Scan{}, err
	}
	rest := r.scan[at:]
	switch {
	case carriesElements(out.Symbology):
		out.Scheme = GS1
		err = r.elementString(at)
	case len(rest) == 0:
		return Scan{}, r.fault(Empty, at, "")
	case isAddress(rest):
		out.Scheme = DigitalLink
		err = r.digitalLink(at)
	case rest[0] == '+':
		return out, r.hibc(at, &out)
	case isNumber(rest, out.Symbology):
		out.Scheme = Plain
		return out, r.plain(at, &out)
	case out.Symbology == "" && rest[0] == '(':
		out.Scheme = GS1
		err = r.bracketed()
	case out.Symbology == "" && (isDigit(rest[0]) || rest[0] == Separator):
		out.Scheme = GS1
		err = r.elementString(at)
	default:
		err = r.fault(NotKnown, at, "")
	}
	// What is wrong with a value comes before what is wrong behind it.
	if wrong := r.elements(&out); wrong != nil {
		err = wrong
	}
	return out, err
}

// prefixLen is how long a symbology identifier is: ] with letter and modifier.
const prefixLen = 3

// prefix takes the symbology identifier off, where there is one.
func (r *reading) prefix(out *Scan) (at int, err error) {
	if len(r.scan) == 0 || r.scan[0] != ']' {
		return 0, nil
	}
	letters := capitals + small
	if len(r.scan) < prefixLen || strings.IndexByte(letters, r.scan[1]) < 0 || strings.IndexByte(digits+letters, r.scan[2]) < 0 {
		return 0, r.fault(BadPrefix, 0, "")
	}
	out.Symbology = string(r.scan[:prefixLen])
	return prefixLen, nil
}

// carriesElements tells whether a symbol of this kind carries element strings
// and nothing else.
func carriesElements(symbology string) bool {
	switch symbology {
	case "]C1", "]e0", "]e1", "]e2", "]d2", "]Q3", "]J1":
		return true
	}
	return false
}

// elements checks the values of fields, and takes them as elements.
func (r *reading) elements(out *Scan) error {
	for _, f := range r.fields {
		d, wrong := readValue(f.id, f.value, r.year)
		if wrong.code != "" {
			return f.fault(wrong.code, f.from[min(wrong.at, len(f.from)-1)], "")
		}
		e := Element{ID: f.id.id, Title: f.id.title, Value: f.value, Position: f.at, Part: r.part, Date: d}
		if n, counted := decimals(f.id.id); counted {
			e.Amount = amount(f, n)
		}
		out.Elements = append(out.Elements, e)
	}
	r.lostSeparators(r.fields)
	return nil
}

// amount writes the number at the end of a value with its decimal point.
func amount(f field, decimals int) string {
	text := f.value
	if parts := readParts(f.id.parts); len(parts) > 1 {
		text = text[parts[0].max:] // a currency stands before it
	}
	if short := decimals + 1 - len(text); short > 0 {
		text = strings.Repeat("0", short) + text
	}
	whole := strings.TrimLeft(text[:len(text)-decimals], "0")
	if whole == "" {
		whole = "0"
	}
	if decimals == 0 {
		return whole
	}
	return whole + "." + text[len(text)-decimals:]
}
