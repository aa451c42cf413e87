package station

import "lintel/mesh"

// watched is what the loop remembers of this device's own condition.
type watched struct {
	ticks int
	told  bool // something was recorded
	last  Condition
}

// Bounds of what a device tells of its battery.
const (
	conditionEvery = 10 // ticks between two looks
	batteryLast    = 5  // per cent: nearly empty
	batterySlack   = 3  // per cent that it has to rise by before it counts as filled up again
)

// Bands of a battery.
const (
	batteryFine = iota
	batteryIsLow
	batteryIsLast
)

// band is how full a battery is, given how full it was: the same charge does
// not count as low and not low in turn.
func band(percent int32, low int64, was int) int {
	switch n := int64(percent); {
	case percent < 0:
		return batteryFine
	case n <= batteryLast, was == batteryIsLast && n < batteryLast+batterySlack:
		return batteryIsLast
	case n <= low, was >= batteryIsLow && n < low+batterySlack:
		return batteryIsLow
	}
	return batteryFine
}

// watchCondition records this device's condition when its battery becomes low,
// nearly empty, or full again, and when the charger comes or goes. A battery of
// which nothing is known tells nothing.
func (s *Station) watchCondition() {
	if s.opt.Condition == nil {
		return
	}
	if s.watched.ticks++; s.watched.ticks%conditionEvery != 1 {
		return
	}
	now := s.opt.Condition()
	if now.Battery < 0 {
		return
	}
	was := s.watched.last
	if !s.watched.told {
		was = s.recorded()
	}
	low := s.board.Number("battery-low")
	before := band(was.Battery, low, batteryFine)
	if now.Charging == was.Charging && band(now.Battery, low, before) == before {
		return
	}
	s.watched.told, s.watched.last = true, now
	s.obey(order{act: now, by: mesh.By{}, answer: make(chan Result, 1)}) // whoever reads the board sees it; nobody waits
}

// recorded is the condition that this device recorded last, perhaps in an
// earlier run; a full battery without a charger if it never did.
func (s *Station) recorded() Condition {
	c, _, known := s.board.Condition(s.opt.Self)
	if !known {
		return Condition{Battery: 100}
	}
	return Condition{Battery: c.Battery, Charging: c.Charging, DiskMB: c.DiskMB}
}
