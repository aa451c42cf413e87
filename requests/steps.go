package requests

import (
	"slices"

	"lintel/mesh"
)

// Step is how far a request got. Steps are past facts; a later number is further.
type Step uint8

// Steps on the way, then the steps aside.
const (
	StepNone         Step = 0
	StepAsked        Step = 1
	StepAcknowledged Step = 2
	StepInHand       Step = 3
	StepAtDoor       Step = 4
	StepTakenIn      Step = 5

	StepTakenBack Step = 6
	StepCouldNot  Step = 7
	StepWithdrawn Step = 8
)

// follows lists, for each step, the steps that are expected after it. A step
// that was recorded without one that it follows is out of turn: it is kept,
// counts, and is flagged. The table also decides which buttons there are; it
// never decides which entries count.
var follows = map[Step][]Step{
	StepNone:         {StepAsked},
	StepAsked:        {StepAcknowledged, StepCouldNot, StepWithdrawn},
	StepAcknowledged: {StepAcknowledged, StepInHand, StepCouldNot, StepWithdrawn},
	StepInHand:       {StepAcknowledged, StepInHand, StepAtDoor, StepCouldNot, StepWithdrawn},
	StepAtDoor:       {StepTakenIn, StepTakenBack, StepWithdrawn},
	StepTakenIn:      {StepTakenIn},
	StepTakenBack:    {StepAcknowledged, StepInHand, StepCouldNot, StepWithdrawn},
	StepCouldNot:     {StepAcknowledged, StepCouldNot, StepWithdrawn},
	StepWithdrawn:    {StepTakenBack, StepWithdrawn},
}

// stepOf is the step that a kind of mark reaches; StepNone: it reaches none.
func stepOf(k mesh.Kind) Step {
	switch k {
	case KindAsked:
		return StepAsked
	case KindAcknowledged:
		return StepAcknowledged
	case KindInHand:
		return StepInHand
	case KindAtDoor:
		return StepAtDoor
	case KindTakenIn:
		return StepTakenIn
	case KindTakenBack:
		return StepTakenBack
	case KindCouldNot:
		return StepCouldNot
	case KindWithdrawn:
		return StepWithdrawn
	}
	return StepNone
}

// inTurn tells whether s follows one of the steps recorded before it.
func inTurn(s Step, before []Step) bool {
	for _, b := range before {
		if slices.Contains(follows[b], s) {
			return true
		}
	}
	return false
}

// answersRightly tells whether a mark names the sort of mark that it is
// expected to name. want tells that the named mark says what is wanted.
func answersRightly(n, target *fact, want bool) bool {
	switch body := n.body.(type) {
	case *Changed, *Offered, *InHand:
		return want
	case *Agreed:
		if body.Which > 0 {
			return chosenOf(body, target) != nil
		}
		return target.Kind == KindInHand
	case *Refused:
		if offer, is := target.body.(*Offered); is {
			return int(body.Which) <= len(offer.Things)
		}
		return body.Which == 0 && target.Kind == KindInHand
	case *AtDoor:
		return target.Kind == KindInHand
	case *TakenIn, *TakenBack:
		return target.Kind == KindAtDoor
	case *Undone:
		return target.Kind != KindUndone
	}
	return target.Kind == KindAsked
}

// chosenOf is the alternative that an Agreed takes of the offer it names; nil
// if it takes none, or one that was not offered.
func chosenOf(a *Agreed, target *fact) *Thing {
	offer, is := target.body.(*Offered)
	if !is || a.Which == 0 || int(a.Which) > len(offer.Things) {
		return nil
	}
	return &offer.Things[a.Which-1]
}

// Shown is what people see of a request: its step, or what stands instead of it.
type Shown uint8

// What people see.
const (
	ShownAsked        Shown = 1
	ShownAcknowledged Shown = 2
	ShownInHand       Shown = 3
	ShownAtDoor       Shown = 4
	ShownTakenIn      Shown = 5
	ShownCouldNot     Shown = 6
	ShownWithdrawn    Shown = 7
	ShownUndone       Shown = 8
	ShownTakeBack     Shown = 9 // withdrawn or undone while it lies at the door: take it back
)

// shown decides what stands instead of the step, if anything. Withdrawn and
// could not never hide something that lies at the door or went in, and one
// runner's "could not" never hides that another is going.
func (r *Request) shown() Shown {
	ended := r.Undone || len(r.Withdrawn) > 0
	switch {
	case ended && r.WaitsAtDoor():
		return ShownTakeBack
	case r.Step >= StepAtDoor:
		return Shown(r.Step)
	case r.Undone:
		return ShownUndone
	case ended:
		return ShownWithdrawn
	case len(r.CouldNot) > 0 && !r.anyoneGoing():
		return ShownCouldNot
	}
	return Shown(r.Step)
}

func (r *Request) anyoneGoing() bool {
	return slices.ContainsFunc(r.Acknowledged, func(g Going) bool { return g.Still }) ||
		slices.ContainsFunc(r.InHand, func(h ReadBack) bool { return h.Live })
}
