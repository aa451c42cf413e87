package requests

import (
	"time"

	"lintel/mesh"
)

// CallWhy is what waits for a person outside.
type CallWhy uint8

// What waits for a person outside.
const (
	CallBreach    CallWhy = 1  // protective equipment failed, or somebody must get out, and nobody heard it
	CallNew       CallWhy = 2  // nobody has answered what is wanted
	CallContended CallWhy = 3  // two doors want something now of one runner: another one is called
	CallTakeBack  CallWhy = 4  // not wanted any more, and it lies at the door: take it back
	CallPutBack   CallWhy = 5  // not wanted any more, and it is in the hand: put it back
	CallStop      CallWhy = 6  // not wanted any more, and somebody is going for it
	CallReminded  CallWhy = 7  // somebody inside asks "still on it?"
	CallStill     CallWhy = 8  // going, and not at the door within the usual time: still on it?
	CallPassed    CallWhy = 9  // given to this runner, who did not take it yet
	CallSaid      CallWhy = 10 // a phrase from inside that nobody heard
	CallTest      CallWhy = 11 // a test request that nobody heard
)

// Levels of a call.
const (
	LevelFirst          uint8 = 1 // to whom it concerns
	LevelAgain          uint8 = 2 // it repeats; "still on it?" goes to the other runners too
	LevelEverybodyuint8       = 3 // every device outside
)

// Call is something that waits for a person outside, and how far it has escalated.
type Call struct {
	Ref     mesh.Ref // the request, phrase, breach or test
	Room    mesh.ID
	Why     CallWhy
	Level   uint8
	Urgency Urgency       // of a request; RightNow of a breach; 0: none
	For     []mesh.Key    // the devices that call, by key; none: there is none outside
	Elapsed time.Duration // since what Why says
	Usual   time.Duration // of CallStill and CallReminded: how long it usually takes
}

// Calls lists what waits for a person outside, the gravest first. elapsed tells
// how long ago a mark was made.
func (b *Board) Calls(elapsed func(Mark) time.Duration) []Call { return nil }

// Escalation is how long somebody inside has waited, as people read it: "2:10,
// usually 1:40".
type Escalation struct {
	Acknowledged bool // Elapsed counts from the first "going", else from the asking
	Elapsed      time.Duration
	Usual        time.Duration // from "going" to the door
	Of           int           // of so many deliveries; fewer than the setting usual-from: Usual is a setting
	Level        uint8         // of the call outside; 0: none
	Overdue      bool          // acknowledged, and it takes longer than usual
}

// Escalated says how long a request has waited and what is usual.
func (b *Board) Escalated(r Request, elapsed func(Mark) time.Duration) Escalation {
	return Escalation{}
}
