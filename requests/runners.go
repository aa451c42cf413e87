package requests

import "lintel/mesh"

// Doing is where a runner is, as far as that runner's own marks tell.
type Doing uint8

// What a runner does.
const (
	NoRunner Doing = 0 // nobody fetches for this door
	Here     Doing = 1 // has this door, and nothing promised
	AtADoor  Doing = 2 // put something at the door of Room last, and something lies there
	Fetching Doing = 3 // is fetching for Room
)

// RunnerState is one runner as seen from one door.
type RunnerState struct {
	Holding
	Doing Doing
	Room  mesh.ID // of AtADoor and Fetching: which; this door first, if it is among several
	Next  bool    // elsewhere now, and this door is next
	Open  int     // requests that this runner goes for or holds
}

// RunnerAt says what each runner who has this room does, by device; nobody: there is no runner.
func (b *Board) RunnerAt(room mesh.ID) []RunnerState { return nil }

// Contention is one runner wanted at several doors now.
type Contention struct {
	Runner   mesh.Key
	Doors    []mesh.ID  // by id
	Requests []mesh.Ref // wanted now, first asked first
}

// Contended lists the runners of whom several doors want something now while
// nobody else goes for it.
func (b *Board) Contended() []Contention { return nil }

// BothWent lists who goes for a request if several devices do, each once.
func BothWent(r Request) []Going { return nil }

// Carrying is what a runner has to pass on.
type Carrying struct {
	InHand   []Request // held, and not at the door
	Promised []Request // going for, and not in hand
	AtDoor   []Request // put at a door, and lying there
}

// Carrying lists what the holder of a device has to pass on, most urgent first.
func (b *Board) Carrying(device mesh.Key) Carrying { return Carrying{} }
