package look

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Goal: millimetres are true after a calibration. Method: a card that is
// 428 dp wide on a screen of 100 dp per 20 mm; there and back.
func TestACardGivesTheScale(t *testing.T) {
	s, err := ScaleOfCard(428)
	require.NoError(t, err)
	require.InDelta(t, 100, s.Density(), 0.001)
	require.InDelta(t, CardHeight*5, s.MM(CardHeight), 0.01)
	require.InDelta(t, 20, s.Millimetres(s.MM(20)), 0.001)
	require.InDelta(t, DensityDesktop, Scale{}.Density(), 0.001, "the zero value works")
}

// Goal: a wrong figure never makes a screen of no size. Method: figures at and
// beyond the bounds, and one that is no number.
func TestADensityOutOfBoundsIsRefused(t *testing.T) {
	var zero float32
	for _, density := range []float32{0, -1, DensityMin - 1, DensityMax + 1, zero / zero} {
		_, err := NewScale(density)
		require.Error(t, err, "%v", density)
		o := Defaults()
		o.Density = density
		_, err = New(o)
		require.Error(t, err, "%v", density)
	}
	for _, density := range []float32{DensityMin, DensityMax} {
		_, err := NewScale(density)
		require.NoError(t, err)
	}
	_, err := New(Options{Density: DensityDesktop})
	require.Error(t, err, "no clock")
}

// Goal: a screen can be calibrated with the parts there are. Method: draw a
// card as wide as a real one measured, take the scale, and draw it again.
func TestACalibrationDrawsACard(t *testing.T) {
	l := newLook(t)
	c := NewCalibration(l)
	require.InDelta(t, CardWidth*5, c.MinSize().Width, 0.01)
	c.Set(CalibrationFace{WidthDP: 350})
	s, err := ScaleOfCard(c.face.WidthDP)
	require.NoError(t, err)
	l.SetScale(s)
	require.InDelta(t, 350, l.CalibrationStart().WidthDP, 0.01)
	require.InDelta(t, 350*CardHeight/CardWidth, c.MinSize().Height, 0.01)
	require.InDelta(t, CardHeight, s.Millimetres(c.MinSize().Height), 0.01)
}
