package look

import "image/color"

// Shade is dark or light.
type Shade int

// Shades.
const (
	Dark Shade = iota
	Light
)

// Tone is what a colour stands for. It is never the only sign: a word stands
// beside it. Red, yellow and cyan stay apart for colour-deficient eyes; there
// is no green and no amber, which do not.
type Tone int

// Tones.
const (
	TonePlain  Tone = iota
	ToneNow         // red: now
	ToneNext        // yellow: next opening
	ToneBefore      // cyan: before we leave
	ToneRescue      // violet: rescue sets
	ToneFault       // red: could not be saved, link lost
	ToneDrill       // purple: an exercise
)

// Tones lists them all.
func Tones() []Tone {
	return []Tone{TonePlain, ToneNow, ToneNext, ToneBefore, ToneRescue, ToneFault, ToneDrill}
}

// Fill is a coloured field: what stands on it, and the edge around it.
type Fill struct{ Ground, Ink, Edge color.NRGBA }

// Palette is every colour of one shade. All are opaque.
type Palette struct {
	Shade   Shade
	Ground  color.NRGBA // behind everything
	Surface color.NRGBA // of tiles, cards, strips
	Pressed color.NRGBA // of what a finger is on
	Edge    color.NRGBA // around surfaces
	Ink     color.NRGBA // what has to be read
	Quiet   color.NRGBA // numbers, places, ages: read second
	Off     color.NRGBA // what cannot be tapped now
	Focus   color.NRGBA // around what the keyboard is on
	Alert   color.NRGBA // an icon that tells of trouble, on Surface and Ground
}

// PaletteOf gives the colours of a shade.
func PaletteOf(s Shade) Palette {
	if s == Light {
		return Palette{
			Shade: Light, Ground: rgb(0xE9EEF2), Surface: rgb(0xFFFFFF), Pressed: rgb(0xCFD9E2), Edge: rgb(0x5B6B79),
			Ink: rgb(0x10161C), Quiet: rgb(0x33404B), Off: rgb(0x5B6874), Focus: rgb(0x0057B8), Alert: rgb(0xB3001B),
		}
	}
	return Palette{
		Shade: Dark, Ground: rgb(0x0E1318), Surface: rgb(0x1B242D), Pressed: rgb(0x33424F), Edge: rgb(0x7C8D9C),
		Ink: rgb(0xF4F7FA), Quiet: rgb(0xCBD5DE), Off: rgb(0x95A4B2), Focus: rgb(0x5CC8FF), Alert: rgb(0xFF6B61),
	}
}

// Fill gives the field of a tone.
func (p Palette) Fill(t Tone) Fill {
	switch {
	case t == ToneNow || t == ToneFault:
		if p.Shade == Light {
			return Fill{Ground: rgb(0xB3001B), Ink: rgb(0xFFFFFF), Edge: rgb(0xB3001B)}
		}
		return Fill{Ground: rgb(0xFF6B61), Ink: rgb(0x000000), Edge: rgb(0xFF6B61)}
	case t == ToneNext && p.Shade == Light:
		return Fill{Ground: rgb(0xFFD400), Ink: p.Ink, Edge: p.Ink}
	case t == ToneNext:
		return Fill{Ground: rgb(0xFFD21F), Ink: rgb(0x000000), Edge: rgb(0xFFD21F)}
	case t == ToneBefore && p.Shade == Light:
		return Fill{Ground: rgb(0x5FD9F2), Ink: p.Ink, Edge: p.Ink}
	case t == ToneBefore:
		return Fill{Ground: rgb(0x35D0F0), Ink: rgb(0x000000), Edge: rgb(0x35D0F0)}
	case t == ToneRescue && p.Shade == Light:
		return Fill{Ground: rgb(0xDCD3FF), Ink: p.Ink, Edge: rgb(0x5A3FB0)}
	case t == ToneRescue:
		return Fill{Ground: rgb(0x3A2A66), Ink: rgb(0xFFFFFF), Edge: rgb(0xB9A6FF)}
	case t == ToneDrill:
		edge := rgb(0x7A1F6E)
		if p.Shade == Dark {
			edge = rgb(0xE59BDB)
		}
		return Fill{Ground: rgb(0x7A1F6E), Ink: rgb(0xFFFFFF), Edge: edge}
	}
	return Fill{Ground: p.Surface, Ink: p.Ink, Edge: p.Edge}
}

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 0xFF}
}
