package scribe

import (
	"time"

	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/app/look/sheet"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Taps takes what people tap. It does not wait: done is called later, on the UI
// goroutine. False: a finger slipped, and the tap before counts for this one
// too. station.Taps is one.
type Taps interface {
	Tap(by mesh.By, act station.Act, done func(station.Result, error)) bool
}

// Options make a Screen. All are needed.
type Options struct {
	Look    *look.Look
	Words   words.Words
	Taps    Taps
	Explain func(error) (sentence, hint string) // what people read of a failure
	Now     func() time.Time                    // the device's wall clock
	Zone    *time.Location                      // of the clocks on the wall
}

// Screen is the scribe's. The UI goroutine owns it.
type Screen struct {
	opt   Options
	snap  Snapshot
	hand  hand
	rows  Rows
	from  int // the first time on the first page
	shown int // how many times are seen at once; set by the layout
	parts parts
	sheet *sheet.Sheet[pick]
	root  *fyne.Container

	noted mesh.ID   // what was noted last: a slip must not note it twice
	when  time.Time // and when
}

// New makes an empty screen.
func New(o Options) *Screen {
	s := &Screen{opt: o, shown: 1}
	s.parts = s.newParts()
	s.sheet = sheet.New(sheet.Options[pick]{
		Look: o.Look, Back: o.Words.Say("inside.back"), More: func(to, of int) string { return o.Words.Say("scribe.turn", to, of) },
		Next: o.Words.Say("list.after"), Pick: s.pick, Leave: s.back, Changed: s.arrange,
		Keys: look.KeypadKeys{Digit: s.typeDigit, Erase: s.erase, Done: s.typed},
	})
	s.root = look.NewFree(o.Look, s.lay, append(s.parts.all(), s.sheet.Objects()...)...)
	s.Paint()
	return s
}

// Object is the whole screen.
func (s *Screen) Object() fyne.CanvasObject { return s.root }

// Set takes a newer snapshot. A question about a time that is gone goes too.
func (s *Screen) Set(snap Snapshot) {
	s.snap = snap
	r, there := snap.room(s.hand.room)
	if !there {
		s.hand.room = snap.first()
		s.home()
	}
	if _, noted := r.moment(s.hand.moment); !noted && !s.hand.moment.IsZero() {
		s.home()
	}
	s.Paint()
}

// Paint words everything again and copies it into the parts.
func (s *Screen) Paint() {
	s.rows = rows(s.opt.Words, s.snap, s.hand, s.opt.Now(), s.opt.Zone)
	if s.hand.step != stepHome {
		s.sheet.Set(page(s.opt.Words, s.snap, s.hand, s.opt.Zone))
	}
	if s.from >= len(s.rows.Tiles) {
		s.from = 0
	}
	s.parts.set(s)
	s.arrange()
}

func (s *Screen) arrange() { look.Arrange(s.root) }

// home goes back to the first page and forgets what was begun. What was tapped
// last can still be taken back there.
func (s *Screen) home() {
	s.hand = hand{room: s.hand.room, fault: s.hand.fault, last: s.hand.last, said: s.hand.said, until: s.hand.until}
}

// ask goes on to the next question.
func (s *Screen) ask(next step) {
	s.hand.step = next
	s.sheet.Begin()
	s.Paint()
}

// tap records an act; after is called when it was recorded.
func (s *Screen) tap(by mesh.By, act station.Act, after func(station.Result)) {
	s.hand.fault = [2]string{}
	s.opt.Taps.Tap(by, act, func(x station.Result, err error) {
		if err != nil {
			s.hand.fault[0], s.hand.fault[1] = s.opt.Explain(err)
		} else if after != nil {
			after(x)
		}
		s.Paint()
	})
	s.Paint()
}

// note notes the n-th time: now, or when was chosen before. At a door without
// a case, of a device that is for several, one is begun there first.
func (s *Screen) note(n int) {
	if n >= len(s.snap.Times) || len(s.snap.Rooms) == 0 {
		return
	}
	t, now := s.snap.Times[n], s.opt.Now()
	if s.noted == t.ID && now.Sub(s.when) < station.AgainAfter {
		return // a finger slipped
	}
	s.noted, s.when = t.ID, now
	r, _ := s.snap.room(s.hand.room)
	by, said := s.snap.By, t.Words
	by.Happened = s.hand.happened(mesh.Wall(now.UnixMilli()))
	act := station.NoteTime{Case: r.Case, What: t.ID, Aerosol: t.Aerosol}
	if t.Counts {
		act.Attempt = r.attempt(t.ID)
		said = s.opt.Words.Say("scribe.attempt", t.Words, act.Attempt)
	}
	s.hand.last = mesh.Ref{}
	s.home()
	after := func(x station.Result) {
		s.hand.last, s.hand.said, s.hand.until = x.Ref, said, s.opt.Now().Add(s.snap.UndoFor)
	}
	if r.Case.IsZero() && len(s.snap.Rooms) > 1 {
		s.tap(s.snap.By, station.OpenCase{Case: requests.CaseOpen{Room: r.ID}}, func(x station.Result) {
			act.Case = x.Ref
			s.tap(by, act, after)
		})
		return
	}
	s.tap(by, act, after)
}

// undo takes back what was noted last.
func (s *Screen) undo() {
	if s.hand.last.IsZero() || !s.opt.Now().Before(s.hand.until) {
		return
	}
	mark := s.hand.last
	s.hand.last = mesh.Ref{}
	s.tap(s.snap.By, station.Undo{Mark: mark}, nil)
}

// turn shows the times that did not fit, after the last the first.
func (s *Screen) turn() {
	if s.from += s.shown; s.from >= len(s.rows.Tiles) {
		s.from = 0
	}
	s.Paint()
}

// pick does what a choice means.
func (s *Screen) pick(p pick) {
	s.hand.fault = [2]string{}
	switch p.what {
	case picksStep:
		s.ask(p.step)
	case picksLate:
		s.late(p.by)
	case picksType:
		s.hand.to, s.hand.digits = p.to, ""
		s.ask(stepTyped)
	case picksMoment:
		s.hand.moment = p.ref
		s.ask(stepMoment)
	case picksShift:
		r, _ := s.snap.room(s.hand.room)
		if m, noted := r.moment(p.ref); noted {
			s.correct(m, m.Here-mesh.Wall(p.by.Milliseconds()), time.Minute/2)
		}
	case picksUndo:
		s.home()
		s.tap(s.snap.By, station.Undo{Mark: p.ref}, nil)
	case picksTurn:
		s.turned()
	case picksRoom:
		s.hand.room, s.hand.last = p.id, mesh.Ref{}
		s.home()
		s.Paint()
	}
}

// late has the next time counted so much earlier; the same again takes that away.
func (s *Screen) late(by time.Duration) {
	if s.hand.late == by {
		by = 0
	}
	s.home()
	s.hand.late = by
	s.Paint()
}

// correct says when something really happened, by this device's clock.
func (s *Screen) correct(m Moment, at mesh.Wall, within time.Duration) {
	s.home()
	s.tap(s.snap.By, station.CorrectTime{Names: m.Ref, Happened: at, WithinMS: uint32(within.Milliseconds())}, nil)
}

// typed takes a time of day.
func (s *Screen) typed() {
	hours, minutes, ok := clockOf(s.hand.digits)
	if !ok {
		return
	}
	at := lastAt(mesh.Wall(s.opt.Now().UnixMilli()), s.opt.Zone, hours, minutes)
	switch s.hand.to {
	case toMonitor:
		s.ask(stepTurn)
	case toCorrect:
		r, _ := s.snap.room(s.hand.room)
		if m, noted := r.moment(s.hand.moment); noted {
			s.correct(m, at, time.Minute)
		}
	default:
		s.home()
		s.hand.at = at
		s.Paint()
	}
}

// turned ties the monitor's clock: it shows the next full minute now.
func (s *Screen) turned() {
	hours, minutes, _ := clockOf(s.hand.digits)
	hours, minutes = minuteAfter(hours, minutes)
	r, _ := s.snap.room(s.hand.room)
	monitor := monitorAt(mesh.Wall(s.opt.Now().UnixMilli()), s.opt.Zone, hours, minutes)
	s.home()
	s.tap(s.snap.By, station.TieChart{Case: r.Case, Monitor: monitor, WithinMS: station.TieWithinMS}, nil)
}

func (s *Screen) typeDigit(d rune) {
	s.hand.digits += string(d)
	s.Paint()
}

// erase takes the last digit back; when there is none, it goes one question back.
func (s *Screen) erase() {
	if n := len(s.hand.digits); n > 0 {
		s.hand.digits = s.hand.digits[:n-1]
		s.Paint()
		return
	}
	s.back()
}

// back is one question back from where it is clear which, else to the first page.
func (s *Screen) back() {
	s.hand.fault = [2]string{}
	switch {
	case s.hand.step == stepTurn:
		s.ask(stepTyped)
	case s.hand.step == stepTyped && s.hand.to == toCorrect:
		s.ask(stepMoment)
	case s.hand.step == stepMoment, s.hand.step == stepTyped && s.hand.to == toMonitor, s.hand.step == stepRoom:
		s.hand.moment = mesh.Ref{}
		s.ask(stepNoted)
	default:
		s.home()
		s.Paint()
	}
}
