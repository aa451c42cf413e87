package station

import (
	"time"

	"lintel/mesh"
	"lintel/requests"
)

// cleanLeast is on how many clean devices' disks everything must be before a
// device may stay behind.
const cleanLeast = 2

// Stay says whether this device may stay behind in the room.
type Stay struct {
	Here  int        // entries that fewer than two clean devices have on their disks
	Clean []mesh.Key // the other devices that are held outside, by key
}

// May tells whether everything that this device holds is on the disks of two
// clean devices.
func (s Stay) May() bool { return s.Here == 0 && len(s.Clean) >= cleanLeast }

// StayBehind says how much would be lost with this device.
func (v View) StayBehind() Stay {
	var s Stay
	for _, h := range v.Board.Holders() {
		if h.Side == requests.Outside && h.Device != v.Peer.Self() && v.Peer.IsMember(h.Device) {
			s.Clean = append(s.Clean, h.Device)
		}
	}
	s.Here = v.Peer.OnlyHere(s.Clean, cleanLeast)
	return s
}

// Elapsed is how long ago a mark was made, as Since says; never negative.
func (v View) Elapsed(m requests.Mark) time.Duration {
	at, _ := v.Since(m)
	return time.Duration(max(v.Now.Wall-at, 0)) * time.Millisecond
}

// Calls is what waits for a person outside, by this device's clock.
func (v View) Calls() []requests.Call { return v.Board.Calls(v.Elapsed) }
