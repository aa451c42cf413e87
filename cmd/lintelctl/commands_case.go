package main

import (
	"context"
	"strconv"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// Keywords of the commands of a case.
const (
	wordHurry    = "hurry"
	wordLabel    = "label"
	wordFollows  = "follows"
	wordAnyway   = "anyway"
	wordOff      = "off"
	wordBad      = "bad"
	wordDoor     = "door"
	wordBattery  = "battery"
	wordCharging = "charging"
	wordLocked   = "locked"
	wordSound    = "sound"
)

// caseOf reads the optional "room A1" and finds the case there: the open one,
// else the last. Without a room the device's own is meant, and the act finds it.
func (s *session) caseOf(ctx context.Context, a *arguments) (ref mesh.Ref, err error) {
	room, named, err := a.after(wordRoom)
	if err != nil || !named {
		return ref, err
	}
	if err := s.knownRoom(ctx, mesh.ID(room)); err != nil {
		return ref, err
	}
	err = s.view(ctx, func(v station.View) error {
		c, known := caseIn(v.Board, mesh.ID(room))
		ref = c.Ref
		if !known {
			return station.ErrNoCase
		}
		return nil
	})
	return ref, err
}

// caseIn is the case that is open in a room, else the last one there.
func caseIn(b *requests.Board, room mesh.ID) (last requests.Case, known bool) {
	if c, open := b.CaseIn(room); open {
		return c, true
	}
	for _, c := range b.Cases() {
		if c.Room == room {
			last, known = c, true
		}
	}
	return last, known
}

// plain carries out an act that names no request, and answers with the name of
// what it made.
func (s *session) plain(ctx context.Context, command string, a *arguments, act station.Act) (event, error) {
	e, ref, err := s.write(ctx, command, a, act)
	if err != nil {
		return nil, err
	}
	e.Ref, e.Code = ref.Hex(), requests.Code(ref)
	e.text = s.w.Say("done.fact", command, e.Code, s.kept(e))
	return e, nil
}

func (s *session) caseCommand(ctx context.Context, a *arguments) (event, error) {
	switch key, _ := a.keyword("open", "shut", "move"); key {
	case "open":
		return s.caseOpen(ctx, a)
	case "shut":
		ref, err := s.caseOf(ctx, a)
		if err != nil {
			return nil, err
		}
		e, err := s.plain(ctx, "case", a, station.ShutCase{Case: ref, Why: mesh.Label(a.rest())})
		return s.sayBeside(ctx, e, err)
	case "move":
		ref, err := s.caseOf(ctx, a)
		if err != nil {
			return nil, err
		}
		to := a.rest()
		if to == "" {
			return nil, a.bad()
		}
		return s.plain(ctx, "case", a, station.MoveCase{Case: ref, To: mesh.Label(to)})
	}
	return nil, a.bad()
}

// caseOpen reads ROOM [WHAT] [hurry] [label L] [follows A1] [anyway].
func (s *session) caseOpen(ctx context.Context, a *arguments) (event, error) {
	room, more := a.next()
	if !more {
		return nil, a.bad()
	}
	act := station.OpenCase{Case: requests.CaseOpen{Room: mesh.ID(room)}}
	for len(a.words) > 0 {
		key, _ := a.keyword(wordHurry, wordLabel, wordFollows, wordAnyway)
		switch key {
		case wordHurry:
			act.Case.Hurry = true
			continue
		case wordAnyway:
			act.Anyway = true
			continue
		}
		value, more := a.next()
		if !more || key == "" && act.Case.What != "" {
			return nil, a.bad()
		}
		switch key {
		case wordLabel:
			act.Case.Label = mesh.Label(value)
		case wordFollows:
			err := s.view(ctx, func(v station.View) error {
				c, known := caseIn(v.Board, mesh.ID(value))
				act.Case.Follows = c.Ref
				if !known {
					return station.ErrNoCase
				}
				return nil
			})
			if err != nil {
				return nil, err
			}
		default:
			act.Case.What = mesh.ID(value)
		}
	}
	e, err := s.plain(ctx, "case", a, act)
	return s.sayBeside(ctx, e, err)
}

func (s *session) role(ctx context.Context, a *arguments) (event, error) {
	tag, _ := a.next()
	role, more := a.next()
	ref, err := s.caseOf(ctx, a)
	if err == nil && !more {
		err = a.bad()
	}
	if err == nil {
		err = a.done()
	}
	if err == nil {
		err = s.knownRole(ctx, mesh.ID(role))
	}
	if err != nil {
		return nil, err
	}
	return s.plain(ctx, "role", a, station.TakeRole{Case: ref, Tag: mesh.Tag(tag), Role: mesh.ID(role)})
}

func (s *session) tick(ctx context.Context, a *arguments) (event, error) {
	list, _ := a.next()
	line, more := a.next()
	if !more {
		return nil, a.bad()
	}
	_, off := a.keyword(wordOff)
	ref, err := s.caseOf(ctx, a)
	if err == nil {
		err = s.knownList(ctx, mesh.ID(list))
	}
	if err != nil {
		return nil, err
	}
	act := station.TickLine{Case: ref, List: mesh.ID(list), Line: mesh.ID(line), Done: !off, Words: mesh.Text(a.rest())}
	return s.plain(ctx, "tick", a, act)
}

func (s *session) ppe(ctx context.Context, a *arguments) (event, error) {
	wearer, _ := a.next()
	checker, more := a.next()
	if !more {
		return nil, a.bad()
	}
	act := station.CheckPPE{Wearer: mesh.Tag(wearer), Checker: mesh.Tag(checker), Good: true}
	for {
		key, found := a.keyword(wordOff, wordBad)
		if !found {
			break
		}
		act.Off, act.Good = act.Off || key == wordOff, act.Good && key != wordBad
	}
	var err error
	if act.Case, err = s.caseOf(ctx, a); err != nil {
		return nil, err
	}
	act.Words = mesh.Text(a.rest())
	return s.plain(ctx, "ppe", a, act)
}

func (s *session) skip(ctx context.Context, a *arguments) (event, error) {
	list, more := a.next()
	if !more {
		return nil, a.bad()
	}
	ref, err := s.caseOf(ctx, a)
	if err == nil {
		err = s.knownList(ctx, mesh.ID(list))
	}
	if err != nil {
		return nil, err
	}
	act := station.Skip{Case: ref, List: mesh.ID(list)}
	for {
		line, more := a.next()
		if !more {
			return s.plain(ctx, "skip", a, act)
		}
		act.Lines = append(act.Lines, mesh.ID(line))
	}
}

// number takes the whole number behind a keyword.
func (a *arguments) number(bits int) (int64, error) {
	text, more := a.next()
	n, err := strconv.ParseInt(text, 10, bits)
	if !more || err != nil || n < 0 {
		return 0, a.bad()
	}
	return n, nil
}

// test asks for an answer from outside. Battery, charger and free space are
// this machine's own where it knows them and the line does not say.
func (s *session) test(ctx context.Context, a *arguments) (event, error) {
	now := s.dev.Condition()
	act := station.TestComms{Battery: now.Battery, Charging: now.Charging, DiskMB: now.DiskMB, ScreenOn: true}
	for len(a.words) > 0 {
		key, _ := a.keyword(wordDoor, wordRoom, wordBattery, wordCharging, wordLocked)
		switch key {
		case wordCharging:
			act.Charging = true
		case wordLocked:
			act.ScreenOn = false
		case wordBattery:
			n, err := a.percent()
			if err != nil {
				return nil, err
			}
			act.Battery = n
		case wordDoor, wordRoom:
			value, more := a.next()
			if !more {
				return nil, a.bad()
			}
			if key == wordDoor {
				act.Door = mesh.ID(value)
			} else {
				act.Room = mesh.ID(value)
			}
		default:
			return nil, a.bad()
		}
	}
	if err := s.knownRoom(ctx, act.Room); err != nil {
		return nil, err
	}
	return s.plain(ctx, "test", a, act)
}

func (s *session) hearTest(ctx context.Context, a *arguments) (event, error) {
	ref, err := s.fact(ctx, a, "test")
	if err != nil {
		return nil, err
	}
	_, sound := a.keyword(wordSound)
	if err := a.done(); err != nil {
		return nil, err
	}
	return s.plain(ctx, "hear-test", a, station.HearTest{Test: ref, Sound: sound})
}
