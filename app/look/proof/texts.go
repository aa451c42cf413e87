package proof

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"lintel/app/look"
)

// Shares of a text's size, as the painter places the shipped font: capitals
// stand between these lines of its box.
const (
	capTopShare  = 1.025 - 0.698
	baselineFrom = 1.025
	boxSlack     = 0.2 // of the size: a line's box may reach out of its part, its letters may not
)

const roundingArcmin = 0.05

// texts judges every line that says something.
func (a *audit) texts(all []seen) {
	var inked []area
	var said []string
	for n, s := range all {
		text, is := s.object.(*canvas.Text)
		if !is || strings.TrimSpace(text.Text) == "" {
			continue
		}
		letters := lettersOf(s, text)
		if underSink(all[n+1:], letters) {
			continue
		}
		a.text(s, text)
		for i, other := range inked {
			if letters.overlaps(other) {
				a.complain(RuleOverlap, said[i]+" | "+text.Text, letters, 0, 0)
			}
		}
		inked, said = append(inked, letters), append(said, text.Text)
	}
}

// underSink tells whether what a sink paints over the screen covers some
// letters: they are meant not to be read then.
func underSink(after []seen, letters area) bool {
	for i, s := range after {
		if !sinks(s.object) {
			continue
		}
		for _, over := range after[i+1:] {
			field, is := over.object.(*canvas.Rectangle)
			if is && over.within == s.at && opaque(field.FillColor) && over.at.overlaps(letters) {
				return true
			}
		}
	}
	return false
}

func (a *audit) text(s seen, text *canvas.Text) {
	if arcmin := a.look.Scale().Arcmin(text.TextSize, s.reads); arcmin < look.ArcminMin-roundingArcmin {
		a.complain(RuleLetters, text.Text, s.at, arcmin, look.ArcminMin)
	}
	slack := text.TextSize * boxSlack
	width := text.MinSize().Width
	switch letters := lettersOf(s, text); {
	case strings.HasSuffix(text.Text, look.Cut):
		a.complain(RuleCut, text.Text, s.at, 0, 0)
	case width > s.at.right-s.at.left+slack:
		a.complain(RuleCut, text.Text, s.at, float64(s.at.right-s.at.left), float64(width))
	case !s.within.holds(letters, 1), !s.scrolled && !a.window.holds(letters, 1):
		a.complain(RuleOutside, text.Text, s.at, 0, 0)
	}
	wanted := look.ContrastText
	if text.Color == color.Color(a.look.Palette().Off) {
		wanted = look.ContrastOff
	}
	if ratio := look.Contrast(text.Color, s.ground); ratio < wanted {
		a.complain(RuleContrast, text.Text, s.at, ratio, wanted)
	}
	for _, missing := range a.runes.Missing(text.Text) {
		a.complain(RuleRune, string(missing)+" in "+text.Text, s.at, float64(missing), 0)
	}
}

// lettersOf is where the capitals of a line are painted.
func lettersOf(s seen, text *canvas.Text) area {
	box := text.MinSize()
	left, top := s.at.left, s.at.top+(s.at.bottom-s.at.top-box.Height)/2
	switch spare := s.at.right - s.at.left - box.Width; text.Alignment {
	case fyne.TextAlignCenter:
		left += spare / 2
	case fyne.TextAlignTrailing:
		left += spare
	}
	return area{left, top + text.TextSize*capTopShare, left + box.Width, top + text.TextSize*baselineFrom}
}
