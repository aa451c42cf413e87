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
		// DiscardAfter is when it must not be given any more; 0: not said.
		DiscardAfter mesh.Wall
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
	inside := kits.Place{Sort: kits.InRoom, ID: room}
	for _, x := range m.shares(inside, t.Item, int64(t.Count), a.Lot) {
		m.add(kits.KindMoved, &kits.Moved{
			From: inside, To: kits.Place{Sort: a.End, ID: room}, Lines: x.lines, Case: of, Issue: x.issue, Why: a.Why,
		})
	}
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
	inside := kits.Place{Sort: kits.InRoom, ID: room}
	m.add(kits.KindDrawnUp, &kits.DrawnUp{
		Case: of, At: inside, Lines: m.flat(m.shares(inside, t.Item, int64(t.Count), "")), Item: t.Item, Issue: m.issueOf(inside, t.Item),
		Amount:   kits.Quantity{N: item.Value.Content.N * int64(t.Count), Measure: item.Value.Content.Measure},
		VolumeUL: a.VolumeUL, Label: a.Label, DrawnBy: a.DrawnBy, CheckedBy: a.CheckedBy, DiscardAfter: a.DiscardAfter,
	})
	return nil
}

func (a LeaveWith) parts(m *maker) error {
	of, room, err := m.where(a.Case, a.Room)
	if err != nil {
		return err
	}
	inside := kits.Place{Sort: kits.InRoom, ID: room}
	var shares []shared
	if a.Syringe.IsZero() {
		t, err := m.thing(a.Thing)
		if err != nil {
			return err
		}
		shares = m.shares(inside, t.Item, int64(t.Count), "")
	} else {
		mv, known := m.view.Ledger.Movement(a.Syringe)
		if !known || mv.Kind != kits.KindDrawnUp {
			return ErrNoSyringe
		}
		line := mv.Syringe
		if left := m.view.Ledger.Balance(kits.Cell{Place: inside, Item: line.Item, Syringe: mv.Ref, Measure: line.Quantity.Measure}); left > 0 {
			line.Quantity.N = left // what was not given or thrown away before
		}
		shares = []shared{{lines: []kits.Line{line}, issue: mv.Issue}}
	}
	for _, x := range shares {
		m.add(kits.KindLeftWith, &kits.LeftWith{From: inside, Lines: x.lines, Case: of, Unit: a.Unit, ReceivedBy: a.ReceivedBy, Issue: x.issue})
	}
	return nil
}
