package main

import (
	"strings"
	"time"

	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// heard lists who heard a phrase or a breach.
func (f *facts) heard(said mesh.Ref, all []requests.Mark) {
	for _, m := range all {
		f.add("heard", m, factEvent{Names: requests.Code(said)}, requests.Code(said))
	}
}

// voices are the phrases, in either direction.
func (f *facts) voices() {
	for _, x := range f.c.Said {
		kind, list := words.ID("said-in"), mesh.ID("phrase-in")
		if x.Out {
			kind, list = "said-out", "phrase-out"
		}
		e := factEvent{What: x.Phrase, List: list}
		if len(x.Heard) == 0 {
			e.Flags = append(e.Flags, "unheard")
		}
		f.add(kind, x.Mark, e, f.line(list, x.Phrase))
		f.heard(x.Ref, x.Heard)
	}
}

// times are what the scribe noted, with every correction.
func (f *facts) times() {
	for _, x := range f.c.Moments {
		e := factEvent{
			What: x.What, List: "time", Words: string(x.Words), Attempt: x.Attempt, Aerosol: x.Aerosol,
			Happened: int64(x.Happened), Late: x.Late,
		}
		if len(x.Against) > 0 {
			e.Flags = append(e.Flags, "out-of-order")
		}
		name := f.line("time", x.What)
		if x.Attempt > 0 {
			name = f.w.Say("fact.attempt", name, x.Attempt)
		}
		f.add("time", x.Mark, e, name)
		for _, fix := range x.Fixes {
			f.add("time-fixed", fix.Mark, factEvent{Names: requests.Code(x.Ref), What: x.What}, name, clockTime(fix.Happened))
		}
	}
	clocks := f.b.ClocksOf(f.c.Ref)
	for i, x := range f.c.Charts {
		at := time.UnixMilli(int64(x.Monitor)).UTC().Format("15:04")
		e := factEvent{}
		if was, known := clocks.Monitor(f.c.Charts[:i], x.Mark); known && apart(was, x) {
			e.Flags = append(e.Flags, "ties-differ")
		}
		f.add("chart", x.Mark, e, at, seconds(time.Duration(x.WithinMS)*time.Millisecond))
	}
}

// apart tells whether a tie to the monitor's clock differs by more than the two ±
// from where the tie before it puts the same moment.
func apart(was requests.Placed, x requests.Chart) bool {
	by := time.Duration(was.Wall-x.Monitor) * time.Millisecond
	return by.Abs() > was.Within+time.Duration(x.WithinMS)*time.Millisecond
}

// clockTime is a time of day as this machine's clock shows it.
func clockTime(at mesh.Wall) string { return time.UnixMilli(int64(at)).Format(time.TimeOnly) }

// seconds is a length of time in seconds, with as many digits as it needs.
func seconds(d time.Duration) string {
	return strings.TrimSuffix(d.Round(time.Millisecond).String(), "0s")
}

// afterwards is the debrief, and what was an exercise.
func (f *facts) afterwards() {
	for _, x := range f.c.Debriefs {
		kind := words.ID("no-debrief")
		if x.Held {
			kind = "debrief"
		}
		f.add(kind, x.Mark, factEvent{Words: string(x.Why)})
	}
	for _, x := range f.c.Answers {
		f.add("answer", x.Mark, factEvent{List: "debrief", What: x.Line, Words: string(x.Words)}, f.line("debrief", x.Line))
	}
	for _, x := range f.c.Drills {
		f.add("drill", x.Mark, factEvent{Words: string(x.Label)}, x.Room)
		for _, i := range x.Injects {
			f.add("inject", i.Mark, factEvent{List: "inject", What: i.What, Words: string(i.Words)}, f.line("inject", i.What))
		}
		for _, m := range x.Real {
			f.add("real", m, factEvent{Names: requests.Code(x.Ref)}, x.Room)
		}
	}
}
