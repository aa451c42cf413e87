package look

import (
	"image/color"
	"math"
)

// Least contrasts (WCAG 2.2: 1.4.6 for text, 1.4.11 for what is not text).
const (
	ContrastText = 7.0 // what has to be read
	ContrastOff  = 4.5 // what cannot be tapped now
	ContrastEdge = 3.0 // borders and icons
)

// Luminance is the relative luminance of an opaque colour, 0 to 1 (WCAG 2.2).
func Luminance(c color.Color) float64 {
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	return 0.2126*linear(n.R) + 0.7152*linear(n.G) + 0.0722*linear(n.B)
}

func linear(v uint8) float64 {
	c := float64(v) / 255
	if c <= 0.04045 {
		return c / 12.92
	}
	return math.Pow((c+0.055)/1.055, 2.4)
}

// Contrast is the ratio of two opaque colours, 1 to 21, in either order (WCAG 2.2).
func Contrast(a, b color.Color) float64 {
	la, lb := Luminance(a), Luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}
