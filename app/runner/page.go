package runner

import (
	"fmt"
	"strings"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// step is the question that stands on the screen.
type step int

const (
	stepList    step = iota
	stepRequest      // what to do with one request
	stepItem         // which item is in the hand, or is offered
	stepCount        // how many
	stepCannot       // why not
	stepPassOn       // to whom
	stepDoor         // at which door
	stepNumber       // which spoken number
	stepSoon         // how soon
	stepCode         // which joining code
)

// intent is what the questions lead to.
type intent int

const (
	toReadBack intent = iota
	toOffer
	toVoice
	toPassIn
)

// hand is what the person at this device is doing. The UI goroutine owns it.
type hand struct {
	step    step
	to      intent
	ref     mesh.Ref
	room    mesh.ID
	item    mesh.Number
	count   requests.Count
	soon    requests.Urgency
	offered []requests.Thing
	digits  string
	from    int // the first choice, or the first entry of the list, shown
	fault   [2]string
	seen    map[mesh.Ref]bool // put back, and taken off the list here
}

// what a tap on a choice means.
type what int

const (
	picksBack what = iota
	picksOpen
	picksAct
	picksSeen
	picksItem
	picksSend
	picksWhy
	picksTag
	picksDoor
	picksSoon
	picksIntent
)

// pick is one choice, as data.
type pick struct {
	what what
	ref  mesh.Ref
	act  requests.Act
	item mesh.Number
	why  string
	tag  mesh.Tag
	room mesh.ID
	soon requests.Urgency
	to   intent
}

// Choice is a choice with what stands on it.
type Choice struct {
	Face look.TileFace
	Pick pick
}

// Page is one question: words to choose from, or digits to type.
type Page struct {
	Head    string          // the question, in a word or two
	Tell    look.BannerFace // what has to be known for the answer; empty: nothing
	TellIn  look.BannerFace // the same on a phone
	Word    string          // in the largest letters: the door, the item, what was typed
	Choices []Choice
	Keys    *look.KeypadFace // nil: Choices
}

// page decides what is asked; the list is not one.
func page(w words.Words, s Snapshot, h hand) Page {
	r, _ := s.request(h.ref)
	switch h.step {
	case stepRequest:
		return requestPage(w, r)
	case stepItem:
		return itemPage(w, s, h, r)
	case stepCannot:
		return choosing(w, w.Say("runner.why"), "", reasons(w))
	case stepPassOn:
		var tags []Choice
		for _, tag := range s.Others {
			tags = append(tags, Choice{look.TileFace{Word: string(tag), Icon: look.IconPerson}, pick{what: picksTag, tag: tag}})
		}
		return choosing(w, w.Say("runner.to-whom"), "", tags)
	case stepDoor:
		var doors []Choice
		for _, room := range s.Rooms {
			doors = append(doors, Choice{look.TileFace{Word: string(room.ID), Icon: look.IconDoor}, pick{what: picksDoor, room: room.ID}})
		}
		return choosing(w, w.Say("runner.which-door"), "", doors)
	case stepSoon:
		var all []Choice
		for _, u := range []requests.Urgency{requests.RightNow, requests.NextOpening, requests.BeforeWeLeave} {
			face := look.TileFace{Word: w.Say("urgency." + words.UrgencyID(u)), Tone: tone(Request{Urgency: u})}
			all = append(all, Choice{face, pick{what: picksSoon, soon: u}})
		}
		return choosing(w, w.Say("runner.how-soon"), "", all)
	case stepCount:
		return countPage(w, s, h)
	case stepNumber:
		return numberPage(w, s, h)
	}
	return codePage(w, h)
}

func intentWord(w words.Words, to intent) string {
	if to == toVoice {
		return w.Say("runner.voice")
	}
	return w.Say("runner.passed")
}

func choosing(w words.Words, head, word string, choices []Choice) Page {
	back := Choice{look.TileFace{Word: w.Say("inside.back")}, pick{what: picksBack}}
	return Page{Head: head, Word: word, Choices: append(choices, back)}
}

// reasons why a thing cannot be brought; what is recorded is what is shown.
func reasons(w words.Words) (out []Choice) {
	for _, id := range []words.ID{"none-left", "not-found", "locked", "broken", "too-long"} {
		said := w.Say("runner.why." + id)
		out = append(out, Choice{look.TileFace{Word: said}, pick{what: picksWhy, why: said}})
	}
	return out
}

// actOrder is the acts in the order of their tiles.
func actOrder() []requests.Act {
	return []requests.Act{
		requests.ActAcknowledge, requests.ActReadBack, requests.ActPutAtDoor, requests.ActTakeInSeen, requests.ActTakeIn,
		requests.ActOffer, requests.ActCouldNot, requests.ActPassOn, requests.ActTakeBack,
	}
}

func requestPage(w words.Words, r Request) Page {
	var acts []Choice
	for _, a := range actOrder() {
		if r.can(a) {
			acts = append(acts, Choice{actFace(w, a), pick{what: picksAct, act: a, ref: r.Ref}})
		}
	}
	if r.Back {
		acts = append(acts, Choice{look.TileFace{Word: w.Say("runner.seen")}, pick{what: picksSeen, ref: r.Ref}})
	}
	acts = append(acts,
		Choice{look.TileFace{Word: w.Say("runner.voice")}, pick{what: picksIntent, to: toVoice}},
		Choice{look.TileFace{Word: w.Say("runner.passed")}, pick{what: picksIntent, to: toPassIn}})
	said, icon := state(w, r)
	thing := w.Thing(int64(r.Thing.Count), r.Thing.Name, words.Measured(string(r.Thing.Strength)))
	p := choosing(w, string(r.Room), thing, acts)
	p.Tell = look.BannerFace{Icon: icon, Sentence: said, Hint: bring(w, r)}
	p.TellIn = look.BannerFace{Sentence: r.Kept}
	if tone(r) == look.ToneFault {
		p.Tell.Tone = look.ToneFault
		p.TellIn = look.BannerFace{Sentence: said, Tone: look.ToneFault}
	}
	return p
}

// bring is where a thing is kept, or what of a set has to be brought.
func bring(w words.Words, r Request) string {
	if len(r.Bring) == 0 {
		return place(w, r)
	}
	var all []string
	for _, t := range r.Bring {
		all = append(all, w.Thing(int64(t.Count), t.Name, words.FirstPart(words.Measured(string(t.Strength)))))
	}
	return r.Kept + ": " + strings.Join(all, "; ")
}

// itemPage lists what may be in the hand. The asked item is one of several,
// and none is marked. A name that all have in common stands over them.
func itemPage(w words.Words, s Snapshot, h hand, r Request) Page {
	var all []Choice
	if len(h.offered) > 0 {
		all = append(all, Choice{look.TileFace{Word: w.Count("runner.send", len(h.offered))}, pick{what: picksSend}})
	}
	common := r.Thing.Name
	for _, n := range r.Choices {
		if i, known := s.item(n); known && i.Name != common {
			common = ""
		}
	}
	for _, n := range r.Choices {
		i, known := s.item(n)
		if !known || len(h.offered) >= offersMax {
			continue
		}
		face := look.TileFace{Word: i.Name, Detail: words.Measured(i.Detail)}
		if common != "" && i.Detail != "" {
			face = look.TileFace{Word: words.Measured(i.Detail)}
		}
		all = append(all, Choice{face, pick{what: picksItem, item: n}})
	}
	head := w.Say("runner.what-held")
	if h.to == toOffer {
		head = w.Say("runner.what-offered")
	}
	return choosing(w, head, common, all)
}

// offersMax bounds the alternatives of one offer.
const offersMax = 3

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

func countPage(w words.Words, s Snapshot, h hand) Page {
	p := typing(w, h, countDigits)
	i, _ := s.item(h.item)
	p.Head = w.Say("runner.how-many")
	p.Tell.Sentence = strings.TrimSpace(i.Name + " " + words.Measured(i.Detail))
	p.TellIn.Sentence = strings.TrimSpace(i.Name + " " + words.FirstPart(words.Measured(i.Detail)))
	p.Keys.DoneOff = strings.Trim(h.digits, "0") == ""
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
