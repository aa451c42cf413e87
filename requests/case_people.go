package requests

import (
	"cmp"
	"maps"
	"slices"

	"lintel/mesh"
)

// stay is where somebody is: the zones entered and not left, outermost first.
type stay struct {
	zones []zoneSide
	last  Crossing
}

type zoneSide struct {
	zone mesh.ID
	side Side
}

// persons takes who went where, what failed, and what was said.
func (v *caseViewer) persons(n *fact, m Mark) {
	switch body := n.body.(type) {
	case *Entered:
		v.crossing(Crossing{Mark: m, Tag: body.Tag, Zone: body.Zone, In: true, Checker: body.Checker})
	case *Left:
		v.crossing(Crossing{Mark: m, Tag: body.Tag, Zone: body.Zone, Checker: body.Checker})
	case *Breach:
		v.c.Breaches = append(v.c.Breaches, Harm{m, body.Tag, body.What, body.Words, v.heard(n)})
	case *DoffStep:
		v.c.Doffing = append(v.c.Doffing, Doff{m, body.Tag, body.Step, body.Checker, body.Good})
	case *Said:
		v.c.Said = append(v.c.Said, Phrase{m, body.Room, body.Phrase, body.Out, v.heard(n)})
	}
}

func (v *caseViewer) heard(n *fact) (marks []Mark) {
	for _, h := range v.b.aboutOf(n, KindSaidHeard) {
		marks = append(marks, v.b.mark(h))
	}
	return marks
}

// crossing takes one going in or coming out.
func (v *caseViewer) crossing(c Crossing) {
	c.Side = v.zone(c.Zone).side
	v.c.Crossings = append(v.c.Crossings, c)
}

// whereabouts follows each person's crossings, in the order of the entries; of a
// person of whom one was entered or corrected afterwards, as they happened.
func (v *caseViewer) whereabouts() {
	of := map[mesh.Tag][]Crossing{}
	for _, c := range v.c.Crossings {
		of[c.Tag] = append(of[c.Tag], c)
	}
	for _, tag := range slices.Sorted(maps.Keys(of)) {
		all := of[tag]
		if slices.ContainsFunc(all, func(c Crossing) bool { return c.By.Happened != 0 || c.Corrected != 0 }) {
			slices.SortStableFunc(all, func(x, y Crossing) int { return cmp.Compare(x.When(), y.When()) })
		}
		s := &stay{}
		for _, c := range all {
			if z := v.zone(c.Zone); c.In {
				s.enter(z)
			} else {
				s.leave(z, c.Zone == "")
			}
			s.last = c
		}
		v.c.People = append(v.c.People, s.person(tag))
	}
}

// zone finds a zone and its side. An unknown one counts as inside: whoever was
// there may have been exposed. Without a name it is the room's innermost.
func (v *caseViewer) zone(id mesh.ID) zoneSide {
	room, _ := v.b.Room(v.c.Room)
	for _, z := range room.Zones {
		if z.ID == id {
			return zoneSide{id, z.Side}
		}
	}
	if id != "" {
		return zoneSide{id, Inside}
	}
	if n := len(room.Zones); n > 0 {
		return zoneSide{room.Zones[n-1].ID, room.Zones[n-1].Side}
	}
	return zoneSide{zoneInside, Inside}
}

// enter goes into a zone: back out of those that do not lie further outwards,
// then in.
func (s *stay) enter(z zoneSide) {
	s.back(z)
	s.zones = append(s.zones, z)
}

// leave comes out of a zone and of all that lie within it; without a zone, out of all.
func (s *stay) leave(z zoneSide, all bool) {
	if all {
		s.zones = nil
		return
	}
	s.back(z)
}

// back leaves every zone that does not lie further outwards than z.
func (s *stay) back(z zoneSide) {
	for i, in := range s.zones {
		if in.side >= z.side {
			s.zones = s.zones[:i]
			return
		}
	}
}

// person is where somebody is after the last crossing.
func (s *stay) person(tag mesh.Tag) Person {
	p := Person{Tag: tag, Side: Outside, Since: s.last.Mark, Checker: s.last.Checker}
	if n := len(s.zones); n > 0 {
		p.Zone, p.Side = s.zones[n-1].zone, s.zones[n-1].side
	}
	return p
}
