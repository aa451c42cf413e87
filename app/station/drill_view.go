package station

import (
	"slices"
	"time"

	"lintel/mesh"
	"lintel/requests"
)

// What injects mean to a program; every other one is for people to play.
const (
	injectBattery mesh.ID = "battery"
	drillBattery          = 5               // per cent, which the inject says
	injectFor             = 2 * time.Minute // how long an inject's words stand on screens
)

// Exercise is one that goes on in a room.
type Exercise struct {
	Ref    mesh.Ref
	Room   mesh.ID
	Label  mesh.Label
	Given  mesh.Ref // the newest inject, for injectFor; zero: none
	Inject string   // its words
}

// ExerciseIn is the exercise that goes on in a room.
func (v View) ExerciseIn(room mesh.ID) (Exercise, bool) {
	d, on := v.Board.DrillIn(room)
	if !on {
		return Exercise{}, false
	}
	x := Exercise{Ref: d.Ref, Room: room, Label: d.Label}
	if n := len(d.Injects); n > 0 && v.Elapsed(d.Injects[n-1].Mark) < injectFor {
		given := d.Injects[n-1]
		x.Given, x.Inject = given.Ref, string(given.Words)
		if line, known := v.Board.ListLine("inject", given.What); known && x.Inject == "" {
			x.Inject = string(line.Words)
		}
	}
	return x, true
}

// Exercises are all that go on in rooms that are described, have a case, or that
// somebody has a device for; by room.
func (v View) Exercises() (out []Exercise) {
	rooms := v.everyRoom()
	for _, h := range v.Board.Holders() {
		rooms = append(rooms, h.Rooms...)
	}
	slices.Sort(rooms)
	for _, room := range slices.Compact(rooms) {
		if x, on := v.ExerciseIn(room); on {
			out = append(out, x)
		}
	}
	return out
}

// BatteryShown is what is shown of a device's battery: what it said last, or, in
// an exercise inside its room, what an inject says. Nothing of an inject is
// recorded as measured.
func (v View) BatteryShown(h requests.Holding) (c requests.Condition, known bool) {
	c, _, known = v.Board.Condition(h.Device)
	if h.Side != requests.Inside || len(h.Rooms) != 1 {
		return c, known
	}
	d, on := v.Board.DrillIn(h.Rooms[0])
	if on && slices.ContainsFunc(d.Injects, func(x requests.Injected) bool { return x.What == injectBattery }) {
		c.Battery, c.Charging = drillBattery, false
		return c, true
	}
	return c, known
}
