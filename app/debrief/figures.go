package debrief

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"lintel/app/words"
	"lintel/requests"
)

// Figure is one thing that was measured: what, how much, and how it was worked out.
type Figure struct {
	Label  string
	Value  string
	Method string
}

// figures words the figures of one case, or of all with no case. named are the
// requests that some of them count.
func figures(w words.Words, f requests.Figures, c Case, named lists) (out []Figure) {
	add := func(id words.ID, value any, method string) {
		out = append(out, Figure{w.Say("debrief.figure." + id), fmt.Sprint(value), method})
	}
	add("requests", f.Requests, w.Say("debrief.needs", w.Count("debrief.need", f.Needs)))
	out = append(out, spread(w, "ack", f.ToAcknowledge)...)
	out = append(out, spread(w, "deliver", f.ToDeliver)...)
	add("unanswered", len(f.Unanswered), named.unanswered)
	add("undelivered", len(f.Undelivered), unwanted(w, f, named.undelivered))
	add("wrong", len(f.WrongCaught), named.wrong)
	add("closed", share(w, f.Closed), interval(w, f.Closed))
	add("openings", f.Openings.Count, openings(w, f.Openings))
	add("inside", decimal(f.Inside.Minutes()), w.Say("debrief.entries", w.Count("debrief.entry", f.Entries), f.StillIn))
	add("breaches", f.Breaches, "")
	if c.Ref.IsZero() {
		add("debriefs", share(w, f.Debriefs), interval(w, f.Debriefs))
	} else {
		add("debrief", held(w, c.Debrief), c.Debrief.Why)
	}
	add("within", w.Say("debrief.within", seconds(w, f.Within)), w.Say("debrief.apart", f.Apart))
	return out
}

// spread is a median and a 90th percentile.
func spread(w words.Words, id words.ID, s requests.Spread) []Figure {
	median, p90 := w.Say("debrief.figure."+id), w.Say("debrief.figure."+id+"-90")
	if s.N == 0 {
		none := w.Say("figures.no-times")
		return []Figure{{Label: median, Value: none}, {Label: p90, Value: none}}
	}
	return []Figure{
		{median, seconds(w, s.Median), w.Say("debrief.median", w.Count("debrief.need", s.N))},
		{p90, seconds(w, s.P90), w.Say("debrief.p90", seconds(w, s.P90Linear))},
	}
}

// unwanted says how many of what never went in was not wanted any more.
func unwanted(w words.Words, f requests.Figures, named string) string {
	if len(f.Undelivered) == 0 {
		return ""
	}
	return joined(w.Say("debrief.unwanted", f.Withdrawn), named)
}

// held says whether a debrief was held.
func held(w words.Words, d Debrief) string {
	switch {
	case !d.Said:
		return w.Say("debrief.not-said")
	case d.Held:
		return w.Say("debrief.held")
	}
	return w.Say("debrief.not-held")
}

// openings says how the openings of a door were found.
func openings(w words.Words, o requests.OpeningFigures) string {
	derived, measured := w.Say("debrief.derived", seconds(w, o.Window)), w.Say("debrief.measured", seconds(w, o.Open))
	switch o.Measured {
	case 0:
		return derived
	case o.Count:
		return measured
	}
	return w.Say("debrief.both", o.Measured, measured, o.Count-o.Measured, derived)
}

// share is so many of all.
func share(w words.Words, s requests.Share) string {
	if s.All == 0 {
		return w.Say("figures.none")
	}
	return w.Say("brief.of", s.Of, s.All)
}

// interval is a share in per cent, with how far it may be off where it is of few.
func interval(w words.Words, s requests.Share) string {
	low, high := s.Wilson95()
	switch {
	case s.All == 0:
		return ""
	case s.NeedsInterval():
		return w.Say("debrief.interval", percent(s.Part()), percent(low), percent(high))
	}
	return w.Say("fact.percent", percent(s.Part()))
}

func percent(part float64) string { return strconv.FormatFloat(math.Round(part*100), 'f', 0, 64) }

// seconds is a time to a tenth of a second.
func seconds(w words.Words, d time.Duration) string {
	return w.Say("debrief.seconds", decimal(d.Seconds()))
}

// decimal is a number to a tenth.
func decimal(x float64) string {
	return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64)
}

// joined puts what there is into one line.
func joined(parts ...string) string {
	var said []string
	for _, p := range parts {
		if p != "" {
			said = append(said, p)
		}
	}
	return strings.Join(said, " · ")
}

// roles words the figures of the roles, one role after the other.
func roles(w words.Words, s Snapshot) (out []Figure) {
	for _, r := range s.All.Roles {
		name := s.Roles[r.Role]
		if name == "" {
			name = string(r.Role)
		}
		out = append(out, Figure{name, w.Count("done.cases", r.Cases), w.Say("debrief.role", r.Asked, r.Acknowledged)})
		var all []Figure
		if r.ToAcknowledge.N > 0 {
			all = spread(w, "ack", r.ToAcknowledge)
		}
		if r.ToDeliver.N > 0 {
			all = append(all, spread(w, "deliver", r.ToDeliver)...)
		}
		if r.Closed.All > 0 {
			all = append(all, Figure{w.Say("debrief.figure.closed"), share(w, r.Closed), interval(w, r.Closed)})
		}
		for _, f := range all {
			f.Label = w.Say("debrief.of-role", name, f.Label)
			out = append(out, f)
		}
	}
	return out
}
