package charge

import (
	"maps"
	"strconv"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
)

// begin fills a form in as its page says, once its Snapshot is there.
func (s *Screen) begin() {
	if s.hand.draft == nil && s.hand.at.Page == PageForm && s.snap.For == s.hand.at {
		s.hand.draft = started(s.snap)
		if s.hand.code != "" {
			s.put(fieldCodes, s.hand.draft.toggled(fieldCodes, s.hand.code))
			s.hand.said = s.opt.Words.Say("charge.scan.added")
		}
		s.hand.code = ""
	}
}

// forms takes a tap on a form.
func (s *Screen) forms(p pick) {
	switch p.what {
	case picksField:
		for n, x := range s.snap.Form.Both {
			if p.text == bothID(n) {
				s.hand.draft = drafted(x)
				s.say("charge.form.taken")
				return
			}
		}
		s.hand.field = p.text
		x, _ := fieldOf(s.opt.Words, s.snap, s.hand)
		if x.asks == asksWords || x.asks == asksMany && len(x.of) == 0 || x.id == fieldCodes {
			s.ask(stepWords)
			return
		}
		s.ask(stepField)
	case picksValue:
		x, _ := fieldOf(s.opt.Words, s.snap, s.hand)
		if x.asks == asksMany {
			s.put(x.id, s.hand.draft.toggled(x.id, p.text))
			s.clear()
			s.Paint()
			return
		}
		s.put(x.id, p.text)
		s.ask(stepNone)
	case picksWrite:
		s.write()
	}
}

// put notes a value. What was noted before stays as it was for whoever holds it.
func (s *Screen) put(id, value string) {
	s.hand.draft = maps.Clone(s.hand.draft)
	s.hand.draft[id] = value
}

// keyed notes the digits that were typed for a field.
func (s *Screen) keyed() {
	x, _ := fieldOf(s.opt.Words, s.snap, s.hand)
	value := s.hand.typed
	if x.asks == asksTenths {
		value = strconv.FormatInt(number(value)*tenthUL, 10)
	}
	s.put(x.id, value)
	s.ask(stepNone)
}

// wrong says what cannot be written, and keeps all that was filled in.
func (s *Screen) wrong(sentence, hint words.ID, blanks ...any) {
	s.hand.fault[0], s.hand.fault[1] = s.opt.Words.Say(sentence, blanks...), s.opt.Words.Say(hint)
	s.Paint()
}

// write records what was filled in, and goes back to where the form was opened.
// What cannot be recorded leaves the form as it is.
func (s *Screen) write() {
	acts, bad := actsOf(s.snap, s.hand.draft)
	if bad != "" {
		s.wrong("charge.form.wrong", "charge.form.hint", s.fieldName(bad))
		return
	}
	if s.slipped(pick{what: picksWrite}) {
		return
	}
	s.each(acts)
}

// fieldName is what a field is called.
func (s *Screen) fieldName(id string) string {
	for _, x := range formOf(s.opt.Words, s.snap, s.hand.draft).fields {
		if x.id == id {
			return x.called(s.opt.Words)
		}
	}
	return s.opt.Words.Say("charge.field." + words.ID(id))
}

// each records one act after the other; the first that fails ends it.
func (s *Screen) each(acts []station.Act) {
	if len(acts) == 0 {
		at := s.hand.at
		s.hand.said, s.hand.last = s.opt.Words.Say("charge.form.written"), mesh.Ref{}
		s.hand.until = s.opt.Now().Add(s.snap.UndoFor)
		s.open(parent(at))
		return
	}
	s.opt.Taps.Tap(s.snap.By, acts[0], func(_ station.Result, err error) {
		if err != nil {
			s.fail(err)
			return
		}
		s.each(acts[1:])
	})
}
