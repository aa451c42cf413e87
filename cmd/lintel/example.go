package main

import (
	"context"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// begin opens an invented case behind the first door of this device, with its
// people checked and inside, so that every page of a demonstration has
// something to show.
func (w *worker) begin(ctx context.Context) error {
	w.mu.Lock()
	rooms := w.holds.Rooms
	w.mu.Unlock()
	if len(rooms) == 0 {
		return &fault{id: "text"}
	}
	r, err := w.Do(ctx, w.by(), station.OpenCase{Case: requests.CaseOpen{Room: rooms[0], What: "intubation", Label: "1"}})
	if err != nil {
		return err
	}
	return w.doAll(ctx, team(r.Ref))
}

// team is who does what in an invented case.
func team(of mesh.Ref) (acts []station.Act) {
	for _, p := range []struct {
		role mesh.ID
		tag  mesh.Tag
	}{{"lead", "L1"}, {"assistant", "D1"}, {"runner", "R1"}, {"observer", "O1"}, {"charge", "C1"}} {
		acts = append(acts, station.TakeRole{Case: of, Tag: p.tag, Role: p.role})
	}
	return append(acts,
		station.CheckPPE{Case: of, Wearer: "L1", Checker: "D1", Good: true}, station.CheckPPE{Case: of, Wearer: "D1", Checker: "L1", Good: true},
		station.GoIn{Case: of, Tag: "L1", Checker: "O1"}, station.GoIn{Case: of, Tag: "D1", Checker: "O1"})
}
