package requests

import (
	"maps"
	"slices"

	"lintel/mesh"
)

// stateLists writes the layouts and the lines of lists, each register with its
// facts and the refs that stand.
func (b *Board) stateLists(s *stateWriter) {
	b.stateFacts(s, b.lists.layouts)
	s.refs(b.LayoutWrites())
	lines := b.lists.sortedLines()
	s.count(len(lines))
	for _, name := range lines {
		s.text(string(name.list))
		s.text(string(name.id))
		b.stateFacts(s, b.lists.writes[name])
		s.refs(b.ListWrites(name.list, name.id))
	}
}

// stateConditions writes what each device said of itself, and which word is its newest.
func (b *Board) stateConditions(s *stateWriter) {
	s.count(len(b.cases.conditions))
	for _, device := range slices.SortedFunc(maps.Keys(b.cases.conditions), mesh.Key.Compare) {
		b.stateFacts(s, b.cases.conditions[device].all())
		_, m, _ := b.Condition(device)
		s.ref(m.Ref)
	}
}

// stateCases writes every fact of cases, and then what each case came to.
func (b *Board) stateCases(s *stateWriter) {
	facts := b.allOfCases()
	s.count(len(facts))
	for _, n := range facts {
		s.fact(n)
		s.flag(b.undone(n))
		of, _ := b.CaseOf(n.Ref)
		s.ref(of)
	}
	all := b.Cases()
	s.count(len(all))
	for i := range all {
		s.caseCourse(&all[i])
		s.caseBrief(&all[i])
		s.casePeople(&all[i])
		s.caseTimes(&all[i])
	}
}

// allOfCases lists, in order, every fact of cases and about others but the requests.
func (b *Board) allOfCases() []*fact {
	x := &b.cases
	out := slices.Concat(x.opens.facts, x.homeless.facts)
	for _, r := range x.filed {
		out = append(out, r.facts...)
	}
	for _, r := range x.unfiled {
		out = append(out, r.facts...)
	}
	for _, about := range x.beside {
		out = append(out, about...)
	}
	out = slices.DeleteFunc(out, func(n *fact) bool { return n.Kind == KindAsked })
	slices.SortFunc(out, compareFacts)
	return out
}

// listed writes the refs of a list of marks.
func listed[T any](s *stateWriter, list []T, mark func(T) Mark) {
	s.count(len(list))
	for _, one := range list {
		s.ref(mark(one).Ref)
	}
}

func itself(m Mark) Mark { return m }

func (s *stateWriter) caseCourse(c *Case) {
	s.ref(c.Ref)
	s.flag(c.Over)
	listed(s, c.Shut, func(e Ending) Mark { return e.Mark })
	listed(s, c.Moves, func(e Ending) Mark { return e.Mark })
	s.text(string(c.MovedTo))
	s.refs(c.Requests)
	s.count(len(c.Drills))
	for _, d := range c.Drills {
		s.ref(d.Ref)
		s.text(string(d.Room))
		listed(s, d.Injects, func(i Injected) Mark { return i.Mark })
		listed(s, d.Real, itself)
	}
	listed(s, c.Debriefs, func(d DebriefNote) Mark { return d.Mark })
	listed(s, c.Answers, func(a Answer) Mark { return a.Mark })
	listed(s, c.Doors, func(d DoorSeen) Mark { return d.Mark })
}

func (s *stateWriter) caseBrief(c *Case) {
	listed(s, c.Roles, func(r RoleOf) Mark { return r.Mark })
	listed(s, c.Ticks, func(t Tick) Mark { return t.Mark })
	s.count(len(c.PPE))
	for _, p := range c.PPE {
		s.ref(p.Ref)
		s.flag(p.Self)
	}
	s.count(len(c.Skipped))
	for _, row := range c.Skipped {
		s.ref(row.Ref)
		s.text(string(row.List))
		s.text(string(row.Line))
		s.flag(row.Made)
	}
	s.count(len(c.Tests))
	for _, t := range c.Tests {
		s.ref(t.Ref)
		s.flag(t.DoorOK)
		listed(s, t.Heard, func(h Hearing) Mark { return h.Mark })
	}
}

func (s *stateWriter) casePeople(c *Case) {
	s.count(len(c.People))
	for _, p := range c.People {
		s.text(string(p.Tag))
		s.text(string(p.Zone))
		s.small(uint8(p.Side))
		s.ref(p.Since.Ref)
	}
	s.count(len(c.Crossings))
	for _, x := range c.Crossings {
		s.ref(x.Ref)
		s.small(uint8(x.Side))
	}
	s.count(len(c.Breaches))
	for _, h := range c.Breaches {
		s.ref(h.Ref)
		listed(s, h.Heard, itself)
	}
	listed(s, c.Doffing, func(d Doff) Mark { return d.Mark })
	s.count(len(c.Said))
	for _, p := range c.Said {
		s.ref(p.Ref)
		listed(s, p.Heard, itself)
	}
}

func (s *stateWriter) caseTimes(c *Case) {
	s.count(len(c.Moments))
	for _, m := range c.Moments {
		s.ref(m.Ref)
		s.number(uint64(m.Happened))
		s.flag(m.Late)
		listed(s, m.Fixes, func(f LateFix) Mark { return f.Mark })
		s.count(len(m.Against))
		for _, id := range m.Against {
			s.text(string(id))
		}
	}
	listed(s, c.Charts, func(x Chart) Mark { return x.Mark })
}
