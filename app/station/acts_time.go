package station

import (
	"lintel/mesh"
	"lintel/requests"
)

// Acts of the scribe, and of the debrief.
type (
	// NoteTime notes that something happened: now, or when the By says.
	NoteTime struct {
		Case    mesh.Ref
		What    mesh.ID
		Attempt uint32 // 0: the next one, where the line counts attempts
		Aerosol bool   // set also where the line says so
		Words   mesh.Text
	}
	// CorrectTime says when something really happened; both stay.
	CorrectTime struct {
		Names    mesh.Ref
		Happened mesh.Wall
		WithinMS uint32
	}
	// TieChart ties the patient monitor's clock to this device's.
	TieChart struct {
		Case     mesh.Ref
		Monitor  mesh.Wall // the full minute that it showed, as if UTC
		WithinMS uint32    // 0: TieWithinMS
	}
	// HoldDebrief says whether a debrief was held.
	HoldDebrief struct {
		Case mesh.Ref
		Held bool
		Why  mesh.Text
	}
	// AnswerLine answers a plain question of the debrief.
	AnswerLine struct {
		Case  mesh.Ref
		Line  mesh.ID
		Words mesh.Text
	}
)

// Marks of the lines of the list of times.
const (
	TimeAerosol uint32 = 1 // an aerosol event
	TimeAttempt uint32 = 2 // it has the number of an attempt
	TimeStarts  uint32 = 4 // it starts a clock
	TimeFront   uint32 = 8 // it stands on the front page
)

// TieWithinMS is how exactly a finger meets the full minute of a monitor.
const TieWithinMS = 1000

func (a NoteTime) parts(m *maker) error {
	if err := m.line("time", a.What); err != nil {
		return err
	}
	of, err := m.happened(a.Case)
	if err != nil {
		return err
	}
	body := requests.Time{Case: of, What: a.What, Attempt: a.Attempt, Aerosol: a.Aerosol, Words: a.Words}
	line, _ := m.view.Board.ListLine("time", a.What)
	if line.Marks&TimeAerosol != 0 {
		body.Aerosol = true
	}
	if line.Marks&TimeAttempt != 0 && body.Attempt == 0 {
		body.Attempt = m.attempt(of, a.What)
	}
	m.add(requests.KindTime, &body)
	return nil
}

// attempt is the number of the next attempt.
func (m *maker) attempt(of mesh.Ref, what mesh.ID) (n uint32) {
	c, _ := m.view.Board.Case(of)
	for _, x := range c.Moments {
		if x.What == what {
			n = max(n, x.Attempt)
		}
	}
	return n + 1
}

func (a CorrectTime) parts(m *maker) error {
	if err := m.fact(a.Names); err != nil {
		return err
	}
	if a.Happened <= 0 {
		return ErrWhen
	}
	m.ref = a.Names
	m.add(requests.KindLateTime, &requests.LateTime{Names: a.Names, Happened: a.Happened, WithinMS: a.WithinMS})
	return nil
}

func (a TieChart) parts(m *maker) error {
	c, err := m.known(a.Case)
	if err != nil {
		return err
	}
	if a.Monitor <= 0 {
		return ErrWhen
	}
	body := requests.ChartClock{Case: c.Ref, Monitor: a.Monitor, WithinMS: a.WithinMS}
	if body.WithinMS == 0 {
		body.WithinMS = TieWithinMS
	}
	m.add(requests.KindChartClock, &body)
	return nil
}

func (a HoldDebrief) parts(m *maker) error {
	c, err := m.known(a.Case)
	if err != nil {
		return err
	}
	if !a.Held && a.Why == "" {
		return ErrNoReason
	}
	m.add(requests.KindDebrief, &requests.Debrief{Case: c.Ref, Held: a.Held, Why: a.Why})
	return nil
}

func (a AnswerLine) parts(m *maker) error {
	if err := m.line("debrief", a.Line); err != nil {
		return err
	}
	c, err := m.known(a.Case)
	if err != nil {
		return err
	}
	m.add(requests.KindDebriefLine, &requests.DebriefLine{Case: c.Ref, Line: a.Line, Words: a.Words})
	return nil
}
