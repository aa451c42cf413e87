package requests

import (
	"time"

	"lintel/mesh"
)

// Times are the moments of a need, by the wall clocks of those who noted them:
// for people, never for a decision. Clocks differ, so that a time between two
// moments may even be negative; it is shown as it is.
type Times struct {
	Asked        mesh.Wall // the first asking
	Acknowledged mesh.Wall // the first "going"; 0: none
	Delivered    mesh.Wall // the first taking in; 0: none
}

// Times returns the moments of a need over all of its requests. Marks that were
// taken back do not count, and neither is passing in unasked an asking, unless
// there was no other.
func (b *Board) Times(need Need) Times {
	var t Times
	for _, ref := range need.Requests {
		r, known := b.Request(ref)
		if !known {
			continue
		}
		if need.Unasked || r.Origin != PassedIn {
			t.Asked = earlier(t.Asked, r.Asked.When())
		}
		for _, a := range r.Acknowledged {
			t.Acknowledged = earlier(t.Acknowledged, a.When())
		}
		for _, d := range r.Deliveries {
			for _, e := range d.Ends {
				if e.Count > 0 {
					t.Delivered = earlier(t.Delivered, e.When())
				}
			}
		}
	}
	return t
}

// ToAcknowledge is the time from asked to acknowledged; false: not acknowledged.
func (t Times) ToAcknowledge() (time.Duration, bool) { return between(t.Asked, t.Acknowledged) }

// ToDeliver is the time from asked to taken in; false: not taken in.
func (t Times) ToDeliver() (time.Duration, bool) { return between(t.Asked, t.Delivered) }

// earlier is the earlier of two moments of which 0 is none.
func earlier(a, b mesh.Wall) mesh.Wall {
	if a == 0 || b != 0 && b < a {
		return b
	}
	return a
}

// durationMax is what a time.Duration can hold, in milliseconds; walls reach further.
const durationMax = mesh.Wall(1<<63-1) / mesh.Wall(time.Millisecond)

func between(from, to mesh.Wall) (time.Duration, bool) {
	if from == 0 || to == 0 {
		return 0, false
	}
	d := min(max(to-from, -durationMax), durationMax)
	return time.Duration(d) * time.Millisecond, true
}
