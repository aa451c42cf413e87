package requests

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"lintel/mesh"
)

// Lists that rules look into.
const (
	listBrief     = "brief"
	listPlan      = "plan"
	listTimeAfter = "time-after" // id "first-ventilation.cuff-up": of two times the second must come first
)

// zoneInside is where somebody is who entered without naming a zone, in a room that names none.
const zoneInside mesh.ID = "inside"

// caseView gives what follows from the facts of one case.
func (b *Board) caseView(open *fact) *Case {
	views := b.cases.views[roomOf(open)]
	if c, known := views[open]; known {
		return c
	}
	v := &caseViewer{b: b, open: open, ticks: map[lineName]Tick{}, roles: map[mesh.Tag]RoleOf{},
		answers: map[mesh.ID]Answer{}}
	c := v.build()
	if views == nil {
		views = map[*fact]*Case{}
		b.cases.views[roomOf(open)] = views
	}
	views[open] = c
	return c
}

// caseFacts lists, in order, the facts of a case that count, without those about others.
func (b *Board) caseFacts(open *fact) []*fact {
	out := slices.Clone(b.cases.filed[open.Ref].all())
	if room := roomOf(open); room != "" {
		unfiled := b.cases.unfiled[room].all()
		from, _ := slices.BinarySearchFunc(unfiled, open, compareFacts)
		for _, n := range unfiled[from:] {
			if b.newestBefore(n, room) != open {
				break
			}
			out = append(out, n)
		}
	}
	out = slices.DeleteFunc(out, b.undone)
	slices.SortFunc(out, compareFacts)
	return out
}

// caseViewer derives one Case from its facts.
type caseViewer struct {
	b    *Board
	open *fact
	c    Case

	ticks   map[lineName]Tick
	roles   map[mesh.Tag]RoleOf
	answers map[mesh.ID]Answer
	skipped []SkippedRow
}

func (v *caseViewer) build() *Case {
	body := v.open.body.(*CaseOpen)
	v.c = Case{
		Ref: v.open.Ref, Opened: v.b.mark(v.open), Room: body.Room, What: body.What, Label: body.Label,
		Follows: body.Follows, Hurry: body.Hurry,
	}
	for _, n := range v.b.caseFacts(v.open) {
		m := v.b.mark(n)
		v.course(n, m)
		v.brief(n, m)
		v.persons(n, m)
		v.times(n, m)
	}
	v.c.Over = len(v.c.Shut) > 0
	v.c.Ticks = slices.SortedFunc(maps.Values(v.ticks), func(x, y Tick) int {
		return cmp.Or(cmp.Compare(x.List, y.List), cmp.Compare(x.Line, y.Line))
	})
	v.c.Roles = slices.SortedFunc(maps.Values(v.roles), func(x, y RoleOf) int { return cmp.Compare(x.Tag, y.Tag) })
	v.c.Answers = slices.SortedFunc(maps.Values(v.answers), func(x, y Answer) int { return cmp.Compare(x.Line, y.Line) })
	v.whereabouts()
	v.leftOut()
	v.moments()
	return &v.c
}

// course takes what the case is as a whole.
func (v *caseViewer) course(n *fact, m Mark) {
	switch body := n.body.(type) {
	case *CaseShut:
		v.c.Shut = append(v.c.Shut, Ending{m, body.Why})
	case *CaseMoved:
		v.c.Moves = append(v.c.Moves, Ending{m, body.To})
		v.c.MovedTo = body.To
	case *Drill:
		v.c.Drills = append(v.c.Drills, v.b.drillRow(n))
	case *Debrief:
		v.c.Debriefs = append(v.c.Debriefs, DebriefNote{m, body.Held, body.Why})
	case *DebriefLine:
		v.answers[body.Line] = Answer{m, body.Line, body.Words}
	case *Asked:
		v.c.Requests = append(v.c.Requests, n.Ref)
	case *Door:
		v.c.Doors = append(v.c.Doors, DoorSeen{m, body.Room, body.Open})
	}
}

// brief takes what is done before the door closes.
func (v *caseViewer) brief(n *fact, m Mark) {
	switch body := n.body.(type) {
	case *RoleTaken:
		v.roles[body.Tag] = RoleOf{m, body.Tag, body.Role}
	case *LineDone:
		v.ticks[lineName{body.List, body.Line}] = Tick{m, body.List, body.Line, body.Done, body.Words}
	case *PPECheck:
		self := body.Wearer == body.Checker || body.Wearer == "" || body.Checker == ""
		v.c.PPE = append(v.c.PPE, Check{m, body.Wearer, body.Checker, body.Off, body.Good, body.Words, self})
	case *Skipped:
		for _, line := range body.Lines {
			v.skipped = append(v.skipped, SkippedRow{Mark: m, List: body.List, Line: line})
		}
	case *TestAsked:
		t := CommsTest{Mark: m, TestAsked: *body, DoorOK: body.Door != "" && body.Door == body.Room}
		for _, h := range v.b.aboutOf(n, KindTestHeard) {
			heard := h.body.(*TestHeard)
			t.Heard = append(t.Heard, Hearing{v.b.mark(h), heard.Sound, heard.RoundTripMS})
		}
		v.c.Tests = append(v.c.Tests, t)
	}
}

// leftOut fills what was left out: the lines that people listed, and in a hurry
// every line of the brief and the plans that nobody ticked then.
func (v *caseViewer) leftOut() {
	rows := v.skipped
	if v.c.Hurry {
		for _, list := range []mesh.ID{listBrief, listPlan} {
			for _, line := range v.b.List(list) {
				rows = append(rows, SkippedRow{Mark: v.c.Opened, List: list, Line: line.ID})
			}
		}
	}
	seen := map[lineName]bool{}
	for _, row := range rows {
		name := lineName{row.List, row.Line}
		if !seen[name] {
			row.Made = v.ticks[name].Done
			v.c.Skipped = append(v.c.Skipped, row)
		}
		seen[name] = true
	}
}

// times takes the scribe's times and the monitor's clock.
func (v *caseViewer) times(n *fact, m Mark) {
	switch body := n.body.(type) {
	case *Time:
		moment := Moment{
			Mark: m, What: body.What, Attempt: body.Attempt, Aerosol: body.Aerosol, Words: body.Words,
			Happened: m.When(), Late: m.By.Happened != 0 || m.Corrected != 0,
		}
		for _, f := range v.b.aboutOf(n, KindLateTime) {
			late := f.body.(*LateTime)
			moment.Fixes = append(moment.Fixes, LateFix{v.b.mark(f), late.Happened, late.WithinMS})
		}
		v.c.Moments = append(v.c.Moments, moment)
	case *ChartClock:
		v.c.Charts = append(v.c.Charts, Chart{m, body.Monitor, body.WithinMS})
	}
}

// moments puts the times in the order in which they happened, and finds those
// that are out of order.
func (v *caseViewer) moments() {
	slices.SortStableFunc(v.c.Moments, func(x, y Moment) int { return cmp.Compare(x.Happened, y.Happened) })
	for _, rule := range v.b.List(listTimeAfter) {
		what, first, _ := strings.Cut(string(rule.ID), ".")
		for i := range v.c.Moments {
			m := &v.c.Moments[i]
			if m.What == mesh.ID(what) && !slices.ContainsFunc(v.c.Moments, func(o Moment) bool {
				return o.What == mesh.ID(first) && o.notAfter(*m)
			}) {
				m.Against = append(m.Against, mesh.ID(first))
			}
		}
	}
}

// notAfter tells whether o happened before m or together with it. Of two that
// were noted at once the order of entries says so, whatever their clocks.
func (o Moment) notAfter(m Moment) bool {
	if !o.Late && !m.Late {
		return cmp.Or(o.At.Compare(m.At), o.Ref.Compare(m.Ref)) <= 0
	}
	return o.Happened <= m.Happened
}
