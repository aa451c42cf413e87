package brief

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// record carries acts out, one after another, and then goes on. What fails is
// said, and what stands after it is not tried.
func (s *Screen) record(then func(), acts ...station.Act) {
	s.hand.fault, s.hand.undo = [2]string{}, nil
	s.chain(then, acts)
}

func (s *Screen) chain(then func(), acts []station.Act) {
	if len(acts) == 0 {
		if then != nil {
			then()
		}
		s.Paint()
		return
	}
	s.opt.Taps.Tap(s.snap.By, acts[0], func(r station.Result, err error) {
		if err != nil {
			s.hand.fault[0], s.hand.fault[1] = s.opt.Explain(err)
			s.hand.lead = false
			s.Paint()
			return
		}
		s.hand.undo = append(s.hand.undo, r.Ref)
		s.hand.until = s.snap.Now + mesh.Wall(s.snap.UndoFor.Milliseconds())
		s.chain(then, acts[1:])
	})
}

// canUndo tells whether the last tap can still be taken back.
func (s *Screen) canUndo() bool { return len(s.hand.undo) > 0 && s.snap.Now < s.hand.until }

// undoLast takes the last tap back, also where it recorded several things.
func (s *Screen) undoLast() {
	if !s.canUndo() {
		return
	}
	var acts []station.Act
	for _, ref := range slices.Backward(s.hand.undo) {
		acts = append(acts, station.Undo{Mark: ref})
	}
	s.hand.lead = false
	s.record(func() { s.hand.undo = nil }, acts...)
}

// at is the room that is worked on, with its case: also one that was begun here
// and is not seen yet.
func (s *Screen) at() (Room, mesh.Ref) {
	r, _ := s.snap.room(s.hand.room)
	if !r.Open {
		return r, s.hand.opened
	}
	return r, r.Case.Ref
}

// pick does what a tap means.
func (s *Screen) pick(p pick) {
	s.hand.fault = [2]string{}
	switch p.what {
	case picksBack:
		s.back()
	case picksGo:
		s.ask(p.to)
	case picksNext:
		s.next()
	case picksUndo:
		s.undoLast()
	case picksRoom, picksHurry, picksBoard, picksKind, picksShut, picksMove, picksLeave:
		s.pickCase(p)
	case picksRole, picksOther, picksTag, picksKey, picksErase, picksTyped:
		s.pickTag(p)
	case picksTick, picksAll, picksWhole, picksKit, picksWearer, picksBad:
		s.pickLine(p)
	case picksDevice, picksTest, picksHeard, picksNoSound:
		s.pickComms(p)
	case picksDrill, picksInject, picksSecond, picksReal, picksAccept, picksLimit, picksKeep, picksTurn, picksCall:
		s.pickUnit(p)
	}
}

func (s *Screen) toBoard(room mesh.ID) {
	if s.opt.Board != nil {
		s.opt.Board(room)
	}
}

// pickCase begins, leaves and ends cases.
func (s *Screen) pickCase(p pick) {
	r, ref := s.at()
	switch p.what {
	case picksRoom:
		s.open(p.room)
	case picksBoard:
		room := s.hand.room
		if p.room != "" {
			room = p.room
		}
		s.toBoard(room)
	case picksHurry:
		s.hurry(p.room)
	case picksKind:
		act := station.OpenCase{Case: requests.CaseOpen{Room: s.hand.room, What: p.id, Label: s.number()}}
		s.record(func() {
			s.hand.opened = s.hand.undo[0]
			s.ask(stepRoles)
		}, act)
	case picksLeave:
		s.record(func() { s.toBoard(r.ID) }, leaving(r.Case)...)
	case picksShut:
		s.record(s.AskRooms, station.ShutCase{Case: ref, Why: mesh.Label(p.text)})
	case picksMove:
		to := p.text
		if to == "" {
			to = strings.TrimSpace(mesh.CleanText(s.parts.entry.Text))
		}
		if to != "" {
			s.record(func() { s.ask(stepCase) }, station.MoveCase{Case: ref, To: mesh.Label(to)})
		}
	}
}

// hurry begins a case whose patient cannot wait. The board comes whatever becomes
// of it: another device may have begun the case, and a fault is said here.
func (s *Screen) hurry(room mesh.ID) {
	s.hand.room, s.hand.step, s.hand.seen = room, stepCase, false
	act := station.OpenCase{Case: requests.CaseOpen{Room: room, Label: s.number(), Hurry: true}}
	s.opt.Taps.Tap(s.snap.By, act, func(r station.Result, err error) {
		s.hand.opened = r.Ref
		if err != nil && !errors.Is(err, station.ErrCaseThere) {
			s.hand.fault[0], s.hand.fault[1] = s.opt.Explain(err)
		}
		s.toBoard(room)
		s.Paint()
	})
	s.Paint()
}

// number is what people call the next case: a number, never a patient. Devices
// that do not hear each other may give the same one.
func (s *Screen) number() mesh.Label { return mesh.Label(strconv.Itoa(s.snap.Cases + 1)) }

// leaving records what is left out, list by list.
func leaving(c Case) (acts []station.Act) {
	for _, list := range []mesh.ID{listPlans, listBrief, listKit} {
		skip := station.Skip{Case: c.Ref, List: list}
		for _, x := range c.open() {
			if x.List == list {
				skip.Lines = append(skip.Lines, x.Line.ID)
			}
		}
		if len(skip.Lines) > 0 {
			acts = append(acts, skip)
		}
	}
	return acts
}

// pickTag says who has a role, or who checks.
func (s *Screen) pickTag(p pick) {
	switch p.what {
	case picksOther:
		s.hand.role = p.id
		s.ask(stepTag)
	case picksKey:
		if len(s.hand.typed) < tagLenMax {
			s.hand.typed += p.text
		}
		s.Paint()
	case picksErase:
		if s.hand.typed == "" {
			s.back()
			return
		}
		s.hand.typed = s.hand.typed[:max(0, len(s.hand.typed)-1)]
		s.Paint()
	case picksTyped:
		s.tagged(mesh.Tag(s.hand.typed), s.hand.role)
	case picksTag:
		s.tagged(p.tag, s.hand.role)
	case picksRole:
		s.tagged(p.tag, p.id)
	}
}

// tagged takes a tag for a role; for none it is the checker's.
func (s *Screen) tagged(tag mesh.Tag, role mesh.ID) {
	if tag == "" {
		return
	}
	if role == "" {
		s.hand.checker = tag
		s.ask(stepPPE)
		return
	}
	_, ref := s.at()
	s.record(func() {
		if s.hand.step != stepRoles {
			s.ask(stepRoles)
		}
	}, station.TakeRole{Case: ref, Tag: tag, Role: role})
}

// pickLine ticks lines and kits, and checks equipment.
func (s *Screen) pickLine(p pick) {
	r, ref := s.at()
	tick := func(list, id mesh.ID, done bool, said string) station.Act {
		return station.TickLine{Case: ref, List: list, Line: id, Done: done, Words: mesh.Text(said)}
	}
	switch p.what {
	case picksTick:
		s.hand.lead = p.done
		s.record(nil, tick(p.list, p.id, p.done, ""))
	case picksAll:
		var acts []station.Act
		for _, l := range r.Case.lines(s.hand.step) {
			if !l.Done {
				acts = append(acts, tick(listOf(s.hand.step), l.ID, true, ""))
			}
		}
		s.hand.lead = true
		s.record(nil, acts...)
	case picksWhole:
		said := ""
		if p.done && p.id != roomKitID {
			said = s.opt.Words.Say("brief.kit-whole")
		}
		s.hand.lead = p.done
		s.record(nil, tick(listKit, p.id, p.done, said))
	case picksKit:
		s.hand.kit = p.id
		s.ask(stepKit)
	case picksBad:
		s.hand.bad = !s.hand.bad
		s.Paint()
	case picksWearer:
		act := station.CheckPPE{Case: ref, Wearer: p.tag, Checker: s.hand.checker, Good: !s.hand.bad}
		s.hand.lead, s.hand.bad = act.Good, false
		s.record(nil, act)
	}
}

// pickComms sends a test request, or says whether one was heard.
func (s *Screen) pickComms(p pick) {
	r, ref := s.at()
	switch p.what {
	case picksDevice:
		s.hand.device = p.key
		s.ask(stepDevice)
	case picksTest:
		h := Health{Battery: BatteryUnknown}
		if s.opt.Health != nil {
			h = s.opt.Health()
		}
		act := station.TestComms{
			Case: ref, Room: r.ID, Battery: int32(h.Battery), Charging: h.Charging, DiskMB: h.DiskMB, ScreenOn: h.ScreenOn, Door: p.room,
		}
		s.record(func() { s.ask(stepComms) }, act)
	case picksHeard, picksNoSound:
		if d, there := r.device(p.key); there && d.Asked {
			trip := uint32(0)
			if d.RoundTrip > 0 {
				trip = uint32(max(1, d.RoundTrip.Milliseconds()))
			}
			s.record(func() { s.ask(stepComms) }, station.HearTest{Test: d.Test.Ref, Sound: p.what == picksHeard, RoundTripMS: trip})
		}
	}
}

// pickUnit changes what a unit decides in quiet times.
func (s *Screen) pickUnit(p pick) {
	switch p.what {
	case picksDrill:
		r, _ := s.snap.room(p.room)
		s.hand.room = p.room
		if r.Drill.On {
			s.ask(stepInject)
			return
		}
		act := station.StartDrill{Room: p.room}
		if r.Open {
			act.Case = r.Case.Ref
		}
		s.record(func() { s.ask(stepInject) }, act)
	case picksInject:
		r, _ := s.snap.room(s.hand.room)
		s.record(nil, station.GiveInject{Drill: r.Drill.Ref, What: p.id})
	case picksSecond:
		s.record(nil, station.SecondPatient{Room: p.room})
	case picksReal:
		r, _ := s.snap.room(p.room)
		s.record(func() { s.ask(stepDrill) }, station.EndDrill{Drill: r.Drill.Ref})
	case picksAccept:
		o := offered{s.opt.Layout}
		s.record(nil, station.AcceptLayout{Layout: requests.Layout{Name: mesh.Label(o.layout.Name), Tiles: o.tiles(), Accepted: s.snap.By.Tag}})
	case picksLimit:
		s.hand.limit, s.hand.value = p.id, number(s.snap.Settings[p.id])
		s.ask(stepSetting)
	case picksTurn:
		values := limitOf(p.id).values
		at := slices.Index(values, s.snap.Settings[p.id])
		s.record(nil, station.WriteSetting{Name: p.id, Value: mesh.Text(values[(at+1)%len(values)])})
	case picksCall:
		s.record(nil, station.WriteSetting{Name: settingCalls, Value: mesh.Text(strings.Join(s.snap.callsWith(p.id), " "))})
	case picksKeep:
		act := station.WriteSetting{Name: s.hand.limit, Value: mesh.Text(strconv.FormatInt(s.hand.value, 10))}
		s.record(func() { s.ask(stepSettings) }, act)
	}
}

// callsWith are those who are called with a rescue set, with one of them changed.
func (s Snapshot) callsWith(id mesh.ID) (calls []string) {
	for _, x := range s.Persons {
		if x.Done != (x.ID == id) {
			calls = append(calls, string(x.ID))
		}
	}
	return calls
}

// step changes the limit that is open.
func (s *Screen) step(by int) {
	s.hand.value = limitOf(s.hand.limit).stepBy(s.hand.value, by)
	s.Paint()
}
