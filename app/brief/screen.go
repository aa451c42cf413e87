package brief

import (
	"slices"

	"fyne.io/fyne/v2"

	"lintel/app/look"
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

// Health is what the system tells of this device, for a test request.
type Health struct {
	Battery  int // per cent; BatteryUnknown: no figure
	Charging bool
	DiskMB   uint64 // 0: no figure
	ScreenOn bool   // known to stay on; false: not known
}

// Options make a Screen. All are needed unless said otherwise.
type Options struct {
	Look    *look.Look
	Words   words.Words
	Taps    Taps
	Explain func(error) (sentence, hint string) // what people read of a failure
	Layout  station.BoardLayout                 // what can be accepted for the board; without tiles: nothing
	Board   func(room mesh.ID)                  // leads to the board or list of a room; nil: it stays here
	Health  func() Health                       // nil: nothing is known
	Inside  bool                                // double-gloved hands: targets and letters are larger
}

// Screen is the pages before the door closes. The UI goroutine owns it.
type Screen struct {
	opt   Options
	snap  Snapshot
	hand  hand
	page  Page
	shown int  // how many rows, or tiles, are seen at once; set by the layout
	roomy bool // there is room for rows with their state at the right; set by the layout
	parts parts
	root  *fyne.Container
}

// New makes the list of rooms, without any yet.
func New(o Options) *Screen {
	s := &Screen{opt: o, shown: 1}
	s.parts = s.newParts()
	s.root = look.NewFree(o.Look, s.lay, s.parts.all()...)
	s.Paint()
	return s
}

// Object is the whole screen.
func (s *Screen) Object() fyne.CanvasObject { return s.root }

// Set takes a newer snapshot. When the last tap was the last that its page of
// the brief waited for, the next page comes; when it was the last of the rows
// that are seen, those with something open come.
func (s *Screen) Set(snap Snapshot) {
	s.snap = snap
	if r, _ := snap.room(s.hand.room); r.Open {
		s.hand.seen = true
	} else if s.hand.seen && s.ofCase() {
		s.hand = hand{fault: s.hand.fault, undo: s.hand.undo, until: s.hand.until} // somebody shut it
	}
	if s.hand.lead && s.complete() {
		s.next()
	}
	s.Paint()
	if s.hand.lead && s.seenDone() {
		s.hand.lead = false
		s.toOpen()
	}
}

// seenDone tells whether all rows that are seen are done, and others are not.
func (s *Screen) seenDone() bool {
	open := func(rows []Row) bool { return slices.ContainsFunc(rows, func(r Row) bool { return !r.Done }) }
	all := s.page.Rows
	if s.hand.from >= len(all) || !open(all) {
		return false
	}
	return !open(all[s.hand.from:min(s.hand.from+s.shown, len(all))])
}

// Paint words everything again and copies it into the parts.
func (s *Screen) Paint() {
	s.page = page(s.opt.Words, s.snap, s.hand, offered{s.opt.Layout})
	if s.hand.from >= s.paged() {
		s.hand.from = 0 // what was shown there is gone
	}
	s.parts.set(s)
	look.Arrange(s.root)
}

// AskRooms goes to the list of rooms, for the way here from other screens.
func (s *Screen) AskRooms() { s.home(stepRooms, "") }

// AskCase goes to the brief of a room's case, or to its beginning.
func (s *Screen) AskCase(room mesh.ID) { s.open(room) }

// AskComms goes to the comms check of a room.
func (s *Screen) AskComms(room mesh.ID) { s.home(stepComms, room) }

func (s *Screen) home(to step, room mesh.ID) {
	s.hand = hand{step: to, room: room}
	s.Paint()
}

// ask goes to a page of the same case.
func (s *Screen) ask(to step) {
	s.hand.step, s.hand.from, s.hand.typed, s.hand.bad, s.hand.lead = to, 0, "", false, false
	s.parts.entry.SetText("")
	s.Paint()
	if slices.Contains(flow(), to) && to != stepCase {
		s.toOpen()
	}
}

// ofCase tells whether the page is one that only an open case has.
func (s *Screen) ofCase() bool {
	switch s.hand.step {
	case stepCase, stepKit, stepTag, stepKeys, stepSkipped, stepEnd:
		return true
	}
	return slices.Contains(flow(), s.hand.step)
}

// toOpen turns to the first rows of which one is open, if any is.
func (s *Screen) toOpen() {
	for range s.page.Rows {
		if !s.seenDone() {
			return
		}
		s.turn()
	}
}

// open goes to a room: to the brief of its case, or to what kind begins.
func (s *Screen) open(room mesh.ID) {
	to := stepKind
	if r, _ := s.snap.room(room); r.Open {
		to = stepCase
	}
	s.home(to, room)
}

// back is one page back.
func (s *Screen) back() {
	to := parent(s.hand.step)
	switch s.hand.step {
	case stepTag:
		to = stepRoles
		if s.hand.role == "" {
			to = stepPPE
		}
	case stepKeys:
		to = stepTag
	}
	s.ask(to)
}

// next leads on in the brief.
func (s *Screen) next() {
	all := flow()
	for i, x := range all[:len(all)-1] {
		if x != s.hand.step {
			continue
		}
		if all[i+1] == stepPPE && s.hand.checker == "" {
			s.hand.role = ""
			s.ask(stepTag) // nobody can be checked before it is said who checks
			return
		}
		s.ask(all[i+1])
		return
	}
	s.ask(stepCase)
}

// complete tells whether nothing is open on the page of the brief.
func (s *Screen) complete() bool {
	r, _ := s.snap.room(s.hand.room)
	if !r.Open {
		return false
	}
	switch s.hand.step {
	case stepPlans, stepLines, stepSets, stepSingly:
		n, all := doneOf(r.Case.lines(s.hand.step))
		return n == all
	case stepKits:
		for _, k := range r.Case.Kits {
			if !k.Done {
				return false
			}
		}
		return true
	case stepPPE:
		n, all := r.Case.checked()
		return n == all
	}
	return false
}

// paged is of how many rows or tiles a part is shown.
func (s *Screen) paged() int {
	if s.page.Typing {
		return 1
	}
	return max(len(s.page.Rows), len(s.page.Tiles))
}

// turn shows what did not fit, after the last the first.
func (s *Screen) turn() {
	if s.hand.from += s.shown; s.hand.from >= s.paged() {
		s.hand.from = 0
	}
	s.Paint()
}
