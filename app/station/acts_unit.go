package station

import (
	"errors"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// ErrNothing says that an act has nothing to record.
var ErrNothing = errors.New("there is nothing to record")

// Lines writes lines of the unit's own lists, each in place of what stands
// there. An entry takes at most LinesMax of them.
type Lines struct {
	Rooms []requests.RoomLine
	Pars  []kits.ParLine
}

// LinesMax is how many lines fit one entry beside its By.
const LinesMax = mesh.PartsMax - 1

func (a Lines) parts(m *maker) error {
	if len(a.Rooms)+len(a.Pars) == 0 {
		return ErrNothing
	}
	for _, r := range a.Rooms {
		r.Replaces = m.view.Board.RoomWrites(r.ID)
		m.add(requests.KindRoomLine, &r)
	}
	for _, p := range a.Pars {
		stands, _ := m.view.Ledger.Par(p.Place, p.Item)
		p.Replaces = stands.Writes
		m.add(kits.KindParLine, &p)
	}
	return nil
}
