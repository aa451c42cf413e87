package charge

import (
	"slices"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
)

// Room is one closed room as it stands.
type Room struct {
	ID    mesh.ID
	Name  string
	Case  mesh.Ref // that is open there; zero: none
	Lines int      // of what is inside or at its door
	Gaps  []kits.Gap
}

// ready says of every room what it lacks.
func (s *Snapshot) ready(v station.View) {
	in := v.ReadyInput(0)
	s.rooms(v)
	for i := range s.Rooms {
		if n := slices.IndexFunc(in.Rooms, func(r kits.ReadyRoom) bool { return r.Room == s.Rooms[i].ID }); n >= 0 {
			s.Rooms[i].Lines = int(in.Rooms[n].Uncounted)
		}
	}
	for _, g := range kits.Ready(in) {
		if i := slices.IndexFunc(s.Rooms, func(r Room) bool { return r.ID == g.Room }); i >= 0 {
			s.Rooms[i].Gaps = append(s.Rooms[i].Gaps, g)
		}
	}
}
