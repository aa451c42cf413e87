package debrief

import (
	"testing"
	"time"

	"lintel/mesh"
)

// BenchmarkLook says what the station's loop spends on a unit of fifty cases
// when the page is shown again.
func BenchmarkLook(b *testing.B) {
	u := newUnit(b)
	u.compared(phone, time.Second)
	for i := range 50 {
		u.small("C", 10*i, i%30)
	}
	for b.Loop() {
		u.look(mesh.Ref{})
	}
}
