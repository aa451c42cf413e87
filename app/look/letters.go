package look

import "math"

// Role is who reads a text from where.
type Role int

// Roles, with the distance they are read from.
const (
	DeskLine   Role = iota // at a desk, 0.5 m
	InsideTile             // at arm's length, through a visor, 0.7 m
	RunnerLine             // on the way, 1 m
	StripLine              // by the bed, 1.5 m
	WallWord               // on the wall, or through the glass, 2 m
)

// Distance is how far away a role reads, in mm.
func (r Role) Distance() float64 {
	switch r {
	case InsideTile:
		return 700
	case RunnerLine:
		return 1000
	case StripLine:
		return 1500
	case WallWord:
		return 2000
	}
	return 500
}

// Letter is one of the two sizes that each role has.
type Letter int

// The two sizes.
const (
	Small Letter = iota // the least that may be read: ArcminMin
	Large               // what must be seen first
)

// Letter heights in minutes of arc. At least 16 can be read, 20 to 22 is better
// (NUREG-0700, ISO 9241).
const (
	ArcminMin   = 20.0
	ArcminLarge = 30.0
)

// Arcmin is the height of a letter.
func (l Letter) Arcmin() float64 {
	if l == Large {
		return ArcminLarge
	}
	return ArcminMin
}

// Shares of the shipped font's em, measured in its files.
const (
	capShare  = 0.698 // capitals and digits
	lineShare = 1.16  // from one line to the next
	boxShare  = 1.300 // ascent and descent, as the painter takes them
)

// CapHeight is the height in mm that letters need at a distance in mm:
// H = D·arcmin·2π/21600 (follows ISO 9241; 21600 minutes make a circle).
func CapHeight(distance, arcmin float64) float64 { return distance * arcmin * 2 * math.Pi / 21600 }

// Letters is the text size in dp whose capitals are high enough for a role.
func (s Scale) Letters(r Role, l Letter) float32 {
	return s.TextSize(CapHeight(r.Distance(), l.Arcmin()))
}

// TextSize is the text size in dp whose capitals are this many mm high,
// rounded up to a tenth.
func (s Scale) TextSize(capMM float64) float32 {
	dp := float64(s.MM(float32(capMM))) / capShare
	return float32(math.Ceil(dp*10-1e-3) / 10)
}

// Arcmin is how high, in minutes of arc, capitals of a text size in dp look to a role.
func (s Scale) Arcmin(textSize float32, r Role) float64 {
	mm := float64(s.Millimetres(textSize)) * capShare
	return mm * 21600 / (2 * math.Pi * r.Distance())
}
