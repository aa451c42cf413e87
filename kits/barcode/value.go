package barcode

import "strings"

// readValue checks a value by the parts of its identifier: length first, then
// characters, then what else is asked of each part. It gives the date in it.
func readValue(id identifier, value string, year int) (d Date, s slip) {
	parts := readParts(id.parts)
	least, most := lengthOf(parts)
	switch {
	case len(value) > most:
		return Date{}, slip{ValueLong, most}
	case len(value) < least:
		return Date{}, slip{ValueShort, len(value)}
	}
	from := 0
	for _, p := range parts {
		n := min(p.max, len(value)-from)
		if n == 0 && p.optional {
			continue
		}
		if n < p.min {
			return Date{}, slip{ValueShort, len(value)}
		}
		piece := value[from : from+n]
		s := checkCharacters(p.set, piece)
		for i := 0; i < len(p.checks) && s.code == ""; i++ {
			s = check(p.checks[i], piece, year, &d)
		}
		if s.code != "" {
			return Date{}, slip{s.code, from + s.at}
		}
		from += n
	}
	if from < len(value) {
		return Date{}, slip{ValueLong, from}
	}
	return d, slip{}
}

func checkCharacters(set byte, piece string) slip {
	allowed := characterSet(set)
	for i := range len(piece) {
		if strings.IndexByte(allowed, piece[i]) < 0 {
			return slip{BadCharacter, i}
		}
	}
	return slip{}
}

// check applies one check of identifiers.txt to a part of a value. The first
// date of a value, and the time behind it, go to d.
func check(name, piece string, year int, d *Date) slip {
	switch name {
	case "csum":
		if !checked(piece) {
			return slip{CheckDigit, len(piece) - 1}
		}
	case "csumalpha":
		if !checkedPair(piece) {
			return slip{CheckDigit, max(0, len(piece)-2)}
		}
	case "gcp1":
		return checkPrefix(piece)
	case "gcp2":
		s := checkPrefix(piece[1:])
		s.at++
		return s
	case "yymmd0", "yymmdd", "yyyymmdd":
		return checkDay(name, piece, year, d)
	case "hh", "hhmi", "mi", "ss":
		return checkTime(name, piece, d)
	default:
		return checkNumber(name, piece)
	}
	return slip{}
}

// prefixLenMin is the least number of digits that a company's prefix has.
const prefixLenMin = 4

// checkPrefix wants the digits that every company's prefix begins with.
func checkPrefix(piece string) slip {
	if len(piece) < prefixLenMin {
		return slip{ValueShort, len(piece)}
	}
	return checkCharacters('N', piece[:prefixLenMin])
}

func checkDay(name, piece string, year int, d *Date) slip {
	form := dayForm{yearLen: 2, month: 2, day: 4}
	if name == "yyyymmdd" {
		form = dayForm{yearLen: 4, month: 4, day: 6}
	}
	read, s := readDay(piece, form, year, name == "yymmd0")
	if s.code == "" && !d.Known() {
		*d = read
	}
	return s
}

func checkTime(name, piece string, d *Date) slip {
	if name == "hh" || name == "hhmi" {
		if s := readHour(piece, 0, d); s.code != "" || name == "hh" {
			return s
		}
	}
	at := len(piece) - 2
	n := number(piece[at:])
	if n > 59 {
		return slip{BadMinute, at}
	}
	if name != "ss" {
		d.Minute = n
	}
	return slip{}
}

// checkNumber applies the small checks on digits, and on single characters.
func checkNumber(name, piece string) slip {
	bad := false
	switch name {
	case "zero":
		bad = piece != strings.Repeat("0", len(piece))
	case "nonzero":
		bad = strings.Trim(piece, "0") == ""
	case "nozeroprefix":
		bad = piece[0] == '0' && len(piece) > 1
	case "yesno":
		bad = piece != "0" && piece != "1"
	case "hyphen":
		bad = strings.Trim(piece, "-") != ""
	case "hasnondigit":
		bad = allDigits(piece)
	case "piece":
		bad = piece[:2] == "00" || piece[2:] == "00" || piece[:2] > piece[2:]
	}
	if bad {
		return slip{BadValue, 0}
	}
	return slip{}
}
