package charge

import (
	"slices"

	"lintel/app/station"
	"lintel/kits"
	"lintel/kits/calc"
	"lintel/mesh"
	"lintel/requests"
)

// Room is one closed room as it stands.
type Room struct {
	ID    mesh.ID
	Name  string
	Case  mesh.Ref // that is open there; zero: none
	Lines int      // of what is inside or at its door
	Gaps  []kits.Gap
}

// Devices that a room needs: one inside, and a clean one that answers it.
const (
	insideNeeded  = 1
	outsideNeeded = 1
	kitsNeeded    = 1
)

// ready says of every room what it lacks.
func (s *Snapshot) ready(v station.View) {
	sets := v.Ledger.ReadySets(kits.RestockQuestion{On: s.Today, Drill: v.Training()})
	in := kits.ReadyInput{Kits: v.Ledger.ReadyKits(s.Today)}
	s.rooms(v)
	for i, r := range s.Rooms {
		lines := len(v.Ledger.Proposal(r.ID))
		s.Rooms[i].Lines = lines
		x := kits.ReadyRoom{
			Room: r.ID, CaseOpen: !r.Case.IsZero(), Uncounted: int64(lines), KitsNeeded: kitsNeeded, Rescue: sets,
			Runner: len(v.Board.RunnerAt(r.ID)) > 0, InsideNeeded: insideNeeded, OutsideNeeded: outsideNeeded,
		}
		x.AirKnown, x.AirMinutes = air(v, r.ID)
		x.Inside, x.Outside = devices(v, r.ID)
		in.Rooms = append(in.Rooms, x)
	}
	for _, g := range kits.Ready(in) {
		i := slices.IndexFunc(s.Rooms, func(r Room) bool { return r.ID == g.Room })
		s.Rooms[i].Gaps = append(s.Rooms[i].Gaps, g)
	}
	s.Kits = v.Ledger.Kits(s.Today)
}

// air says how long the air takes yet, from the newest aerosol event there.
// Where nobody noted one, there is nothing to clear.
func air(v station.View, room mesh.ID) (known bool, minutes int64) {
	var since mesh.Wall
	for _, c := range v.Board.Cases() {
		if c.Room != room {
			continue
		}
		for _, m := range c.Moments {
			if at, _ := v.Happened(m); m.Aerosol {
				since = max(since, at)
			}
		}
	}
	line, _ := v.Board.Room(room)
	c, err := calc.AirClearance(int64(line.MilliAirChanges), calc.Removed999)
	if since == 0 || err != nil {
		return since == 0, 0
	}
	const minute = 60_000
	left := int64(since) + c.Exact.Milliseconds() - int64(v.Now.Wall)
	return true, max(0, (left+minute-1)/minute)
}

// devices are those of members for a room: inside, with enough battery as far as
// it is known, and outside.
func devices(v station.View, room mesh.ID) (inside, outside int64) {
	low := v.Board.Number("battery-low")
	for _, h := range v.Board.Holders() {
		if len(h.Rooms) > 0 && !slices.Contains(h.Rooms, room) {
			continue
		}
		c, _, known := v.Board.Condition(h.Device)
		empty := known && c.Battery >= 0 && int64(c.Battery) < low && !c.Charging
		switch {
		case h.Side == requests.Inside && !empty:
			inside++
		case h.Side == requests.Outside:
			outside++
		}
	}
	return inside, outside
}
