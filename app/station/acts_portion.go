package station

import (
	"lintel/kits"
	"lintel/mesh"
)

// Acts of whoever ends a drug beside the patient.
type (
	// EndDrug says that a portion was given, wasted or broke, and who saw it.
	EndDrug struct {
		Case    mesh.Ref
		Room    mesh.ID
		Portion Portion
		End     kits.PlaceSort // Given, Wasted or Broken
		Seen    Seen
	}
	// ReverseTap takes out everything that the tap of a movement moved: a portion
	// may belong to several issues, and may have been drawn up by the same tap.
	ReverseTap struct {
		Movement mesh.Ref
		Why      mesh.Label
	}
)

func (a EndDrug) parts(m *maker) error {
	switch a.End {
	case kits.Given, kits.Broken:
		return m.endPortion(a.Case, a.Room, a.Portion, a.End, "", a.Seen)
	case kits.Wasted:
		return m.endPortion(a.Case, a.Room, a.Portion, a.End, kits.WhyOpened, a.Seen)
	}
	return ErrNothing
}

func (a ReverseTap) parts(m *maker) error {
	if a.Why == "" {
		return ErrNoReason
	}
	known := false
	for part := range mesh.PartsMax {
		mv, is := m.view.Ledger.Movement(mesh.MakeRef(a.Movement.Author(), a.Movement.Tap(), part+1))
		if !is {
			continue
		}
		known = true
		if mv.Counts() {
			body := mv.Reverse(a.Why)
			m.add(kits.KindReversed, &body)
			m.ref = mv.Ref
		}
	}
	switch {
	case !known:
		return ErrNoMovement
	case m.ref.IsZero():
		return ErrNothing
	}
	return nil
}
