package charge

import (
	"slices"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
)

// counts takes an answer of a count, and goes on to the next question.
func (s *Screen) counts(p pick) {
	c, h := s.snap.Count, &s.hand.count
	singly, _ := c.questions()
	switch p.what {
	case picksAll:
		h.rest = true
	case picksEnd, picksPart:
		if h.at >= len(singly) {
			s.ask(stepNone)
			return
		}
		q := singly[h.at]
		switch {
		case p.what == picksPart && h.parts == nil:
			h.part(c, q)
			s.ask(stepEnds)
			return
		case p.what == picksPart:
			h.parts.to = kits.PlaceSort(p.n)
			s.ask(stepPart)
			return
		case p.yes:
			h.answers[h.at] = proposed(c, q)
		default:
			h.answers[h.at] = ended(c, q, kits.PlaceSort(p.n), whyOf(kits.PlaceSort(p.n)))
		}
	}
	s.goOn(len(singly))
}

// goOn asks the next question, then for the second person; what was not accepted
// yet waits on the page.
func (s *Screen) goOn(questions int) {
	h := &s.hand.count
	if q, open := h.next(questions); open && h.rest {
		h.at, h.parts = q, nil
		s.ask(stepEnds)
		return
	}
	if h.complete(s.snap.Count) {
		s.hand.to = forCount
		s.ask(stepSecond)
		return
	}
	s.ask(stepNone)
}

// part takes an amount of what is answered in parts.
func (s *Screen) part(n int64) {
	c, h := s.snap.Count, &s.hand.count
	singly, _ := c.questions()
	if h.parts == nil || h.at >= len(singly) {
		s.ask(stepNone)
		return
	}
	h.take(c, singly[h.at], n)
	if h.parts != nil {
		s.ask(stepEnds)
		return
	}
	s.goOn(len(singly))
}

// second goes on once the second person was named, or nobody.
func (s *Screen) second(tag mesh.Tag) {
	if s.slipped(pick{what: picksSecond}) {
		return
	}
	w, id := s.opt.Words, s.snap.For.ID
	switch s.hand.to {
	case forKit:
		fill := s.snap.Fill.PrepareKit
		fill.CheckedBy = tag
		s.hand.at = Wanted{Page: PageKit, ID: id}
		s.record(w.Say("charge.said.prepared", id), fill.Entries()...)
	case forCheck:
		s.record(w.Say("charge.said.checked", tag), station.CheckKit{Kit: id, CheckedBy: tag})
	case forWitness:
		if len(s.snap.Issues) > 0 {
			s.record(w.Say("charge.said.signed", tag), signed(s.snap.Issues[0].Unwitnessed, tag, kits.LaterSigned)...)
		}
	case forCount:
		s.recordCount(tag)
	}
}

// signed are the acts with which a second person says what was seen.
func signed(all []mesh.Ref, tag mesh.Tag, grade kits.Grade) (out []station.Act) {
	for some := range slices.Chunk(all, station.WitnessMax) {
		out = append(out, station.Witness{Movements: some, Tag: tag, Grade: grade})
	}
	return out
}

// recordCount writes the ends of a count, who else counted, and that nothing is
// there of what was below zero.
func (s *Screen) recordCount(tag mesh.Tag) {
	ends, seen := s.hand.count.accepted(s.snap.Count, s.snap.For.Room)
	s.entry(s.snap.Count.entries(ends), tag, seen)
}

// entry writes the first of some entries, its witness, then the others.
func (s *Screen) entry(all []kits.EndEntry, tag mesh.Tag, counted station.CountPlace) {
	w, room := s.opt.Words, s.snap.For.Room
	if len(all) == 0 {
		var last []station.Act
		if len(counted.Lines) > 0 {
			last = append(last, counted)
		}
		s.hand.count = begun()
		s.record(w.Say("charge.said.counted", room), last...)
		return
	}
	e := all[0]
	s.opt.Taps.Tap(s.snap.By, station.AcceptCount{Entry: e}, func(r station.Result, err error) {
		if err != nil {
			s.broke(err)
			return
		}
		seen := s.controlledOf(e, r.Ref)
		s.hand.count = begun() // it is recorded: never a second time
		if tag == "" || len(seen) == 0 {
			s.entry(all[1:], tag, counted)
			return
		}
		s.opt.Taps.Tap(s.snap.By, station.Witness{Movements: seen, Tag: tag, Grade: kits.SameDevice}, func(_ station.Result, err error) {
			if err != nil {
				s.broke(err)
				return
			}
			s.entry(all[1:], tag, counted)
		})
	})
}

// broke says what could not be recorded. Answers stay if nothing of them was
// recorded; else the rest is proposed again.
func (s *Screen) broke(err error) {
	if !s.hand.count.complete(s.snap.Count) {
		s.hand.step = stepNone
		s.opt.Want(s.hand.at)
	}
	s.fail(err)
}

// controlledOf are the movements of an entry that carry a controlled drug. They
// stand in the order in which AcceptCount writes them, from part 1.
func (s *Screen) controlledOf(e kits.EndEntry, first mesh.Ref) (out []mesh.Ref) {
	controlled := map[mesh.Number]bool{}
	for _, x := range s.snap.Count.Ends {
		controlled[x.Cell.Item] = x.Item.Has(kits.Controlled)
	}
	part := 0
	add := func(lines []kits.Line) {
		part++
		if slices.ContainsFunc(lines, func(x kits.Line) bool { return controlled[x.Item] }) {
			out = append(out, first.Sibling(part))
		}
	}
	for _, m := range e.Moved {
		add(m.Lines)
	}
	for _, m := range e.Left {
		add(m.Lines)
	}
	return out
}
