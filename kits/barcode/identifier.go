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
	if len(id) < idLenMin || len(id) > idLenMax || !allDigits(id) {
		return identifier{}, false
	}
	for line := range strings.Lines(identifiers) {
		if line[0] != id[0] {
			continue
		}
		span, rest, _ := strings.Cut(strings.TrimSuffix(line, "\n"), ";")
		first, last, isRange := strings.Cut(span, "-")
		if !isRange {
			last = first
		}
		if len(id) != len(first) || id < first || last < id {
			continue
		}
		if f := strings.Split(rest, ";"); len(f) == 6 {
			return identifier{
				id: id, predefined: strings.Contains(f[0], "*"), inQuery: strings.Contains(f[0], "?"),
				parts: f[1], needs: f[2], excludes: f[3], path: f[4], title: f[5],
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
