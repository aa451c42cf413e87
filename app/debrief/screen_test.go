package debrief

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
)

// states are what the screen is shown in, each with what was tapped to get there.
func states(size string) map[string][]string {
	nearer := []string{"nearer", "later"}
	if size == "phone" {
		nearer = append([]string{"in time"}, nearer...)
	}
	toRoles := []string{"roles"}
	if size == "desktop" || size == "tablet" {
		toRoles = []string{"beside others", "roles"}
	}
	return map[string][]string{
		"case": nil, "figures": {"figures"}, "beside": {"beside others"}, "roles": toRoles, "cases": {"cases"},
		"questions": {"questions"}, "question": {"questions", "What had to be fetched", "Bougie 15 Fr"}, "plain": {"questions", "Was the plan"},
		"answered": {"questions", "What had to be fetched", "Bougie 15 Fr", "record"},
		"held":     {"debrief"}, "why": {"debrief", "no"}, "not-held": {"debrief", "no", "no time"}, "paper": {"paper"}, "nearer": nearer, "time": nearer[:len(nearer)-2],
		"drill": {"cases", "D 1"},
	}
}

// arrange taps through to a state.
func (s *scene) arrange(taps []string) {
	for _, name := range taps {
		s.find(name)
	}
}

// Goal: the screen keeps the design on every glass, dark and light. Method:
// audit each state on each.
func TestScreenKeepsTheDesign(t *testing.T) {
	for size, window := range windows() {
		for name, taps := range states(size) {
			for shadeName, shade := range map[string]look.Shade{"dark": look.Dark, "light": look.Light} {
				if shade == look.Light && (size != "tablet" || len(taps) > 1) {
					continue // the shade changes colours only
				}
				u, of := full(t)
				s := newScene(t, shade, window, u, of)
				s.arrange(taps)
				assert.Empty(t, proof.Audit(s.look, s.screen.Object(), window), "%s, %s, %s", size, name, shadeName)
				s.draw("debrief-" + size + "-" + name + "-" + shadeName)
			}
		}
	}
}

// Goal: what a screen says can be reviewed as text. Method: compare each state
// with its file; LINTEL_GOLDEN=1 writes the files again.
func TestScreensReadAsBefore(t *testing.T) {
	for _, size := range []string{"desktop", "phone"} {
		for name, taps := range states(size) {
			u, of := full(t)
			s := newScene(t, look.Dark, windows()[size], u, of)
			s.arrange(taps)
			golden(t, size+"-"+name+".txt", s.text())
		}
	}
}

func golden(t *testing.T, name, got string) {
	path := filepath.Join("testdata", name)
	if os.Getenv("LINTEL_GOLDEN") != "" {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, string(want), got, name)
}
