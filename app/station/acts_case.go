package station

import (
	"fmt"

	"lintel/mesh"
	"lintel/requests"
)

// Acts of a case, before the door closes and when it is over. A case that is
// left out is the open one of the room, or of the rooms that this device is for.
type (
	// OpenCase begins a case. Where one is open already it is ErrCaseThere,
	// unless Anyway is set.
	OpenCase struct {
		Case   requests.CaseOpen
		Anyway bool
	}
	// ShutCase ends a case.
	ShutCase struct {
		Case mesh.Ref
		Why  mesh.Label
	}
	// MoveCase says that a case goes on elsewhere.
	MoveCase struct {
		Case mesh.Ref
		To   mesh.Label
	}
	// TakeRole says what a person does in a case.
	TakeRole struct {
		Case mesh.Ref
		Tag  mesh.Tag
		Role mesh.ID
	}
	// TickLine ticks a line of a list, or takes the tick away.
	TickLine struct {
		Case  mesh.Ref
		List  mesh.ID
		Line  mesh.ID
		Done  bool
		Words mesh.Text
	}
	// CheckPPE says that one person's protective equipment was checked by another.
	CheckPPE struct {
		Case    mesh.Ref
		Wearer  mesh.Tag
		Checker mesh.Tag
		Off     bool // at doffing
		Good    bool
		Words   mesh.Text
	}
	// Skip lists what was left out; without lines all of the list that is not
	// done yet.
	Skip struct {
		Case  mesh.Ref
		List  mesh.ID
		Lines []mesh.ID
	}
	// TestComms is this device's test request with the door shut.
	TestComms struct {
		Case     mesh.Ref
		Room     mesh.ID // as on the screen; empty: of the case
		Battery  int32   // per cent; -1: not known
		Charging bool
		DiskMB   uint64 // 0: not known
		ScreenOn bool
		Door     mesh.ID // as read on the door; empty: not read
	}
	// HearTest answers a test request from outside.
	HearTest struct {
		Test        mesh.Ref
		Sound       bool   // a person heard the call
		RoundTripMS uint32 // 0: as measured in the link to that device
	}
	// Condition says how this device is.
	Condition struct {
		Battery  int32 // per cent; -1: not known
		Charging bool
		DiskMB   uint64 // 0: not known
	}
)

// skippedMax is how many lines one Skipped names.
const skippedMax = 250

func (a OpenCase) parts(m *maker) error {
	if a.Case.Room == "" {
		return ErrNoRoom
	}
	if a.Case.What != "" {
		if err := m.line("what", a.Case.What); err != nil {
			return err
		}
	}
	if c, open := m.view.Board.CaseIn(a.Case.Room); open && !a.Anyway {
		return &NamedError{Err: ErrCaseThere, Name: c.Room}
	}
	m.add(requests.KindCaseOpen, &a.Case)
	return nil
}

func (a ShutCase) parts(m *maker) error {
	c, err := m.known(a.Case)
	if err == nil && a.Case.IsZero() && c.Over {
		err = ErrNoCase // the one that is meant by itself is an open one
	}
	if err != nil {
		return err
	}
	m.add(requests.KindCaseShut, &requests.CaseShut{Case: c.Ref, Why: a.Why})
	return nil
}

func (a MoveCase) parts(m *maker) error {
	c, err := m.known(a.Case)
	if err != nil {
		return err
	}
	if a.To == "" {
		return ErrNothing
	}
	m.add(requests.KindCaseMoved, &requests.CaseMoved{Case: c.Ref, To: a.To})
	return nil
}

func (a TakeRole) parts(m *maker) error {
	if err := tags(a.Tag); err != nil {
		return err
	}
	if _, known := m.view.Board.Role(a.Role); !known {
		return fmt.Errorf("%w: %s", ErrNoRole, a.Role)
	}
	of, err := m.happened(a.Case)
	if err != nil {
		return err
	}
	m.add(requests.KindRoleTaken, &requests.RoleTaken{Case: of, Tag: a.Tag, Role: a.Role})
	return nil
}

func (a TickLine) parts(m *maker) error {
	if err := m.line(a.List, a.Line); err != nil {
		return err
	}
	of, err := m.happened(a.Case)
	if err != nil {
		return err
	}
	m.add(requests.KindLineDone, &requests.LineDone{Case: of, List: a.List, Line: a.Line, Done: a.Done, Words: a.Words})
	return nil
}

func (a CheckPPE) parts(m *maker) error {
	if err := tags(a.Wearer); err != nil {
		return err
	}
	of, err := m.happened(a.Case)
	if err != nil {
		return err
	}
	m.add(requests.KindPPECheck, &requests.PPECheck{
		Case: of, Wearer: a.Wearer, Checker: a.Checker, Off: a.Off, Good: a.Good, Words: a.Words,
	})
	return nil
}

func (a Skip) parts(m *maker) error {
	c, err := m.known(a.Case)
	if err != nil {
		return err
	}
	lines := a.Lines
	for _, l := range lines {
		if err := m.line(a.List, l); err != nil {
			return err
		}
	}
	if len(lines) == 0 {
		for _, l := range m.view.Board.NotDone(c, a.List) {
			lines = append(lines, l.ID)
		}
	}
	if len(lines) == 0 || len(lines) > skippedMax {
		return ErrNothing
	}
	m.add(requests.KindSkipped, &requests.Skipped{Case: c.Ref, List: a.List, Lines: lines})
	return nil
}

func (a TestComms) parts(m *maker) error {
	of, room, err := m.where(a.Case, a.Room)
	if err != nil {
		return err
	}
	m.add(requests.KindTestAsked, &requests.TestAsked{
		Case: of, Room: room, Battery: a.Battery, Charging: a.Charging, DiskMB: a.DiskMB, ScreenOn: a.ScreenOn, Door: a.Door,
	})
	return nil
}

func (a HearTest) parts(m *maker) error {
	if err := m.fact(a.Test); err != nil {
		return err
	}
	body := requests.TestHeard{Names: a.Test, Sound: a.Sound, RoundTripMS: a.RoundTripMS}
	if body.RoundTripMS == 0 {
		body.RoundTripMS = m.roundTrip(a.Test.Author())
	}
	m.add(requests.KindTestHeard, &body)
	return nil
}

// roundTrip is what was measured in the link to a device; 0: not measured.
func (m *maker) roundTrip(device mesh.Key) (ms uint32) {
	for _, p := range m.view.Peer.Peers() {
		if p.Peer == device && p.RoundTrip > 0 {
			ms = uint32(max(p.RoundTrip.Milliseconds(), 1))
		}
	}
	return ms
}

func (a Condition) parts(m *maker) error {
	m.add(requests.KindCondition, &requests.Condition{Battery: a.Battery, Charging: a.Charging, DiskMB: a.DiskMB})
	return nil
}
