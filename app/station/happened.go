package station

import (
	"lintel/mesh"
	"lintel/requests"
)

// Happened is when a noted time was, by this device's wall clock: what whoever
// said so last had on theirs, put right by how that clock differs from this one.
// A time that was noted late, or corrected, is not taken for when the entry came
// here. least: how that clock differs is not known, and it may be longer ago.
func (v View) Happened(m requests.Moment) (at mesh.Wall, least bool) {
	said := m.Mark
	if n := len(m.Fixes); n > 0 {
		said = m.Fixes[n-1].Mark
	}
	said.By.Happened, said.Corrected = 0, 0
	at, least = v.Since(said)
	return m.Happened + at - said.Wall, least
}
