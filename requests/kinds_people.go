package requests

import "lintel/mesh"

// Voices, people and times.
type (
	// Said is one of the fixed phrases, in either direction.
	Said struct {
		Case   mesh.Ref
		Room   mesh.ID
		Phrase mesh.ID
		Out    bool // from inside to outside
	}
	// SaidHeard: a person heard it.
	SaidHeard struct{ Names mesh.Ref }
	// Entered: a person went into a zone.
	Entered struct {
		Case    mesh.Ref
		Tag     mesh.Tag
		Zone    mesh.ID
		Checker mesh.Tag // who checked the PPE; empty: nobody
	}
	// Left: a person came out of a zone.
	Left struct {
		Case    mesh.Ref
		Tag     mesh.Tag
		Zone    mesh.ID
		Checker mesh.Tag
	}
	// Breach: protective equipment failed, or a person must get out.
	Breach struct {
		Case  mesh.Ref
		Tag   mesh.Tag
		What  mesh.ID // glove, splash, sharps, faint, out
		Words mesh.Text
	}
	// DoffStep: one step of doffing was read aloud and done.
	DoffStep struct {
		Case    mesh.Ref
		Tag     mesh.Tag
		Step    mesh.ID
		Checker mesh.Tag
		Good    bool
	}
	// Door is a measured opening or shutting.
	Door struct {
		Room mesh.ID
		Open bool
	}
	// Condition is how a device is: what it can go on with.
	Condition struct {
		Battery  int32 // per cent; -1: not known
		Charging bool
		DiskMB   uint64 // free
	}
	// Time is a moment that the scribe notes; when it happened is in By.
	Time struct {
		Case    mesh.Ref
		What    mesh.ID
		Attempt uint32 // 0: it has no number
		Aerosol bool
		Words   mesh.Text
	}
	// ChartClock ties the patient monitor's clock to the device's.
	ChartClock struct {
		Case     mesh.Ref
		Monitor  mesh.Wall // the full minute that the monitor showed, as if UTC
		WithinMS uint32
	}
	// LateTime corrects when something happened; both stay.
	LateTime struct {
		Names    mesh.Ref
		Happened mesh.Wall
		WithinMS uint32
	}
	// Debrief says whether one was held.
	Debrief struct {
		Case mesh.Ref
		Held bool
		Why  mesh.Text
	}
	// DebriefLine is an answer to a plain question.
	DebriefLine struct {
		Case  mesh.Ref
		Line  mesh.ID
		Words mesh.Text
	}
	// Drill begins an exercise in a room.
	Drill struct {
		Case  mesh.Ref
		Room  mesh.ID
		Label mesh.Label
	}
	// Inject is an event that the drill lead gives.
	Inject struct {
		Drill mesh.Ref
		What  mesh.ID
		Words mesh.Text
	}
	// ThisIsReal ends a drill everywhere.
	ThisIsReal struct{ Drill mesh.Ref }
)

// Valid reports a battery that is neither a share nor unknown.
func (c Condition) Valid() error { return mesh.Within("battery", int64(c.Battery), -1, 100) }
