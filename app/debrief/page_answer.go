package debrief

import (
	"slices"
	"time"

	"lintel/app/look"
	"lintel/app/look/sheet"
	"lintel/app/words"
)

// answerShort is how many letters of an answer stand in the list of questions.
const answerShort = 40

// list is all questions with their answers, where those are short.
func list(w words.Words, s Snapshot) *face {
	f := &face{Head: w.Say("debrief.questions")}
	for _, q := range s.Questions {
		hint := w.Say("debrief.unanswered-yet")
		switch {
		case q.Answer != "" && len([]rune(q.Answer)) <= answerShort:
			hint = q.Answer
		case q.Answer != "":
			hint = w.Say("debrief.answered-by", q.Tag)
		}
		f.Lines = append(f.Lines, line{Face: look.BannerFace{Sentence: q.Words, Hint: hint}, Pick: pick{what: picksLine, line: q.ID}})
	}
	return f
}

// question is one of them with what it can be answered with.
func question(p *Page, w words.Words, s Snapshot, h hand, g setting) {
	q, n := s.question(h.line)
	p.Head = look.BannerFace{Sentence: q.Words, Hint: w.Say("brief.of", n+1, len(s.Questions))}
	p.Sheet = &face{}
	if q.Answer != "" {
		p.Sheet.Tell = look.BannerFace{Sentence: w.Say("door.said", q.Tag, q.Answer)}
	}
	for _, a := range answers(w, s, h.line, g.zone) {
		t := look.TileFace{Word: a}
		if slices.Contains(h.chosen, a) {
			t.Word, t.Chosen, t.Tone = w.Say("door.ticked", a), true, look.ToneBefore
		}
		p.Sheet.Choices = append(p.Sheet.Choices, sheet.Tile(t, pick{what: picksAnswer, text: a}))
	}
	writes(p, w, h, g)
}

// writes puts what was chosen and typed beside the way to record it.
func writes(p *Page, w words.Words, h hand, g setting) {
	text := answer(h)
	p.Answer = look.BannerFace{Sentence: joined(h.chosen...)}
	if p.Answer.Sentence == "" {
		p.Answer = look.BannerFace{Sentence: w.Say("debrief.choose")}
	}
	p.Typing = g.typing
	p.Record = &Button{Face: look.BannerFace{Icon: look.IconSaved, Sentence: w.Say("debrief.record")}, Off: text == "", pick: pick{what: picksRecord, text: text}}
}

// answer is what was chosen, then what was typed.
func answer(h hand) string { return joined(joined(h.chosen...), h.typed) }

// asks is whether a debrief was held, with what was last said of it.
func asks(w words.Words, c Case, zone *time.Location) *face {
	f := &face{Head: w.Say("debrief.ask-held"), Choices: []choice{
		sheet.Tile(look.TileFace{Word: w.Say("debrief.answer.yes")}, pick{what: picksYes}),
		sheet.Tile(look.TileFace{Word: w.Say("debrief.answer.no")}, pick{what: picksStep, step: stepWhy}),
	}}
	f.Tell = look.BannerFace{Sentence: w.Say("debrief.nobody-said")}
	if d := c.Debrief; d.Said {
		at := time.UnixMilli(int64(d.At)).In(zone).Format(dateLayout + clockShort)
		f.Tell = look.BannerFace{Sentence: w.Say("door.said", d.Tag, held(w, d)), Hint: joined(d.Why, at)}
	}
	return f
}

// why asks for the reason.
func why(p *Page, w words.Words, h hand, g setting) {
	p.Head = look.BannerFace{Sentence: w.Say("debrief.ask-why")}
	p.Sheet = &face{}
	for _, r := range reasons(w) {
		p.Sheet.Choices = append(p.Sheet.Choices, sheet.Tile(look.TileFace{Word: r}, pick{what: picksWhy, text: r}))
	}
	if g.typing {
		writes(p, w, h, g)
		p.Record.pick = pick{what: picksWhy, text: answer(h)}
	}
}
