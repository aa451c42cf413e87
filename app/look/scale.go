package look

import "fmt"

// Densities of a screen, in dp for 20 mm. No system tells the true one.
const (
	DensityDesktop = 100.0 // until it was calibrated, dp per 20 mm
	DensityMobile  = 130.0 // until it was calibrated, dp per 20 mm
	DensityMin     = 40.0  // dp per 20 mm
	DensityMax     = 320.0 // dp per 20 mm
)

// An ID-1 card, as every bank card is (ISO/IEC 7810), held against the screen.
const (
	CardWidth  = 85.60 // mm
	CardHeight = 53.98 // mm
)

// Scale turns millimetres into dp. The zero value is DensityDesktop.
type Scale struct{ dpPerMM float32 }

// NewScale takes dp for 20 mm, the figure that a caller stores. An error names a
// density out of bounds.
func NewScale(density float32) (Scale, error) {
	if !(density >= DensityMin && density <= DensityMax) {
		return Scale{}, fmt.Errorf("look: density %v is not %v to %v dp for 20 mm", density, DensityMin, DensityMax)
	}
	return Scale{dpPerMM: density / 20}, nil
}

// ScaleOfCard is the scale of a screen on which a drawing of this width, in dp,
// is as wide as a card.
func ScaleOfCard(widthDP float32) (Scale, error) { return NewScale(widthDP * 20 / CardWidth) }

// MM gives dp. It is the only way from the design's measures to the screen.
func (s Scale) MM(mm float32) float32 { return mm * s.perMM() }

// Millimetres gives back what dp measure on the glass.
func (s Scale) Millimetres(dp float32) float32 { return dp / s.perMM() }

// Density is the figure to store, dp for 20 mm.
func (s Scale) Density() float32 { return s.perMM() * 20 }

func (s Scale) perMM() float32 {
	if s.dpPerMM == 0 {
		return DensityDesktop / 20
	}
	return s.dpPerMM
}
