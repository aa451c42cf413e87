package requests

import (
	"time"

	"lintel/mesh"
)

// Bag lists what can travel together through a door at its next opening: what
// lies at the door, what somebody holds or goes for, and what was asked and is
// not wanted now. A need is listed once. What comes out travels with the same
// opening. Most urgent first.
func (b *Board) Bag(room mesh.ID) []Request { return nil }

// Plan plans the openings of a room's door for its bag, with now at 0: what is
// not at the door yet is expected there after its usual time, and waits no
// longer than the unit's settings for its urgency say.
func (b *Board) Plan(room mesh.ID, elapsed func(Mark) time.Duration) []Opening { return nil }
