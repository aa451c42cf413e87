package runner

import (
	"slices"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// pick does what a choice means.
func (s *Screen) pick(p pick) {
	ref := s.hand.ref
	s.hand.fault = [2]string{}
	switch p.what {
	case picksOpen:
		s.hand.ref = p.ref
		s.ask(stepRequest)
	case picksAct:
		s.leave()
		s.hand.ref = p.ref
		s.act(p.act)
	case picksItem:
		s.hand.item, s.hand.read = p.item, reading{}
		s.ask(stepCount)
	case picksHeld:
		s.hand.item, s.hand.read = p.item, reading{}
		s.counted(p.n)
	case picksCount:
		s.counted(p.n)
	case picksMany:
		s.ask(stepMany)
	case picksSend:
		s.do(station.Offer{Request: ref, Things: slices.Clone(s.hand.offered)}, mesh.WaySelf)
	case picksWhy:
		s.do(station.CouldNot{Request: ref, Why: mesh.Label(p.why)}, mesh.WaySelf)
	case picksTag:
		s.passOn(p.tag)
	case picksDoor:
		s.hand.room = p.room
		s.ask(stepNumber)
	case picksSoon:
		s.hand.soon = p.soon
		s.ask(stepCode)
	case picksIntent:
		s.begin(p.to, p.room)
	case picksBack:
		s.back()
	default:
		s.pickMore(p)
	}
}

// pickMore is pick for what is not a question of one request.
func (s *Screen) pickMore(p pick) {
	ref := s.hand.ref
	switch p.what {
	case picksWhere:
		s.do(station.PutAtDoor{Request: ref, Door: p.room}, mesh.WaySelf)
	case picksAnyway:
		s.do(station.PutAtDoor{Request: ref, Door: s.hand.room, Anyway: true}, mesh.WaySelf)
	case picksAtDoor:
		s.list()
		s.hand.room = p.room
		s.ask(stepAtDoor)
	case picksBag:
		s.ask(stepBag)
	case picksSayTo:
		s.hand.room = p.room
		s.ask(stepSay)
	case picksPhrase:
		s.do(station.Say{Room: s.hand.room, Phrase: p.list}, mesh.WaySelf)
	case picksPassAll:
		s.hand.ref = mesh.Ref{}
		s.ask(stepMine)
	case picksMine:
		s.hand.whole = true
		s.ask(stepPassOn)
	case picksSilence:
		s.silence()
	case picksLook:
		s.ask(stepLook)
	case picksDo:
		s.leave()
		s.tap(p.do, mesh.WaySelf)
		s.Paint()
	case picksLater:
		s.hand.gone[p.key] = true
		s.leave()
		s.Paint()
	}
}

// leave ends a page that said a notice; another page stays.
func (s *Screen) leave() {
	switch s.hand.step {
	case stepNotice:
		s.resume()
	case stepRequest:
		s.list()
	}
}

// silence silences the calls of this device for as long as the unit says, or
// ends that. Words and a flash go on.
func (s *Screen) silence() {
	until := s.opt.Now()
	if s.hand.silence() == 0 {
		until = until.Add(s.snap.Silence)
	}
	s.hand.silent = mesh.Wall(until.UnixMilli())
	if s.opt.Silence != nil {
		s.opt.Silence(until)
	}
	s.list()
	s.Paint()
}

// passOn gives one request, or everything of this runner, to another one.
func (s *Screen) passOn(to mesh.Tag) {
	refs := []mesh.Ref{s.hand.ref}
	if s.hand.whole {
		refs = s.snap.Carrying.All()
	}
	s.list()
	for _, ref := range refs {
		s.tap(station.PassOn{Request: ref, To: to}, mesh.WaySelf)
	}
	s.Paint()
}

// notice opens the page of the gravest notice, and comes back to what was asked.
func (s *Screen) notice() {
	if len(s.rows.Notices) == 0 || s.hand.step == stepNotice {
		return
	}
	if s.hand.step != stepList {
		was := s.hand
		s.behind = &was
	}
	s.hand = hand{stays: s.hand.stays, step: stepNotice}
	s.Paint()
}

// back is one question back from where it is clear which, else to the list.
func (s *Screen) back() {
	switch s.hand.step {
	case stepItem, stepCannot, stepLook:
		s.hand.offered = nil
		s.ask(stepRequest)
	case stepPassOn:
		if s.hand.whole {
			s.hand.whole = false
			s.ask(stepMine)
			return
		}
		s.ask(stepRequest)
	case stepMany:
		s.ask(stepCount)
	case stepCount:
		if s.hand.to == toReadBack || s.hand.to == toOffer {
			s.ask(stepItem)
			return
		}
		s.ask(stepNumber)
	case stepBag, stepSay:
		s.ask(stepAtDoor)
	case stepWrong:
		s.ask(stepWhere)
	case stepNotice:
		s.resume()
		s.Paint()
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
		s.ask(stepWhere)
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

// begin notes what was asked by voice, or passed in unasked; of an unknown door
// it asks which.
func (s *Screen) begin(to intent, room mesh.ID) {
	s.list()
	s.hand.to, s.hand.fault = to, [2]string{}
	if room == "" && len(s.snap.Rooms) == 1 {
		room = s.snap.Rooms[0].ID
	}
	if s.hand.room = room; room == "" {
		s.ask(stepDoor)
		return
	}
	s.ask(stepNumber)
}

// openEntry, doEntry, openDoor and sayTo are taps on the list.
func (s *Screen) openEntry(i int) {
	if s.hand.step == stepList && i < len(s.rows.Entries) {
		s.pick(pick{what: picksOpen, ref: s.rows.Entries[i].Ref})
	}
}

func (s *Screen) doEntry(i int) {
	if s.hand.step == stepList && i < len(s.rows.Entries) {
		s.pick(s.rows.Entries[i].Does)
	}
}

func (s *Screen) openDoor(i int) {
	if i < len(s.rows.Doors) {
		s.pick(pick{what: picksAtDoor, room: s.rows.Doors[i].Room})
	}
}

func (s *Screen) sayTo(i int) {
	if i < len(s.rows.Doors) {
		s.list()
		s.pick(pick{what: picksSayTo, room: s.rows.Doors[i].Room})
	}
}

// answer is a tap on an answer of the gravest notice.
func (s *Screen) answer(i int) {
	if len(s.rows.Notices) > 0 && i < len(s.rows.Notices[0].Answers) {
		s.pick(s.rows.Notices[0].Answers[i].Pick)
	}
}

// alert is a tap on a notice in few words: it is heard, if that is all there is
// to say, and else opened.
func (s *Screen) alert() {
	all := s.rows.Notices
	if len(all) > 0 && s.hand.step == stepList && len(all[0].Answers) == 1 && all[0].Face.Tone != look.ToneDrill {
		s.answer(0)
		return
	}
	s.notice()
}
