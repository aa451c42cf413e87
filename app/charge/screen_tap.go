package charge

import (
	"slices"
	"strconv"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// pick does what a tap means.
func (s *Screen) pick(p pick) {
	s.hand.fault = [2]string{}
	switch p.what {
	case picksPage, picksBy:
		s.hand.straight = p.at.Page == PageCounts
		s.open(p.at)
	case picksStep:
		s.goTo(p)
	case picksSecond:
		s.hand.to = p.to
		s.ask(stepSecond)
	case picksRole:
		s.hand.role = p.id
		s.ask(stepNumber)
	case picksTag:
		s.second(p.tag)
	case picksNobody:
		s.second("")
	case picksAll, picksEnd, picksPart:
		s.counts(p)
	case picksClass:
		s.hand.class = p.id
		s.ask(stepLitres)
	case picksLitres:
		s.hand.litresT = int64(p.n)
		s.ask(stepBoxRoom)
	case picksRoom:
		s.hand.room = p.id
		s.ask(stepBoxSeal)
	case picksPar:
		s.hand.place = p.place
		s.ask(stepPar)
	case picksBuy:
		s.hand.item = p.item
		s.ask(stepBuy)
		s.hand.typed = strconv.Itoa(p.n) // proposed: what is missing
		s.Paint()
	case picksClose:
		s.closing()
	case picksPath, picksTake:
		s.lists(p)
	case picksField, picksValue, picksWrite:
		s.forms(p)
	default:
		s.acts(p)
	}
}

// goTo goes on to a question, of a count to the one that was tapped.
func (s *Screen) goTo(p pick) {
	if p.step == stepEnds {
		s.hand.count.at, s.hand.count.parts = p.n, nil
	}
	s.ask(p.step)
}

// acts records what needs no further question.
func (s *Screen) acts(p pick) {
	if p.what == picksNothing || s.slipped(p) {
		return
	}
	w := s.opt.Words
	switch p.what {
	case picksOpened:
		s.record(w.Say("charge.said.opened", s.snap.For.ID), station.OpenKit{Kit: s.snap.For.ID, Broken: !p.yes})
	case picksApart:
		s.record(w.Say("charge.said.apart", s.snap.For.ID), station.BreakDown{Kit: s.snap.For.ID})
	case picksWhy:
		s.record(w.Say("charge.closed"), station.CloseIssue{Issue: s.snap.For.Ref, Why: mesh.Text(p.text)})
	case picksFetched:
		s.fetched(p.n)
	case picksHold:
		word := words.ID("charge.said.let-go")
		if p.yes {
			word = "charge.said.held"
		}
		s.record(w.Say(word, s.snap.For.Lot), station.HoldLot{Item: s.snap.For.Item, Lot: s.snap.For.Lot, Held: p.yes})
	case picksNoOther:
		x := s.snap.Item.ItemLine
		x.Alternatives = slices.DeleteFunc(slices.Clone(x.Alternatives), func(n mesh.Number) bool { return n == p.item })
		s.record(w.Say("charge.said.item"), station.Catalogue{Items: []kits.ItemLine{x}})
	}
}

// record records an act, says so, and goes back to the page.
// Acts follow each other; the first that cannot be recorded ends it.
func (s *Screen) record(said string, acts ...station.Act) {
	if len(acts) == 0 {
		s.hand.said, s.hand.last = said, mesh.Ref{}
		s.hand.until = s.opt.Now().Add(s.snap.UndoFor)
		s.ask(stepNone)
		s.opt.Want(s.hand.at)
		return
	}
	s.opt.Taps.Tap(s.snap.By, acts[0], func(_ station.Result, err error) {
		if err != nil {
			s.opt.Want(s.hand.at) // those before are recorded
			s.fail(err)
			return
		}
		s.record(said, acts[1:]...)
	})
}

func (s *Screen) fail(err error) {
	s.hand.fault[0], s.hand.fault[1] = s.opt.Explain(err)
	s.Paint()
}

// fetched ticks a line of the pick list off. It can be taken back.
func (s *Screen) fetched(n int) {
	all := picks(s.snap.Plan)
	if n >= len(all) {
		return
	}
	x := all[n]
	s.opt.Taps.Tap(s.snap.By, station.PickLines{Picks: []kits.RestockPick{x}}, func(r station.Result, err error) {
		if err != nil {
			s.fail(err)
			return
		}
		s.hand.said, s.hand.last = s.opt.Words.Say("charge.said.fetched", thing(s.opt.Words, x.Missing, x.Item)), r.Ref
		s.hand.until = s.opt.Now().Add(s.snap.UndoFor)
		s.opt.Want(s.hand.at)
		s.Paint()
	})
}

// undo takes back what was recorded last.
func (s *Screen) undo() {
	if s.hand.last.IsZero() || !s.opt.Now().Before(s.hand.until) {
		return
	}
	mark := s.hand.last
	s.hand.last, s.hand.said = mesh.Ref{}, ""
	s.record(s.opt.Words.Say("charge.said.undone"), station.Undo{Mark: mark})
}

// closing closes an issue; where something is missing it asks why first.
func (s *Screen) closing() {
	if len(s.snap.Issues) == 0 {
		return
	}
	if s.snap.Issues[0].Residual != 0 {
		s.ask(stepWhy)
		return
	}
	s.record(s.opt.Words.Say("charge.closed"), station.CloseIssue{Issue: s.snap.For.Ref})
}

// typedAll does what the digits were typed for.
func (s *Screen) typedAll() {
	if s.hand.typed == "" {
		return
	}
	w, n := s.opt.Words, number(s.hand.typed)
	switch s.hand.step {
	case stepSeal:
		s.record(w.Say("charge.said.sealed", s.hand.typed), station.SealKit{Kit: s.snap.For.ID, Seal: mesh.Label(s.hand.typed)})
	case stepBoxSeal:
		s.sealBox()
	case stepPart:
		s.part(n)
	case stepPar:
		line := kits.ParLine{Place: s.hand.place, Item: s.snap.For.Item, Par: n, Gone: n == 0}
		s.record(w.Say("charge.said.par"), station.Catalogue{Pars: []kits.ParLine{line}})
	case stepBuy:
		s.record(w.Say("charge.said.ordered", n), station.Order{Item: s.hand.item, Count: n})
	case stepOther:
		s.other(mesh.Number(n))
	case stepField:
		s.keyed()
	case stepFind:
		s.open(Wanted{Page: PageCatalogue, Text: s.hand.typed})
	}
}

// sealBox records a waste container, of the case that is open in its room.
func (s *Screen) sealBox() {
	box := station.SealWaste{Room: s.hand.room, Class: s.hand.class, Seal: mesh.Label(s.hand.typed), LitresT: s.hand.litresT}
	for _, r := range s.snap.Rooms {
		if r.ID == box.Room {
			box.Case = r.Case
		}
	}
	s.record(s.opt.Words.Say("charge.said.box", s.hand.typed), box)
}

// other adds an alternative.
func (s *Screen) other(n mesh.Number) {
	x := s.snap.Item.ItemLine
	if _, known := kits.ParseNumber(s.hand.typed); !known || slices.Contains(x.Alternatives, n) || n == x.Number {
		s.hand.fault[0], s.hand.fault[1] = s.opt.Words.Say("charge.other.wrong"), s.opt.Words.Say("charge.other.hint")
		s.Paint()
		return
	}
	x.Alternatives = append(slices.Clone(x.Alternatives), n)
	s.record(s.opt.Words.Say("charge.said.item"), station.Catalogue{Items: []kits.ItemLine{x}})
}
