package charge

import (
	"fmt"
	"strings"

	"lintel/app/look"
	"lintel/app/look/sheet"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// countsPage asks which room is counted.
func countsPage(w words.Words, s Snapshot) View {
	v := View{Head: look.BannerFace{Icon: look.IconHand, Sentence: w.Say("charge.counts.head")}, Empty: w.Say("charge.ready.no-room")}
	for _, r := range s.Rooms {
		f := look.RowFace{Icon: look.IconDoor, Word: r.Name, State: w.Say("charge.counts.empty")}
		p := pick{}
		if r.Lines > 0 {
			f.State, f.Tone = w.Count("charge.lines", r.Lines), look.ToneNext
			f.Detail = w.Say("charge.counts.inside")
			p = pick{what: picksPage, at: Wanted{Page: PageCount, Room: r.ID}}
		}
		v.line(f, p)
	}
	return v
}

// countPage shows what a count proposes: what is asked singly first, then what
// one tap accepts.
func countPage(w words.Words, s Snapshot, h hand) View {
	c := s.Count
	singly, rest := c.questions()
	v := View{
		Head:  look.BannerFace{Icon: look.IconHand, Sentence: w.Say("charge.count.head", s.For.Room), Hint: s.Cases[c.Case]},
		Empty: w.Say("charge.count.nothing"),
	}
	if len(c.Ends) == 0 {
		return v
	}
	v.Tell = look.BannerFace{Sentence: w.Say("charge.count.tell", w.Count("charge.lines", len(rest)), w.Count("charge.singly", len(singly)))}
	for n, q := range singly {
		f := look.RowFace{Word: asWhole(w, c, q), Detail: w.Say("ask-singly." + words.AskID(q.ask)), Tone: look.ToneNext}
		if h.count.answered(n) {
			f.State, f.Tone = endsWord(w, h.count.answers[n]), look.TonePlain
		}
		v.line(f, pick{what: picksStep, step: stepEnds, n: n})
	}
	for _, i := range rest {
		e := c.Ends[i]
		v.line(look.RowFace{Word: endThing(w, c, i), Detail: string(e.Cell.Lot), State: endWord(w, e)}, pick{})
	}
	switch {
	case h.count.complete(c):
		v.button(w.Say("charge.count.record"), pick{what: picksSecond, to: forCount})
	case !h.count.rest && len(rest) > 0:
		v.button(w.Say("charge.count.accept", w.Count("charge.lines", len(rest))), pick{what: picksAll})
	default:
		v.button(w.Say("charge.count.go-on"), pick{what: picksAll})
	}
	return v
}

// endThing is what one end is of.
func endThing(w words.Words, c Count, i int) string {
	e := c.Ends[i]
	if e.Cell.Measure == mesh.Each {
		return thing(w, e.N, e.Item)
	}
	return named(e.Item) + ", " + amount(w, c.Amounts[i])
}

// asWhole is all that one question is of.
func asWhole(w words.Words, c Count, q asked) string {
	var out []string
	for _, i := range q.ends {
		e := c.Ends[i]
		if e.Cell.Measure == mesh.Each {
			n := w.Say("charge.containers", e.N)
			if e.Item.Has(kits.IsDrug) {
				n = w.Count("charge.ampoules", int(e.N))
			}
			out = append(out, n)
			continue
		}
		out = append(out, amount(w, c.Amounts[i]))
	}
	return named(c.Ends[q.ends[0]].Item) + ", " + strings.Join(out, " + ")
}

// endWord is what becomes of something.
func endWord(w words.Words, e kits.ProposedEnd) string {
	if !e.HandOver.IsZero() {
		for _, n := range e.Taken {
			if n > 0 {
				return w.Say("charge.end.taken-in")
			}
		}
		return w.Say("charge.end.goes-back")
	}
	return sortWord(w, e.To.Sort, e.Why)
}

// sortWord is an end in few words.
func sortWord(w words.Words, p kits.PlaceSort, why mesh.Label) string {
	id := map[kits.PlaceSort]words.ID{
		0: "not-found", kits.Used: "used", kits.Given: "given", kits.Wasted: "wasted", kits.DestroyedUnopened: "destroyed", kits.Broken: "broken",
		kits.Quarantined: "quarantine", kits.Reprocessing: "reprocessing", kits.Returned: "returned", kits.LeftWithPatient: "left",
		kits.InRoom: "taken-in", kits.Door: "goes-back",
	}[p]
	if p == kits.Wasted && why == kits.WhyContaminated {
		id = "wasted-unopened"
	}
	return w.Say("charge.end." + id)
}

// endsWord is what becomes of the parts of something.
func endsWord(w words.Words, ends []kits.ProposedEnd) string {
	var out []string
	for _, e := range ends {
		word := endWord(w, e)
		if e.Ask == kits.AskBelowZero {
			word = w.Say("charge.end.noted")
		}
		if len(out) == 0 || out[len(out)-1] != word {
			out = append(out, word)
		}
	}
	return strings.Join(out, " + ")
}

// endsQuestion asks what became of something, or of a part of it.
func endsQuestion(w words.Words, s Snapshot, h hand) face {
	singly, _ := s.Count.questions()
	if h.count.at >= len(singly) {
		return face{Head: w.Say("charge.looking")}
	}
	q := singly[h.count.at]
	f := face{Head: w.Say("charge.count.question", h.count.at+1, len(singly)), Tell: look.BannerFace{Sentence: asWhole(w, s.Count, q), Hint: w.Say("ask-singly." + words.AskID(q.ask))}}
	tile := func(x look.TileFace, p pick) { f.Choices = append(f.Choices, sheet.Tile(x, p)) }
	if p := h.count.parts; p != nil {
		i := q.ends[min(p.end, len(q.ends)-1)]
		f.Tell = look.BannerFace{Sentence: w.Say("charge.count.left", named(s.Count.Ends[i].Item), leftOf(w, s.Count, i, p.left)), Hint: w.Say("charge.count.part-ask")}
		for _, sort := range endsFor(s.Count, q) {
			tile(look.TileFace{Word: sortWord(w, sort, whyOf(sort))}, pick{what: picksPart, n: int(sort)})
		}
		return f
	}
	first := proposed(s.Count, q)
	if q.ask == kits.AskBelowZero {
		tile(look.TileFace{Word: w.Say("charge.end.noted"), Detail: w.Say("charge.count.mends")}, pick{what: picksEnd, yes: true})
		return f
	}
	if q.ask != kits.AskDispute { // nobody knows how that ended but who was there
		x := look.TileFace{Word: endsWord(w, first), Detail: w.Say("charge.count.proposed")}
		if strings.Contains(x.Word, " + ") {
			x = look.TileFace{Word: w.Say("charge.count.as-proposed"), Detail: x.Word}
		}
		tile(x, pick{what: picksEnd, yes: true})
	}
	for _, sort := range endsFor(s.Count, q) {
		if word := sortWord(w, sort, whyOf(sort)); word != endsWord(w, first) || q.ask == kits.AskDispute {
			tile(look.TileFace{Word: word}, pick{what: picksEnd, n: int(sort)})
		}
	}
	if q.atDoor(s.Count) {
		return f
	}
	if len(q.ends) > 1 || s.Count.Ends[q.ends[0]].N > 1 {
		tile(look.TileFace{Word: w.Say("charge.count.parts")}, pick{what: picksPart})
	}
	tile(look.TileFace{Word: w.Say("charge.end.not-found"), Detail: w.Say("charge.count.stays")}, pick{what: picksEnd})
	return f
}

// leftOf is what is left of an end, in what people type.
func leftOf(w words.Words, c Count, i int, left int64) string {
	e := c.Ends[i]
	if e.Cell.Measure == mesh.Each {
		return fmt.Sprintf("%d ×", left)
	}
	return volume(w, ofVolume(left, e.N, c.Amounts[i].OverUL))
}

// partQuestion asks how much came to an end.
func partQuestion(w words.Words, s Snapshot, h hand) face {
	singly, _ := s.Count.questions()
	p := h.count.parts
	if p == nil || h.count.at >= len(singly) {
		return face{}
	}
	q := singly[h.count.at]
	i := q.ends[min(p.end, len(q.ends)-1)]
	e := s.Count.Ends[i]
	f := digits(w, h, 5)
	f.Tell = look.BannerFace{Sentence: joined(sortWord(w, p.to, whyOf(p.to)), named(e.Item)), Hint: w.Say("charge.count.of", leftOf(w, s.Count, i, p.left))}
	if e.Cell.Measure != mesh.Each {
		f.Tell.Hint += ". " + w.Say("charge.count.tenths")
		f.Word.Word = volume(w, number(h.typed)*tenthUL)
	}
	return f
}
