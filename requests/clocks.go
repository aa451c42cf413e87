package requests

import (
	"time"

	"lintel/mesh"
)

// Placed is a moment on the common clock of a unit's devices.
type Placed struct {
	Wall   mesh.Wall
	Within time.Duration // ± this much; WithinUnknown if the clock was compared with no other
	Known  bool          // the clock that noted it was compared with the others; else Wall is by that clock alone
	Late   bool          // noted afterwards: somebody stated or corrected when it happened
}

// WithinUnknown is the ± of a clock that was compared with no other.
const WithinUnknown time.Duration = -1

// Clocks are the wall clocks of a unit's devices on one common clock, as far as
// they were compared. The common clock is that of the device which was compared
// with the most others, of several the one with the smallest key; its own ± is
// 0. Another device's clock is set against it along the comparisons whose ± is
// the least in sum, each the newest that was written before the mark (before
// the first one: the first). A clock that was set counts as another clock from
// then on, so that a comparison from before is never used after.
//
// Comparisons are entries of the log itself; they are no part of State, which
// holds requests and cases. Clocks belongs to the owner of its Board.
type Clocks struct{ work *clockWork }

// Clocks compares all wall clocks of which differences were measured. The
// common clock is as it is set now.
func (b *Board) Clocks() Clocks { return Clocks{b.clocks.work(b, nil)} }

// ClocksOf is Clocks with the common clock as it was set when the case was
// opened: the one for its figures and papers, which stay the same when a clock
// is set later. Of a Ref that is no case it is Clocks.
func (b *Board) ClocksOf(of mesh.Ref) Clocks {
	if open := b.facts[of]; open != nil && open.Kind == KindCaseOpen {
		return Clocks{b.clocks.work(b, open)}
	}
	return b.Clocks()
}

// Corrected is when a mark was made, or happened if that was stated, on the
// common clock, ± so much. Of a device whose clock was never compared it is
// that device's own wall clock, and the ± is WithinUnknown.
func (c Clocks) Corrected(m Mark) (mesh.Wall, time.Duration) {
	p := c.Place(m)
	return p.Wall, p.Within
}

// Place is Corrected with what is known about it.
func (c Clocks) Place(m Mark) Placed {
	p := Placed{Wall: m.When(), Within: WithinUnknown, Late: m.By.Happened != 0 || m.Corrected != 0}
	if c.work == nil {
		return p
	}
	at, own := c.work.reading(m)
	if off, known := c.work.offset(at); known {
		p.Wall = moved(p.Wall, off.ms)
		p.Within = milliseconds(off.withinMS + own)
		p.Known = true
	}
	return p
}

// Between is the time from one mark to another, ± so much. Two marks by the same
// clock need no comparison, and are exact. False: their clocks were never compared.
func (c Clocks) Between(from, to Mark) (took, within time.Duration, known bool) {
	if c.sameClock(from, to) {
		took, _ = between(from.When(), to.When())
		own := int64(0)
		for _, m := range []Mark{from, to} {
			if m.Corrected != 0 {
				own += int64(m.WithinMS)
			}
		}
		return took, milliseconds(own), true
	}
	a, z := c.Place(from), c.Place(to)
	if !a.Known || !z.Known {
		return 0, WithinUnknown, false
	}
	took, _ = between(a.Wall, z.Wall)
	return took, a.Within + z.Within, true
}

func (c Clocks) sameClock(from, to Mark) bool {
	if c.work == nil {
		return from.Corrected == 0 && to.Corrected == 0 && from.Device() == to.Device()
	}
	a, _ := c.work.reading(from)
	z, _ := c.work.reading(to)
	return c.work.clock(a) == c.work.clock(z)
}

// Monitor places a moment on the patient monitor's clock, as if UTC, by the last
// of the ties that were noted before it, else by the first. The ± is that of the
// tie and of the clocks between. False: there is no tie, or no way to it.
func (c Clocks) Monitor(charts []Chart, m Mark) (Placed, bool) {
	if len(charts) == 0 {
		return Placed{Within: WithinUnknown}, false
	}
	tie := charts[0]
	for _, chart := range charts[1:] {
		if chart.At.Compare(m.At) < 0 {
			tie = chart
		}
	}
	took, within, known := c.Between(tie.Mark, m)
	if !known {
		return Placed{Within: WithinUnknown}, false
	}
	return Placed{
		Wall: moved(tie.Monitor, took.Milliseconds()), Within: within + milliseconds(int64(tie.WithinMS)),
		Known: true, Late: m.By.Happened != 0 || m.Corrected != 0,
	}, true
}

// moved is a wall clock reading so many milliseconds later, within what a wall can be.
func moved(w mesh.Wall, ms int64) mesh.Wall { return min(max(w+mesh.Wall(ms), 1), mesh.WallMax) }

func milliseconds(ms int64) time.Duration {
	return time.Duration(min(ms, int64(durationMax))) * time.Millisecond
}
