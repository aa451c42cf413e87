package proof

import (
	"fmt"

	"fyne.io/fyne/v2"

	"lintel/app/look"
)

// Rule is what a screen can break.
type Rule string

// The rules.
const (
	RuleScreen   Rule = "screen larger than its window"    // dp
	RuleTarget   Rule = "target too small"                 // mm
	RuleGap      Rule = "targets too close"                // mm
	RuleCorner   Rule = "rescue set near a corner"         // mm
	RuleSquashed Rule = "part smaller than its least size" // dp
	RuleOutside  Rule = "outside of the screen"            // dp
	RuleLetters  Rule = "letters too small"                // minutes of arc
	RuleCut      Rule = "text cut"                         // dp
	RuleOverlap  Rule = "texts overlap"                    // dp
	RuleContrast Rule = "contrast too low"                 // ratio
	RuleRune     Rule = "character not in the font"        // its number
)

// Finding is one thing that breaks a rule. The unit of Measured and Wanted is
// the rule's.
type Finding struct {
	Rule     Rule
	What     string // the text, or what the target is for
	At       fyne.Position
	Measured float64
	Wanted   float64
}

// String is one line for the output of a test.
func (f Finding) String() string {
	return fmt.Sprintf("%s: %q at %.0f,%.0f: %.2f, wanted %.2f", f.Rule, f.What, f.At.X, f.At.Y, f.Measured, f.Wanted)
}

// wear gives the toolkit the theme of a look. A theme that is on already is not
// set again: the toolkit would forget its fonts and read them once more.
func wear(l *look.Look) {
	if s := fyne.CurrentApp().Settings(); s.Theme() != l.Theme() {
		s.SetTheme(l.Theme())
	}
}

// Audit lays a screen out for a window of a size in dp and lists everything
// that is below the design, in the order of painting. Rectangles that are drawn
// over each other are judged by the middle of what stands on them.
func Audit(l *look.Look, screen fyne.CanvasObject, window fyne.Size) []Finding {
	wear(l)
	a := audit{look: l, window: areaOf(fyne.Position{}, window)}
	runes, err := look.ShippedRunes()
	if err != nil {
		return []Finding{{Rule: RuleRune, What: err.Error()}}
	}
	a.runes = runes
	screen.Move(fyne.Position{})
	screen.Refresh() // parts made before the theme was set
	if least := screen.MinSize(); least.Width > window.Width || least.Height > window.Height {
		a.found = append(a.found, Finding{RuleScreen, fmt.Sprintf("%.0f × %.0f", window.Width, window.Height), fyne.Position{},
			float64(max(least.Width-window.Width, least.Height-window.Height)), 0})
	}
	screen.Resize(window)
	w := walk{look: l}
	w.visit(screen, place{within: a.window})
	a.squashed(w.all)
	a.targets(w.all)
	a.texts(w.all)
	a.edges(w.all)
	return a.found
}

// audit is one look at one screen.
type audit struct {
	look   *look.Look
	runes  look.Runes
	window area
	found  []Finding
}

func (a *audit) complain(r Rule, what string, at area, measured, wanted float64) {
	a.found = append(a.found, Finding{r, what, fyne.NewPos(at.left, at.top), measured, wanted})
}

// millimetres is a length with what rounding takes.
func (a *audit) short(dp, mm float32) (measured float64, short bool) {
	measured = float64(a.look.Scale().Millimetres(dp))
	return measured, measured < float64(mm)-roundingMM
}

// roundingMM is what a layout in whole dp may take from a measure.
const roundingMM = 0.05

// squashed finds parts that got less room than they ask for.
func (a *audit) squashed(all []seen) {
	for _, s := range all {
		part, is := s.object.(fyne.Widget)
		if !is {
			continue
		}
		least, got := part.MinSize(), part.Size()
		if lack := max(least.Width-got.Width, least.Height-got.Height); lack > 1 {
			a.complain(RuleSquashed, fmt.Sprintf("%T", part), s.at, float64(-lack), 0)
		}
	}
}
