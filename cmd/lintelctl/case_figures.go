package main

import (
	"fmt"
	"strings"
	"time"

	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// spreadOf is how long something took.
type spreadOf struct {
	N         int   `json:"n"`
	Mean      int64 `json:"mean_ms"`
	Median    int64 `json:"median_ms"`     // of an even number, the mean of the middle two
	P90       int64 `json:"p90_ms"`        // nearest rank
	P90Linear int64 `json:"p90_linear_ms"` // between neighbours, as spreadsheets do
}

func spreadFrom(s requests.Spread) spreadOf {
	return spreadOf{s.N, s.Mean.Milliseconds(), s.Median.Milliseconds(), s.P90.Milliseconds(), s.P90Linear.Milliseconds()}
}

func (s spreadOf) say(w words.Words) string {
	if s.N == 0 {
		return w.Say("figures.no-times")
	}
	return w.Say("figures.spread", inSeconds(s.Median), inSeconds(s.P90), inSeconds(s.P90Linear), s.N)
}

func inSeconds(ms int64) string { return fmt.Sprintf("%.1f", float64(ms)/1000) }

// shareOf is so many of all, with its 95 % interval (Wilson).
type shareOf struct {
	Of   int     `json:"of"`
	All  int     `json:"all"`
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

func shareFrom(s requests.Share) shareOf {
	low, high := s.Wilson95()
	return shareOf{s.Of, s.All, low, high}
}

func (s shareOf) say(w words.Words) string {
	switch {
	case s.All == 0:
		return w.Say("figures.none")
	case (requests.Share{Of: s.Of, All: s.All}).NeedsInterval():
		return w.Say("figures.share-interval", s.Of, s.All, percent(float64(s.Of)/float64(s.All)), percent(s.Low), percent(s.High))
	}
	return w.Say("figures.share", s.Of, s.All, percent(float64(s.Of)/float64(s.All)))
}

func percent(part float64) string { return fmt.Sprintf("%.0f", part*100) }

// figuresEvent is what can be learned from a case, or from all.
type figuresEvent struct {
	Event    string   `json:"event"`          // figures
	Case     string   `json:"case,omitempty"` // code; none: all cases but exercises
	Room     mesh.ID  `json:"room,omitempty"`
	Drill    bool     `json:"drill,omitempty"`
	Cases    int      `json:"cases"`
	Drills   int      `json:"drills"` // exercises that were left out
	Requests int      `json:"requests"`
	Needs    int      `json:"needs"` // joined requests are one need
	Ack      spreadOf `json:"to_acknowledge"`
	Deliver  spreadOf `json:"to_deliver"`

	Unanswered  []string `json:"unanswered"`
	Undelivered []string `json:"undelivered"`
	Withdrawn   int      `json:"withdrawn"`
	WrongCaught []string `json:"wrong_caught"`
	Closed      shareOf  `json:"closed_loop"`

	Openings int   `json:"openings"`
	Measured int   `json:"openings_measured"`            // of openings: by a contact at the door; the others are derived
	Window   int64 `json:"openings_window_ms,omitempty"` // derived: crossings within this are one opening
	Open     int64 `json:"open_ms,omitempty"`

	Inside    int64       `json:"inside_ms"` // in sum over persons
	Entries   int         `json:"entries"`
	StillIn   int         `json:"still_in"`
	Breaches  int         `json:"breaches"`
	Debriefs  shareOf     `json:"debriefs"`
	NoDebrief []mesh.Text `json:"no_debrief,omitempty"`

	Within int64    `json:"within_ms"` // ± of every time above, at most
	Apart  int      `json:"apart"`     // times between clocks that were never compared: left out
	Roles  []roleOf `json:"roles,omitempty"`
}

// roleOf are the figures of one role over all cases.
type roleOf struct {
	Role    mesh.ID  `json:"role"`
	Cases   int      `json:"cases"`
	Asked   int      `json:"asked"`
	Acked   int      `json:"acknowledged"`
	Ack     spreadOf `json:"to_acknowledge"`
	Deliver spreadOf `json:"to_deliver"`
	Closed  shareOf  `json:"closed_loop"`
}

// figuresOf sums up a case, or all with none.
func figuresOf(b *requests.Board, c requests.Case) figuresEvent {
	f := b.Figures(c.Ref)
	e := figuresEvent{
		Event: "figures", Room: c.Room, Drill: f.Drill, Cases: f.Cases, Drills: f.Drills, Requests: f.Requests, Needs: f.Needs,
		Ack: spreadFrom(f.ToAcknowledge), Deliver: spreadFrom(f.ToDeliver),
		Unanswered: codes(f.Unanswered), Undelivered: codes(f.Undelivered), Withdrawn: f.Withdrawn, WrongCaught: codes(askedFor(b, f.WrongCaught)),
		Closed: shareFrom(f.Closed), Openings: f.Openings.Count, Measured: f.Openings.Measured,
		Window: f.Openings.Window.Milliseconds(), Open: f.Openings.Open.Milliseconds(),
		Inside: f.Inside.Milliseconds(), Entries: f.Entries, StillIn: f.StillIn, Breaches: f.Breaches,
		Debriefs: shareFrom(f.Debriefs), NoDebrief: f.NoDebrief, Within: f.Within.Milliseconds(), Apart: f.Apart,
	}
	if !c.Ref.IsZero() {
		e.Case = requests.Code(c.Ref)
	}
	for _, r := range f.Roles {
		e.Roles = append(e.Roles, roleOf{
			r.Role, r.Cases, r.Asked, r.Acknowledged, spreadFrom(r.ToAcknowledge), spreadFrom(r.ToDeliver), shareFrom(r.Closed),
		})
	}
	return e
}

func codes(refs []mesh.Ref) []string {
	out := []string{}
	for _, r := range refs {
		out = append(out, requests.Code(r))
	}
	return out
}

// askedFor are the requests that marks belong to.
func askedFor(b *requests.Board, marks []mesh.Ref) (out []mesh.Ref) {
	for _, m := range marks {
		if asked, known := b.RequestOf(m); known {
			m = asked
		}
		out = append(out, m)
	}
	return out
}

func (e figuresEvent) say(w words.Words) string {
	var lines []string
	add := func(id words.ID, blanks ...any) { lines = append(lines, w.Say("figures."+id, blanks...)) }
	if e.Case == "" {
		add("all", e.Cases, e.Drills)
	}
	add("requests", e.Requests, e.Needs)
	add("ack", e.Ack.say(w))
	add("deliver", e.Deliver.say(w))
	add("unanswered", len(e.Unanswered), listed(e.Unanswered))
	add("undelivered", len(e.Undelivered), e.Withdrawn, listed(e.Undelivered))
	add("wrong", len(e.WrongCaught), listed(e.WrongCaught))
	add("closed", e.Closed.say(w))
	switch derived := e.Openings - e.Measured; {
	case e.Measured == 0:
		add("openings-derived", e.Openings, inSeconds(e.Window))
	case derived == 0:
		add("openings-measured", e.Openings, inSeconds(e.Open))
	default:
		add("openings-both", e.Openings, e.Measured, inSeconds(e.Open), derived, inSeconds(e.Window))
	}
	add("inside", personMinutes(e.Inside), e.Entries, e.StillIn)
	add("breaches", e.Breaches)
	add("debrief", e.Debriefs.say(w))
	for _, why := range e.NoDebrief {
		add("no-debrief", why)
	}
	add("within", inSeconds(e.Within), e.Apart)
	for _, r := range e.Roles {
		add("role", r.Role, r.Cases, r.Asked, r.Acked, r.Ack.say(w), r.Closed.say(w))
	}
	return strings.Join(lines, "\n")
}

// listed are codes behind a number.
func listed(codes []string) string {
	if len(codes) == 0 {
		return ""
	}
	return " (" + strings.Join(codes, " ") + ")"
}

// personMinutes are minutes in sum over persons.
func personMinutes(ms int64) string {
	return fmt.Sprintf("%.1f", (time.Duration(ms) * time.Millisecond).Minutes())
}
