package join

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// states are what the screen is shown in, each with what was tapped to get there.
func states() map[string]func(*scene) {
	in := func(taps ...string) func(*scene) {
		return func(s *scene) {
			s.screen.Set(member())
			for _, name := range taps {
				s.find(name)
			}
		}
	}
	out := func(taps ...string) func(*scene) {
		return func(s *scene) {
			for _, name := range taps {
				s.find(name)
			}
		}
	}
	return map[string]func(*scene){
		"alone":   out(),
		"name":    out("found a unit"),
		"where":   out("join a unit"),
		"address": out("join a unit", "type an address"),
		"code":    out("join a unit", "192.0.2.20", "1", "2", "3", "4"),
		"wrong": func(s *scene) {
			out("join a unit", "192.0.2.20", "1", "2", "3", "4", "5", "6", "6", "OK")(s)
			s.unit.done(errTest)
		},
		"devices": in(),
		"invite": func(s *scene) {
			in("invite")(s)
			s.unit.showed(Invitation{Code: "123 456 6", Until: s.screen.snap.Now + 95_000}, nil)
		},
		"over": func(s *scene) {
			in("invite")(s)
			s.unit.showed(Invitation{Code: "123 456 6", Until: s.screen.snap.Now - 1}, nil)
		},
		"role":  in("who has it?"),
		"tag":   in("who has it?", "Runner"),
		"rooms": in("who has it?", "Runner", "R2", "A2"),
	}
}

// Goal: joining keeps the design on every screen, dark and light. Method: audit
// each state on each window.
func TestJoiningKeepsTheDesign(t *testing.T) {
	for size, window := range windows() {
		for name, arrange := range states() {
			for shadeName, shade := range map[string]look.Shade{"dark": look.Dark, "light": look.Light} {
				if shade == look.Light && size != "desk" {
					continue // the shade changes colours only
				}
				s := newScene(t, shade, window)
				arrange(s)
				assert.Empty(t, proof.Audit(s.look, s.screen.Object(), window), "%s, %s, %s", size, name, shadeName)
				s.draw("join-" + size + "-" + name + "-" + shadeName)
			}
		}
	}
}

// Goal: what a screen says can be reviewed as text. Method: compare each state
// with its file; LINTEL_GOLDEN=1 writes the files again.
func TestScreensReadAsBefore(t *testing.T) {
	for size, window := range windows() {
		for name, arrange := range states() {
			if size == "small" {
				continue
			}
			s := newScene(t, look.Dark, window)
			arrange(s)
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

// Goal: a unit is founded under the name that was typed, and not without one.
// Method: tap with nothing typed, then with a name.
func TestFoundingNeedsAName(t *testing.T) {
	s := newScene(t, look.Dark, windows()["phone"])
	s.tap("found a unit")
	s.tap("found it")
	require.Empty(t, s.unit.asked)
	s.screen.parts.entry.SetText("  Anvil unit ")
	s.tap("found it")
	s.tap("found it")
	require.Equal(t, []string{"found Anvil unit"}, s.unit.asked, "once, however often it is tapped")
	s.unit.done(nil)
	require.Equal(t, stepHome, s.screen.hand.step)
}

// Goal: joining takes a nearby or a typed address and seven digits that fit; a
// wrong code is said and can be typed again. Method: each way.
func TestJoiningTakesAddressAndCode(t *testing.T) {
	for _, window := range windows() {
		s := newScene(t, look.Dark, window)
		s.tap("join a unit")
		s.find("192.0.2.31")
		s.typed("1234561")
		s.tap("OK")
		require.Empty(t, s.unit.asked, "the last digit does not fit")
		s.tap("←")
		s.typed(code[6:])
		s.tap("OK")
		s.tap("OK")
		require.Equal(t, []string{"join 192.0.2.31:29461 " + code}, s.unit.asked)
		s.unit.done(errTest)
		require.Contains(t, s.text(), "Tries left: 1.")
		require.Equal(t, stepCode, s.screen.hand.step)
		s.tap("←")
		s.find("back")
		require.Equal(t, stepHome, s.screen.hand.step)
		s.tap("join a unit")
		s.find("type an address")
		s.screen.parts.entry.SetText(" 192.0.2.9:29460 ")
		s.find("on")
		s.typed(code)
		s.tap("OK")
		require.Equal(t, "join 192.0.2.9:29460 "+code, s.unit.asked[1])
		s.unit.done(nil)
		require.Equal(t, stepHome, s.screen.hand.step)
	}
}

// Goal: a code is shown until it is used, has run out, or somebody goes back,
// which takes it back. Method: each end.
func TestCodesAreShownUntilTheyEnd(t *testing.T) {
	s := newScene(t, look.Dark, windows()["desk"])
	states()["invite"](s)
	require.Contains(t, s.text(), "123~456~6")
	require.Contains(t, s.text(), "1:35 left")
	s.screen.Joined(nil)
	require.Equal(t, stepHome, s.screen.hand.step)
	states()["invite"](s)
	s.tap("back")
	require.Equal(t, "cancel", s.unit.asked[len(s.unit.asked)-1])
	s.screen.Joined(errTest)
	require.Equal(t, [2]string{}, s.screen.hand.fault, "nobody looks at a code any more")
	s.tap("invite")
	s.unit.showed(Invitation{}, errTest)
	require.Equal(t, stepHome, s.screen.hand.step)
	require.Contains(t, s.text(), "The code is wrong.")
}

// Goal: who has the device is said by role, tag and rooms, one tap each.
// Method: tap them; none of the rooms is every room.
func TestWhoHasThisDeviceIsOneTapEach(t *testing.T) {
	for _, window := range windows() {
		s := newScene(t, look.Dark, window)
		states()["rooms"](s)
		s.find("A1")
		s.find("A2")
		s.find("that is right")
		holds := requests.Holds{Role: "runner", Tag: "R2", Rooms: []mesh.ID{"A1"}}
		require.Equal(t, []station.Act{station.Hold{Holds: holds}}, s.unit.acts)
		require.Equal(t, mesh.By{Role: "runner", Tag: "R2"}, s.unit.by)
		require.Equal(t, 1, s.held)
	}
}

// Goal: nothing that hands can do ends the program. Method: tap at random, with
// answers that come at random; the seed is printed.
func TestRandomTapsNeverPanic(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	for _, window := range windows() {
		s := newScene(t, look.Dark, window)
		for n := range 40 {
			hands := proof.Hands(s.look, s.screen.Object(), window)
			require.NotEmpty(t, hands)
			hands[random.IntN(len(hands))].On.Tapped(&fyne.PointEvent{})
			switch {
			case n%20 == 0:
				s.screen.Set([]Snapshot{alone(), member()}[random.IntN(2)])
			case n%7 == 0 && s.unit.done != nil:
				s.unit.done([]error{nil, errTest}[random.IntN(2)])
			case n%5 == 0 && s.unit.showed != nil:
				s.unit.showed(Invitation{Code: "123 456 6", Until: s.screen.snap.Now + 1000}, nil)
			}
		}
	}
}
