package mesh

import "fmt"

// Number is a catalogue line's lifelong spoken number; its last digit is a Damm
// check digit. 0 names no line.
type Number uint32

// NumberMax bounds spoken numbers: six digits at most.
const NumberMax Number = 999_999

// Measure is the base in which a quantity is counted. The numbers never change.
type Measure uint8

// Measures. A container, a syringe and a person are "each".
const (
	Each       Measure = 1
	Microgram  Measure = 2
	Microlitre Measure = 3
	Unit       Measure = 4 // international units
	Micromole  Measure = 5
)

// Valid reports a number over NumberMax. Whether the check digit fits is a
// question for whoever types it, never for what was recorded.
func (n Number) Valid() error { return Within("number", int64(n), 0, int64(NumberMax)) }

// Valid reports an unknown measure; 0 stands only where there is no quantity.
func (m Measure) Valid() error { return Within("measure", int64(m), 0, int64(Micromole)) }

// Within reports, as ErrRange, a number outside low … high.
func Within(what string, n, low, high int64) error {
	if n < low || n > high {
		return fmt.Errorf("%w: %s %d, allowed are %d to %d", ErrRange, what, n, low, high)
	}
	return nil
}
