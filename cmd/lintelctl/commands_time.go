package main

import (
	"context"
	"time"

	"lintel/app/station"
	"lintel/mesh"
)

// Keywords of the commands about times, the debrief and drills.
const (
	wordAttempt = "attempt"
	wordWithin  = "within"
)

func (s *session) timeCommand(ctx context.Context, a *arguments) (event, error) {
	what, more := a.next()
	if !more {
		return nil, a.bad()
	}
	act := station.NoteTime{What: mesh.ID(what)}
	if _, ok := a.keyword(wordAttempt); ok {
		n, err := a.number(16)
		if err != nil {
			return nil, err
		}
		act.Attempt = uint32(n)
	}
	var err error
	if act.Case, err = s.caseOf(ctx, a); err != nil {
		return nil, err
	}
	act.Words = mesh.Text(a.rest())
	return s.plain(ctx, "time", a, act)
}

// within takes "within 5s"; 0: not said.
func (a *arguments) within() (ms uint32, err error) {
	text, ok, err := a.after(wordWithin)
	if err != nil || !ok {
		return 0, err
	}
	d, err := time.ParseDuration(text)
	if err != nil || d < 0 || d > 24*time.Hour {
		return 0, &fault{id: "time", blanks: []any{text}}
	}
	return uint32(d.Milliseconds()), nil
}

// fixTime reads FACT [within 5s] at …; the time is the one at the end of every line.
func (s *session) fixTime(ctx context.Context, a *arguments) (event, error) {
	ref, err := s.fact(ctx, a)
	if err != nil {
		return nil, err
	}
	within, err := a.within()
	if err == nil {
		err = a.done()
	}
	if err != nil {
		return nil, err
	}
	act := station.CorrectTime{Names: ref, Happened: a.happened, WithinMS: within}
	a.happened = 0 // it is when that happened, not when it was corrected
	return s.plain(ctx, "fix-time", a, act)
}

// chart reads HH:MM as the monitor shows it now, as if it were UTC.
func (s *session) chart(ctx context.Context, a *arguments) (event, error) {
	shown, more := a.next()
	if !more {
		return nil, a.bad()
	}
	t, err := time.Parse("15:04", shown)
	if err != nil {
		return nil, &fault{id: "time", blanks: []any{shown}}
	}
	within, err := a.within()
	if err != nil {
		return nil, err
	}
	ref, err := s.caseOf(ctx, a)
	if err == nil {
		err = a.done()
	}
	if err != nil {
		return nil, err
	}
	at := monitorAt(time.Now(), t.Hour(), t.Minute())
	return s.plain(ctx, "chart", a, station.TieChart{Case: ref, Monitor: mesh.Wall(at.UnixMilli()), WithinMS: within})
}

// monitorAt is a time of day on the patient monitor as if UTC, on the day that
// brings it nearest to this device's clock: one of the two may be past midnight.
func monitorAt(now time.Time, hours, minutes int) time.Time {
	here := time.Date(now.Year(), now.Month(), now.Day(), now.Hour(), now.Minute(), now.Second(), 0, time.UTC)
	at := time.Date(now.Year(), now.Month(), now.Day(), hours, minutes, 0, 0, time.UTC)
	switch half := 12 * time.Hour; {
	case at.Sub(here) > half:
		return at.AddDate(0, 0, -1)
	case here.Sub(at) > half:
		return at.AddDate(0, 0, 1)
	}
	return at
}

func (s *session) debrief(ctx context.Context, a *arguments) (event, error) {
	key, said := a.keyword("held", "not")
	if !said {
		return nil, a.bad()
	}
	ref, err := s.caseOf(ctx, a)
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "debrief", a, station.HoldDebrief{Case: ref, Held: key == "held", Why: mesh.Text(a.rest())})
}

func (s *session) debriefLine(ctx context.Context, a *arguments) (event, error) {
	line, more := a.next()
	if !more {
		return nil, a.bad()
	}
	ref, err := s.caseOf(ctx, a)
	if err != nil {
		return nil, err
	}
	words := a.rest()
	if words == "" {
		return nil, a.bad()
	}
	return s.plain(ctx, "debrief-line", a, station.AnswerLine{Case: ref, Line: mesh.ID(line), Words: mesh.Text(words)})
}

func (s *session) drill(ctx context.Context, a *arguments) (event, error) {
	how, ok := a.keyword("start", "second")
	room, more := a.next()
	if !ok || !more {
		return nil, a.bad()
	}
	if err := s.knownRoom(ctx, mesh.ID(room)); err != nil {
		return nil, err
	}
	if how == "second" {
		return s.plain(ctx, "drill", a, station.SecondPatient{Room: mesh.ID(room), Label: mesh.Label(a.rest())})
	}
	return s.plain(ctx, "drill", a, station.StartDrill{Room: mesh.ID(room), Label: mesh.Label(a.rest())})
}

func (s *session) inject(ctx context.Context, a *arguments) (event, error) {
	what, more := a.next()
	if !more {
		return nil, a.bad()
	}
	drill, err := s.drillOf(ctx, a)
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "inject", a, station.GiveInject{Drill: drill, What: mesh.ID(what), Words: mesh.Text(a.rest())})
}

// drillOf takes "room A1": the drill that goes on there. Zero: no room was named.
func (s *session) drillOf(ctx context.Context, a *arguments) (drill mesh.Ref, err error) {
	room, named, err := a.after(wordRoom)
	if err != nil || !named {
		return drill, err
	}
	if err := s.knownRoom(ctx, mesh.ID(room)); err != nil {
		return drill, err
	}
	err = s.view(ctx, func(v station.View) error {
		d, on := v.Board.DrillIn(mesh.ID(room))
		if drill = d.Ref; !on {
			return station.ErrNoDrill
		}
		return nil
	})
	return drill, err
}

func (s *session) real(ctx context.Context, a *arguments) (event, error) {
	drill, err := s.drillOf(ctx, a)
	if err == nil {
		err = a.done()
	}
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "real", a, station.EndDrill{Drill: drill})
}

func (s *session) remind(ctx context.Context, a *arguments) (event, error) {
	r, err := s.request(ctx, a)
	if err == nil {
		err = a.done()
	}
	if err != nil {
		return nil, err
	}
	return s.record(ctx, "remind", a, station.Remind{Request: r.Ref})
}
