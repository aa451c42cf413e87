package station

import (
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Acts of what is inside. A case or room that is left out is filled in as for
// the acts of a case.
type (
	// EndItem says what became of something inside: used, broken, wasted …
	EndItem struct {
		Case  mesh.Ref
		Room  mesh.ID
		Thing requests.Thing
		Lot   mesh.Label
		End   kits.PlaceSort // one of the ends
		Why   mesh.Label
	}
	// DrawUp says that containers inside became one labelled syringe, which is
	// from then on named by the mark.
	DrawUp struct {
		Case      mesh.Ref
		Room      mesh.ID
		Thing     requests.Thing // the containers
		VolumeUL  int64          // in the syringe
		Label     mesh.Label     // as written on it
		DrawnBy   mesh.Tag
		CheckedBy mesh.Tag
	}
	// LeaveWith says that something goes on with the patient: containers or
	// equipment, or a syringe.
	LeaveWith struct {
		Case       mesh.Ref
		Room       mesh.ID
		Thing      requests.Thing // left out: a syringe
		Syringe    mesh.Ref
		Unit       mesh.Label // the next unit
		ReceivedBy mesh.Tag
	}
)

// isEnd tells whether a place is where things end.
func isEnd(s kits.PlaceSort) bool { return s >= kits.Used && s <= kits.LeftWithPatient }

func (a EndItem) parts(m *maker) error {
	t, err := m.thing(a.Thing)
	if err != nil {
		return err
	}
	if !isEnd(a.End) || a.End == kits.LeftWithPatient { // that is LeaveWith
		return ErrNoEnd
	}
	of, room, err := m.where(a.Case, a.Room)
	if err != nil {
		return err
	}
	line := kits.Containers(t.Item, int64(t.Count))
	line.Lot = a.Lot
	m.add(kits.KindMoved, &kits.Moved{
		From: kits.Place{Sort: kits.InRoom, ID: room}, To: kits.Place{Sort: a.End, ID: room}, Lines: []kits.Line{line}, Case: of, Why: a.Why,
	})
	return nil
}

func (a DrawUp) parts(m *maker) error {
	t, err := m.thing(a.Thing)
	if err != nil {
		return err
	}
	item, _ := m.view.Ledger.Item(t.Item)
	if item.Value.Content.N == 0 || a.VolumeUL <= 0 {
		return ErrNoDrug
	}
	of, room, err := m.where(a.Case, a.Room)
	if err != nil {
		return err
	}
	m.add(kits.KindDrawnUp, &kits.DrawnUp{
		Case: of, At: kits.Place{Sort: kits.InRoom, ID: room}, Lines: []kits.Line{kits.Containers(t.Item, int64(t.Count))}, Item: t.Item,
		Amount:   kits.Quantity{N: item.Value.Content.N * int64(t.Count), Measure: item.Value.Content.Measure},
		VolumeUL: a.VolumeUL, Label: a.Label, DrawnBy: a.DrawnBy, CheckedBy: a.CheckedBy,
	})
	return nil
}

func (a LeaveWith) parts(m *maker) error {
	of, room, err := m.where(a.Case, a.Room)
	if err != nil {
		return err
	}
	var line kits.Line
	if a.Syringe.IsZero() {
		t, err := m.thing(a.Thing)
		if err != nil {
			return err
		}
		line = kits.Containers(t.Item, int64(t.Count))
	} else {
		mv, known := m.view.Ledger.Movement(a.Syringe)
		if !known || mv.Kind != kits.KindDrawnUp {
			return ErrNoSyringe
		}
		line = mv.Syringe
	}
	m.add(kits.KindLeftWith, &kits.LeftWith{
		From: kits.Place{Sort: kits.InRoom, ID: room}, Lines: []kits.Line{line}, Case: of, Unit: a.Unit, ReceivedBy: a.ReceivedBy,
	})
	return nil
}
