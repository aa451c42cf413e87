package debrief

import (
	"reflect"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/app/look/sheet"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
)

// Taps takes what people tap. It does not wait: done is called later, on the UI
// goroutine. False: a finger slipped, and the tap before counts for this one
// too. station.Taps is one.
type Taps interface {
	Tap(by mesh.By, act station.Act, done func(station.Result, error)) bool
}

// PaperRecord is the record of a case, with timeline and figures.
const PaperRecord = "record"

// Options make a Screen. All are needed unless said otherwise.
type Options struct {
	Look    *look.Look
	Words   words.Words
	Taps    Taps
	Explain func(error) (sentence, hint string) // what people read of a failure
	Now     func() time.Time
	Zone    *time.Location // of the clocks on the wall
	// Choose tells which case is wanted from now on: bring a Snapshot of it. It
	// does not wait. Nil: only the case of the Snapshot can be seen.
	Choose func(of mesh.Ref)
	// Paper makes a paper of a case. It does not wait: done is called later, on
	// the UI goroutine, with where it is. Nil: the screen offers none.
	Paper  func(kind string, of mesh.Ref, done func(where string, err error))
	Typing bool // there is a keyboard: answers can be typed
}

// Screen is the page of one case afterwards. The UI goroutine owns it.
type Screen struct {
	opt   Options
	snap  Snapshot
	hand  hand
	page  Page
	shape struct{ broad, roomy bool } // of the last size
	shown int                         // how many other cases stand beside; set by the layout
	snaps int                         // how many snapshots differed in what the picture shows
	drawn drawn
	parts parts
	sheet *sheet.Sheet[pick]
	root  *fyne.Container
}

// drawn is the picture as it was divided last.
type drawn struct {
	of    drawing
	pages []look.ChartFace
	shown int // the page that the chart shows, from 1; 0: none yet
}

// drawing is what a division of the picture depends on.
type drawing struct {
	wide, high      float32
	zoom, at, snaps int
}

// New makes a screen without a case.
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

// Set takes a newer snapshot. One of another case begins at its first page. The
// first case that is shown is asked for by its name, so that the page stays with
// it when a newer one is opened.
func (s *Screen) Set(snap Snapshot) {
	if snap.Of != s.snap.Of {
		s.hand = hand{fault: s.hand.fault}
		if s.snap.Of.IsZero() && s.opt.Choose != nil {
			s.opt.Choose(snap.Of)
		}
	}
	if s.snaps == 0 || !reflect.DeepEqual(snap.Course, s.snap.Course) {
		s.snaps++
	}
	s.snap = snap
	s.Paint()
}

// Of is the case that is looked at; zero: there is none.
func (s *Screen) Of() mesh.Ref { return s.snap.Of }

// AskNewest forgets which case was looked at and asks for the newest one, for the
// way here from other screens.
func (s *Screen) AskNewest() {
	s.snap, s.hand = Snapshot{}, hand{}
	if s.opt.Choose != nil {
		s.opt.Choose(mesh.Ref{})
	}
	s.Paint()
}

// Paint words everything again and copies it into the parts.
func (s *Screen) Paint() {
	s.word()
	s.arrange()
}

// word words the page for the shape of the last size.
func (s *Screen) word() {
	s.page = page(s.opt.Words, s.snap, s.hand, setting{
		now: s.opt.Now(), zone: s.opt.Zone, typing: s.opt.Typing, paper: s.opt.Paper != nil, broad: s.shape.broad, roomy: s.shape.roomy,
	})
	if s.page.Sheet != nil {
		s.sheet.Set(*s.page.Sheet)
	}
	s.parts.set(s)
}

func (s *Screen) arrange() { look.Arrange(s.root) }

// ask goes to another page of the same case.
func (s *Screen) ask(next step) {
	s.hand.step, s.hand.from, s.hand.chosen = next, 0, nil
	s.parts.entry.SetText("")
	s.hand.typed = ""
	s.sheet.Begin()
	s.Paint()
}

func (s *Screen) back() { s.ask(parent(s.hand.step)) }

// typed takes what is typed as an answer.
func (s *Screen) typed(text string) {
	if text = strings.TrimSpace(text); text != s.hand.typed {
		s.hand.typed = text
		s.Paint()
	}
}
