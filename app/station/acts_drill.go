package station

import (
	"lintel/mesh"
	"lintel/requests"
)

// Acts of an exercise, and of a call that is repeated.
type (
	// StartDrill begins an exercise in a room.
	StartDrill struct {
		Case  mesh.Ref
		Room  mesh.ID
		Label mesh.Label
	}
	// GiveInject gives an event of an exercise.
	GiveInject struct {
		Drill mesh.Ref // zero: the exercise in this device's room
		What  mesh.ID
		Words mesh.Text
	}
	// SecondPatient opens a second case as an exercise, in a room without one: the
	// inject of that name proposes it.
	SecondPatient struct {
		Room  mesh.ID
		Label mesh.Label
	}
	// EndDrill says "this is real": the exercise is over everywhere, with any
	// other that somebody began in the same room.
	EndDrill struct{ Drill mesh.Ref } // zero: the exercise in this device's room
	// Remind is a person's "call again" or "still on it?".
	Remind struct {
		Request mesh.Ref
		Level   uint8 // 0: 1
	}
)

// besideMax is how many more exercises one entry can end, beside its By and the first.
const besideMax = mesh.PartsMax - 2

func (a StartDrill) parts(m *maker) error {
	of, room, err := m.where(a.Case, a.Room)
	if err != nil {
		return err
	}
	m.add(requests.KindDrill, &requests.Drill{Case: of, Room: room, Label: a.Label})
	return nil
}

func (a GiveInject) parts(m *maker) error {
	if err := m.line("inject", a.What); err != nil {
		return err
	}
	drill, err := m.drill(a.Drill)
	if err != nil {
		return err
	}
	m.add(requests.KindInject, &requests.Inject{Drill: drill, What: a.What, Words: a.Words})
	return nil
}

func (a SecondPatient) parts(m *maker) error {
	if a.Room == "" {
		return ErrNoRoom
	}
	if _, open := m.view.Board.CaseIn(a.Room); open {
		return &NamedError{Err: ErrCaseThere, Name: a.Room}
	}
	of := m.add(requests.KindCaseOpen, &requests.CaseOpen{Room: a.Room, Label: a.Label})
	m.ref = m.add(requests.KindDrill, &requests.Drill{Case: of, Room: a.Room, Label: a.Label})
	return nil
}

func (a EndDrill) parts(m *maker) error {
	drill, err := m.drill(a.Drill)
	if err != nil {
		return err
	}
	m.ref = drill
	m.add(requests.KindThisIsReal, &requests.ThisIsReal{Drill: drill})
	others := m.view.Board.DrillsBeside(drill)
	for _, other := range others[:min(len(others), besideMax)] {
		m.add(requests.KindThisIsReal, &requests.ThisIsReal{Drill: other})
	}
	return nil
}

// drill is the exercise that is meant.
func (m *maker) drill(ref mesh.Ref) (mesh.Ref, error) {
	if !ref.IsZero() {
		return ref, m.fact(ref)
	}
	var found []mesh.Ref
	for _, room := range m.rooms() {
		if d, on := m.view.Board.DrillIn(room); on {
			found = append(found, d.Ref)
		}
	}
	switch len(found) {
	case 0:
		return mesh.Ref{}, ErrNoDrill
	case 1:
		return found[0], nil
	}
	return mesh.Ref{}, ErrManyCases
}

func (a Remind) parts(m *maker) error {
	r, err := m.request(a.Request)
	if err != nil {
		return err
	}
	m.add(requests.KindReminded, &requests.Reminded{Names: r.Ref, Level: max(a.Level, 1)})
	return nil
}
