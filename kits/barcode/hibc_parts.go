package barcode

import "strings"

// counted reads what follows $$ or $$+: a quantity where there is one, a date,
// and a lot or serial number, which may be empty.
//
//	8qq or 9qqqqq, then perhaps
//	MMYY (begins with 0 or 1) · 2MMDDYY · 3YYMMDD · 4YYMMDDHH · 5YYJJJ · 6YYJJJHH · 7 no date
func (r *reading) counted(s segment, id string, out *Scan) error {
	at := s.from
	if at == s.to {
		return r.fault(ValueShort, at, hibcExpiry)
	}
	if b := r.scan[at]; b == '8' || b == '9' {
		n := 2
		if b == '9' {
			n = quantityLenMax
		}
		if err := r.numeric(segment{at + 1, s.to}, n, hibcQuantity); err != nil {
			return err
		}
		r.add(out, hibcQuantity, at+1, at+1+n, Date{})
		if at += 1 + n; at == s.to || strings.IndexByte("01234567", r.scan[at]) < 0 {
			return r.batch(at, s.to, id, 0, out)
		}
	}
	switch form := r.scan[at]; form {
	case '0', '1':
		return r.dated(segment{at, s.to}, '0', id, out)
	case '2', '3', '4', '5', '6':
		return r.dated(segment{at + 1, s.to}, form, id, out)
	case '7':
		return r.batch(at+1, s.to, id, 0, out)
	}
	return r.fault(BadValue, at, hibcExpiry)
}

// numeric wants a number of digits at the beginning of a piece.
func (r *reading) numeric(s segment, n int, id string) error {
	for i := s.from; i < s.from+n; i++ {
		if i >= s.to {
			return r.fault(ValueShort, s.to, id)
		}
		if !isDigit(r.scan[i]) {
			return r.fault(BadCharacter, i, id)
		}
	}
	return nil
}

// dated reads a date of a form, and the lot or serial number behind it.
func (r *reading) dated(s segment, form byte, id string, out *Scan) error {
	n := map[byte]int{'0': 4, '2': 6, '3': 6, '4': 8, '5': julianLen, '6': julianLen + 2}[form]
	if err := r.numeric(s, n, hibcExpiry); err != nil {
		return err
	}
	d, wrong := readHibcDate(string(r.scan[s.from:s.from+n]), form, r.year)
	if wrong.code != "" {
		return r.fault(wrong.code, s.from+wrong.at, hibcExpiry)
	}
	r.add(out, hibcExpiry, s.from, s.from+n, d)
	return r.batch(s.from+n, s.to, id, 0, out)
}

// readHibcDate reads a date of a form; '0' stands for MMYY.
func readHibcDate(value string, form byte, year int) (d Date, s slip) {
	switch form {
	case '0':
		return readDay(value, dayForm{year: 2, yearLen: 2, month: 0, day: -1}, year, true)
	case '2':
		return readDay(value, dayForm{year: 4, yearLen: 2, month: 0, day: 2}, year, false)
	case '3', '4':
		d, s = readDay(value, dayForm{year: 0, yearLen: 2, month: 2, day: 4}, year, false)
	default:
		d, s = readDayOfYear(value, year)
	}
	if s.code == "" && (form == '4' || form == '6') {
		s = readHour(value, len(value)-2, &d)
	}
	return d, s
}

// fullDay reads YYYYMMDD behind a data identifier.
func (r *reading) fullDay(s segment, id string, out *Scan) error {
	if err := r.numeric(s, fullDayLen, id); err != nil {
		return err
	}
	if s.to-s.from > fullDayLen {
		return r.fault(ValueLong, s.from+fullDayLen, id)
	}
	d, wrong := readDay(r.text(s), dayForm{year: 0, yearLen: 4, month: 4, day: 6}, r.year, false)
	if wrong.code != "" {
		return r.fault(wrong.code, s.from+wrong.at, id)
	}
	r.add(out, id, s.from, s.to, d)
	return nil
}

// quantity reads one to five digits behind Q.
func (r *reading) quantity(from, to int, out *Scan) error {
	if to-from > quantityLenMax {
		return r.fault(ValueLong, from+quantityLenMax, hibcQuantity)
	}
	if err := r.numeric(segment{from, to}, max(1, to-from), hibcQuantity); err != nil {
		return err
	}
	r.add(out, hibcQuantity, from, to, Date{})
	return nil
}

// batch reads a lot or serial number up to the end of its piece. An empty one,
// where it may be empty, gives no element.
func (r *reading) batch(from, to int, id string, least int, out *Scan) error {
	switch {
	case to-from < least:
		return r.fault(ValueShort, to, id)
	case to-from > batchLenMax:
		return r.fault(ValueLong, from+batchLenMax, id)
	case from == to:
		return nil
	}
	for i := from; i < to; i++ {
		if strings.IndexByte(digits+capitals+hibcMarks, r.scan[i]) < 0 {
			return r.fault(BadCharacter, i, id)
		}
	}
	r.add(out, id, from, to, Date{})
	return nil
}
