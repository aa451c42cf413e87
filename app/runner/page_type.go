package runner

import (
	"fmt"
	"strconv"
	"strings"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Digits that are typed at most.
const (
	countDigits  = 3
	numberDigits = 6
	codeDigits   = 5
)

// typing is a page with keys. While nothing was typed the erasing key goes back.
func typing(w words.Words, h hand, most int) Page {
	keys := &look.KeypadFace{Erase: w.Say("keys.erase-short"), Done: w.Say("keys.done-short"), DigitsOff: len(h.digits) >= most, DoneOff: true}
	word := h.digits
	if word == "" {
		word = "–"
	}
	return Page{Word: word, Keys: keys}
}

func (p *Page) tell(f look.BannerFace) { p.Tell, p.TellIn = f, f }

// manyPage takes a count of more digits than one.
func manyPage(w words.Words, s Snapshot, h hand) Page {
	p := typing(w, h, countDigits)
	i, _ := s.item(h.item)
	p.Head = w.Say("runner.how-many")
	p.Tell.Sentence = strings.TrimSpace(i.Name + " " + words.Measured(i.Detail))
	p.TellIn.Sentence = strings.TrimSpace(i.Name + " " + words.FirstPart(words.Measured(i.Detail)))
	p.Keys.DoneOff = strings.Trim(h.digits, "0") == ""
	return p
}

// countsOne is how many counts have a key of their own.
const countsOne = 9

// countPage asks how many with one tap; none is marked.
func countPage(w words.Words, s Snapshot, h hand) Page {
	i, _ := s.item(h.item)
	p := Page{Head: w.Say("runner.how-many"), Counts: true, Drug: i.Drug}
	p.Word = strings.TrimSpace(i.Name + " " + words.Measured(i.Detail))
	for n := range requests.Count(countsOne) {
		p.Choices = append(p.Choices, choice(look.TileFace{Word: strconv.Itoa(int(n + 1))}, pick{what: picksCount, n: n + 1}))
	}
	p.Choices = append(p.Choices,
		choice(look.TileFace{Word: w.Say("keys.erase-short")}, pick{what: picksBack}),
		choice(look.TileFace{Word: w.Say("runner.ten-or-more")}, pick{what: picksMany}))
	return p
}

func numberPage(w words.Words, s Snapshot, h hand) Page {
	p := typing(w, h, numberDigits)
	said, found := numberSaid(w, s.Items, h.digits)
	p.Head, p.Keys.DoneOff = intentWord(w, h.to), found == 0
	face := look.BannerFace{Sentence: said}
	if found == 0 && len(h.digits) > 0 && !begun(s.Items, h.digits) {
		face.Tone = look.ToneFault
	}
	p.tell(face)
	return p
}

func codePage(w words.Words, h hand) Page {
	p := typing(w, h, codeDigits)
	p.Head = w.Say("runner.code")
	p.tell(look.BannerFace{Sentence: w.Say("runner.code-tell")})
	switch {
	case h.digits == "", len(h.digits) == codeDigits && mesh.DammFits(h.digits):
		p.Keys.DoneOff = false
	case len(h.digits) == codeDigits:
		p.tell(look.BannerFace{Sentence: w.Say("runner.code-wrong"), Tone: look.ToneFault})
	}
	return p
}

// numberSaid says what digits name, and which digit may be wrong.
func numberSaid(w words.Words, items []Item, digits string) (string, mesh.Number) {
	if digits == "" {
		return w.Say("number.type"), 0
	}
	for _, i := range items {
		if fmt.Sprint(i.Number) == digits {
			return strings.TrimSpace(i.Name + " " + words.Measured(i.Detail)), i.Number
		}
	}
	if begun(items, digits) {
		return w.Say("number.more"), 0
	}
	for _, i := range items {
		if slip := slipOf(w, fmt.Sprint(i.Number), digits); slip != "" {
			return w.Say("number.near", i.Number, i.Name, slip), 0
		}
	}
	return w.Say("number.none"), 0
}

// begun tells whether a number of the list begins with these digits.
func begun(items []Item, digits string) bool {
	for _, i := range items {
		if text := fmt.Sprint(i.Number); len(text) > len(digits) && text[:len(digits)] == digits {
			return true
		}
	}
	return false
}

// slipOf names the one digit in which a number differs from what was typed, or
// the two that are swapped; empty: it differs in more.
func slipOf(w words.Words, number, typed string) string {
	if len(number) != len(typed) {
		return ""
	}
	var wrong []int
	for i := range len(number) {
		if number[i] != typed[i] {
			wrong = append(wrong, i)
		}
	}
	switch {
	case len(wrong) == 1:
		return w.Say("number.slip.digit", wrong[0]+1)
	case len(wrong) == 2 && wrong[1] == wrong[0]+1 && number[wrong[0]] == typed[wrong[1]] && number[wrong[1]] == typed[wrong[0]]:
		return w.Say("number.slip.swap", wrong[0]+1, wrong[1]+1)
	}
	return ""
}
