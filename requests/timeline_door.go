package requests

import (
	"cmp"
	"slices"
	"time"

	"lintel/mesh"
)

// staySpan is one person's stay in one zone.
type staySpan struct {
	tag      mesh.Tag
	zone     mesh.ID
	side     Side
	from, to Mark
	open     bool // to is not set: it goes on to the end of the case
}

// stays follows every person through the zones, by when the crossings happened.
// Whoever enters a zone has left all that lie as far in or further; whoever
// leaves one has left all that lie within it; leaving without a zone is leaving all.
func (w *course) stays() []staySpan {
	crossings := slices.Clone(w.c.Crossings)
	slices.SortStableFunc(crossings, func(x, y Crossing) int {
		return cmp.Compare(w.clocks.Place(x.Mark).Wall, w.clocks.Place(y.Mark).Wall)
	})
	var out []staySpan
	for _, x := range crossings {
		for i := range out {
			s := &out[i]
			if s.open && s.tag == x.Tag && (s.side >= x.Side || !x.In && x.Zone == "") {
				s.to, s.open = x.Mark, false
			}
		}
		if x.In {
			out = append(out, staySpan{tag: x.Tag, zone: x.Zone, side: x.Side, from: x.Mark, open: true})
		}
	}
	return out
}

// ending is when a stay ended.
func (w *course) ending(s staySpan) Placed {
	if s.open {
		return w.end
	}
	return w.clocks.Place(s.to)
}

// lasted is how long a stay was, ± so much; false: its clocks were never compared.
func (w *course) lasted(s staySpan) (took, within time.Duration, known bool) {
	switch {
	case !s.open:
		return w.clocks.Between(s.from, s.to)
	case w.c.Over:
		return w.clocks.Between(s.from, w.c.Shut[0].Mark)
	}
	from := w.clocks.Place(s.from)
	took, _ = between(from.Wall, w.end.Wall)
	return took, max(from.Within, 0) + max(w.end.Within, 0), from.Known == w.end.Known
}

// crossed is something that went through the door.
type crossed struct {
	placed Placed
	person bool
}

// crossings lists what went through the door, by time: each delivery once, and
// each person going in or coming out of the room itself.
func (w *course) crossings() []crossed {
	var out []crossed
	for _, r := range w.requests {
		for _, d := range r.Deliveries {
			if i := slices.IndexFunc(d.Ends, func(t Taking) bool { return t.Count > 0 }); i >= 0 {
				out = append(out, crossed{w.clocks.Place(d.Ends[i].Mark), false})
			}
		}
	}
	within := w.through()
	for _, x := range w.c.Crossings {
		if within[x.Ref] {
			out = append(out, crossed{w.clocks.Place(x.Mark), true})
		}
	}
	slices.SortStableFunc(out, func(x, y crossed) int { return cmp.Compare(x.placed.Wall, y.placed.Wall) })
	return out
}

// through are the crossings by which somebody went into the room itself or came
// out of it: also out of it straight to further out, but not from one zone
// inside to another.
func (w *course) through() map[mesh.Ref]bool {
	through := map[mesh.Ref]bool{}
	for _, x := range w.c.Crossings {
		through[x.Ref] = x.Side == Inside
	}
	stays := w.stays()
	for _, s := range stays {
		if s.side == Inside && !s.open {
			through[s.to.Ref] = true
		}
	}
	for _, s := range stays {
		if s.moved(stays) {
			through[s.from.Ref] = false
		}
	}
	return through
}

// moved tells whether somebody came into this zone inside from another one inside.
func (s staySpan) moved(stays []staySpan) bool {
	return s.side == Inside && slices.ContainsFunc(stays, func(o staySpan) bool {
		return o.side == Inside && !o.open && o.to.Ref == s.from.Ref
	})
}

func (o *OpeningAt) count(x crossed) {
	if x.person {
		o.Crossings++
	} else {
		o.HandOvers++
	}
}

// openings lists when the door was open: as measured, where there is anything
// measured; else what crossed within the setting opening-window of the first is
// one opening.
func (w *course) openings() []OpeningAt {
	if len(w.c.Doors) > 0 {
		return w.measured()
	}
	window := mesh.Wall(w.b.Seconds(settingWindow).Milliseconds())
	var out []OpeningAt
	for _, x := range w.crossings() {
		if n := len(out); n == 0 || x.placed.Wall-out[n-1].From.Wall > window {
			out = append(out, OpeningAt{From: x.placed})
		}
		last := &out[len(out)-1]
		last.To = x.placed
		last.count(x)
	}
	return out
}

// measured lists the openings that a contact at the door reported.
func (w *course) measured() []OpeningAt {
	doors := slices.Clone(w.c.Doors)
	slices.SortStableFunc(doors, func(x, y DoorSeen) int {
		return cmp.Compare(w.clocks.Place(x.Mark).Wall, w.clocks.Place(y.Mark).Wall)
	})
	var out []OpeningAt
	open := false
	for _, d := range doors {
		p := w.clocks.Place(d.Mark)
		switch {
		case d.Open && !open:
			out = append(out, OpeningAt{From: p, To: w.end, Measured: true})
		case !d.Open && open:
			out[len(out)-1].To = p
		}
		open = d.Open
	}
	for _, x := range w.crossings() {
		for i := range out {
			if x.placed.Wall >= out[i].From.Wall && x.placed.Wall <= out[i].To.Wall {
				out[i].count(x)
			}
		}
	}
	return out
}
