package runner

import (
	"strconv"
	"time"

	"fyne.io/fyne/v2"

	"lintel/app/look"
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
	Now     func() time.Time
}

// Screen is the list and its questions. The UI goroutine owns it.
type Screen struct {
	opt   Options
	snap  Snapshot
	hand  hand
	rows  Rows
	page  Page
	shown int // how many entries, or choices, are seen at once; set by the layout
	parts parts
	root  *fyne.Container
}

// New makes an empty list.
func New(o Options) *Screen {
	s := &Screen{opt: o, hand: hand{seen: map[mesh.Ref]bool{}}, shown: 1}
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
	s.rows = rows(s.opt.Words, s.snap, s.hand)
	if s.hand.step != stepList {
		s.page = page(s.opt.Words, s.snap, s.hand)
	}
	if s.hand.from >= s.paged() {
		s.hand.from = 0 // what was shown there is gone
	}
	s.parts.set(s)
	look.Arrange(s.root)
}

// list goes back to the list and forgets what was begun.
func (s *Screen) list() {
	s.hand = hand{seen: s.hand.seen, fault: s.hand.fault}
}

// ask goes on to the next question.
func (s *Screen) ask(next step) {
	s.hand.step, s.hand.digits, s.hand.from = next, "", 0
	s.Paint()
}

// do records an act and goes back to the list. What fails is said there.
func (s *Screen) do(act station.Act, way mesh.Way) {
	by := s.snap.By
	by.Way = way
	s.list()
	s.opt.Taps.Tap(by, act, func(_ station.Result, err error) {
		if err != nil {
			s.hand.fault[0], s.hand.fault[1] = s.opt.Explain(err)
		}
		s.Paint()
	})
	s.Paint()
}

// pick does what a choice means.
func (s *Screen) pick(p pick) {
	ref := s.hand.ref
	s.hand.fault = [2]string{}
	switch p.what {
	case picksOpen:
		s.hand.ref = p.ref
		s.ask(stepRequest)
	case picksAct:
		s.hand.ref = p.ref
		s.act(p.act)
	case picksSeen:
		s.hand.seen[p.ref] = true
		s.list()
		s.Paint()
	case picksItem:
		s.hand.item = p.item
		s.ask(stepCount)
	case picksSend:
		s.do(station.Offer{Request: ref, Things: s.hand.offered}, mesh.WaySelf)
	case picksWhy:
		s.do(station.CouldNot{Request: ref, Why: mesh.Label(p.why)}, mesh.WaySelf)
	case picksTag:
		s.do(station.PassOn{Request: ref, To: p.tag}, mesh.WaySelf)
	case picksDoor:
		s.hand.room = p.room
		s.ask(stepNumber)
	case picksSoon:
		s.hand.soon = p.soon
		s.ask(stepCode)
	case picksIntent:
		s.begin(p.to)
	default:
		s.back()
	}
}

// back is one question back from where it is clear which, else to the list.
func (s *Screen) back() {
	switch s.hand.step {
	case stepItem, stepCannot, stepPassOn:
		s.hand.offered = nil
		s.ask(stepRequest)
	case stepCount:
		if s.hand.to == toReadBack || s.hand.to == toOffer {
			s.ask(stepItem)
			return
		}
		s.ask(stepNumber)
	default:
		s.list()
		s.Paint()
	}
}

// act does an act of the open request, or asks what it needs to know.
func (s *Screen) act(a requests.Act) {
	ref := s.hand.ref
	switch a {
	case requests.ActAcknowledge:
		s.do(station.Go{Request: ref}, mesh.WaySelf)
	case requests.ActPutAtDoor:
		s.do(station.PutAtDoor{Request: ref}, mesh.WaySelf)
	case requests.ActTakeInSeen:
		s.do(station.TakeIn{Request: ref}, mesh.WayGlass)
	case requests.ActTakeIn:
		s.do(station.TakeIn{Request: ref}, mesh.WaySelf)
	case requests.ActTakeBack:
		s.do(station.TakeBack{Request: ref}, mesh.WaySelf)
	case requests.ActReadBack:
		s.hand.to, s.hand.offered = toReadBack, nil
		s.ask(stepItem)
	case requests.ActOffer:
		s.hand.to, s.hand.offered = toOffer, nil
		s.ask(stepItem)
	case requests.ActCouldNot:
		s.ask(stepCannot)
	case requests.ActPassOn:
		s.ask(stepPassOn)
	}
}

// begin notes what was asked by voice, or passed in unasked.
func (s *Screen) begin(to intent) {
	s.list()
	s.hand.to, s.hand.fault = to, [2]string{}
	if len(s.snap.Rooms) == 1 {
		s.hand.room = s.snap.Rooms[0].ID
		s.ask(stepNumber)
		return
	}
	s.ask(stepDoor)
}

// done takes what was typed.
func (s *Screen) done() {
	switch s.hand.step {
	case stepNumber:
		if _, found := numberSaid(s.opt.Words, s.snap.Items, s.hand.digits); found != 0 {
			s.hand.item = found
			s.ask(stepCount)
		}
	case stepCount:
		if n, err := strconv.Atoi(s.hand.digits); err == nil && n > 0 {
			s.hand.count = requests.Count(n)
			s.counted()
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
func (s *Screen) counted() {
	switch s.hand.to {
	case toReadBack:
		s.do(station.ReadBack{Request: s.hand.ref, Thing: s.stated(), How: requests.Chosen}, mesh.WaySelf)
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
	if s.hand.from += s.shown; s.hand.from >= s.paged() {
		s.hand.from = 0
	}
	s.Paint()
}

// paged is of how many things a part is shown: of the list, or of the choices.
func (s *Screen) paged() int {
	if s.hand.step != stepList {
		return len(s.page.Choices)
	}
	return len(s.rows.Entries)
}
