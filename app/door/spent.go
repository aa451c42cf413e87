package door

import (
	"slices"
	"strings"
	"time"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// Spent is how long somebody was where, and what went wrong there.
type Spent struct {
	Tag      mesh.Tag
	Inside   time.Duration // ended stays inside
	Anteroom time.Duration // ended stays in the anteroom
	In       requests.Side // where the person is now; 0: out
	Since    mesh.Wall     // of that stay
	Least    bool          // a time of it is not known exactly
	Times    int           // how often the person went inside
	Harms    []string
	around   []requests.Side // the zones entered and not left, outermost first
}

// total is the time inside up to now.
func (s Spent) total(side requests.Side, now mesh.Wall) time.Duration {
	d := s.Inside
	if side == requests.Anteroom {
		d = s.Anteroom
	}
	if s.In == side {
		d += time.Duration(max(now-s.Since, 0)) * time.Millisecond
	}
	return d
}

// spent adds up who was where for how long, by tag, in order of tags.
func spent(v station.View, c requests.Case) []Spent {
	all := map[mesh.Tag]*Spent{}
	of := func(tag mesh.Tag) *Spent {
		if all[tag] == nil {
			all[tag] = &Spent{Tag: tag}
		}
		return all[tag]
	}
	for _, x := range c.Crossings {
		at, least := v.Since(x.Mark)
		of(x.Tag).cross(x.In, x.Side, at, least)
	}
	for _, b := range c.Breaches {
		s := of(b.Tag)
		s.Harms = append(s.Harms, harmWords(v, b))
	}
	var out []Spent
	for _, s := range all {
		out = append(out, *s)
	}
	slices.SortFunc(out, func(a, b Spent) int { return strings.Compare(string(a.Tag), string(b.Tag)) })
	return out
}

// cross ends the stay that goes on, and begins one. Zones lie within each
// other: whoever comes out of one is in that around it, if it was entered.
func (s *Spent) cross(in bool, side requests.Side, at mesh.Wall, least bool) {
	stay := time.Duration(max(at-s.Since, 0)) * time.Millisecond
	was := s.In
	switch was {
	case requests.Inside:
		s.Inside += stay
	case requests.Anteroom:
		s.Anteroom += stay
	}
	if i := slices.IndexFunc(s.around, func(z requests.Side) bool { return z >= side }); i >= 0 {
		s.around = s.around[:i]
	}
	if in && side != requests.Outside {
		s.around = append(s.around, side)
	}
	s.In, s.Since, s.Least = 0, at, s.Least || least
	if n := len(s.around); n > 0 {
		s.In = s.around[n-1]
	}
	if s.In == requests.Inside && was != requests.Inside {
		s.Times++
	}
}
