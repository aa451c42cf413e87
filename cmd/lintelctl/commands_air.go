package main

import (
	"context"
	"fmt"
	"strings"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits/calc"
	"lintel/mesh"
	"lintel/requests"
)

// airEvent is how long a room's air takes to clear.
type airEvent struct {
	Event   string  `json:"event"` // air
	Room    mesh.ID `json:"room"`
	Changes uint32  `json:"milli_air_changes"` // per hour; 0: not known
	Last    int64   `json:"last_aerosol,omitempty"`
	Gone99  int     `json:"minutes_99,omitempty"` // from the last aerosol event until 99 % are gone
	Gone999 int     `json:"minutes_999,omitempty"`
}

func (e airEvent) say(w words.Words) string {
	if e.Changes == 0 {
		return w.Say("list.air-unknown", e.Room)
	}
	last := w.Say("list.air-none")
	if e.Last > 0 {
		last = w.Say("list.air-last", clockTime(mesh.Wall(e.Last)))
	}
	return w.Say("list.air", e.Room, thousandths(e.Changes), e.Gone99, e.Gone999, last)
}

// thousandths writes a number of thousandths without needless digits.
func thousandths(n uint32) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%d.%03d", n/1000, n%1000), "0"), ".")
}

func (s *session) air(ctx context.Context, a *arguments) (event, error) {
	return s.perRoom(ctx, "air", a, func(v station.View, room mesh.ID) []event { return []event{airOf(v.Board, room)} })
}

// airOf estimates from the last aerosol event of the last case in a room, by
// its author's clock.
func airOf(b *requests.Board, room mesh.ID) airEvent {
	r, _ := b.Room(room)
	e := airEvent{Event: "air", Room: room, Changes: r.MilliAirChanges}
	if c, known := caseIn(b, room); known {
		for _, x := range c.Moments {
			if x.Aerosol {
				e.Last = max(e.Last, int64(x.Happened))
			}
		}
	}
	if p99, err := calc.AirClearance(int64(r.MilliAirChanges), calc.Removed99); err == nil {
		e.Gone99 = p99.Minutes
	}
	if p999, err := calc.AirClearance(int64(r.MilliAirChanges), calc.Removed999); err == nil {
		e.Gone999 = p999.Minutes
	}
	return e
}
