package barcode

import "strings"

// isNumber tells whether what stands behind the prefix is an item's number and
// nothing else: digits in one of its lengths, or what an EAN symbol carries.
func isNumber(rest []byte, symbology string) bool {
	if !allDigits(string(rest)) {
		return false
	}
	switch len(rest) {
	case 8, 12, 13, 14:
		return true
	}
	return symbology == "]E3"
}

// numberLen is how many digits of a scan are the number: EAN-13 with an
// additional symbol has two or five digits more.
func numberLen(symbology string, n int) int {
	if symbology == "]E3" && (n == 15 || n == 18) {
		return 13
	}
	return n
}

// plain reads the digits of an EAN, UPC or ITF-14 symbol.
func (r *reading) plain(at int, out *Scan) error {
	id, _ := lookUp("01")
	n := numberLen(out.Symbology, len(r.scan)-at)
	f := r.contiguous(id, at, at, at+n)
	switch {
	case n > 14:
		return f.fault(ValueLong, at+14, "")
	case !checked(f.value):
		return f.fault(CheckDigit, at+n-1, "")
	}
	out.bare = f.value
	f.value = strings.Repeat("0", 14-n) + f.value
	r.fields = []field{f}
	out.Elements = []Element{{ID: id.id, Title: id.title, Value: f.value, Position: at, Part: r.part}}
	return nil
}

// join takes another symbol of the same label.
func (s *Scan) join(one Scan, part int) error {
	if part == 0 {
		*s = one
		return nil
	}
	if (s.Scheme == HIBC) != (one.Scheme == HIBC) || s.primary != "" && one.primary != "" && s.primary != one.primary {
		return &Error{Code: Mixed, Part: part}
	}
	if s.Scheme != one.Scheme {
		s.Scheme = GS1
	}
	if one.primary != "" {
		s.primary = one.primary
	}
	s.Elements = append(s.Elements, one.Elements...)
	return nil
}

// linked wants the link character of every secondary symbol of HIBC to be the
// check character of the primary beside it.
func (s *Scan) linked(scans [][]byte) error {
	if s.primary == "" || len(scans) == 1 {
		return nil
	}
	want, _ := CheckCharacterOf(s.primary)
	s.Link = ""
	for i, scan := range scans {
		at := len(scan) - 2
		if secondaryOnly(scan) && scan[at] != want {
			return &Error{Code: LinkDiffers, Position: at, Part: i}
		}
	}
	return nil
}

// secondaryOnly tells whether a scan of HIBC that was read before has no primary data.
func secondaryOnly(scan []byte) bool {
	first := scan[1]
	if scan[0] == ']' {
		first = scan[prefixLen+1]
	}
	return first == '$' || isDigit(first)
}

// repeats looks for elements of HIBC that stand twice on a label. Of dates of
// expiry, which come in several forms, expires decides.
func (s *Scan) repeats() error {
	if s.Scheme != HIBC {
		return nil
	}
	for i, e := range s.Elements {
		for _, before := range s.Elements[:i] {
			if e.ID != before.ID || e.ID == hibcExpiry {
				continue
			}
			if e.Value != before.Value {
				return &Error{Code: RepeatDiffers, Position: e.Position, Part: e.Part, ID: e.ID}
			}
			s.Warnings = append(s.Warnings, Warning{Doubt: Repeated, Position: e.Position, Part: e.Part, ID: e.ID})
			break
		}
	}
	return nil
}

// summarize picks what the rest of the program asks for out of the elements.
func (s *Scan) summarize() {
	for _, e := range s.Elements {
		switch e.ID {
		case "01", "03":
			keep(&s.GTIN14, e.Value)
		case "8006":
			keep(&s.GTIN14, e.Value[:14])
		case "10", hibcLot:
			keep(&s.Lot, e.Value)
		case "21", hibcSerial:
			keep(&s.Serial, e.Value)
		case "17", "7003", hibcExpiry:
			s.expires(e)
		case "30", "37", hibcQuantity:
			if !s.Counted {
				s.Quantity, s.Counted = int64(number(e.Value)), true
			}
		case "8018", "7250", "7251", "7252", "7253", "7254", "7255", "7256", "7257", "7258", "7259":
			s.Warnings = append(s.Warnings, Warning{Doubt: AboutPerson, Position: e.Position, Part: e.Part, ID: e.ID})
		}
	}
}

// keep takes the first of several.
func keep(to *string, value string) {
	if *to == "" {
		*to = value
	}
}

// expires takes a date of expiry; of two the earlier one, and says so.
func (s *Scan) expires(e Element) {
	if s.Expiry.Known() && !s.Expiry.sameDay(e.Date) {
		s.Warnings = append(s.Warnings, Warning{Doubt: TwoExpiries, Position: e.Position, Part: e.Part, ID: e.ID})
	}
	if !s.Expiry.Known() || e.Date.Before(s.Expiry) {
		s.Expiry = e.Date
	}
}
