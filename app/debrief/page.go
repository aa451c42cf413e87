package debrief

import (
	"fmt"
	"time"

	"lintel/app/look"
	"lintel/app/look/sheet"
	"lintel/app/words"
	"lintel/mesh"
)

// step is the page that is shown.
type step int

const (
	stepCase      step = iota // the picture, or on a phone the ways to everything
	stepTime                  // on a phone, the picture
	stepCases                 // which case
	stepFigures               // of the case
	stepBeside                // with those of others
	stepRoles                 // of roles, over all cases
	stepQuestions             // all
	stepQuestion              // one of them
	stepHeld                  // whether a debrief was held
	stepWhy                   // why not
)

// parent is where a page leads back to.
func parent(s step) step {
	switch s {
	case stepRoles:
		return stepBeside
	case stepQuestion:
		return stepQuestions
	case stepWhy:
		return stepHeld
	}
	return stepCase
}

// hand is what the person at this device is doing. The UI goroutine owns it.
type hand struct {
	step   step
	zoom   int // so many times the picture is halved
	at     int // and moved on by halves of what is seen
	line   mesh.ID
	chosen []string // answers, in the order of tapping
	typed  string
	from   int // the page of the picture, or the first of the other cases beside this one
	last   mesh.Ref
	said   string // what last recorded
	until  time.Time
	where  string // where a paper lies
	fault  [2]string
}

// what a tap means.
type what int

const (
	picksNothing what = iota
	picksStep
	picksBack
	picksCase   // another case
	picksNearer // the picture, halved
	picksWhole  // all of it
	picksMove   // earlier or later
	picksLine   // a question
	picksAnswer // one of its answers, or not after all
	picksRecord // what was chosen and typed
	picksYes    // a debrief was held
	picksWhy    // none was, and this is why
	picksPaper
	picksTurn // further lanes, or further cases beside this one
	picksUndo
)

// pick is one choice, as data.
type pick struct {
	what what
	step step
	of   mesh.Ref
	line mesh.ID
	text string
	by   int
}

type (
	face   = sheet.Face[pick]
	line   = sheet.Line[pick]
	choice = sheet.Choice[pick]
)

// Button is a way to somewhere, or something that can be done.
type Button struct {
	Face look.BannerFace
	Off  bool
	pick pick
}

// Page is everything that is shown, in words.
type Page struct {
	Head    look.BannerFace
	Notice  look.BannerFace // over the page; empty: nothing
	Undo    bool            // what the notice says can be taken back
	Chart   bool
	Compare *Compare
	Sheet   *face           // nil: none
	Answer  look.BannerFace // what was chosen so far, beside the way to record it
	Record  *Button         // nil: nothing is recorded here
	Typing  bool            // beside it something can be typed
	Zooms   []Button        // beside the head, each in its place
	Buttons []Button
}

// setting is what a page depends on besides what there is to say.
type setting struct {
	now    time.Time
	zone   *time.Location
	typing bool // there is a keyboard
	paper  bool // papers can be made
	broad  bool // the picture comes first
	roomy  bool // cases stand beside each other
}

// page decides and words what is shown.
func page(w words.Words, s Snapshot, h hand, g setting) Page {
	c, known := s.looked()
	p := Page{Head: look.BannerFace{Sentence: w.Say("debrief.no-case")}}
	if !known {
		return p
	}
	p.Head = head(w, c, s.Course, g.zone)
	p.Notice, p.Undo = notice(w, s, h, g)
	switch h.step {
	case stepCase:
		p.Chart = g.broad
		p.Buttons = ways(w, s, c, h, g)
		if g.roomy {
			p.Zooms = allZooms(w, h)
		}
	case stepTime:
		p.Chart = true
		p.Head.Hint = w.Say("debrief.clocks", seconds(w, s.Course.within()))
		p.Buttons = append([]Button{back(w)}, zooms(w, h)...)
	case stepCases:
		p.Sheet = cases(w, s, g.zone)
	case stepFigures:
		p.Sheet = &face{Head: w.Say("debrief.figures"), Lines: said(figures(w, c.Figures, c, s.Course.lists(w, g.zone)))}
	case stepBeside:
		beside(&p, w, s, h, g)
	case stepRoles:
		p.Sheet = &face{Head: w.Say("debrief.roles"), Lines: said(roles(w, s))}
	case stepQuestions:
		p.Sheet = list(w, s)
	case stepQuestion:
		question(&p, w, s, h, g)
	case stepHeld:
		p.Sheet = asks(w, c, g.zone)
	case stepWhy:
		why(&p, w, h, g)
	}
	return p
}

// name is what people call a case.
func name(c Case) string { return joined(c.Label, c.Room, c.What) }

// head says which case it is, when it was, and how far its times may be off.
func head(w words.Words, c Case, t Course, zone *time.Location) look.BannerFace {
	f := look.BannerFace{Sentence: name(c)}
	if c.Drill {
		f.Icon, f.Tone = look.IconDrill, look.ToneDrill
		f.Sentence = joined(w.Say("list.case-drill"), f.Sentence)
	}
	day := time.UnixMilli(int64(t.Start.Wall)).In(zone).Format(dateLayout + clockShort)
	when := w.Say("debrief.goes-on", day)
	if t.Over {
		took := time.Duration(t.End.Wall-t.Start.Wall) * time.Millisecond
		when = w.Say("debrief.from-to", day, clock(t.End, zone), look.ClockText(took))
	}
	clocks := w.Say("debrief.clocks", seconds(w, t.within()))
	apart := ""
	if t.Apart > 0 {
		apart = w.Count("debrief.clocks-apart", t.Apart)
	}
	f.Hint = joined(when, clocks, apart)
	return f
}

// notice is what has to be known before all else: what went wrong, where a paper
// lies, what was recorded just now, that nothing is saved here.
func notice(w words.Words, s Snapshot, h hand, g setting) (f look.BannerFace, undo bool) {
	switch {
	case h.fault[0] != "":
		return look.BannerFace{Icon: look.IconUrgent, Sentence: h.fault[0], Hint: h.fault[1], Tone: look.ToneFault}, false
	case h.where != "":
		return look.BannerFace{Icon: look.IconSheet, Sentence: h.where}, false
	case !h.last.IsZero() && g.now.Before(h.until) && !g.broad:
		return look.BannerFace{Icon: look.IconSaved, Sentence: w.Say("debrief.recorded")}, true
	case !h.last.IsZero() && g.now.Before(h.until):
		return look.BannerFace{Icon: look.IconSaved, Sentence: h.said}, true
	case s.InMemory:
		return look.BannerFace{Icon: look.IconNotSaved, Sentence: w.Say("door.memory"), Tone: look.ToneFault}, false
	}
	return f, false
}

func back(w words.Words) Button {
	return Button{Face: look.BannerFace{Sentence: w.Say("inside.back")}, pick: pick{what: picksBack}}
}

// ways are the ways from the case to everything else.
func ways(w words.Words, s Snapshot, c Case, h hand, g setting) (out []Button) {
	to := func(icon look.Icon, id words.ID, hint string, next step) {
		out = append(out, Button{Face: look.BannerFace{Icon: icon, Sentence: w.Say("debrief.to." + id), Hint: hint}, pick: pick{what: picksStep, step: next}})
	}
	if !g.broad {
		to(look.IconClock, "time", "", stepTime)
	}
	to(look.IconList, "figures", "", stepFigures)
	to(look.IconCompare, "beside", "", stepBeside)
	to(look.IconSpeak, "questions", w.Say("brief.of", s.answered(), len(s.Questions)), stepQuestions)
	to(look.IconPeople, "held", held(w, c.Debrief), stepHeld)
	to(look.IconDoor, "cases", fmt.Sprint(len(s.Cases)), stepCases)
	if !g.roomy && len(s.All.Roles) > 0 {
		to(look.IconPerson, "roles", "", stepRoles)
	}
	if g.paper {
		out = append(out, Button{Face: look.BannerFace{Icon: look.IconSheet, Sentence: w.Say("debrief.to.paper")}, pick: pick{what: picksPaper}})
	}
	if g.broad && !g.roomy {
		out = append(out, zooms(w, h)...)
	}
	return out
}

// zooms bring the picture nearer and, once it is, move it.
func zooms(w words.Words, h hand) (out []Button) {
	for _, b := range allZooms(w, h) {
		if !b.Off {
			out = append(out, b)
		}
	}
	return out
}

// allZooms are in their places, those that do nothing now too.
func allZooms(w words.Words, h hand) []Button {
	of := func(id words.ID, p pick, on bool) Button {
		return Button{Face: look.BannerFace{Sentence: w.Say("debrief.zoom." + id)}, Off: !on, pick: p}
	}
	return []Button{
		of("nearer", pick{what: picksNearer}, h.zoom < zoomMax),
		of("whole", pick{what: picksWhole}, h.zoom > 0),
		of("earlier", pick{what: picksMove, by: -1}, h.at > 0),
		of("later", pick{what: picksMove, by: 1}, h.at+1 < places(h.zoom)),
	}
}

// cases lists them to choose one.
func cases(w words.Words, s Snapshot, zone *time.Location) *face {
	f := &face{Head: w.Say("debrief.which")}
	for _, c := range s.Cases {
		x := line{Face: look.BannerFace{Sentence: name(c), Hint: joined(opened(c, zone), standing(w, s, c))}, Pick: pick{what: picksCase, of: c.Ref}}
		if c.Drill {
			x.Face.Icon = look.IconDrill
		}
		f.Lines = append(f.Lines, x)
	}
	return f
}

// opened is the day and time of a case's beginning, by the clock that wrote it.
func opened(c Case, zone *time.Location) string {
	return time.UnixMilli(int64(c.Opened)).In(zone).Format(dateLayout + clockShort)
}

// standing is what else is worth knowing of a case in a list.
func standing(w words.Words, s Snapshot, c Case) string {
	drill, on, debrief := "", "", ""
	if c.Drill {
		drill = w.Say("list.case-drill")
	}
	if !c.Over {
		on = w.Say("list.case-open")
	}
	if c.Debrief.Said {
		debrief = w.Say("debrief.no-debrief")
		if c.Debrief.Held {
			debrief = w.Say("fact.debrief")
		}
	}
	return joined(drill, on, debrief)
}

// said are figures as lines to be read.
func said(all []Figure) (out []line) {
	for _, f := range all {
		out = append(out, line{Face: look.BannerFace{Sentence: f.Label + ": " + f.Value, Hint: f.Method}, Still: true})
	}
	return out
}
