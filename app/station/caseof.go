package station

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"lintel/mesh"
	"lintel/requests"
)

// Errors of acts of a case. Nothing was recorded.
var (
	ErrNoCase    = errors.New("no case is open here")
	ErrManyCases = errors.New("several cases are open: the room has to be named")
	ErrCaseThere = errors.New("a case is open in this room")
	ErrDuring    = errors.New("not while a case is open")
	ErrNoTag     = errors.New("no tag was named")
	ErrNoZone    = errors.New("the room has no such zone")
	ErrNoLine    = errors.New("the list has no such line")
	ErrNoFact    = errors.New("nothing that was recorded has this name")
	ErrNoDrill   = errors.New("no drill goes on here")
	ErrWhen      = errors.New("no time was given")
	ErrNoReason  = errors.New("no reason was given")
	ErrTile      = errors.New("two tiles have the same place")
	ErrSetting   = errors.New("there is no such setting")

	ErrSettingValue = errors.New("the setting takes a whole number")
	ErrNoEnd        = errors.New("this is no end of a thing")
	ErrNoDrug       = errors.New("nothing is drawn up of this")
	ErrNoSyringe    = errors.New("there is no such syringe")
	ErrWrongDoor    = errors.New("it is for another door")
)

// WrongDoorError is an ErrWrongDoor that says which door was read and which
// one it is for.
type WrongDoorError struct{ Read, For mesh.ID }

// Error is for tests; people read the sentence of ErrWrongDoor.
func (e *WrongDoorError) Error() string {
	return fmt.Sprintf("%v: %s, not %s", ErrWrongDoor, e.For, e.Read)
}

// Unwrap makes it an ErrWrongDoor.
func (e *WrongDoorError) Unwrap() error { return ErrWrongDoor }

// NoLineError is an ErrNoLine that says which list lacks which line.
type NoLineError struct{ List, Line mesh.ID }

// Error is for tests; people read the sentence of ErrNoLine.
func (e *NoLineError) Error() string { return fmt.Sprintf("%v: %s %s", ErrNoLine, e.List, e.Line) }

// Unwrap makes it an ErrNoLine.
func (e *NoLineError) Unwrap() error { return ErrNoLine }

// NamedError is an error of an act about something that has a name: a room, a
// setting.
type NamedError struct {
	Err  error
	Name mesh.ID
}

// Error is for tests; people read the sentence of Err.
func (e *NamedError) Error() string { return fmt.Sprintf("%v: %s", e.Err, e.Name) }

// Unwrap gives the error.
func (e *NamedError) Unwrap() error { return e.Err }

// lateMax is how long after a case was shut what happens in its room still
// belongs to it, unless somebody says otherwise: doffing, leaving, late times.
const lateMax = 12 * time.Hour

// rooms are the rooms that the device is for: those it names, or all.
func (m *maker) rooms() (out []mesh.ID) {
	if h, held := m.view.Board.Holder(m.self); held && len(h.Rooms) > 0 {
		return slices.Compact(slices.Sorted(slices.Values(h.Rooms)))
	}
	for _, r := range m.view.Board.Rooms() {
		out = append(out, r.ID)
	}
	for _, c := range m.view.Board.Cases() {
		out = append(out, c.Room)
	}
	return slices.Compact(slices.Sorted(slices.Values(out)))
}

// known finds the case that is named, or that is open where this device is; if
// none is open, the one that was shut last.
func (m *maker) known(ref mesh.Ref) (requests.Case, error) {
	if !ref.IsZero() {
		if of, ok := m.view.Board.CaseOf(ref); ok {
			ref = of
		}
		c, known := m.view.Board.Case(ref)
		if !known {
			return c, ErrNoCase
		}
		return c, nil
	}
	return m.caseAmong(m.rooms())
}

// caseAmong is the case that is open in one of the rooms; if none is, the one
// that was shut last, unless that is long ago.
func (m *maker) caseAmong(rooms []mesh.ID) (requests.Case, error) {
	var open []requests.Case
	var shut requests.Case
	var last mesh.Wall
	for _, room := range rooms {
		if c, on := m.view.Board.CaseIn(room); on {
			open = append(open, c)
		}
	}
	switch {
	case len(open) == 1:
		return open[0], nil
	case len(open) > 1:
		return shut, ErrManyCases
	}
	earliest := m.view.Now.Wall - mesh.Wall(lateMax.Milliseconds())
	for _, c := range m.view.Board.Cases() {
		if len(c.Shut) == 0 || !slices.Contains(rooms, c.Room) {
			continue
		}
		if at := c.Shut[len(c.Shut)-1].Wall; at >= max(earliest, last) {
			shut, last = c, at
		}
	}
	if shut.Ref.IsZero() {
		return shut, ErrNoCase
	}
	return shut, nil
}

// where is the case of what is said or tried in a room, and that room. The case
// is zero where none was opened yet: then the room alone is recorded.
func (m *maker) where(ref mesh.Ref, room mesh.ID) (of mesh.Ref, in mesh.ID, err error) {
	if !ref.IsZero() {
		c, err := m.known(ref)
		if room == "" {
			room = c.Room
		}
		return c.Ref, room, err
	}
	rooms := []mesh.ID{room}
	if room == "" {
		rooms = m.rooms()
	}
	c, err := m.caseAmong(rooms)
	switch {
	case err == nil:
		return c.Ref, c.Room, nil
	case errors.Is(err, ErrNoCase) && len(rooms) == 1:
		return mesh.Ref{}, rooms[0], nil
	}
	return mesh.Ref{}, "", err
}

// happened is the case of what happened. Where the room has none, one begins
// with what happened, so that it is recorded; where it is not clear which room
// is meant, whoever records has to say.
func (m *maker) happened(ref mesh.Ref) (mesh.Ref, error) {
	of, room, err := m.where(ref, "")
	if err != nil || !of.IsZero() {
		return of, err
	}
	m.opened = requests.CaseOpen{Room: room}
	of = m.add(requests.KindCaseOpen, &m.opened)
	m.ref = mesh.MakeRef(m.self, m.tap, len(m.made))
	return of, nil
}

// openCase is the case of a request: the one named, or that is open in its room.
func (m *maker) openCase(ref mesh.Ref, room mesh.ID) mesh.Ref {
	if ref.IsZero() {
		c, _ := m.view.Board.CaseIn(room)
		return c.Ref
	}
	return ref
}

// roomOf is the room of a case, also of one that this entry begins.
func (m *maker) roomOf(of mesh.Ref) mesh.ID {
	if c, known := m.view.Board.Case(of); known {
		return c.Room
	}
	return m.opened.Room
}

// fact checks that something of a case was recorded under a name.
func (m *maker) fact(ref mesh.Ref) error {
	if _, known := m.view.Board.CaseOf(ref); known {
		return nil
	}
	if _, known := m.view.Board.RequestOf(ref); known {
		return nil
	}
	if slices.ContainsFunc(m.view.Board.Astray(), func(x requests.Mark) bool { return x.Ref == ref }) {
		return nil // said or done where no case was open
	}
	return ErrNoFact
}

// line checks a line of a list against a slip of the finger. A list that nobody
// has written is no reason to refuse.
func (m *maker) line(list, id mesh.ID) error {
	if line, known := m.view.Board.ListLine(list, id); known && !line.Gone {
		return nil
	}
	if id != "" && len(m.view.Board.List(list)) == 0 {
		return nil
	}
	return &NoLineError{List: list, Line: id}
}

// zone is the zone that is meant: the named one of the room, or its innermost.
func (m *maker) zone(of mesh.Ref, id mesh.ID) (mesh.ID, error) {
	room, known := m.view.Board.Room(m.roomOf(of))
	if !known || len(room.Zones) == 0 {
		if id == "" {
			id = "inside"
		}
		return id, nil
	}
	best := room.Zones[0]
	for _, z := range room.Zones {
		if z.ID == id {
			return id, nil
		}
		if z.Side >= best.Side {
			best = z
		}
	}
	if id != "" {
		return id, fmt.Errorf("%w: %s", ErrNoZone, id)
	}
	return best.ID, nil
}

// tags checks that somebody was named.
func tags(named ...mesh.Tag) error {
	if slices.Contains(named, "") {
		return ErrNoTag
	}
	return nil
}
