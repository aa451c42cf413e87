package debrief

import (
	"slices"

	"lintel/app/station"
	"lintel/mesh"
)

// pick does what a tap means.
func (s *Screen) pick(p pick) {
	s.hand.fault, s.hand.where = [2]string{}, ""
	switch p.what {
	case picksStep:
		s.ask(p.step)
	case picksBack:
		s.back()
	case picksCase:
		s.choose(p.of)
	case picksNearer, picksWhole, picksMove:
		s.zoom(p)
	case picksLine:
		s.hand.line = p.line
		s.ask(stepQuestion)
	case picksAnswer:
		s.answer(p.text)
	case picksRecord:
		s.record(station.AnswerLine{Case: s.snap.Of, Line: s.hand.line, Words: mesh.Text(p.text)}, p.text, stepQuestions)
	case picksYes:
		s.record(station.HoldDebrief{Case: s.snap.Of, Held: true}, s.opt.Words.Say("fact.debrief"), stepCase)
	case picksWhy:
		s.record(station.HoldDebrief{Case: s.snap.Of, Why: mesh.Text(p.text)}, s.opt.Words.Say("debrief.no-debrief"), stepCase)
	case picksPaper:
		s.paper()
	case picksTurn:
		s.turn()
	case picksUndo:
		s.undo()
	}
}

// choose asks for another case. The first page is shown at once, of the present
// case until a snapshot of the other comes.
func (s *Screen) choose(of mesh.Ref) {
	s.hand.zoom, s.hand.at = 0, 0
	s.ask(stepCase)
	if s.opt.Choose != nil && of != s.snap.Of {
		s.opt.Choose(of)
	}
}

// zoom brings the picture nearer around its middle, moves it, or shows all of it.
func (s *Screen) zoom(p pick) {
	h := &s.hand
	switch p.what {
	case picksNearer:
		if h.zoom < zoomMax {
			h.zoom, h.at = h.zoom+1, 2*h.at+1
		}
	case picksWhole:
		h.zoom, h.at = 0, 0
	case picksMove:
		h.at = min(max(0, h.at+p.by), places(h.zoom)-1)
	}
	s.Paint()
}

// answer chooses one, or takes it back.
func (s *Screen) answer(text string) {
	if i := slices.Index(s.hand.chosen, text); i >= 0 {
		s.hand.chosen = slices.Delete(s.hand.chosen, i, i+1)
	} else {
		s.hand.chosen = append(s.hand.chosen, text)
	}
	s.Paint()
}

// record records an act and, once that is done, goes to a page. What failed
// stays as it was chosen and typed.
func (s *Screen) record(act station.Act, said string, next step) {
	s.hand.last = mesh.Ref{}
	s.opt.Taps.Tap(s.snap.By, act, func(x station.Result, err error) {
		if err != nil {
			s.fail(err)
			return
		}
		s.hand.last, s.hand.until = x.Ref, s.opt.Now().Add(s.snap.UndoFor)
		s.hand.said = s.opt.Words.Say("debrief.recorded-as", said)
		s.ask(next)
	})
}

func (s *Screen) fail(err error) {
	s.hand.fault[0], s.hand.fault[1] = s.opt.Explain(err)
	s.Paint()
}

// undo takes back what was recorded last.
func (s *Screen) undo() {
	if s.hand.last.IsZero() || !s.opt.Now().Before(s.hand.until) {
		return
	}
	mark := s.hand.last
	s.hand.last = mesh.Ref{}
	s.opt.Taps.Tap(s.snap.By, station.Undo{Mark: mark}, func(_ station.Result, err error) {
		if err != nil {
			s.fail(err)
		}
	})
	s.Paint()
}

// paper has the record of the case made as a paper.
func (s *Screen) paper() {
	if s.opt.Paper == nil {
		return
	}
	s.opt.Paper(PaperRecord, s.snap.Of, func(where string, err error) {
		if err != nil {
			s.fail(err)
			return
		}
		s.hand.where = s.opt.Words.Say("debrief.paper-at", where)
		s.Paint()
	})
}

// turn shows the next lanes of the picture, or the next of the other cases;
// after the last the first.
func (s *Screen) turn() {
	switch c := s.page.Compare; {
	case c == nil:
		if s.hand.from++; s.hand.from >= len(s.drawn.pages) {
			s.hand.from = 0
		}
	default:
		if s.hand.from += s.shown; s.hand.from >= len(c.Others) {
			s.hand.from = 0
		}
	}
	s.Paint()
}
