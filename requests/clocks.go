package requests

import (
	"time"

	"lintel/mesh"
)

// Placed is a moment on the common clock of a unit's devices.
type Placed struct {
	Wall   mesh.Wall
	Within time.Duration // ± this much
	Known  bool          // the clock that noted it was compared with the others; else Wall is by that clock alone
	Late   bool          // noted afterwards: somebody stated or corrected when it happened
}

// Clocks are the wall clocks of a unit's devices as far as they were compared.
// It belongs to the owner of its Board.
type Clocks struct{}

// Clocks compares all wall clocks of which differences were measured.
func (b *Board) Clocks() Clocks { return Clocks{} }

// Corrected is when a mark was made, or happened if that was stated, on the
// common clock, ± so much. Of a device whose clock was never compared it is
// that device's own wall clock, and the ± is WithinUnknown.
func (c Clocks) Corrected(m Mark) (mesh.Wall, time.Duration) { return m.When(), WithinUnknown }

// WithinUnknown is the ± of a clock that was compared with no other.
const WithinUnknown time.Duration = -1

// Place is Corrected with what is known about it.
func (c Clocks) Place(m Mark) Placed { return Placed{Wall: m.When()} }

// PlaceMoment places a noted time: when it happened, not when it was noted.
func (c Clocks) PlaceMoment(m Moment) Placed { return Placed{Wall: m.Happened} }

// Monitor places a moment on the patient monitor's clock, as if UTC. False:
// the case was never tied to one.
func (c Clocks) Monitor(charts []Chart, p Placed) (Placed, bool) { return Placed{}, false }

// Between is the time from one mark to another, ± so much. False: their clocks
// were never compared.
func (c Clocks) Between(from, to Mark) (took, within time.Duration, known bool) {
	return 0, 0, false
}
