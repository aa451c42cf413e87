package main

import (
	"fmt"
	"slices"
	"strings"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// wanted is a thing as a line names it. Nothing in it is filled in.
type wanted struct {
	item    string
	count   int64 // 0: not given
	urgency requests.Urgency
	room    mesh.ID
	out     bool
	tag     mesh.Tag
	how     requests.HowRead
	lot     mesh.Label
	code    mesh.Label // the joining code that was read
}

// Keywords that may stand behind an item.
const (
	wordNow     = "now"
	wordNext    = "next"
	wordBefore  = "before"
	wordRoom    = "room"
	wordOut     = "out"
	wordTag     = "tag"
	wordCode    = "code"
	wordScanned = "scanned"
	wordSpoken  = "spoken"
	wordLot     = "lot"
)

func urgencies() []string { return []string{wordNow, wordNext, wordBefore} }

// wanted reads ITEM xN and the allowed keywords behind it, in any order.
func (a *arguments) wanted(allowed ...string) (w wanted, err error) {
	var item []string
	behind := false
	for len(a.words) > 0 {
		n, isCount, err := a.count()
		if err != nil {
			return w, err
		}
		if isCount {
			if behind = true; w.count != 0 {
				return w, a.bad()
			}
			w.count = n
			continue
		}
		if key, ok := a.keyword(allowed...); ok {
			behind = true
			if err := w.set(key, a); err != nil {
				return w, err
			}
			continue
		}
		if behind {
			return w, a.bad()
		}
		text, _ := a.next()
		item = append(item, text)
	}
	w.item = strings.Join(item, " ")
	return w, nil
}

// set takes what a keyword says.
func (w *wanted) set(key string, a *arguments) error {
	switch key {
	case wordNow, wordNext, wordBefore:
		u := map[string]requests.Urgency{wordNow: requests.RightNow, wordNext: requests.NextOpening, wordBefore: requests.BeforeWeLeave}[key]
		if w.urgency != 0 && w.urgency != u {
			return &fault{id: "urgency-two", blanks: []any{urgencyWord(w.urgency), key}}
		}
		w.urgency = u
	case wordOut:
		w.out = true
	case wordScanned:
		w.how = requests.Scanned
	case wordSpoken:
		w.how = requests.Spoken
	default:
		value, more := a.next()
		if !more {
			return a.bad()
		}
		switch key {
		case wordRoom:
			w.room = mesh.ID(value)
		case wordTag:
			w.tag = mesh.Tag(value)
		case wordLot:
			w.lot = mesh.Label(value)
		case wordCode:
			w.code = mesh.Label(strings.ReplaceAll(value, "-", ""))
		}
	}
	return nil
}

// urgencyWord is an urgency as lines write it.
func urgencyWord(u requests.Urgency) string {
	switch u {
	case requests.RightNow:
		return wordNow
	case requests.NextOpening:
		return wordNext
	}
	return wordBefore
}

// findItem looks an item up by spoken number or words.
func findItem(l *kits.Ledger, text string) (kits.ItemLine, error) {
	if text == "" {
		return kits.ItemLine{}, &fault{id: "item-missing"}
	}
	f := l.Find(text)
	switch len(f.Items) {
	case 1:
		return f.Items[0], nil
	case 0:
		return kits.ItemLine{}, &fault{id: "no-item", blanks: []any{text}, list: itemNames(f.Near)}
	}
	return kits.ItemLine{}, &fault{id: "item-many", blanks: []any{text}, list: itemNames(f.Items)}
}

func itemNames(items []kits.ItemLine) (out []string) {
	for _, i := range items {
		out = append(out, fmt.Sprintf("%d %s", i.Number, itemName(i)))
	}
	return out
}

func itemName(i kits.ItemLine) string {
	return strings.TrimSpace(string(i.Name) + " " + string(i.Detail))
}

// nameOf is what an item is called; its number if the catalogue lacks it.
func nameOf(l *kits.Ledger, n mesh.Number) string {
	if item, ok := l.Item(n); ok {
		return itemName(item.Value)
	}
	return fmt.Sprint(n)
}

// thing turns what a line says into a thing. least is the quantity where none
// is given; 0: one must be given.
func thing(v station.View, w wanted, least int64) (requests.Thing, error) {
	item, err := findItem(v.Ledger, w.item)
	if err != nil {
		return requests.Thing{}, err
	}
	n := w.count
	if n == 0 {
		n = least
	}
	if n == 0 {
		return requests.Thing{}, &fault{id: "count-missing"}
	}
	if n > requests.CountMax {
		return requests.Thing{}, &fault{id: "count", blanks: []any{fmt.Sprintf("x%d", n)}}
	}
	return requests.Thing{Item: item.Number, Strength: item.Detail, Count: requests.Count(n), Measure: mesh.Each}, nil
}

// refDigitsMin is how many digits of a ref must be given at least.
const refDigitsMin = 6

// findRequest finds the request that a joining code, the beginning of a ref or
// a whole ref names.
func findRequest(b *requests.Board, name string) (requests.Request, error) {
	var found []requests.Request
	if len(name) == codeLen && strings.Trim(name, "0123456789") == "" {
		if found = b.ByCode(name); len(found) == 0 && !mesh.DammFits(name) {
			return requests.Request{}, &fault{id: "request-typo", blanks: []any{name}}
		}
	} else if len(name) >= refDigitsMin {
		name = strings.ToLower(name)
		for _, r := range b.Requests() {
			if strings.HasPrefix(r.Ref.Hex(), name) || r.Ref.String() == name || markNamed(r, name) {
				found = append(found, r)
			}
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return requests.Request{}, &fault{id: "no-request", blanks: []any{name}}
	}
	var list []string
	for _, r := range found {
		list = append(list, r.Ref.Hex())
	}
	return requests.Request{}, &fault{id: "request-many", blanks: []any{name}, list: list}
}

// codeLen is the length of a joining code.
const codeLen = 5

// markNamed tells whether a whole ref names one of the request's marks.
func markNamed(r requests.Request, name string) bool {
	return slices.ContainsFunc(r.Marks, func(m requests.Mark) bool { return m.Ref.Hex() == name })
}
