package kits

import (
	"math/bits"

	"lintel/mesh"
)

// Measured is an amount of a drug as people read it: containers and volume
// first, then the base measure.
type Measured struct {
	Containers int64 // whole ones
	OverUL     int64 // microlitres beside them, rounded down
	Exact      bool  // nothing was rounded away
	Base       Quantity
}

// Measured reads an amount of an item as supplied: so many whole containers and
// so many microlitres of the next one, of what the label says a container holds.
func (l *Ledger) Measured(item mesh.Number, q Quantity) Measured {
	c, _ := l.Item(item)
	base, ok := l.base(item, q)
	m := Measured{Base: base, Exact: ok}
	if q.Measure == mesh.Each {
		m.Containers = q.N
		return m
	}
	if holds := c.Value.Content; holds.N > 0 && holds.Measure == q.Measure {
		m.Containers = q.N / holds.N
		var rest bool
		m.OverUL, rest = portion(q.N%holds.N, c.Value.VolumeUL, holds.N)
		m.Exact = m.Exact && !rest && (c.Value.VolumeUL > 0 || q.N%holds.N == 0)
		return m
	}
	m.Exact = false
	return m
}

// MeasuredLine reads a line of a movement: what is of a syringe in the
// microlitres of that syringe, all else as supplied.
func (l *Ledger) MeasuredLine(x Line) Measured {
	drawn := l.moves.get(x.Syringe)
	if x.Syringe.IsZero() || drawn == nil || drawn.drawn == nil {
		return l.Measured(x.Item, x.Quantity)
	}
	m := Measured{Base: x.Quantity}
	d := drawn.drawn
	if d.VolumeUL == 0 || d.Amount.Measure != x.Quantity.Measure {
		return m
	}
	var rest bool
	m.OverUL, rest = portion(x.Quantity.N, d.VolumeUL, d.Amount.N)
	m.Exact = !rest
	return m
}

// portion is n × whole ÷ of, rounded down, and whether anything was left over.
// What does not fit the ledger's numbers gives the greatest one.
func portion(n, whole, of int64) (out int64, rest bool) {
	if of <= 0 || n <= 0 || whole <= 0 {
		return 0, false
	}
	high, low := bits.Mul64(uint64(n), uint64(whole))
	if high >= uint64(of) {
		return QuantityMax, true
	}
	quotient, remainder := bits.Div64(high, low, uint64(of))
	if quotient > uint64(QuantityMax) {
		return QuantityMax, true
	}
	return int64(quotient), remainder != 0
}
