package join

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
)

// Unit is what the device does about units. No method waits: done is called
// later, on the UI goroutine, with nil when it is done.
type Unit interface {
	// Found begins a unit of that name.
	Found(name mesh.Label, done func(error))
	// Join enters the unit of the device at an address that shows the code.
	Join(address, code string, done func(error))
	// Invite shows a code with which one device may join.
	Invite(done func(Invitation, error))
	// Cancel takes the shown code back.
	Cancel()
}

// Taps takes what people tap about the unit's work, as on the other screens.
type Taps interface {
	Tap(by mesh.By, act station.Act, done func(station.Result, error)) bool
}

// Options make a Screen. All are needed.
type Options struct {
	Look    *look.Look
	Words   words.Words
	Unit    Unit
	Taps    Taps
	Explain func(error) (sentence, hint string) // what people read of a failure
	Held    func()                              // called when it was said who has this device; nil: nobody
}

// Screen is joining. The UI goroutine owns it.
type Screen struct {
	opt   Options
	snap  Snapshot
	hand  hand
	page  Page
	shown int // how many choices, or devices, are seen at once; set by the layout
	parts parts
	root  *fyne.Container
}

// New makes the screen of a device that belongs to no unit.
func New(o Options) *Screen {
	s := &Screen{opt: o, shown: 1}
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
	s.Paint()
}

// Paint words everything again and copies it into the parts.
func (s *Screen) Paint() {
	s.page = page(s.opt.Words, s.snap, s.hand)
	if s.hand.from >= s.paged() {
		s.hand.from = 0 // what was shown there is gone
	}
	s.parts.set(s)
	look.Arrange(s.root)
}

// ask goes to a question.
func (s *Screen) ask(next step) {
	s.hand.step, s.hand.digits, s.hand.from = next, "", 0
	s.parts.entry.SetText("")
	s.Paint()
}

// AskWho begins with "who has this device?", for the way here from other screens.
func (s *Screen) AskWho() {
	s.hand = hand{}
	s.ask(stepRole)
}

func (s *Screen) home() {
	s.hand = hand{fault: s.hand.fault}
	s.ask(stepHome)
}

// ended takes an answer of the network: on success it goes home.
func (s *Screen) ended(err error) {
	s.hand.busy = false
	if err != nil {
		s.hand.fault[0], s.hand.fault[1] = s.opt.Explain(err)
		s.hand.digits = ""
		s.Paint()
		return
	}
	s.home()
}

// pick does what a choice means.
func (s *Screen) pick(p pick) {
	s.hand.fault = [2]string{}
	switch p.what {
	case picksFound:
		s.found()
	case picksJoin:
		s.ask(stepWhere)
	case picksInvite:
		s.invite()
	case picksHold:
		s.ask(stepRole)
	case picksNear:
		s.hand.address = p.text
		s.ask(stepCode)
	case picksType:
		s.ask(stepAddress)
	case picksRole:
		s.hand.role, s.hand.rooms = p.id, slices.Clone(s.snap.Holds.Rooms)
		s.ask(stepTag)
	case picksTag:
		s.hand.tag = mesh.Tag(p.text)
		s.ask(stepRooms)
	case picksRoom:
		s.toggle(p.id)
	case picksEveryRoom:
		s.hand.rooms = nil
		s.Paint()
	case picksDone:
		s.done()
	default:
		s.back()
	}
}

// found asks for the name, then founds.
func (s *Screen) found() {
	if s.hand.step != stepName {
		s.ask(stepName)
		return
	}
	name := strings.TrimSpace(mesh.CleanText(s.parts.entry.Text))
	if name == "" || s.hand.busy {
		s.Paint()
		return
	}
	s.hand.busy = true
	s.Paint()
	s.opt.Unit.Found(mesh.Label(name), s.ended)
}

func (s *Screen) invite() {
	s.ask(stepShow)
	s.hand.busy, s.hand.shown = true, Invitation{}
	s.Paint()
	s.opt.Unit.Invite(func(i Invitation, err error) {
		if s.hand.step != stepShow {
			return // somebody went back before the code was there
		}
		s.hand.busy, s.hand.shown = false, i
		if err != nil {
			s.ended(err)
			s.hand.step = stepHome
		}
		s.Paint()
	})
}

// Joined says that the code shown here was used, or is over: the screen goes
// home, with what went wrong if anything did.
func (s *Screen) Joined(err error) {
	if s.hand.step == stepShow {
		s.hand.step = stepHome
		s.ended(err)
	}
}

func (s *Screen) toggle(id mesh.ID) {
	if i := slices.Index(s.hand.rooms, id); i >= 0 {
		s.hand.rooms = slices.Delete(s.hand.rooms, i, i+1)
	} else {
		s.hand.rooms = append(s.hand.rooms, id)
		slices.Sort(s.hand.rooms)
	}
	s.Paint()
}

// done takes an address, a code, or who has this device.
func (s *Screen) done() {
	switch s.hand.step {
	case stepAddress:
		if address := strings.TrimSpace(s.parts.entry.Text); address != "" {
			s.hand.address = address
			s.ask(stepCode)
		}
	case stepCode:
		if len(s.hand.digits) == codeDigits && mesh.DammFits(s.hand.digits) && !s.hand.busy {
			s.hand.busy, s.hand.fault = true, [2]string{}
			s.Paint()
			s.opt.Unit.Join(s.hand.address, s.hand.digits, s.ended)
		}
	case stepRooms:
		holds := s.hand.holds()
		s.opt.Taps.Tap(mesh.By{Role: holds.Role, Tag: holds.Tag}, station.Hold{Holds: holds}, func(_ station.Result, err error) {
			s.ended(err)
			if err == nil && s.opt.Held != nil {
				s.opt.Held()
			}
		})
	}
}

// back is one question back.
func (s *Screen) back() {
	switch s.hand.step {
	case stepShow:
		s.opt.Unit.Cancel()
		s.home()
	case stepAddress, stepCode:
		s.ask(stepWhere)
	case stepTag:
		s.ask(stepRole)
	case stepRooms:
		s.ask(stepTag)
	default:
		s.home()
	}
}

func (s *Screen) typeDigit(d rune) {
	if len(s.hand.digits) < codeDigits {
		s.hand.digits += string(d)
		s.hand.fault = [2]string{}
		s.Paint()
	}
}

// erase takes the last digit back; when there is none, it goes one question back.
func (s *Screen) erase() {
	if n := len(s.hand.digits); n > 0 {
		s.hand.digits = s.hand.digits[:n-1]
		s.Paint()
		return
	}
	s.pick(pick{what: picksBack})
}

// turn shows what did not fit, after the last the first.
func (s *Screen) turn() {
	if s.hand.from += s.shown; s.hand.from >= s.paged() {
		s.hand.from = 0
	}
	s.Paint()
}

// paged is of how many things a part is shown: of the devices, else of the choices.
func (s *Screen) paged() int {
	if len(s.page.Lines) > 0 {
		return len(s.page.Lines)
	}
	return len(s.page.Choices)
}
