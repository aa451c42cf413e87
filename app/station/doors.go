package station

import (
	"slices"

	"lintel/mesh"
	"lintel/requests"
)

// Doors are the rooms that this device is for: those it names, else all that
// were described or that have a case. Sorted, each once.
func (v View) Doors() []mesh.ID {
	h, _ := v.Board.Holder(v.Peer.Self())
	ids := slices.Clone(h.Rooms)
	if len(ids) == 0 {
		for _, r := range v.Board.Rooms() {
			ids = append(ids, r.ID)
		}
		for _, c := range v.Board.Cases() {
			ids = append(ids, c.Room)
		}
	}
	slices.Sort(ids)
	return slices.Compact(ids)
}

// CaseAt is the case that is open behind a door, else the last one there; its
// Ref is zero if there was none.
func (v View) CaseAt(room mesh.ID) (c requests.Case, open bool) {
	if c, open = v.Board.CaseIn(room); open {
		return c, true
	}
	for _, x := range v.Board.Cases() {
		if x.Room == room {
			c = x
		}
	}
	return c, false
}
