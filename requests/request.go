package requests

import (
	"slices"

	"lintel/mesh"
)

// Mark is one stored statement about a request, as listed.
type Mark struct {
	Ref       mesh.Ref
	Names     mesh.Ref // what it answers; zero: nothing
	At        mesh.Order
	Wall      mesh.Wall
	By        mesh.By
	Kind      mesh.Kind
	Undone    bool      // someone took it back; it is listed and does not count
	OutOfTurn bool      // it names another sort of mark than expected, or skips a step; it counts all the same
	Corrected mesh.Wall // when it happened as the newest LateTime says; 0: nobody corrected it
	WithinMS  uint32    // of that correction
}

// Device is the device that wrote the mark.
func (m Mark) Device() mesh.Key { return m.Ref.Author() }

// When is when it happened, by the wall clock of whoever says so: as corrected,
// else as stated, else as recorded.
func (m Mark) When() mesh.Wall {
	if m.Corrected != 0 {
		return m.Corrected
	}
	return mesh.Fact{By: m.By, Wall: m.Wall}.When()
}

// Asker is who asked.
type Asker struct {
	Device mesh.Key
	Role   mesh.ID
	Tag    mesh.Tag
}

// Want is what is wanted by an Asked, a Changed, or an agreed alternative.
type Want struct {
	Mark
	Thing   Thing
	Urgency Urgency
}

// Going is a runner who said so.
type Going struct {
	Mark
	Still bool // not passed on to somebody who took it, and not given up
}

// Passing is a request given to another runner.
type Passing struct {
	Mark
	To     mesh.Tag
	Device mesh.Key // zero: not known
	Counts bool     // that runner has acknowledged
}

// Choice is an answer to a read-back or to an offer.
type Choice struct {
	Mark
	Which    uint8      // the alternative, from 1; 0: the read-back, or all of the offer
	Why      mesh.Label // of a refusal
	FromRoom bool       // made in a role that can agree, on a device then held for the room, by somebody else than who is answered
}

// Offer is one to three alternatives.
type Offer struct {
	Mark
	Meets   mesh.Ref // the want that it answers
	Things  []Thing
	Agreed  []Choice
	Refused []Choice
}

// Open tells whether an alternative waits for an answer: none was taken, and
// not all were turned down.
func (o Offer) Open() bool {
	if len(o.Agreed) > 0 {
		return false
	}
	turnedDown := map[uint8]bool{}
	for _, c := range o.Refused {
		if c.Which == 0 {
			return false
		}
		turnedDown[c.Which] = true
	}
	return len(turnedDown) < len(o.Things)
}

// ReadBack is what a runner states to hold.
type ReadBack struct {
	Mark
	Meets   mesh.Ref // the want that it answers
	Thing   Thing
	How     HowRead
	Lot     mesh.Label
	Unasked bool // it meets what was passed in unasked: a statement, and no answer to anybody
	Matches bool // item, strength, count and measure equal what it meets
	Closed  bool // agreed from the room, refused by nobody, and what it meets is still what is wanted
	Live    bool // not refused, not replaced by the same device's next, not taken back
	Agreed  []Choice
	Refused []Choice
}

// Taking is an end of a delivery: so many were taken in, 0 is "taken back".
type Taking struct {
	Mark
	Count Count
	Why   mesh.Label // of a taking back
}

// Delivery is something put at the door, and its ends. If people recorded an
// end without it, Mark is zero and Names is what those ends name.
type Delivery struct {
	Mark
	Door     mesh.ID // the room on the door, as the runner read it
	Thing    Thing   // what it is: as read back, else as it was wanted
	Ends     []Taking
	Open     bool  // it lies there still
	Disputed bool  // its ends differ
	Taken    Count // by all its ends; 0 while open or disputed
}

// Ending is a Withdrawn or a CouldNot.
type Ending struct {
	Mark
	Why mesh.Label
}

// Reminder is a person's "still on it?" or "call again".
type Reminder struct {
	Mark
	Level uint8
}

// Request is one request with everything that became of it. The typed lists
// hold the marks that count, in order; Marks holds all of them. Slices are
// shared with the board and must not be changed.
type Request struct {
	Ref       mesh.Ref // its Asked
	Case      mesh.Ref // that it belongs to (see Board.CaseOf), else as it was written
	Room      mesh.ID
	Direction Direction
	Origin    Origin
	Bundle    mesh.Number
	Asked     Mark
	Asker     Asker

	Thing   Thing   // what is wanted now
	Urgency Urgency // how soon
	Wants   []Want  // those that stand, the one in use first; more than one: not all knew of each other

	Step  Step  // the furthest reached
	Shown Shown // what people see
	Loop  Loop  // of what lies at the door or went in, else of what is in hand; the weakest of several

	Acknowledged []Going
	PassedOn     []Passing
	CouldNot     []Ending
	Offers       []Offer
	InHand       []ReadBack
	Deliveries   []Delivery
	Withdrawn    []Ending
	Reminded     []Reminder
	Undone       bool // the Asked was taken back
	Taken        Count

	JoinedWith []mesh.Ref // the other requests for the same need, in order
	Flags      Flags
	Marks      []Mark // all, in order
}

// Flags are what a person should look at.
type Flags uint32

// Flags of a request.
const (
	FlagOutOfTurn    Flags = 1 << iota // a mark names another sort of mark than expected, or skips a step
	FlagTwoValues                      // different things or urgencies stand beside each other
	FlagAgreedUnlike                   // a read-back was agreed that is not what it answers
	FlagAgreedOld                      // a read-back was agreed, and what is wanted is now another
	FlagAgreedAway                     // agreed, but not from the asking room
	FlagSplitAnswer                    // the same was agreed and refused, by one person or by several
	FlagTakenTwice                     // one delivery ended differently
	FlagDoorOther                      // at the door or taken in is not the read-back that was agreed
	FlagWrongDoor                      // it was put at the door of another room
	FlagFewer                          // all that came was taken in, and it is fewer than asked
	FlagTakeBack                       // not wanted any more, and it lies at the door
	FlagMore                           // more was taken in than was put at the door, or than is wanted
	flagsEnd
)

// Has tells whether all of the given flags are set.
func (f Flags) Has(g Flags) bool { return f&g == g }

// Each lists the set flags, lowest first.
func (f Flags) Each() []Flags {
	var out []Flags
	for g := Flags(1); g < flagsEnd; g <<= 1 {
		if f.Has(g) {
			out = append(out, g)
		}
	}
	return out
}

// Loop is how far the loop of saying and repeating got. Each level is stated by
// a person or a scanner, never inferred.
type Loop uint8

// Levels of the loop.
const (
	LoopOpen     Loop = 0 // nobody read back
	LoopReadBack Loop = 1 // read back, and it is not what was asked
	LoopMatches  Loop = 2 // read back, and it equals what was asked
	LoopClosed   Loop = 3 // confirmed from the asking room
)

// TwoValues tells whether different things or urgencies stand beside each other.
func (r Request) TwoValues() bool { return r.Flags.Has(FlagTwoValues) }

// WaitsAtDoor tells whether something lies at the door.
func (r Request) WaitsAtDoor() bool {
	for _, d := range r.Deliveries {
		if d.Open {
			return true
		}
	}
	return false
}

// TakenIn tells whether something was taken in.
func (r Request) TakenIn() bool { return r.Step == StepTakenIn }

// Answered tells whether a person outside has answered what is wanted now in any
// way: going, cannot, holds, brought. An answer to what was wanted before is
// none. An offer is one while it waits for the inside.
func (r Request) Answered() bool {
	if r.Step >= StepAtDoor || slices.ContainsFunc(r.Offers, Offer.Open) {
		return true
	}
	return slices.ContainsFunc(r.Marks, func(m Mark) bool { return !m.Undone && answers(m.Kind) && r.newer(m) })
}

// answers tells whether a mark of this kind says what somebody outside does.
func answers(k mesh.Kind) bool {
	switch k {
	case KindAcknowledged, KindCouldNot, KindInHand, KindAtDoor, KindTakenIn, KindTakenBack:
		return true
	}
	return false
}

// newer tells whether a mark was written after what is wanted now, in the order
// that all devices agree on. Everything is newer than the Asked.
func (r Request) newer(m Mark) bool {
	return len(r.Wants) == 0 || r.Wants[0].Ref == r.Ref || r.Wants[0].At.Compare(m.At) <= 0
}

// Over tells whether nothing more is to be done for it.
func (r Request) Over() bool {
	switch r.Shown {
	case ShownTakenIn:
		return !r.WaitsAtDoor()
	case ShownWithdrawn, ShownUndone:
		return true
	}
	return false
}
