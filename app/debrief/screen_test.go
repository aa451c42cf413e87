package debrief

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"lintel/app/look"
)

// states are what the screen is shown in, each with what was tapped to get there.
func states(glass string) map[string][]string {
	nearer, toRoles := []string{"nearer", "later"}, []string{"beside others", "roles"}
	if narrow(glass) {
		nearer = append([]string{"in time"}, nearer...)
	}
	if glass != "desk" && glass != "desktop" {
		toRoles = toRoles[1:]
	}
	return map[string][]string{
		"case": nil, "figures": {"figures"}, "beside": {"beside others"}, "roles": toRoles, "cases": {"cases"},
		"questions": {"questions"}, "question": {"questions", "What had to be fetched", "Bougie 15 Fr"}, "plain": {"questions", "Was the plan"},
		"answered": {"questions", "What had to be fetched", "Bougie 15 Fr", "record"},
		"held":     {"debrief"}, "why": {"debrief", "no"}, "not-held": {"debrief", "no", "no time"}, "paper": {"the record"}, "nearer": nearer,
		"time":  nearer[:len(nearer)-2],
		"drill": {"cases", "D 1"},
	}
}

// Goal: the screen keeps the design on every glass, dark and light, and what it
// says can be reviewed as text. Method: audit each state on each, and compare
// those of a tablet and a phone with their files.
func TestScreensKeepTheDesignAndReadAsBefore(t *testing.T) {
	for glass := range glasses() {
		for name, taps := range states(glass) {
			for shadeName, shade := range map[string]look.Shade{"dark": look.Dark, "light": look.Light} {
				if shade == look.Light && (glass != "desk" || len(taps) > 1) {
					continue // the shade changes colours only
				}
				s, _ := on(t, glass, shade)
				s.find(taps...)
				assert.Empty(t, s.Audit(), "%s, %s, %s", glass, name, shadeName)
				if glass == "desk" || glass == "phone" {
					s.Golden(glass + "-" + name)
				}
				s.Draw("debrief-" + glass + "-" + name + "-" + shadeName)
			}
		}
	}
}
