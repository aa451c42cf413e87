package door

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

// Options make a Screen. All are needed unless said otherwise.
type Options struct {
	Look    *look.Look
	Words   words.Words
	Taps    Taps
	Explain func(error) (sentence, hint string) // what people read of a failure
	Now     func() time.Time
	Zone    *time.Location // of the clocks on the wall
	// Paper makes the sheets of who was inside for how long in a case, each on a
	// paper of its own. It does not wait: done is called later, on the UI
	// goroutine, with where they are. Nil: the screen offers none.
	Paper func(of mesh.Ref, done func(where string, err error))
}

// Screen is the observer's. The UI goroutine owns it.
type Screen struct {
	opt   Options
	snap  Snapshot
	hand  hand
	rows  Rows
	sign  Sign
	from  int // the first person on the first page
	shown int // how many people are seen at once; set by the layout
	parts parts
	sheet *sheet.Sheet[pick]
	root  *fyne.Container

	tapped string    // what was tapped last, of what a slip would tap twice
	when   time.Time // and when
}

// New makes an empty screen.
func New(o Options) *Screen {
	s := &Screen{opt: o, shown: 1}
	s.parts = s.newParts()
	s.sheet = sheet.New(sheet.Options[pick]{
		Look: o.Look, Back: o.Words.Say("inside.back"), More: func(to, of int) string { return o.Words.Say("door.turn", to, of) }, Next: o.Words.Say("list.after"),
		Pick: s.pick, Leave: s.back, Changed: s.arrange,
	})
	s.root = look.NewFree(o.Look, s.lay, append(s.parts.all(), s.sheet.Objects()...)...)
	s.Paint()
	return s
}

// Object is the whole screen.
func (s *Screen) Object() fyne.CanvasObject { return s.root }

// Set takes a newer snapshot.
func (s *Screen) Set(snap Snapshot) {
	s.snap = snap
	if _, there := snap.room(s.hand.room); !there {
		s.hand.room = snap.first()
		s.home()
	}
	s.Paint()
}

// first is the door that is shown until another is chosen.
func (s Snapshot) first() mesh.ID {
	for _, r := range s.Rooms {
		if r.Open {
			return r.ID
		}
	}
	if len(s.Rooms) > 0 {
		return s.Rooms[0].ID
	}
	return ""
}

// Paint words everything again and copies it into the parts.
func (s *Screen) Paint() {
	w := s.opt.Words
	s.rows = rows(w, s.snap, s.hand, s.opt.Now())
	switch s.hand.step {
	case stepHome:
	case stepAir:
		r, _ := s.snap.room(s.hand.room)
		s.sign = sign(w, s.snap.Now, r, s.opt.Zone)
	default:
		f := page(w, s.snap, s.hand)
		if s.hand.step == stepSpent && s.opt.Paper != nil && len(f.Lines) > 0 {
			f.Choices = []choice{sheet.Tile(look.TileFace{Word: w.Say("door.paper")}, pick{what: picksPaper})}
		}
		s.sheet.Set(f)
	}
	if s.from >= len(s.rows.People) {
		s.from = 0
	}
	s.parts.set(s)
	s.arrange()
}

func (s *Screen) arrange() { look.Arrange(s.root) }

// slipped tells whether the same was tapped a moment ago: a finger that slips
// must not turn a tick or the door back, or skip a step of doffing.
func (s *Screen) slipped(what string) bool {
	now := s.opt.Now()
	again := s.tapped == what && now.Sub(s.when) < station.AgainAfter
	if !again {
		s.tapped, s.when = what, now
	}
	return again
}

// home goes back to the first page and forgets what was begun. What was tapped
// last can still be taken back there.
func (s *Screen) home() {
	s.hand = hand{room: s.hand.room, front: s.hand.front, fault: s.hand.fault, last: s.hand.last, said: s.hand.said, until: s.hand.until}
}

// ask goes on to the next question.
func (s *Screen) ask(next step) {
	s.hand.step = next
	s.sheet.Begin()
	s.Paint()
}

// record records something of the case behind this door. Where there is none
// yet, and the device is for several doors, one is begun here first: what
// happened is recorded, and for the right door.
func (s *Screen) record(said string, act func(of mesh.Ref) station.Act, after func()) {
	r, _ := s.snap.room(s.hand.room)
	s.hand.fault, s.hand.last = [2]string{}, mesh.Ref{}
	do := func(of mesh.Ref) {
		s.tap(act(of), func(x station.Result) {
			if said != "" {
				s.hand.last, s.hand.said, s.hand.until = x.Ref, said, s.opt.Now().Add(s.snap.UndoFor)
			}
			if after != nil {
				after()
			}
		})
	}
	if r.Case.IsZero() && len(s.snap.Rooms) > 1 {
		s.tap(station.OpenCase{Case: requests.CaseOpen{Room: r.ID}}, func(x station.Result) { do(x.Ref) })
		return
	}
	do(r.Case)
}

// tap records an act; after is called when it was recorded.
func (s *Screen) tap(act station.Act, after func(station.Result)) {
	s.opt.Taps.Tap(s.snap.By, act, func(x station.Result, err error) {
		if err != nil {
			s.hand.fault[0], s.hand.fault[1] = s.opt.Explain(err)
		} else if after != nil {
			after(x)
		}
		s.Paint()
	})
}

// done records and goes to the first page.
func (s *Screen) done(said string, act func(of mesh.Ref) station.Act) {
	s.home()
	s.record(said, act, nil)
	s.Paint()
}

// turn shows the people that did not fit, after the last the first.
func (s *Screen) turn() {
	if s.from += s.shown; s.from >= len(s.rows.People) {
		s.from = 0
	}
	s.Paint()
}

// hear says that somebody outside knows.
func (s *Screen) hear() {
	if n, told := s.snap.notice(s.hand.room); told {
		s.hand.fault = [2]string{}
		s.tap(station.Hear{Said: n.Ref}, nil)
		s.Paint()
	}
}

// relief asks which person is called for what was said. Whoever calls one
// knows, so that it counts as heard.
func (s *Screen) relief() {
	if n, told := s.snap.notice(s.hand.room); told {
		s.home()
		s.hand.fault, s.hand.notice = [2]string{}, n
		s.ask(stepSend)
	}
}

// undo takes back what was tapped last.
func (s *Screen) undo() {
	if s.hand.last.IsZero() || !s.opt.Now().Before(s.hand.until) {
		return
	}
	mark := s.hand.last
	s.hand.last, s.hand.fault = mesh.Ref{}, [2]string{}
	s.tap(station.Undo{Mark: mark}, nil)
	s.Paint()
}
