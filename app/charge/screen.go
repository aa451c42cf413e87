package charge

import (
	"reflect"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/app/look/picture"
	"lintel/app/look/sheet"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
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
	// Want tells what is shown from now on: bring a Snapshot of it. It does not
	// wait.
	Want func(Wanted)
	// Pictures has what items and shelves look like; nil: nothing is shown.
	Pictures picture.Source
	Lists    Lists // nil: files are not read here
	Typing   bool  // there is a keyboard: words can be typed
}

// Screen is the pages of whoever answers for stock. The UI goroutine owns it.
type Screen struct {
	opt   Options
	snap  Snapshot
	hand  hand
	view  View
	shape shape // of the last size
	dense bool  // lines are read from nearer; set by the layout
	from  int   // the first line that is seen
	shown int   // how many are; set by the layout
	parts parts
	sheet *sheet.Sheet[pick]
	root  *fyne.Container

	tapped pick      // what was recorded last, of what a slip would record twice
	when   time.Time // and when
}

// shape is what a size is good for.
type shape struct{ broad, narrow bool }

// New makes a screen on its first page.
func New(o Options) *Screen {
	s := &Screen{opt: o, shown: 1}
	s.parts = s.newParts()
	s.sheet = sheet.New(sheet.Options[pick]{
		Look: o.Look, Back: o.Words.Say("inside.back"), More: func(to, of int) string { return o.Words.Say("door.turn", to, of) }, Next: o.Words.Say("list.after"),
		Pick: s.pick, Leave: s.back, Changed: s.arrange,
		Keys: look.KeypadKeys{Digit: s.digit, Erase: s.erase, Done: s.typedAll},
	})
	s.hand.count = begun()
	s.root = look.NewFree(o.Look, s.lay, append(s.parts.all(), s.sheet.Objects()...)...)
	s.Paint()
	return s
}

// Object is the whole screen.
func (s *Screen) Object() fyne.CanvasObject { return s.root }

// Wants is what is shown, for whoever brings Snapshots.
func (s *Screen) Wants() Wanted { return s.hand.at }

// Set takes a newer snapshot. One of another page is kept for nothing. Where
// only one room has something inside, the way to counting leads to it.
func (s *Screen) Set(snap Snapshot) {
	if snap.For != s.hand.at {
		return
	}
	fresh := s.snap.For != snap.For
	if !fresh && snap.For.Page == PageCount && !reflect.DeepEqual(s.snap.Count.Ends, snap.Count.Ends) {
		s.changed(snap)
	}
	s.snap = snap
	s.begin()
	if fresh && snap.For.Page == PageCounts && s.hand.straight {
		if r, only := snap.only(); only {
			s.open(Wanted{Page: PageCount, Room: r})
			return
		}
	}
	s.Paint()
}

// changed goes on with a count after something else was recorded: from its page,
// where it is said, if a question stood on the screen.
func (s *Screen) changed(snap Snapshot) {
	s.hand.count = s.hand.count.carriedOver(s.snap.Count, snap.Count)
	if s.hand.step != stepNone {
		s.hand.step = stepNone
		s.hand.said, s.hand.last = s.opt.Words.Say("charge.count.changed"), mesh.Ref{}
	}
}

// only is the one room with something inside.
func (s Snapshot) only() (room mesh.ID, only bool) {
	for _, r := range s.Rooms {
		if r.Lines > 0 {
			if room != "" {
				return "", false
			}
			room = r.ID
		}
	}
	return room, room != ""
}

// Paint words everything again and copies it into the parts.
func (s *Screen) Paint() {
	s.word()
	s.arrange()
}

// word words the view for the shape of the last size.
func (s *Screen) word() {
	s.view = page(s.opt.Words, s.snap, s.hand, setting{zone: s.opt.Zone, shape: s.shape, files: s.opt.Lists != nil})
	if s.view.Sheet != nil {
		s.sheet.Set(*s.view.Sheet)
	}
	if s.from >= s.lines() {
		s.from = 0
	}
	s.parts.set(s)
}

// lines is how many there are to be seen, of a table or of a list.
func (s *Screen) lines() int {
	if s.view.Table != nil {
		return len(s.view.Table.Rows)
	}
	return len(s.view.Lines)
}

func (s *Screen) arrange() { look.Arrange(s.root) }

// open goes to a page and has it brought.
func (s *Screen) open(at Wanted) {
	if at.Page == PageWaste && at.By == 0 {
		at.By = kits.ByReason
	}
	if at.Page != s.hand.at.Page || at.Room != s.hand.at.Room {
		s.hand.count = begun()
	}
	s.hand.at, s.hand.step, s.from = at, stepNone, 0
	s.hand.draft, s.hand.path, s.hand.imported = nil, "", nil
	s.clear()
	s.opt.Want(at)
	s.Paint()
}

// ask goes on to a question of the same page.
func (s *Screen) ask(next step) {
	s.hand.step = next
	s.clear()
	s.sheet.Begin()
	s.Paint()
}

// clear forgets what was typed.
func (s *Screen) clear() {
	s.hand.typed = ""
	s.parts.entry.SetText("")
}

// back is one question back, else one page.
func (s *Screen) back() {
	s.hand.fault = [2]string{}
	switch s.hand.step {
	case stepNone:
		s.hand.straight = false
		s.open(parent(s.hand.at))
	case stepRole:
		s.ask(stepSecond)
	case stepNumber:
		s.ask(stepRole)
	case stepPart:
		s.ask(stepEnds)
	case stepEnds:
		if s.hand.count.parts != nil {
			s.hand.count.parts = nil
			s.ask(stepEnds)
			return
		}
		s.ask(stepNone)
	case stepLitres:
		s.ask(stepClass)
	case stepBoxRoom:
		s.ask(stepLitres)
	case stepBoxSeal:
		s.ask(stepBoxRoom)
	default:
		s.ask(stepNone)
	}
}

// digit, erase and typedAll are the keys of a page of digits.
func (s *Screen) digit(d rune) {
	s.hand.typed += string(d)
	s.Paint()
}

func (s *Screen) erase() {
	if n := len(s.hand.typed); n > 0 {
		s.hand.typed = s.hand.typed[:n-1]
		s.Paint()
		return
	}
	s.back()
}

// typed takes words that are typed on a desk: of a search, the number of a seal
// with letters in it, or why an issue is closed.
func (s *Screen) typed(text string) {
	text = strings.TrimSpace(text)
	switch {
	case s.hand.step.words():
		s.hand.typed = text
		s.Paint()
	case s.hand.step == stepNone && s.view.Search && text != s.hand.at.Text:
		s.hand.at.Text, s.from = text, 0
		s.opt.Want(s.hand.at)
		s.Paint()
	}
}

// turn shows the lines that did not fit, after the last the first.
func (s *Screen) turn() {
	if s.from += s.shown; s.from >= s.lines() {
		s.from = 0
	}
	s.Paint()
}

// slipped tells whether the same was tapped a moment ago: a finger that slips
// must not take a second line that moved under it.
func (s *Screen) slipped(p pick) bool {
	now := s.opt.Now()
	again := s.tapped.what == p.what && now.Sub(s.when) < station.AgainAfter
	if !again {
		s.tapped, s.when = p, now
	}
	return again
}
