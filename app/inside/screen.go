package inside

import (
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

// Options make a Screen. All but Pages are needed.
type Options struct {
	Look    *look.Look
	Words   words.Words
	Taps    Taps
	Board   station.BoardLayout
	Explain func(error) (sentence, hint string) // what people read of a failure
	Now     func() time.Time
	Pages   func() // leads to the ways to the other pages of the device; nil: there are none
}

// Screen is the board. The UI goroutine owns it.
type Screen struct {
	opt     Options
	snap    Snapshot
	hand    hand
	rows    Rows // what is shown
	parts   parts
	front   int       // how many places the front page shows; set by the layout
	shelves []shelf   // set by the layout
	shown   int       // how many items one page of a list shows; set by the layout
	phone   bool      // the plan of a phone; set by the layout
	inset   float32   // mm that undo takes before the strip; set by the layout
	turns   int       // how many there are on a phone's page; set by the layout
	all     []Choice  // what stands on the tiles of the open page; set by the layout
	noticed mesh.Ref  // the phrase that stands on top
	stands  time.Time // from when on a tap on it counts
	held    bool      // the lock has the keyboard
	root    *fyne.Container
}

// New makes an empty board.
func New(o Options) *Screen {
	s := &Screen{opt: o}
	s.hand.urgency, s.hand.ways = requests.RightNow, o.Pages != nil
	s.parts = s.newParts()
	s.root = look.NewFree(o.Look, s.lay, s.parts.all()...)
	s.Paint()
	return s
}

// Object is the whole screen.
func (s *Screen) Object() fyne.CanvasObject { return s.root }

// Set takes a newer snapshot.
func (s *Screen) Set(snap Snapshot) {
	s.snap = snap
	if about := s.hand.count.about(); !about.IsZero() {
		if _, open := snap.request(about); !open {
			s.hand.count = counting{}
		}
	}
	if _, open := snap.request(s.hand.open); !open {
		s.hand.open = mesh.Ref{}
		if s.hand.page == pageSign {
			s.hand.page = pageBoard
		}
	}
	s.Paint()
}

// Paint words everything again and copies it into the parts.
func (s *Screen) Paint() {
	s.rows = rows(s.opt.Words, s.opt.Board, s.snap, s.hand, s.opt.Now())
	s.notice(s.rows.CalledBy)
	s.parts.set(s.rows, s)
	look.Arrange(s.root)
	s.hold()
}

// do records an act; after is called when it is known how it ended.
func (s *Screen) do(act station.Act, after func(station.Result)) {
	s.hand.fault = [2]string{}
	s.opt.Taps.Tap(s.snap.By, act, func(r station.Result, err error) {
		if err != nil {
			s.hand.fault[0], s.hand.fault[1] = s.opt.Explain(err)
		} else if after != nil {
			after(r)
		}
		s.Paint()
	})
	s.Paint()
}

// ask asks for one of an item, as soon as was chosen; of a controlled drug it
// asks first how many.
func (s *Screen) ask(item mesh.Number, urgency requests.Urgency) {
	if s.snap.counts(item) {
		s.hand.page, s.hand.count = pageBoard, counting{item: item, urgency: urgency}
		s.Paint()
		return
	}
	s.askFor(item, 1, urgency)
}

// askFor asks for so many of an item.
func (s *Screen) askFor(item mesh.Number, count requests.Count, urgency requests.Urgency) {
	out := false
	if i, known := s.snap.item(item); known {
		out = i.Out
	}
	act := station.Ask{Room: s.snap.Room, Thing: requests.Thing{Item: item, Count: count}, Urgency: urgency, Out: out}
	s.do(act, func(r station.Result) {
		s.undoable(r.Ref)
		s.hand.more = more{r.Ref, s.opt.Now().Add(s.snap.Limits.More)}
	})
}

func (s *Screen) tapTile(place int) {
	if place < len(s.opt.Board.Tiles) {
		s.hand.lies, s.hand.open, s.hand.count = "", mesh.Ref{}, counting{}
		s.ask(s.opt.Board.Tiles[place].Item, s.hand.urgency)
	}
}

// tapSet says at once where the set lies, and calls for help with it: the set,
// and the persons whom the unit chose.
func (s *Screen) tapSet(n int) {
	if n >= len(s.snap.Sets) {
		return
	}
	s.show(pageBoard)
	s.hand.lies = s.snap.Sets[n].Letter
	for _, who := range s.snap.Callees {
		if i, known := s.snap.item(who); known && i.Person {
			s.askFor(who, 1, requests.RightNow)
		}
	}
	s.askFor(s.snap.Sets[n].Number, 1, requests.RightNow)
}

func (s *Screen) tapUrgency(n int) {
	s.hand.urgency = urgencies()[n]
	s.Paint()
}

// turnTiles shows the next places on a phone, after the last the first.
func (s *Screen) turnTiles() {
	if s.hand.from += s.shown; s.hand.from >= s.turns {
		s.hand.from = 0
	}
	s.Paint()
}

// nextUrgency is for screens with room for one tile only.
func (s *Screen) nextUrgency() {
	all := urgencies()
	for i, u := range all {
		if u == s.hand.urgency {
			s.tapUrgency((i + 1) % len(all))
			return
		}
	}
}

func (s *Screen) tapUndo() {
	if s.hand.undo.IsZero() || !s.opt.Now().Before(s.hand.until) {
		return
	}
	mark := s.hand.undo
	s.hand.undo, s.hand.lies, s.hand.more = mesh.Ref{}, "", more{}
	if s.hand.moved {
		s.do(station.ReverseTap{Movement: mark, Why: mesh.Label(s.opt.Words.Say("inside.drug.undone"))}, nil)
		return
	}
	s.do(station.Undo{Mark: mark}, nil)
}

// tapStrip opens what the strip shows: its panel, or its sign when nobody
// outside would see the answer otherwise.
func (s *Screen) tapStrip(sign bool) {
	all := s.snap.ordered()
	if len(all) == 0 {
		return
	}
	s.show(pageBoard)
	s.hand.open = all[0].Ref
	if sign && (!s.snap.inReach() || all[0].Unreached) {
		s.hand.page = pageSign
	}
	s.Paint()
}

// tapOther opens what is not on the front page, or goes back.
func (s *Screen) tapOther() {
	switch s.hand.page {
	case pageBoard:
		s.hand.group = 0
		s.show(pageOther)
	case pageSmall: // all of the board stands there
		s.hand.group = -1
		s.show(pageOther)
	case pageSeen:
		s.hand.page = pageEnd
		s.Paint()
	case pageEnd:
		s.show(pageDrugs)
	default:
		s.show(pageBoard)
	}
}

// tapSay opens what can be said, or goes back.
func (s *Screen) tapSay() {
	if s.hand.page == pageSay {
		s.show(pageBoard)
		return
	}
	s.show(pageSay)
}

func (s *Screen) show(p page) {
	s.hand.page, s.hand.lies, s.hand.open, s.hand.digits, s.hand.from = p, "", mesh.Ref{}, "", 0
	s.hand.fault, s.hand.count, s.hand.who = [2]string{}, counting{}, nil
	s.Paint()
}

// press does what a button of the panel says.
func (s *Screen) press(b Button) {
	switch b.Does {
	case doesClose:
		s.hand.open, s.hand.lies, s.hand.count = mesh.Ref{}, "", counting{}
	case doesNext:
		s.hand.open = s.snap.next(s.hand.open)
	case doesSign:
		s.hand.page = pageSign
	case doesFewer:
		s.hand.count = counting{taken: s.hand.open}
	case doesCountOn:
		s.hand.count.from += countsAtOnce
	case doesCount:
		s.counted(b.Count)
	default:
		if r, there := s.snap.request(s.hand.open); there {
			s.act(b, r)
			return
		}
	}
	s.Paint()
}

// act records what a button of a request says.
func (s *Screen) act(b Button, r Request) {
	switch b.Act {
	case requests.ActAgree:
		s.answer(station.Agree{Request: r.Ref, Which: b.Nr, Answers: b.Mark})
	case requests.ActRefuse:
		s.answer(station.Refuse{Request: r.Ref, Answers: b.Mark})
	case requests.ActTakeIn:
		s.answer(station.TakeIn{Request: r.Ref})
	case requests.ActPutAtDoor:
		s.answer(station.PutAtDoor{Request: r.Ref})
	case requests.ActJoin:
		s.answer(station.Join{One: r.Ref, Other: b.Mark})
	case requests.ActWithdraw:
		s.hand.open = mesh.Ref{}
		s.answer(station.Withdraw{Request: r.Ref})
	case requests.ActChange:
		if s.snap.counts(r.Thing.Item) {
			s.hand.count = counting{item: r.Thing.Item, change: r.Ref}
			s.Paint()
			return
		}
		s.oneMoreOf(r)
	}
}
