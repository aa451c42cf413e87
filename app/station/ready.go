package station

import (
	"slices"
	"time"

	"lintel/kits"
	"lintel/kits/calc"
	"lintel/mesh"
	"lintel/requests"
)

// What one room needs.
const (
	readyKits    = 1 // a kit that serves
	readyInside  = 1 // a device inside
	readyOutside = 1 // a clean one that answers it
)

// ReadyInput is what is known of every room, as it will be after so long: only
// the air changes by waiting. What a drill moved is apart.
func (v View) ReadyInput(after time.Duration) kits.ReadyInput {
	q := kits.RestockQuestion{On: v.Today(), Drill: v.Training()}
	in := kits.ReadyInput{Kits: v.Ledger.ReadyKits(q.On)}
	sets := v.Ledger.ReadySets(q)
	for _, room := range v.everyRoom() {
		_, open := v.Board.CaseIn(room)
		r := kits.ReadyRoom{
			Room: room, CaseOpen: open, Uncounted: int64(len(v.Proposal(room))), KitsNeeded: readyKits, Rescue: sets,
			Runner: len(v.Board.RunnerAt(room)) > 0, InsideNeeded: readyInside, OutsideNeeded: readyOutside,
		}
		r.AirKnown, r.AirMinutes = v.AirLeft(room, after)
		r.Inside, r.Outside = v.devicesFor(room)
		in.Rooms = append(in.Rooms, r)
	}
	return in
}

// everyRoom is every room that was described or had a case, sorted.
func (v View) everyRoom() (out []mesh.ID) {
	for _, r := range v.Board.Rooms() {
		out = append(out, r.ID)
	}
	for _, c := range v.Board.Cases() {
		out = append(out, c.Room)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// AirLeft is how many minutes the air of a room will still take after so long
// until 99.9 % of the particles are gone, from the newest aerosol event there.
// Where none was noted there is nothing to clear; where nobody measured the air
// changes it is not known.
func (v View) AirLeft(room mesh.ID, after time.Duration) (known bool, minutes int64) {
	var last mesh.Wall
	for _, c := range v.Board.Cases() {
		for _, m := range c.Moments {
			if at, _ := v.Happened(m); c.Room == room && m.Aerosol {
				last = max(last, at)
			}
		}
	}
	line, _ := v.Board.Room(room)
	clear, err := calc.AirClearance(int64(line.MilliAirChanges), calc.Removed999)
	if last == 0 || err != nil {
		return last == 0, 0
	}
	gone := time.Duration(v.Now.Wall-last)*time.Millisecond + after
	return true, int64((max(0, clear.Exact-gone) + time.Minute - 1) / time.Minute)
}

// devicesFor are the members that are held for a room: inside with enough
// battery, as far as that is known, and outside.
func (v View) devicesFor(room mesh.ID) (inside, outside int64) {
	low := v.Board.Number("battery-low")
	for _, h := range v.Board.Holders() {
		if len(h.Rooms) > 0 && !slices.Contains(h.Rooms, room) || !v.Peer.IsMember(h.Device) {
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
