package kits

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// Found is what a text names in the catalogue.
type Found struct {
	Items []ItemLine // what it names: by number, else by words
	Near  []ItemLine // what it may have meant, at most NearMax, when Items is empty
}

// NearMax bounds the hints of one search.
const NearMax = 5

// Find looks a text up in the catalogue: a spoken number, or words that all
// begin a word of the name or stand in size or strength ("ketamine 50", "tube
// 7.5"). Words that name one line exactly win over those that only begin it.
// Letter case does not matter.
func (l *Ledger) Find(text string) Found {
	text = strings.ToLower(strings.TrimSpace(text))
	items := l.Items()
	if strings.TrimFunc(text, splits) == "" {
		return Found{}
	}
	if strings.Trim(text, "0123456789") == "" {
		return findNumber(items, text)
	}
	var f Found
	for _, i := range items {
		if fitsWords(i, text) {
			f.Items = append(f.Items, i)
		}
	}
	if exact := slices.DeleteFunc(slices.Clone(f.Items), func(i ItemLine) bool { return !namesExactly(i, text) }); len(exact) > 0 {
		f.Items = exact
	}
	if len(f.Items) == 0 {
		f.Near = nearWords(items, text)
	}
	return f
}

func findNumber(items []ItemLine, digits string) (f Found) {
	for _, i := range items {
		switch spoken := strconv.FormatUint(uint64(i.Number), 10); {
		case spoken == digits:
			f.Items = append(f.Items, i)
		case oneSlip(spoken, digits) && len(f.Near) < NearMax:
			f.Near = append(f.Near, i)
		}
	}
	if len(f.Items) > 0 {
		f.Near = nil
	}
	return f
}

// oneSlip tells whether b is a with one digit wrong or two neighbours swapped.
func oneSlip(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	var wrong []int
	for i := range len(a) {
		if a[i] != b[i] {
			wrong = append(wrong, i)
		}
	}
	switch len(wrong) {
	case 1:
		return true
	case 2:
		i, j := wrong[0], wrong[1]
		return j == i+1 && a[i] == b[j] && a[j] == b[i]
	}
	return false
}

func fullName(i ItemLine) string {
	return strings.ToLower(strings.TrimSpace(string(i.Name) + " " + string(i.Detail)))
}

func namesExactly(i ItemLine, text string) bool {
	return text == strings.ToLower(string(i.Name)) || text == fullName(i)
}

// fitsWords tells whether every word of text begins a word of the line. A
// number must be a whole one: 5 does not find 50.
func fitsWords(i ItemLine, text string) bool {
	words := strings.FieldsFunc(fullName(i), splits)
	for _, w := range strings.FieldsFunc(text, splits) {
		if !slices.ContainsFunc(words, func(have string) bool { return begins(have, w) }) {
			return false
		}
	}
	return true
}

func begins(have, w string) bool {
	if w[0] >= '0' && w[0] <= '9' {
		return have == w
	}
	return strings.HasPrefix(have, w)
}

func splits(r rune) bool { return strings.ContainsRune(" ,;/()-", r) }

// nearWords are the lines with a word that is closest to one of text, at most
// two letters apart, in the order of distance and number.
func nearWords(items []ItemLine, text string) []ItemLine {
	type near struct {
		item ItemLine
		away int
	}
	const awayMax = 2
	var all []near
	for _, i := range items {
		best := awayMax + 1
		for _, w := range strings.FieldsFunc(text, splits) {
			for _, have := range strings.FieldsFunc(fullName(i), splits) {
				if len(w) > awayMax+1 {
					best = min(best, lettersApart(have, w))
				}
			}
		}
		if best <= awayMax {
			all = append(all, near{i, best})
		}
	}
	slices.SortStableFunc(all, func(a, b near) int { return cmp.Compare(a.away, b.away) })
	var out []ItemLine
	for _, n := range all[:min(len(all), NearMax)] {
		out = append(out, n.item)
	}
	return out
}

// lettersApart is the Levenshtein distance of two words, in bytes.
func lettersApart(a, b string) int {
	last := make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := range len(a) {
		diagonal := last[0]
		last[0] = i + 1
		for j := range len(b) {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = last[j+1]
			last[j+1] = min(change, last[j]+1, last[j+1]+1)
		}
	}
	return last[len(b)]
}

// Has tells whether the item has all of the given flags.
func (i ItemLine) Has(f Flags) bool { return i.Flags&f == f }
