package station

import (
	"cmp"
	"slices"
	"time"

	"lintel/mesh"
	"lintel/requests"
)

// What injects mean to a program; every other one is for people to play.
const (
	injectBattery mesh.ID = "battery"
	injectNoStock mesh.ID = "not-in-stock"  // of the next request
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
		x.Given, x.Inject = given.Ref, v.injectWords(given)
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
	if c, _, known = v.Board.Condition(h.Device); v.BatteryInject(h) {
		c.Battery, c.Charging, known = drillBattery, false, true
	}
	return c, known
}

// BatteryInject tells whether an exercise says how full a device's battery is.
func (v View) BatteryInject(h requests.Holding) bool {
	if h.Side != requests.Inside || len(h.Rooms) != 1 {
		return false
	}
	d, on := v.Board.DrillIn(h.Rooms[0])
	return on && slices.ContainsFunc(d.Injects, func(x requests.Injected) bool { return x.What == injectBattery })
}

// InjectOn is what an exercise's inject says about a request, as long as it goes
// on: what is asked for next after "not in stock" is answered so by whoever
// fetches. Empty: nothing.
func (v View) InjectOn(r requests.Request) string {
	d, on := v.Board.DrillIn(r.Room)
	if !on {
		return ""
	}
	for _, x := range slices.Backward(d.Injects) {
		if x.What != injectNoStock || x.At.Compare(r.Asked.At) > 0 {
			continue
		}
		for _, o := range v.Board.Requests() {
			between := o.Room == r.Room && o.Ref != r.Ref && x.At.Compare(o.Asked.At) < 0 && o.Asked.At.Compare(r.Asked.At) < 0
			if between && o.Direction == requests.In {
				return "" // that one was the next
			}
		}
		return v.injectWords(x)
	}
	return ""
}

// injectWords are its line's, with those that the lead gave.
func (v View) injectWords(x requests.Injected) string {
	line, known := v.Board.ListLine("inject", x.What)
	if known && x.Words != "" && line.Words != "" {
		return string(line.Words + ": " + x.Words)
	}
	return string(cmp.Or(x.Words, line.Words, mesh.Text(x.What)))
}
