package requests

import (
	"maps"
	"slices"
	"time"

	"lintel/mesh"
)

// RolesFrom is the number of cases from which there are figures of a role.
const RolesFrom = 5

// Figures are what can be learned from a case, or from all of them. There is
// never one per person. Times are on the common clock of the devices.
type Figures struct {
	Of     mesh.Ref // the case; zero: everything that was no exercise
	Drill  bool     // the case is an exercise
	Cases  int      // how many they are of
	Drills int      // exercises that were left out

	Requests int // that were not taken back
	Needs    int // joined requests are one need

	ToAcknowledge Spread     // from asked to the first "going"
	ToDeliver     Spread     // from asked to the first taking in
	Unanswered    []mesh.Ref // asked, and nobody outside answered: the first request of each need
	Undelivered   []mesh.Ref // asked, and never taken in: the first request of each need
	Withdrawn     int        // of Undelivered: not wanted any more

	WrongCaught []mesh.Ref // read-backs of something else than asked that were refused or corrected before the door
	Closed      Share      // of what was asked and brought to the door: loops that were closed

	Openings  OpeningFigures
	Inside    time.Duration // in sum over persons
	Entries   int           // persons going in
	StillIn   int           // of Entries: without a coming out, counted to the end of the case
	Breaches  int
	Debriefs  Share       // of the cases that are over or have a word on it: those with a debrief
	NoDebrief []mesh.Text // the reasons given

	Within time.Duration // ± of every single time above, at most
	Apart  int           // times between clocks that were never compared: in no figure above
	Roles  []RoleFigures // by role, of those that took part in RolesFrom cases; of all cases only
}

// OpeningFigures is how often and how long doors were open.
type OpeningFigures struct {
	Count    int
	Measured int           // of Count: by a contact at the door; the others are derived from what crossed
	Window   time.Duration // derived: crossings within this of the first are one opening
	Open     time.Duration // measured: in sum
}

// RoleFigures are the figures of one role over all cases.
type RoleFigures struct {
	Role          mesh.ID
	Cases         int // in which it took part
	Asked         int // requests
	Acknowledged  int // needs
	ToAcknowledge Spread
	ToDeliver     Spread // of what it acknowledged
	Closed        Share  // of what it asked for
}

// Figures sums up a case, or with the zero Ref everything that was no exercise,
// requests without a case included. Of a Ref that is no case they are empty.
//
// The times of a need run from its first asking; what was passed in unasked has
// none, because nobody waited. The loop of a request is closed if all that came
// of it was confirmed from its room.
func (b *Board) Figures(of mesh.Ref) Figures {
	f := Figures{Of: of}
	f.Openings.Window = b.Seconds(settingWindow)
	s := &summing{b: b, f: &f, roles: map[mesh.ID]*roleSum{}}
	if !of.IsZero() {
		c, known := b.Case(of)
		if !known {
			return Figures{Of: of}
		}
		f.Drill = b.isDrill(c)
		s.add(c)
		return s.done()
	}
	for _, c := range b.Cases() {
		if b.isDrill(c) {
			f.Drills++
			continue
		}
		s.add(c)
	}
	s.needs(b.withoutCase(), b.Clocks(), mesh.Ref{})
	return s.done()
}

// withoutCase lists the requests that belong to no case and to no exercise.
func (b *Board) withoutCase() (out []Request) {
	for _, r := range b.Requests() {
		n := b.facts[r.Ref]
		if !r.Undone && b.caseFact(n) == nil && !b.inDrill(n) {
			out = append(out, r)
		}
	}
	return out
}

// summing collects figures over cases.
type summing struct {
	b *Board
	f *Figures

	toAcknowledge, toDeliver []time.Duration
	roles                    map[mesh.ID]*roleSum
}

// roleSum collects the figures of one role.
type roleSum struct {
	RoleFigures
	cases                    map[mesh.Ref]bool
	toAcknowledge, toDeliver []time.Duration
}

func (s *summing) role(id mesh.ID, of mesh.Ref) *roleSum {
	r := s.roles[id]
	if r == nil {
		r = &roleSum{RoleFigures: RoleFigures{Role: id}, cases: map[mesh.Ref]bool{}}
		s.roles[id] = r
	}
	if !of.IsZero() {
		r.cases[of] = true
	}
	return r
}

// add takes one case. Of a real one that began as an exercise, what was asked
// during the exercise is left out.
func (s *summing) add(c Case) {
	w := newCourse(s.b, c)
	s.f.Cases++
	if !s.b.isDrill(c) {
		w.requests = slices.DeleteFunc(w.requests, func(r Request) bool { return s.b.inDrill(s.b.facts[r.Ref]) })
	}
	for _, r := range c.Roles {
		s.role(r.Role, c.Ref)
	}
	s.needs(w.requests, w.clocks, c.Ref)
	s.door(w)
	s.people(w)
	s.debrief(c)
}

// door counts the openings.
func (s *summing) door(w *course) {
	for _, o := range w.openings() {
		s.f.Openings.Count++
		if o.Measured {
			s.f.Openings.Measured++
			open, _ := between(o.From.Wall, o.To.Wall)
			s.f.Openings.Open += open
		}
	}
}

// people adds up who was inside.
func (s *summing) people(w *course) {
	stays := w.stays()
	for _, stay := range stays {
		if stay.side != Inside {
			continue
		}
		if !stay.moved(stays) {
			s.f.Entries++
		}
		if stay.open {
			s.f.StillIn++
		}
		if took, known := s.time(w.lasted(stay)); known {
			s.f.Inside += took
		}
	}
	s.f.Breaches += len(w.c.Breaches)
}

// debrief counts whether one was held.
func (s *summing) debrief(c Case) {
	n := len(c.Debriefs)
	if n == 0 && !c.Over {
		return
	}
	s.f.Debriefs.All++
	switch {
	case n > 0 && c.Debriefs[n-1].Held:
		s.f.Debriefs.Of++
	case n > 0 && c.Debriefs[n-1].Why != "":
		s.f.NoDebrief = append(s.f.NoDebrief, c.Debriefs[n-1].Why)
	}
}

// time takes one time with its ±, if it is known.
func (s *summing) time(took, within time.Duration, known bool) (time.Duration, bool) {
	if !known {
		s.f.Apart++
		return 0, false
	}
	s.f.Within = max(s.f.Within, within)
	return took, true
}

// done sums up.
func (s *summing) done() Figures {
	s.f.ToAcknowledge, s.f.ToDeliver = SpreadOf(s.toAcknowledge), SpreadOf(s.toDeliver)
	for _, id := range slices.Sorted(maps.Keys(s.roles)) {
		r := s.roles[id]
		if r.Cases = len(r.cases); id == "" || r.Cases < RolesFrom || !s.f.Of.IsZero() {
			continue
		}
		r.ToAcknowledge, r.ToDeliver = SpreadOf(r.toAcknowledge), SpreadOf(r.toDeliver)
		s.f.Roles = append(s.f.Roles, r.RoleFigures)
	}
	return *s.f
}
