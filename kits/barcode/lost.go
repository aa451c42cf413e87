package barcode

import "slices"

// Values in which a lost separator hides what followed.
func swallows(id string) bool {
	return slices.Contains([]string{"10", "21", "22", "235", "240", "241", "250", "251"}, id)
}

// lostSeparators warns of values in which a later element seems to begin. It is
// a doubt only: nothing is cut off.
//
// A date or a number whose check digit fits is found wherever it stands. Lots,
// serial numbers and quantities begin with digits that any lot may hold; they
// count only in a value that ended with the scan, and only where the scanner
// sent no separator at all: one that sends separators sends every one.
func (r *reading) lostSeparators(fields []field) {
	for _, f := range fields {
		if !swallows(f.id.id) {
			continue
		}
		for i := 1; i < len(f.value); i++ {
			next, found := r.begins(f, f.value[i:], fields)
			if found {
				r.warn(Warning{Doubt: LostSeparator, Position: f.from[i], Part: f.part, ID: f.id.id, Other: next})
				break
			}
		}
	}
}

// begins tells whether a text looks like an element that is not there yet.
func (r *reading) begins(f field, text string, fields []field) (id string, found bool) {
	next, known := identify([]byte(text))
	if !known || slices.ContainsFunc(fields, func(o field) bool { return o.id.id == next.id }) {
		return "", false
	}
	rest := text[len(next.id):]
	_, most := lengthOf(readParts(next.parts))
	switch next.id {
	case "00", "01", "11", "13", "15", "16", "17", "7003":
		if len(rest) < most {
			return "", false
		}
		_, s := readValue(next, rest[:most], r.year)
		_, follows := identify([]byte(rest[most:]))
		return next.id, s.code == "" && (follows || len(rest) == most)
	case "10", "21", "30":
		weak := f.last && r.separators == 0 && len(rest) >= lostLenMin && len(rest) <= most
		return next.id, weak && (next.id != "30" || allDigits(rest))
	}
	return "", false
}

// lostLenMin is how long a lot or serial number must be to be taken for one.
const lostLenMin = 2
