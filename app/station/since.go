package station

import (
	"lintel/mesh"
	"lintel/requests"
)

// Since is when a mark was made, by this device's wall clock, for whoever
// waits: the earlier of when it came here and of when its author says, put
// right by the measured offset of that clock. least: the offset is not known,
// and it may be longer ago.
func (v View) Since(m requests.Mark) (at mesh.Wall, least bool) {
	if m.Device() == v.Peer.Self() {
		return m.When(), false
	}
	at, least = v.Peer.ReceivedAt(m.At), true
	for _, p := range v.Peer.Peers() {
		if p.Peer != m.Device() || p.WithinMS == 0 {
			continue
		}
		said := m.When() - mesh.Wall(p.OffsetMS)
		if least = false; at == 0 || said < at {
			at = said
		}
	}
	if at == 0 {
		return m.When(), true
	}
	return at, least
}
