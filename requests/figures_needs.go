package requests

import (
	"slices"

	"lintel/mesh"
)

// needs takes requests of one case, or of none, each need once.
func (s *summing) needs(requests []Request, clocks Clocks, of mesh.Ref) {
	s.f.Requests += len(requests)
	byGroup := map[*fact][]Request{}
	var groups []*fact
	for _, r := range requests {
		first := s.b.group(s.b.facts[r.Ref])[0]
		if byGroup[first] == nil {
			groups = append(groups, first)
		}
		byGroup[first] = append(byGroup[first], r)
		s.loop(r, of)
	}
	s.f.Needs += len(groups)
	for _, g := range groups {
		s.need(byGroup[g], clocks, of)
	}
}

// loop takes what was said and repeated over one request.
func (s *summing) loop(r Request, of mesh.Ref) {
	for _, h := range r.InHand {
		if h.caught(r) {
			s.f.WrongCaught = append(s.f.WrongCaught, h.Ref)
		}
	}
	if r.Origin == PassedIn {
		return
	}
	role := s.role(r.Asker.Role, of)
	role.Asked++
	if r.Step < StepAtDoor {
		return
	}
	s.f.Closed.All++
	role.Closed.All++
	if r.Loop == LoopClosed {
		s.f.Closed.Of++
		role.Closed.Of++
	}
}

// caught tells whether a read-back was of something else than asked, and was
// refused or corrected before it came to the door.
func (h ReadBack) caught(r Request) bool {
	if h.Matches || h.Unasked {
		return false
	}
	brought := slices.ContainsFunc(r.Deliveries, func(d Delivery) bool { return d.Names == h.Ref })
	later := slices.ContainsFunc(r.InHand, func(o ReadBack) bool {
		return o.Device() == h.Device() && o.At.Compare(h.At) > 0
	})
	return !brought && (len(h.Refused) > 0 || later)
}

// need takes the times of one need. Requests are in the order asked.
func (s *summing) need(requests []Request, clocks Clocks, of mesh.Ref) {
	var asked, acknowledged, delivered firstMark
	answered, withdrawn := false, true
	for _, r := range requests {
		answered = answered || r.Answered()
		withdrawn = withdrawn && len(r.Withdrawn) > 0
		if r.Origin != PassedIn {
			asked.take(clocks, r.Asked)
		}
		for _, a := range r.Acknowledged {
			acknowledged.take(clocks, a.Mark)
		}
		for _, d := range r.Deliveries {
			for _, e := range d.Ends {
				if e.Count > 0 {
					delivered.take(clocks, e.Mark)
				}
			}
		}
	}
	if !asked.any {
		return // nobody waited for it
	}
	if !answered {
		s.f.Unanswered = append(s.f.Unanswered, requests[0].Ref)
	}
	if !delivered.any {
		s.f.Undelivered = append(s.f.Undelivered, requests[0].Ref)
		if withdrawn {
			s.f.Withdrawn++
		}
	}
	s.times(clocks, asked, acknowledged, delivered, of)
}

// times takes how long one need waited.
func (s *summing) times(clocks Clocks, asked, acknowledged, delivered firstMark, of mesh.Ref) {
	var role *roleSum
	if acknowledged.any {
		role = s.role(acknowledged.mark.By.Role, of)
		role.Acknowledged++
		if took, known := s.time(clocks.Between(asked.mark, acknowledged.mark)); known {
			s.toAcknowledge = append(s.toAcknowledge, took)
			role.toAcknowledge = append(role.toAcknowledge, took)
		}
	}
	if !delivered.any {
		return
	}
	if took, known := s.time(clocks.Between(asked.mark, delivered.mark)); known {
		s.toDeliver = append(s.toDeliver, took)
		if role != nil {
			role.toDeliver = append(role.toDeliver, took)
		}
	}
}

// firstMark is the earliest of several marks on the common clock.
type firstMark struct {
	mark Mark
	wall mesh.Wall
	any  bool
}

func (f *firstMark) take(clocks Clocks, m Mark) {
	if wall, _ := clocks.Corrected(m); !f.any || wall < f.wall {
		*f = firstMark{m, wall, true}
	}
}
