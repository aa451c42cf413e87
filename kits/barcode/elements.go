package barcode

import "bytes"

// field is one element as it was found, before its value is checked.
type field struct {
	id    identifier
	part  int
	at    int // byte of the scan where the identifier begins
	value string
	from  []int // byte of the scan where each byte of the value stands, and where the value ends
	last  bool  // no separator followed: it ended with the scan, or in a bracket or an address
}

// fault says what is wrong with an element.
func (f field) fault(code Code, position int, other string) error {
	return &Error{Code: code, Position: position, Part: f.part, ID: f.id.id, Other: other}
}

// reading is one scan while it is read. The call that made it owns it.
type reading struct {
	scan       []byte
	year       int
	part       int
	warnings   []Warning
	separators int     // those that ended an element; a scanner that sends one sends all
	fields     []field // of GS1 and Plain, as far as they were found
}

func (r *reading) warn(w Warning) { r.warnings = append(r.warnings, w) }

// fault says what is wrong at a byte of the scan, where no element is known yet.
func (r *reading) fault(code Code, position int, id string) error {
	return &Error{Code: code, Position: position, Part: r.part, ID: id}
}

// contiguous makes a field whose value stands in the scan as it is.
func (r *reading) contiguous(id identifier, at, from, to int) field {
	f := field{id: id, part: r.part, at: at, value: string(r.scan[from:to])}
	for i := from; i <= to; i++ {
		f.from = append(f.from, i)
	}
	return f
}

// elementString splits what was scanned, from a byte on, at lengths and separators.
func (r *reading) elementString(at int) error {
	if at < len(r.scan) && r.scan[at] == Separator {
		r.warn(Warning{Doubt: NeedlessSeparator, Position: at, Part: r.part})
		at++
	}
	if at == len(r.scan) {
		return r.fault(Empty, at, "")
	}
	for at < len(r.scan) {
		if len(r.fields) == ElementsMax {
			return r.fault(TooMany, at, "")
		}
		id, known := identify(r.scan[at:])
		if !known {
			return r.fault(UnknownID, at, unknown(r.scan[at:]))
		}
		f, next, err := r.element(id, at)
		if err != nil {
			return err
		}
		r.fields = append(r.fields, f)
		at = next
	}
	return nil
}

// unknown is what stands where an identifier should: its digits, at most four.
func unknown(text []byte) string {
	n := 0
	for n < len(text) && n < idLenMax && isDigit(text[n]) {
		n++
	}
	return string(text[:n])
}

// element takes one element off the scan, and the separator behind it.
func (r *reading) element(id identifier, at int) (f field, next int, err error) {
	from := at + len(id.id)
	to := len(r.scan)
	if i := bytes.IndexByte(r.scan[from:], Separator); i >= 0 {
		to = from + i
	}
	if id.predefined {
		_, length := lengthOf(readParts(id.parts))
		if to-from < length {
			return field{}, 0, &Error{Code: ValueShort, Position: to, Part: r.part, ID: id.id}
		}
		to = from + length
	}
	f = r.contiguous(id, at, from, to)
	f.last = to == len(r.scan)
	if f.last {
		return f, to, nil
	}
	if r.scan[to] != Separator {
		return f, to, nil
	}
	if id.predefined || to+1 == len(r.scan) {
		r.warn(Warning{Doubt: NeedlessSeparator, Position: to, Part: r.part, ID: id.id})
	} else {
		r.separators++
	}
	return f, to + 1, nil
}

// bracketed splits the printed form: identifiers in brackets, and \( for a
// bracket within a value.
func (r *reading) bracketed() error {
	for at := 0; at < len(r.scan); {
		if len(r.fields) == ElementsMax {
			return r.fault(TooMany, at, "")
		}
		n := len(unknown(r.scan[at+1:]))
		digits := string(r.scan[at+1 : at+1+n])
		id, known := lookUp(digits)
		switch {
		case !known && n < idLenMin:
			return r.fault(UnknownID, at+1, digits)
		case at+1+n == len(r.scan) || r.scan[at+1+n] != ')':
			return r.fault(BadClosing, at+1+n, digits)
		case !known:
			return r.fault(UnknownID, at+1, digits)
		}
		f := field{id: id, part: r.part, at: at + 1, last: true}
		var value []byte
		for at += n + 2; at < len(r.scan) && r.scan[at] != '('; at++ {
			f.from = append(f.from, at)
			if r.scan[at] == '\\' && at+1 < len(r.scan) && r.scan[at+1] == '(' {
				at++
			}
			value = append(value, r.scan[at])
		}
		f.value, f.from = string(value), append(f.from, at)
		r.fields = append(r.fields, f)
	}
	return nil
}
