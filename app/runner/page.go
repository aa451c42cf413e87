package runner

import (
	"strings"
	"time"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// step is the question that stands on the screen.
type step int

const (
	stepList    step = iota
	stepRequest      // what to do with one request
	stepItem         // which item is in the hand, or is offered, and how many
	stepCount        // how many, of what has no key for it
	stepCannot       // why not
	stepPassOn       // to whom
	stepDoor         // at which door it was asked
	stepNumber       // which spoken number
	stepSoon         // how soon
	stepCode         // which joining code
	stepMany         // how many, of ten or more
	stepWhere        // at which door it was put
	stepWrong        // it was another door
	stepAtDoor       // everything about one door
	stepBag          // what to take along for a door
	stepSay          // what to say into a room
	stepMine         // what whoever has this device would pass on
	stepNotice       // what is said above everything
	stepLook         // what a thing looks like, and where it lies
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
	read    reading // of a label that was scanned
	count   requests.Count
	soon    requests.Urgency
	offered []requests.Thing
	digits  string
	from    int  // the first choice, or the first part of the list, shown
	whole   bool // everything of this runner is passed on
	stays        // what stays when a question is over
}

// stays is what outlives a question.
type stays struct {
	fault  [2]string
	gone   map[noticeKey]bool // notices that were turned away here
	silent mesh.Wall          // until when the calls are silenced; 0: they are not
	now    mesh.Wall          // when it was painted last
}

// silence is how long the calls stay silenced.
func (k stays) silence() time.Duration {
	return time.Duration(max(0, k.silent-k.now)) * time.Millisecond
}

// what a tap on a choice means.
type what int

const (
	picksBack what = iota
	picksOpen
	picksAct
	picksItem
	picksHeld
	picksSend
	picksWhy
	picksTag
	picksDoor
	picksSoon
	picksIntent
	picksCount
	picksMany
	picksWhere
	picksAnyway
	picksAtDoor
	picksBag
	picksSayTo
	picksPhrase
	picksMine
	picksPassAll
	picksSilence
	picksDo
	picksLater
	picksLook
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
	n    requests.Count
	list mesh.ID     // a line of a list
	do   station.Act // recorded at once
	key  noticeKey
}

// Choice is a choice with what stands on it.
type Choice struct {
	Face look.TileFace
	Pick pick
	Kept bool // its detail is a place, whose first part will do where there is no room
}

func choice(f look.TileFace, p pick) Choice { return Choice{Face: f, Pick: p} }

// face is what stands on it, on a screen of a width in mm.
func (c Choice) face(width float32) look.TileFace {
	if c.Kept && width < phoneWide {
		c.Face.Detail = fitting(c.Face.Detail, width-2*phoneEdge-tileEdges, 2)
	}
	return c.Face
}

// Page is one question: words to choose from, or digits to type.
type Page struct {
	Head    string          // the question, in a word or two
	Whole   string          // the same where there is room; empty: Head
	Lead    *Choice         // stands over the others; nil: none
	Tell    look.BannerFace // what has to be known for the answer; empty: nothing
	TellIn  look.BannerFace // the same on a phone
	Word    string          // in the largest letters: the door, the item, what was typed
	Tone    look.Tone       // of Word
	Drug    Drug            // shown as on its label, in place of Word
	Many    string          // how many, on that label
	Choices []Choice
	Apart   *Choice          // one that must not be met by a slip; nil: none
	Plain   bool             // choices are many: the way back and to the others stands under them
	Counts  bool             // choices are numbers, as on keys
	Held    []Held           // lines with keys; nil: Choices
	Keys    *look.KeypadFace // nil: Choices
}

// page decides what is asked; the list is not one.
func page(w words.Words, s Snapshot, h hand) Page {
	r, _ := s.request(h.ref)
	switch h.step {
	case stepRequest:
		return requestPage(w, s, h, r)
	case stepItem:
		return heldPage(w, s, h, r)
	case stepLook:
		return lookPage(w, r)
	case stepCannot:
		return choosing(w, w.Say("runner.why"), "", reasons(w))
	case stepPassOn:
		return passPage(w, s, h)
	case stepMine:
		return minePage(w, s)
	case stepSoon:
		return soonPage(w)
	case stepCount:
		return countPage(w, s, h)
	case stepMany:
		return manyPage(w, s, h)
	case stepNumber:
		return numberPage(w, s, h)
	case stepCode:
		return codePage(w, h)
	case stepNotice:
		return noticePage(w, s, h)
	}
	return placePage(w, s, h)
}

// placePage is a page about a door.
func placePage(w words.Words, s Snapshot, h hand) Page {
	r, _ := s.request(h.ref)
	switch h.step {
	case stepDoor:
		var doors []Choice
		for _, room := range s.Rooms {
			doors = append(doors, choice(look.TileFace{Word: string(room.ID), Icon: look.IconDoor}, pick{what: picksDoor, room: room.ID}))
		}
		return choosing(w, w.Say("runner.which-door"), "", doors)
	case stepWhere:
		return wherePage(w, s)
	case stepWrong:
		return wrongPage(w, r, h)
	case stepBag:
		return bagPage(w, s, h)
	case stepSay:
		return sayPage(w, s, h)
	}
	return doorPage(w, s, h)
}

func intentWord(w words.Words, to intent) string {
	if to == toVoice {
		return w.Say("runner.voice")
	}
	return w.Say("runner.passed")
}

func choosing(w words.Words, head, word string, choices []Choice) Page {
	back := choice(look.TileFace{Word: w.Say("inside.back")}, pick{what: picksBack})
	return Page{Head: head, Word: word, Choices: append(choices, back)}
}

// listing is a page of many choices, with the way back under them.
func listing(head string, choices []Choice) Page {
	return Page{Head: head, Choices: choices, Plain: true}
}

// reasons why a thing cannot be brought; what is recorded is what is shown.
func reasons(w words.Words) (out []Choice) {
	for _, id := range []words.ID{"none-left", "not-found", "locked", "broken", "too-long"} {
		said := w.Say("runner.why." + id)
		out = append(out, choice(look.TileFace{Word: said}, pick{what: picksWhy, why: said}))
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

func requestPage(w words.Words, s Snapshot, h hand, r Request) Page {
	var acts []Choice
	for _, a := range actOrder() {
		if r.can(a) {
			acts = append(acts, choice(actFace(w, r, a), pick{what: picksAct, act: a, ref: r.Ref}))
		}
	}
	if r.Back {
		acts = append(acts, choice(look.TileFace{Word: w.Say("runner.seen")}, putBack(w, r)))
	}
	if !r.Same.IsZero() {
		acts = append(acts, choice(look.TileFace{Word: w.Say("runner.act.join")}, doing(station.Join{One: r.Ref, Other: r.Same})))
	}
	if r.Looks != (mesh.Hash{}) || r.Map != (mesh.Hash{}) {
		acts = append(acts, choice(look.TileFace{Word: w.Say("runner.look"), Icon: look.IconSearch}, pick{what: picksLook}))
	}
	if s.Silence > 0 && len(s.Calling()) > 0 {
		acts = append(acts, choice(silenceFace(w, h), pick{what: picksSilence}))
	}
	said, icon := state(w, r)
	thing := w.Thing(int64(r.Thing.Count), r.Thing.Name, words.Measured(string(r.Thing.Strength)))
	p := choosing(w, string(r.Room), thing, acts)
	p.Drug = r.Thing.Drug
	if r.Late {
		said += " · " + w.Say("runner.usually", look.ClockText(r.Usual))
	}
	p.Tell = look.BannerFace{Icon: icon, Sentence: said, Hint: warned(w, p.Drug, bring(w, r))}
	p.TellIn = look.BannerFace{Sentence: warned(w, p.Drug, fitting(r.Kept, phoneText, 2))}
	p.Many = w.Say("runner.count", int64(r.Thing.Count))
	if tone(r) == look.ToneFault {
		p.Tell.Tone = look.ToneFault
		p.TellIn = look.BannerFace{Sentence: said, Tone: look.ToneFault}
	}
	return p
}

// phoneText is the room for words on a row of a phone, in mm.
const phoneText = 70 - 2*phoneEdge - 4

// fitting is a place, or its first part where all of it takes too many rows.
func fitting(place string, width float32, rows int) string {
	if rowsOf(place, width) > rows {
		return words.FirstPart(place)
	}
	return place
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

// offersMax bounds the alternatives of one offer.
const offersMax = 3
