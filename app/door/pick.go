package door

import (
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// pick does what a choice means.
func (s *Screen) pick(p pick) {
	s.hand.fault = [2]string{}
	switch p.what {
	case picksStep:
		s.ask(p.step)
	case picksWho:
		s.hand.to = p.to
		s.ask(whoStep(p.to))
	case picksRoom:
		s.hand.room, s.hand.last = p.id, mesh.Ref{}
		s.home()
		s.Paint()
	case picksRole:
		s.hand.role = p.id
		s.ask(stepNumber)
	case picksTag:
		if s.hand.step == stepPerson {
			s.hand.to = p.to
		}
		s.tagged(p.tag)
	case picksPerson:
		s.hand.tag = p.tag
		s.ask(stepPerson)
	case picksList:
		s.hand.list = p.id
		s.ask(stepList)
	case picksDoffBack:
		s.hand.at--
		s.Paint()
	case picksPaper:
		s.paper()
	default:
		s.acts(p)
	}
}

func whoStep(to intent) step {
	if to == toCheck {
		return stepChecker
	}
	return stepWho
}

// tagged goes on when it is known whose tag it is.
func (s *Screen) tagged(tag mesh.Tag) {
	switch s.hand.to {
	case toCheck:
		s.hand.by = tag
		s.ask(stepHow)
	case toHarm:
		s.hand.tag = tag
		s.ask(stepHarm)
	case toDoff:
		s.hand.tag = tag
		r, _ := s.snap.room(s.hand.room)
		if s.hand.at = s.snap.next(r, tag); s.hand.at >= len(s.snap.Doff) {
			s.ask(stepDoffed)
			return
		}
		s.ask(stepDoff)
	default:
		s.hand.tag, s.hand.by = tag, ""
		s.ask(stepHow)
	}
}

// acts records what a choice says.
func (s *Screen) acts(p pick) {
	room := s.hand.room
	switch p.what {
	case picksMeasured, picksTick, picksDoffed:
		if s.slipped(slipName(p)) {
			return
		}
	}
	switch p.what {
	case picksIn:
		s.done(p.said, func(of mesh.Ref) station.Act {
			return station.GoIn{Case: of, Tag: p.tag, Zone: p.id, Checker: p.by}
		})
	case picksOut:
		s.done(p.said, func(of mesh.Ref) station.Act {
			return station.ComeOut{Case: of, Tag: p.tag, Zone: p.id, Checker: p.by}
		})
	case picksHarm:
		tag := s.hand.tag
		s.done(p.said, func(of mesh.Ref) station.Act { return station.ReportBreach{Case: of, Tag: tag, What: p.id} })
	case picksMeasured:
		s.home()
		s.tap(station.MeasureDoor{Room: room, Open: p.yes}, nil)
		s.Paint()
	case picksTick:
		list := s.hand.list
		s.record("", func(of mesh.Ref) station.Act {
			return station.TickLine{Case: of, List: list, Line: p.id, Done: p.yes}
		}, nil)
		s.Paint()
	case picksDoffed:
		s.doffed(p)
	case picksCall:
		s.call(p.item)
	}
}

// slipName is what a slip of the finger would tap twice: the door, a line, or
// the place of "done", whatever step stands over it.
func slipName(p pick) string {
	switch p.what {
	case picksMeasured:
		return "door"
	case picksDoffed:
		return "doff"
	}
	return "line " + string(p.id)
}

// doffed records a step and goes to the next.
func (s *Screen) doffed(p pick) {
	by := s.snap.By.Tag
	s.record("", func(of mesh.Ref) station.Act {
		return station.DoffStep{Case: of, Tag: p.tag, Step: p.id, Checker: by, Good: p.yes}
	}, nil)
	if s.hand.at++; s.hand.at >= len(s.snap.Doff) {
		s.ask(stepDoffed)
		return
	}
	s.Paint()
}

// call asks for a person now, and says that what was said was heard.
func (s *Screen) call(item mesh.Number) {
	n := s.hand.notice
	s.home()
	s.tap(station.Hear{Said: n.Ref}, nil)
	r, _ := s.snap.room(n.Room)
	s.tap(station.Ask{Case: r.Case, Room: n.Room, Thing: requests.Thing{Item: item, Count: 1}, Urgency: requests.RightNow}, nil)
	s.Paint()
}

// paper has the sheets made, and says where they are.
func (s *Screen) paper() {
	r, _ := s.snap.room(s.hand.room)
	s.opt.Paper(r.Case, func(where string, err error) {
		if s.hand.paper = where; err != nil {
			s.hand.paper = ""
			s.hand.fault[0], s.hand.fault[1] = s.opt.Explain(err)
		}
		s.Paint()
	})
}

// back is one question back from where it is clear which, else to the first page.
func (s *Screen) back() {
	s.hand.fault = [2]string{}
	switch s.hand.step {
	case stepRole:
		s.ask(whoStep(s.hand.to))
	case stepNumber:
		s.ask(stepRole)
	case stepChecker:
		s.hand.to = toGoIn
		s.ask(stepHow)
	case stepHow:
		s.hand.to = toGoIn
		s.ask(stepWho)
	case stepList:
		s.ask(stepLeaving)
	default:
		s.home()
		s.Paint()
	}
}
