package debrief

import (
	"time"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Bounds of the picture.
const (
	ticksMax   = 8                // along the axis
	ticksFew   = 4                // where it is narrow
	zoomMax    = 4                // so many times the picture is halved at most
	spanLeast  = time.Minute      // of a picture
	endFarFrom = 30 * time.Minute // an end of the case that is so long after all else is not drawn
	endMargin  = 0.04             // of the picture, behind the last thing on it
	dateLayout = "2006-01-02 "    // before a time of day
	clockShort = "15:04"
	clockLong  = "15:04:05"
)

// span is a piece of the common clock.
type span struct{ from, to mesh.Wall }

func (s span) length() time.Duration { return time.Duration(s.to-s.from) * time.Millisecond }

// whole is all of a case from its beginning to the last thing that happened. An
// end long after it, when somebody shut the case the next day, is not drawn: one
// further away than endFarFrom and than a quarter of all that happened.
func (c Course) whole() span {
	s := span{c.Start.Wall, c.Start.Wall}
	c.each(func(from, to mesh.Wall) { s = span{min(s.from, from), max(s.to, to)} })
	if end := c.End.Wall; end-s.to <= mesh.Wall(max(endFarFrom, s.length()/4).Milliseconds()) {
		s.to = max(s.to, end)
	}
	s.to = max(s.to, s.from+mesh.Wall(spanLeast.Milliseconds()))
	s.to += mesh.Wall(float64(s.to-s.from) * endMargin)
	return s
}

// each visits everything that has a time. What goes on to the end of the case
// counts with its beginning.
func (c Course) each(visit func(from, to mesh.Wall)) {
	at := func(p requests.Placed) { visit(p.Wall, p.Wall) }
	lasts := func(from, to requests.Placed, open bool) {
		if open {
			to = from
		}
		visit(from.Wall, to.Wall)
	}
	for _, m := range c.Moments {
		at(m.At)
	}
	for _, p := range c.People {
		lasts(p.From, p.To, p.Open)
	}
	for _, a := range c.Asked {
		lasts(a.From, a.To, a.Open)
	}
	for _, o := range c.Openings {
		at(o.From)
	}
	for _, h := range c.Harms {
		at(h.At)
	}
	for _, p := range append(c.Said[:len(c.Said):len(c.Said)], c.Given...) {
		at(p.At)
	}
}

// part is a piece of the whole: halved so many times, and moved on by halves of
// what is seen.
func (s span) part(zoom, at int) span {
	length := (s.to - s.from) >> zoom
	from := s.from + length/2*mesh.Wall(at)
	return span{from, from + length}
}

// places is how many places a part can have.
func places(zoom int) int { return 2<<zoom - 1 }

// painter words a case as a picture.
type painter struct {
	w    words.Words
	c    Course
	of   mesh.Wall // where the axis begins to count
	seen span
	room room
}

// room is how much can be said in a picture.
type room struct {
	ticks int  // along the axis, at most
	short bool // few words beside a mark
}

// Rooms of a picture beside a desk and on a phone.
func roomFor(broad bool) room {
	if broad {
		return room{ticks: ticksMax}
	}
	return room{ticks: ticksFew, short: true}
}

// picture is a case in time, as far as it is in the span.
func picture(w words.Words, c Course, seen span, zone *time.Location, r room) look.ChartFace {
	p := painter{w, c, c.Start.Wall, seen, r}
	f := look.ChartFace{From: p.at(seen.from), To: p.at(seen.to), Ticks: p.ticks(zone), None: w.Say("debrief.no-picture")}
	for _, lane := range []look.ChartLane{p.people(), p.times(), p.requests(), p.openings(), p.harms(), p.said("said", c.Said), p.said("given", c.Given)} {
		if len(lane.Bars)+len(lane.Points) > 0 {
			f.Lanes = append(f.Lanes, lane)
		}
	}
	return f
}

func (p painter) at(w mesh.Wall) time.Duration { return time.Duration(w-p.of) * time.Millisecond }

// shows tells whether something is in the piece that is seen.
func (p painter) shows(from, to mesh.Wall) bool { return from <= p.seen.to && to >= p.seen.from }

func (p painter) lane(id words.ID) look.ChartLane {
	return look.ChartLane{Word: p.w.Say("debrief.lane." + id)}
}

// point is something that happened, if it is seen.
func (p painter) point(lane *look.ChartLane, at requests.Placed, word string, tone look.Tone) {
	if !p.shows(at.Wall, at.Wall) {
		return
	}
	x := look.ChartPoint{At: p.at(at.Wall), Word: word, Tone: tone, Late: at.Late}
	if at.Known {
		x.Within = max(at.Within, 0)
	}
	lane.Points = append(lane.Points, x)
}

// bar is something that lasted, if any of it is seen.
func (p painter) bar(lane *look.ChartLane, from, to requests.Placed, b look.ChartBar) {
	if p.shows(from.Wall, to.Wall) {
		b.From, b.To = p.at(from.Wall), p.at(max(from.Wall, to.Wall))
		lane.Bars = append(lane.Bars, b)
	}
}

// ticks are round times of day along the axis.
func (p painter) ticks(zone *time.Location) (out []look.ChartTick) {
	step, layout := tickStep(p.seen.length(), time.Duration(p.room.ticks)), clockShort
	if step < time.Minute {
		layout = clockLong
	}
	from := time.UnixMilli(int64(p.seen.from)).In(zone)
	midnight := time.Date(from.Year(), from.Month(), from.Day(), 0, 0, 0, 0, zone)
	at := midnight.Add((from.Sub(midnight) + step - 1) / step * step)
	for end := time.UnixMilli(int64(p.seen.to)); !at.After(end); at = at.Add(step) {
		out = append(out, look.ChartTick{At: p.at(mesh.Wall(at.UnixMilli())), Word: at.Format(layout)})
	}
	return out
}

// tickStep is the least round step of which no more than most fit.
func tickStep(length, most time.Duration) time.Duration {
	minutes := []time.Duration{1, 2, 5, 10, 15, 30, 60, 120, 240, 360, 720, 1440}
	for _, s := range []time.Duration{10 * time.Second, 30 * time.Second} {
		if length <= most*s {
			return s
		}
	}
	for _, m := range minutes {
		if length <= most*m*time.Minute {
			return m * time.Minute
		}
	}
	return length/most + 1
}

// within is how far the clocks may be off at most. What was entered afterwards
// says for itself, on the picture, how far it may be.
func (c Course) within() (most time.Duration) {
	take := func(all ...requests.Placed) {
		for _, p := range all {
			if p.Wall != 0 && p.Known && !p.Late {
				most = max(most, p.Within)
			}
		}
	}
	take(c.Start)
	for _, m := range c.Moments {
		take(m.At)
	}
	for _, p := range c.People {
		take(p.From, p.To)
	}
	for _, a := range c.Asked {
		take(a.From, a.Acknowledged, a.AtDoor, a.Taken)
	}
	for _, o := range c.Openings {
		take(o.From, o.To)
	}
	for _, h := range c.Harms {
		take(h.At)
	}
	return most
}
