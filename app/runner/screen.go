package runner

import (
	"errors"
	"strconv"
	"time"

	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/app/look/picture"
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

// Options make a Screen. All but Silence are needed.
type Options struct {
	Look    *look.Look
	Words   words.Words
	Taps    Taps
	Explain func(error) (sentence, hint string) // what people read of a failure
	Now     func() time.Time
	// Pictures has what things look like, and never blocks; nil: nothing is shown.
	Pictures picture.Source
	Silence  func(until time.Time) // silences the calls of this device; a time that is over ends it
}

// Screen is the list and its questions. The UI goroutine owns it.
type Screen struct {
	opt    Options
	snap   Snapshot
	hand   hand
	behind *hand // what was asked before a notice was opened; nil: the list
	rows   Rows
	page   Page
	shown  int // how many choices are seen at once; set by the layout
	seen   seen
	width  float32 // of the screen, in mm; set by the layout
	height float32
	parts  parts
	root   *fyne.Container
}

// New makes an empty list.
func New(o Options) *Screen {
	s := &Screen{opt: o, hand: hand{stays: stays{gone: map[noticeKey]bool{}}}, shown: 1}
	s.parts = s.newParts()
	s.root = look.NewFree(o.Look, s.lay, s.parts.all()...)
	s.Paint()
	return s
}

// Object is the whole screen.
func (s *Screen) Object() fyne.CanvasObject { return s.root }

// Set takes a newer snapshot. A question about a request that is gone goes too.
func (s *Screen) Set(snap Snapshot) {
	s.snap = snap
	if _, there := snap.request(s.hand.ref); !there && !s.hand.ref.IsZero() {
		s.list()
	}
	s.Paint()
}

// Paint words everything again and copies it into the parts.
func (s *Screen) Paint() {
	s.hand.now = mesh.Wall(s.opt.Now().UnixMilli())
	s.rows = rows(s.opt.Words, s.snap, s.hand)
	if s.hand.step == stepNotice && len(s.rows.Notices) == 0 {
		s.resume()
	}
	if s.hand.step != stepList {
		s.page = page(s.opt.Words, s.snap, s.hand)
	}
	s.flow()
	if s.hand.from >= s.paged() {
		s.hand.from = 0 // what was shown there is gone
	}
	s.parts.set(s)
	look.Arrange(s.root)
}

// list goes back to the list and forgets what was begun.
func (s *Screen) list() {
	s.hand, s.behind = hand{stays: s.hand.stays}, nil
}

// resume goes back to what was asked before a notice was opened.
func (s *Screen) resume() {
	if s.behind == nil {
		s.list()
		return
	}
	was := s.hand.stays
	s.hand, s.behind = *s.behind, nil
	s.hand.stays = was
	if _, there := s.snap.request(s.hand.ref); !there && !s.hand.ref.IsZero() {
		s.list()
	}
}

// ask goes on to the next question.
func (s *Screen) ask(next step) {
	s.hand.step, s.hand.digits, s.hand.from = next, "", 0
	s.Paint()
}

// do records an act and goes back to the list. What fails is said there.
func (s *Screen) do(act station.Act, way mesh.Way) {
	s.list()
	s.tap(act, way)
	s.Paint()
}

// tap records an act. What fails is said over the list.
func (s *Screen) tap(act station.Act, way mesh.Way) {
	by := s.snap.By
	by.Way = way
	s.opt.Taps.Tap(by, act, func(_ station.Result, err error) {
		if err != nil && !s.elsewhere(act, err) {
			s.hand.fault[0], s.hand.fault[1] = s.opt.Explain(err)
		}
		s.Paint()
	})
}

// elsewhere asks about a thing that was put at another door than its own,
// unless somebody has gone on to something else meanwhile.
func (s *Screen) elsewhere(act station.Act, err error) bool {
	put, is := act.(station.PutAtDoor)
	if !is || !errors.Is(err, station.ErrWrongDoor) || s.hand.step != stepList {
		return false
	}
	s.hand.step, s.hand.ref, s.hand.room = stepWrong, put.Request, put.Door
	return true
}

// done takes what was typed.
func (s *Screen) done() {
	switch s.hand.step {
	case stepNumber:
		if _, found := numberSaid(s.opt.Words, s.snap.Items, s.hand.digits); found != 0 {
			s.hand.item = found
			s.ask(stepCount)
		}
	case stepMany:
		if n, err := strconv.Atoi(s.hand.digits); err == nil && n > 0 {
			s.counted(requests.Count(n))
		}
	case stepCode:
		if s.hand.digits == "" || mesh.DammFits(s.hand.digits) {
			act := station.Ask{
				Room: s.hand.room, Thing: s.stated(), Urgency: s.hand.soon, Origin: requests.AskedByVoice, Code: mesh.Label(s.hand.digits),
			}
			s.do(act, mesh.WayVoice)
		}
	}
}

// stated is what was chosen and typed, with the strength of its label.
func (s *Screen) stated() requests.Thing {
	i, _ := s.snap.item(s.hand.item)
	return requests.Thing{Item: s.hand.item, Strength: mesh.Label(i.Detail), Count: s.hand.count, Measure: mesh.Each}
}

// counted goes on when it is known how many.
func (s *Screen) counted(n requests.Count) {
	s.hand.count = n
	switch s.hand.to {
	case toReadBack:
		act := station.ReadBack{Request: s.hand.ref, Thing: s.stated(), How: requests.Chosen}
		if r := s.hand.read; r.is {
			act.How, act.Lot, act.Expiry, act.NoDay = requests.Scanned, r.lot, r.expiry, r.noDay
		}
		s.do(act, mesh.WaySelf)
	case toOffer:
		s.hand.offered = append(s.hand.offered, s.stated())
		s.ask(stepItem)
	case toPassIn:
		s.do(station.PassIn{Room: s.hand.room, Thing: s.stated()}, mesh.WaySelf)
	case toVoice:
		s.ask(stepSoon)
	}
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

// turn shows what did not fit, after the last the first.
func (s *Screen) turn() {
	s.hand.fault = [2]string{}
	step := s.shown
	if s.hand.step == stepList {
		step = 1
	}
	if s.hand.from += step; s.hand.from >= s.paged() {
		s.hand.from = 0
	}
	s.Paint()
}

// paged is of how many things a part is shown: of the list's pages, or of the choices.
func (s *Screen) paged() int {
	switch {
	case s.hand.step == stepList:
		return s.seen.pages
	case s.page.Held != nil:
		return len(s.page.Held)
	}
	return len(s.page.Choices)
}
