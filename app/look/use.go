package look

// Use is what a target is for; its least size and its distances follow.
type Use int

// Uses.
const (
	UseInside          Use = iota // by double-gloved hands
	UseRescue                     // rescue sets: larger, and away from the corners
	UseWithdraw                   // inside, ends something: far from everything else
	UseOutside                    // by clean hands
	UseOutsideWithdraw            // outside, ends something
)

// Least measures of targets, in mm. There is no published figure for double
// medical gloves: those for inside are ours, between bare fingers (errors fall
// until 20 mm keys, Ergonomics 2004;47:1406) and thick mittens (at least 19 mm
// and 13 mm apart, MIL-STD-1472E). Outside is ours too, for a phone in one hand.
const (
	SideInside   = 20.0
	SideRescue   = 25.0
	SideOutside  = 12.0
	GapMin       = 3.0
	GapWithdraw  = 13.0 // between what withdraws and anything else
	CornerRescue = 15.0 // between a rescue set and any corner of the screen
)

// Side is the least width and height of a target, in mm.
func (u Use) Side() float32 {
	switch u {
	case UseRescue:
		return SideRescue
	case UseOutside, UseOutsideWithdraw:
		return SideOutside
	}
	return SideInside
}

// Withdraws tells whether a tap ends something.
func (u Use) Withdraws() bool { return u == UseWithdraw || u == UseOutsideWithdraw }

// Gap is the least distance of two targets, in mm.
func (u Use) Gap(other Use) float32 {
	if u.Withdraws() || other.Withdraws() {
		return GapWithdraw
	}
	return GapMin
}

// Reads is how far away the words on a target are read.
func (u Use) Reads() Role {
	if u == UseOutside || u == UseOutsideWithdraw {
		return RunnerLine
	}
	return InsideTile
}
