package station

import (
	"lintel/mesh"
	"lintel/requests"
)

// Acts of people and of phrases. A case that is left out is filled in as for
// the acts of a case; where the room has none yet, what happened begins one,
// so that it is recorded all the same.
type (
	// Say says one of the fixed phrases.
	Say struct {
		Case   mesh.Ref
		Room   mesh.ID
		Phrase mesh.ID
		Out    bool // from inside to outside
	}
	// Hear says that a person heard a phrase, or knows of a breach.
	Hear struct{ Said mesh.Ref }
	// GoIn says that a person went into a zone.
	GoIn struct {
		Case    mesh.Ref
		Tag     mesh.Tag
		Zone    mesh.ID // empty: the innermost of the room
		Checker mesh.Tag
	}
	// ComeOut says that a person came out of a zone.
	ComeOut struct {
		Case    mesh.Ref
		Tag     mesh.Tag
		Zone    mesh.ID // empty: where the person is, else the innermost of the room
		Checker mesh.Tag
	}
	// ReportBreach says that protective equipment failed, or that a person must
	// get out.
	ReportBreach struct {
		Case  mesh.Ref
		Tag   mesh.Tag
		What  mesh.ID
		Words mesh.Text
	}
	// DoffStep says that a step of doffing was read aloud and done.
	DoffStep struct {
		Case    mesh.Ref
		Tag     mesh.Tag
		Step    mesh.ID
		Checker mesh.Tag
		Good    bool
	}
	// MeasureDoor is an opening or shutting of the door that was measured.
	MeasureDoor struct {
		Room mesh.ID
		Open bool
	}
)

func (a Say) parts(m *maker) error {
	list := mesh.ID("phrase-in")
	if a.Out {
		list = "phrase-out"
	}
	if err := m.line(list, a.Phrase); err != nil {
		return err
	}
	of, room, err := m.where(a.Case, a.Room)
	if err != nil {
		return err
	}
	m.add(requests.KindSaid, &requests.Said{Case: of, Room: room, Phrase: a.Phrase, Out: a.Out})
	return nil
}

func (a Hear) parts(m *maker) error {
	if err := m.fact(a.Said); err != nil {
		return err
	}
	m.ref = a.Said
	m.add(requests.KindSaidHeard, &requests.SaidHeard{Names: a.Said})
	return nil
}

func (a GoIn) parts(m *maker) error {
	if err := tags(a.Tag); err != nil {
		return err
	}
	of, err := m.happened(a.Case)
	if err != nil {
		return err
	}
	zone, err := m.zone(of, a.Zone)
	if err != nil {
		return err
	}
	m.add(requests.KindEntered, &requests.Entered{Case: of, Tag: a.Tag, Zone: zone, Checker: a.Checker})
	return nil
}

func (a ComeOut) parts(m *maker) error {
	if err := tags(a.Tag); err != nil {
		return err
	}
	of, err := m.happened(a.Case)
	if err != nil {
		return err
	}
	zone := a.Zone
	if c, known := m.view.Board.Case(of); known && zone == "" {
		for _, p := range c.People {
			if p.Tag == a.Tag {
				zone = p.Zone
			}
		}
	}
	if zone, err = m.zone(of, zone); err != nil {
		return err
	}
	m.add(requests.KindLeft, &requests.Left{Case: of, Tag: a.Tag, Zone: zone, Checker: a.Checker})
	return nil
}

func (a ReportBreach) parts(m *maker) error {
	if err := m.line("breach", a.What); err != nil {
		return err
	}
	of, err := m.happened(a.Case)
	if err != nil {
		return err
	}
	m.add(requests.KindBreach, &requests.Breach{Case: of, Tag: a.Tag, What: a.What, Words: a.Words})
	return nil
}

func (a DoffStep) parts(m *maker) error {
	if err := tags(a.Tag); err != nil {
		return err
	}
	if err := m.line("doff", a.Step); err != nil {
		return err
	}
	of, err := m.happened(a.Case)
	if err != nil {
		return err
	}
	m.add(requests.KindDoffStep, &requests.DoffStep{Case: of, Tag: a.Tag, Step: a.Step, Checker: a.Checker, Good: a.Good})
	return nil
}

func (a MeasureDoor) parts(m *maker) error {
	_, room, err := m.where(mesh.Ref{}, a.Room)
	if err != nil {
		return err
	}
	m.add(requests.KindDoor, &requests.Door{Room: room, Open: a.Open})
	return nil
}
