package look

import (
	"bytes"
	"encoding/json"
	"image/color"
	"os"
	"strconv"
	"testing"

	"github.com/go-text/typesetting/font"
	"github.com/stretchr/testify/require"

	"lintel/assets"
)

// screenValues is testdata/screen.json: letter heights by the formula of
// NUREG-0700 and ISO 9241, contrasts by that of WCAG 2.2.
type screenValues struct {
	Heights []struct {
		Distance float64 `json:"dist_mm"`
		Arcmin   float64 `json:"arcmin"`
		MM       float64 `json:"mm"`
	} `json:"char_height_mm"`
	Contrasts []struct {
		Ink    string  `json:"fg"`
		Ground string  `json:"bg"`
		Ratio  float64 `json:"ratio"`
	} `json:"contrast"`
}

func readScreenValues(t *testing.T) (v screenValues) {
	file, err := os.ReadFile("testdata/screen.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(file, &v))
	require.NotEmpty(t, v.Heights)
	require.NotEmpty(t, v.Contrasts)
	return v
}

func colorOf(t *testing.T, hex string) color.NRGBA {
	v, err := strconv.ParseUint(hex[1:], 16, 32)
	require.NoError(t, err)
	return rgb(uint32(v))
}

// Goal: letters are as high as the formula says. Method: the values of
// screen.json, to half a unit of their last digit; then the sizes of all
// roles, at several densities, taken back to minutes of arc.
func TestLettersAreHighEnoughForTheirDistance(t *testing.T) {
	for _, v := range readScreenValues(t).Heights {
		require.InDelta(t, v.MM, CapHeight(v.Distance, v.Arcmin), 0.005001, "%v", v)
	}
	for _, density := range []float32{DensityMin, 76, DensityDesktop, DensityMobile, DensityMax} {
		s, err := NewScale(density)
		require.NoError(t, err)
		for _, r := range []Role{DeskLine, InsideTile, RunnerLine, StripLine, WallWord} {
			require.GreaterOrEqual(t, s.Arcmin(s.Letters(r, Small), r), ArcminMin-0.001)
			require.InDelta(t, ArcminLarge, s.Arcmin(s.Letters(r, Large), r), 0.3)
		}
	}
}

// Goal: the shares that sizes are computed with are those of the shipped font,
// and its digits do not jump. Method: read capitals, digits and line out of both files.
func TestTheFontIsAsHighAsItIsTakenToBe(t *testing.T) {
	for _, file := range [][]byte{assets.FontPlain(), assets.FontStrong()} {
		face, err := font.ParseTTF(bytes.NewReader(file))
		require.NoError(t, err)
		em := float64(face.Upem())
		glyph, ok := face.NominalGlyph('H')
		require.True(t, ok)
		box, ok := face.GlyphExtents(glyph)
		require.True(t, ok)
		require.InDelta(t, capShare, float64(box.YBearing)/em, 0.001)
		line, ok := face.FontHExtents()
		require.True(t, ok)
		require.InDelta(t, boxShare, float64(line.Ascender-line.Descender)/em, 0.001)
		zero, _ := face.NominalGlyph('0')
		for digit := '1'; digit <= '9'; digit++ {
			glyph, _ := face.NominalGlyph(digit)
			require.Equal(t, face.HorizontalAdvance(zero), face.HorizontalAdvance(glyph), "%c", digit)
			box, _ := face.GlyphExtents(glyph)
			require.GreaterOrEqual(t, float64(box.YBearing)/em, capShare-0.005, "%c", digit)
		}
	}
	require.Contains(t, assets.FontLicence(), "SIL Open Font License, Version 1.1")
}

// Goal: contrast is what WCAG 2.2 says. Method: the values of screen.json, and
// black on white 21, blue on white 8.59, #757575 on white 4.61.
func TestContrastFollowsTheFormula(t *testing.T) {
	for _, v := range readScreenValues(t).Contrasts {
		require.InDelta(t, v.Ratio, Contrast(colorOf(t, v.Ink), colorOf(t, v.Ground)), 0.005001, "%v", v)
	}
	white := rgb(0xFFFFFF)
	require.InDelta(t, 21, Contrast(rgb(0), white), 1e-9)
	require.InDelta(t, 8.59, Contrast(white, rgb(0x0000FF)), 0.005)
	require.InDelta(t, 4.61, Contrast(rgb(0x757575), white), 0.005)
}

// Goal: every pair of colours that can meet keeps its least contrast. Method:
// name them all, for both shades.
func TestEveryPairOfColoursKeepsItsContrast(t *testing.T) {
	for _, shade := range []Shade{Dark, Light} {
		p := PaletteOf(shade)
		for _, ground := range []color.NRGBA{p.Ground, p.Surface, p.Pressed} {
			require.GreaterOrEqual(t, Contrast(p.Ink, ground), ContrastText, "ink, %v, %v", shade, ground)
		}
		for _, ground := range []color.NRGBA{p.Ground, p.Surface} {
			require.GreaterOrEqual(t, Contrast(p.Quiet, ground), ContrastText, "quiet, %v, %v", shade, ground)
			require.GreaterOrEqual(t, Contrast(p.Off, ground), ContrastOff, "off, %v, %v", shade, ground)
			require.GreaterOrEqual(t, Contrast(p.Edge, ground), ContrastEdge, "edge, %v, %v", shade, ground)
			require.GreaterOrEqual(t, Contrast(p.Focus, ground), ContrastEdge, "focus, %v, %v", shade, ground)
			require.GreaterOrEqual(t, Contrast(p.Alert, ground), ContrastText*0.75, "alert, %v, %v", shade, ground)
		}
		require.GreaterOrEqual(t, Contrast(p.Quiet, p.Pressed), ContrastText*0.9, "quiet for a moment, %v", shade)
		for _, tone := range Tones() {
			f := p.Fill(tone)
			require.GreaterOrEqual(t, Contrast(f.Ink, f.Ground), ContrastText, "tone %v, %v", tone, shade)
			require.GreaterOrEqual(t, Contrast(f.Edge, p.Ground), ContrastEdge, "edge of tone %v, %v", tone, shade)
			require.GreaterOrEqual(t, Contrast(f.Edge, p.Surface), ContrastEdge, "edge of tone %v, %v", tone, shade)
		}
	}
}
