package runner

import (
	"strconv"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// heldOne is how many counts have a key of their own beside what may be in the
// hand; more are asked for on a page of their own.
const heldOne = 3

// keysMax is how many keys one line has; the last one leads to more counts.
const keysMax = heldOne + 1

// Held is one thing that may be in the hand, or is offered, with a key for each
// count: one tap states both. The keys are the same whatever was asked, and none
// is marked.
type Held struct {
	Word string // what it is, or its size or strength where the name stands over all
	Item mesh.Number
	Keys [keysMax]Choice
}

// heldPage lists what may be in the hand. The asked item is one of several,
// and none is marked. A name that all have in common stands over them, and beside
// the question the class of a drug.
func heldPage(w words.Words, s Snapshot, h hand, r Request) Page {
	p := Page{Head: w.Say("runner.what-held"), Word: commonName(s, r)}
	if h.to == toOffer {
		p.Head = w.Say("runner.what-offered")
	}
	if n := len(h.offered); n > 0 {
		p.Lead = &Choice{Face: look.TileFace{Word: w.Count("runner.send", n)}, Pick: pick{what: picksSend}}
	}
	if r.Thing.Drug.Is {
		p.Whole = p.Head + " · " + w.DrugClass(string(r.Thing.Drug.Class))
	}
	p.Held = []Held{}
	for _, n := range r.Choices {
		i, known := s.item(n)
		if !known || len(h.offered) >= offersMax {
			continue
		}
		p.Held = append(p.Held, heldLine(w, i, p.Word != ""))
	}
	return p
}

// heldLine is one thing with its keys.
func heldLine(w words.Words, i Item, named bool) Held {
	x := Held{Word: words.Measured(i.Detail), Item: i.Number}
	switch {
	case i.Detail == "":
		x.Word = i.Name
	case !named:
		x.Word = i.Name + " " + x.Word
	}
	for n := range heldOne {
		x.Keys[n] = choice(look.TileFace{Word: strconv.Itoa(n + 1)}, pick{what: picksHeld, item: i.Number, n: requests.Count(n + 1)})
	}
	x.Keys[heldOne] = choice(look.TileFace{}, pick{what: picksItem, item: i.Number})
	return x
}

// commonName is the name that all choices of a request have; empty: they differ.
func commonName(s Snapshot, r Request) string {
	common := r.Thing.Name
	for _, n := range r.Choices {
		if i, known := s.item(n); known && i.Name != common {
			return ""
		}
	}
	return common
}

// pickHeld is a tap on a key of one of the lines that are seen.
func (s *Screen) pickHeld(line, key int) {
	if n := s.hand.from + line; s.hand.step == stepItem && n < len(s.page.Held) {
		s.pick(s.page.Held[n].Keys[key].Pick)
	}
}
