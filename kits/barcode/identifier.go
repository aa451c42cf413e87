package barcode

import (
	_ "embed"
	"strings"
)

//go:embed identifiers.txt
var identifiers string

// identifier is what may follow one application identifier.
type identifier struct {
	id         string // two to four digits
	predefined bool   // its length is known beforehand
	inQuery    bool
	parts      string
	needs      string
	excludes   string
	path       string
	title      string
}

// Lengths of an identifier, in digits.
const (
	idLenMin = 2
	idLenMax = 4
)

// identify finds the identifier that a text begins with. No identifier is the
// beginning of another.
func identify(text []byte) (identifier, bool) {
	for n := idLenMin; n <= idLenMax && n <= len(text); n++ {
		if id, known := lookUp(string(text[:n])); known {
			return id, true
		}
	}
	return identifier{}, false
}

// lookUp finds the line of an identifier.
func lookUp(id string) (identifier, bool) {
	if !allDigits(id) {
		return identifier{}, false
	}
	for line := range strings.Lines(identifiers) {
		fields := strings.Split(strings.TrimSuffix(line, "\n"), ";")
		if len(fields) != 7 || line[0] == '#' {
			continue
		}
		first, last, isRange := strings.Cut(fields[0], "-")
		if !isRange {
			last = first
		}
		if len(id) == len(first) && first <= id && id <= last {
			return identifier{
				id: id, predefined: strings.Contains(fields[1], "*"), inQuery: strings.Contains(fields[1], "?"),
				parts: fields[2], needs: fields[3], excludes: fields[4], path: fields[5], title: fields[6],
			}, true
		}
	}
	return identifier{}, false
}

// part is one part of a value.
type part struct {
	set      byte // N X Y Z
	min, max int
	optional bool
	checks   []string
}

// readParts reads the parts of a value as identifiers.txt writes them.
func readParts(text string) (parts []part) {
	for word := range strings.FieldsSeq(text) {
		inner, optional := strings.CutPrefix(word, "[")
		pieces := strings.Split(strings.TrimSuffix(inner, "]"), ",")
		length, variable := strings.CutPrefix(pieces[0][1:], "..")
		p := part{set: pieces[0][0], max: number(length), optional: optional, checks: pieces[1:]}
		p.min = p.max
		if variable {
			p.min = 1
		}
		parts = append(parts, p)
	}
	return parts
}

// lengthOf is how long a value of these parts is at least, and at most.
func lengthOf(parts []part) (least, most int) {
	for _, p := range parts {
		if !p.optional {
			least += p.min
		}
		most += p.max
	}
	return least, most
}

// decimals is how many digits of a value lie behind the point: its identifier
// says so in its last digit where it is a measure or a price.
func decimals(id string) (n int, counted bool) {
	if len(id) != idLenMax || id < "3100" || id > "3959" || id > "3699" && id < "3900" {
		return 0, false
	}
	return int(id[3] - '0'), true
}

// characterSet lists the characters of a set; X stands for set 82.
func characterSet(set byte) string {
	switch set {
	case 'N':
		return digits
	case 'Y':
		return characters3
	case 'Z':
		return characters6
	}
	return characters
}
