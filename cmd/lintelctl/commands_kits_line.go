package main

import (
	"slices"
	"strconv"
	"strings"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Keywords of commands about kits and stock; others stand with the commands of
// requests and cases.
const (
	wordFrom    = "from"
	wordTo      = "to"
	wordExpires = "expires"
	wordPage    = "page"
	wordSeenBy  = "seen-by"
	wordLater   = "later"
	wordAll     = "all"
	wordNone    = "none"
	wordML      = "mL"
)

// cutWord parts the first word of a text from the rest, which keeps its space.
func cutWord(text string) (first, rest string, more bool) {
	if i := strings.IndexByte(text, ' '); i >= 0 {
		return text[:i], text[i:], true
	}
	return text, "", false
}

// kitLine is what a line about kits or stock says, in any order behind its own words.
type kitLine struct {
	words []string // what is no quantity and no keyword
	count int64    // xN; 0: not given
	ul    int64    // N mL, in microlitres; 0: not given
	flags map[string]bool
	given map[string]string
}

// item is the words that name an item.
func (l kitLine) item() string { return strings.Join(l.words, " ") }

// kitLine reads the rest of a line: flags are words that stand alone, valued
// are those with a value behind them.
func (a *arguments) kitLine(flags []string, valued ...string) (l kitLine, err error) {
	l.flags, l.given = map[string]bool{}, map[string]string{}
	for len(a.words) > 0 {
		n, isCount, err := a.count()
		switch {
		case err != nil:
			return l, err
		case isCount && l.count != 0:
			return l, a.bad()
		case isCount:
			l.count = n
			continue
		}
		if ul, ok := a.volume(); ok {
			l.ul = ul
			continue
		}
		if key, ok := a.keyword(flags...); ok {
			l.flags[key] = true
			continue
		}
		if key, ok := a.keyword(valued...); ok {
			value, more := a.next()
			if _, twice := l.given[key]; !more || twice {
				return l, a.bad()
			}
			l.given[key] = value
			continue
		}
		text, _ := a.next()
		l.words = append(l.words, text)
	}
	return l, nil
}

// volumeLMax bounds a volume that is typed, in litres.
const volumeLMax = 100

// volume takes "N mL", also with three decimals, in microlitres.
func (a *arguments) volume() (ul int64, ok bool) {
	if len(a.words) < 2 || a.words[0].quoted || a.words[1].quoted || a.words[1].text != wordML {
		return 0, false
	}
	ml, err := strconv.ParseFloat(a.words[0].text, 64)
	if err != nil || ml <= 0 || ml > volumeLMax*1000 {
		return 0, false
	}
	whole, part, _ := strings.Cut(a.words[0].text, ".")
	if strings.Trim(whole+part, "0123456789") != "" || len(part) > 3 {
		return 0, false
	}
	ul, err = strconv.ParseInt(whole+part+"000"[len(part):], 10, 64)
	if err != nil {
		return 0, false
	}
	a.words = a.words[2:]
	return ul, true
}

// readPlace reads a place by its words.
func readPlace(text string) (kits.Place, error) {
	p, known := kits.ParsePlace(text)
	if !known {
		return p, &fault{id: "place", blanks: []any{text}}
	}
	return p, nil
}

// readDay reads an expiry as YYYYMMDD; day 00 where the label has none.
func readDay(text string) (uint32, error) {
	if text == "" {
		return 0, nil
	}
	n, err := strconv.ParseUint(text, 10, 32)
	month, day := n/100%100, n%100
	if err != nil || len(text) != len("20271231") || month < 1 || month > 12 || day > 31 {
		return 0, &fault{id: "day", blanks: []any{text}}
	}
	return uint32(n), nil
}

// findMovement finds a movement by its code or its whole ref.
func findMovement(l *kits.Ledger, name string) (mesh.Ref, error) {
	var found []mesh.Ref
	for _, m := range l.Movements() {
		if requests.Code(m.Ref) == name || m.Ref.Hex() == strings.ToLower(name) {
			found = append(found, m.Ref)
		}
	}
	return oneOf(found, name, station.ErrNoMovement)
}

// findIssue finds an issue of a controlled drug in the same way.
func findIssue(l *kits.Ledger, name string) (mesh.Ref, error) {
	var found []mesh.Ref
	for _, i := range l.Issues() {
		if requests.Code(i.Ref) == name || i.Ref.Hex() == strings.ToLower(name) {
			found = append(found, i.Ref)
		}
	}
	return oneOf(found, name, station.ErrNoIssue)
}

// oneOf is the only one of what was found.
func oneOf(found []mesh.Ref, name string, none error) (mesh.Ref, error) {
	switch len(found) {
	case 0:
		return mesh.Ref{}, none
	case 1:
		return found[0], nil
	}
	var list []string
	for _, r := range found {
		list = append(list, r.Hex())
	}
	return mesh.Ref{}, &fault{id: "fact-many", blanks: []any{name}, list: list}
}

// lookedAt reads which case a look is about: its code, or "room A1"; neither
// means every case.
func lookedAt(v station.View, a *arguments) (fits func(mesh.Ref, mesh.ID) bool, err error) {
	room, named, err := a.after(wordRoom)
	if err != nil {
		return nil, err
	}
	if named {
		return func(_ mesh.Ref, in mesh.ID) bool { return string(in) == room }, a.done()
	}
	code, coded := a.next()
	if err := a.done(); err != nil {
		return nil, err
	}
	if !coded {
		return func(mesh.Ref, mesh.ID) bool { return true }, nil
	}
	all := v.Board.Cases()
	i := slices.IndexFunc(all, func(c requests.Case) bool { return requests.Code(c.Ref) == code || c.Ref.Hex() == code })
	if i < 0 {
		return nil, &fault{id: "case-none", blanks: []any{code}}
	}
	return func(of mesh.Ref, _ mesh.ID) bool { return of == all[i].Ref }, nil
}
