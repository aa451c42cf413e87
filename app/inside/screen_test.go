package inside

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// states are what the board is shown in, each with what was tapped to get there.
func states(t *testing.T) map[string]func(*scene) {
	with := func(make func(Snapshot) []Request, taps ...string) func(*scene) {
		return func(s *scene) {
			snap := calm(t)
			snap.Requests = make(snap)
			s.screen.Set(snap)
			for _, name := range taps {
				s.tap(name)
			}
		}
	}
	return map[string]func(*scene){
		"calm": func(*scene) {},
		"asked": with(func(s Snapshot) []Request {
			return []Request{open(s, 1, 3046, 2, requests.ShownAsked, asking()...), open(s, 2, 1108, 1, requests.ShownAtDoor, requests.ActTakeIn)}
		}),
		"held": with(func(s Snapshot) []Request {
			r := open(s, 1, 3046, 2, requests.ShownInHand, requests.ActAgree, requests.ActRefuse, requests.ActChange, requests.ActWithdraw)
			r.Loop, r.Held = requests.LoopMatches, &ReadBack{Ref: ref(9), Thing: r.Thing, By: "R1", Matches: true}
			return []Request{r, open(s, 2, 1108, 1, requests.ShownAtDoor, requests.ActTakeIn)}
		}, "answer"),
		"differs": with(func(s Snapshot) []Request {
			r := open(s, 1, 3046, 2, requests.ShownInHand, requests.ActAgree, requests.ActRefuse, requests.ActChange, requests.ActWithdraw)
			r.Loop, r.Held = requests.LoopReadBack, &ReadBack{Ref: ref(9), Thing: open(s, 3, 3038, 2, 1).Thing, By: "R1"}
			return []Request{r}
		}, "answer"),
		"offered": with(func(s Snapshot) []Request {
			r := open(s, 1, 3046, 2, requests.ShownAsked, requests.ActAgree, requests.ActRefuse, requests.ActChange, requests.ActWithdraw)
			r.Offered = ref(8)
			r.Offer = []Thing{open(s, 3, 3038, 2, 1).Thing, open(s, 3, 3051, 1, 1).Thing, open(s, 3, 3067, 1, 1).Thing}
			return []Request{r}
		}, "answer"),
		"other":  with(func(Snapshot) []Request { return nil }, "other"),
		"drugs":  with(func(Snapshot) []Request { return nil }, "other", "groups", "drugs"),
		"groups": with(func(Snapshot) []Request { return nil }, "other", "groups"),
		"lies": with(func(s Snapshot) []Request {
			return []Request{open(s, 1, 229, 1, requests.ShownAsked, asking()...)}
		}, "B"),
		"sign": func(s *scene) {
			snap := calm(t)
			snap.Runners = nil
			snap.Requests = []Request{open(snap, 1, 3046, 2, requests.ShownAsked, asking()...)}
			s.screen.Set(snap)
			s.tap("sign")
		},
		"cut": func(s *scene) {
			snap := calm(t)
			snap.Runners = []Runner{{Tag: "R1", Health: mesh.NotConnected}}
			r := open(snap, 1, 3046, 2, requests.ShownAsked, asking()...)
			r.Reach.OnRunner, r.Reach.Copies = false, 0
			snap.Requests = []Request{r}
			s.screen.Set(snap)
		},
	}
}

// Goal: the board keeps the design on tablets, dark and light, in every state.
// Method: audit each state on each window.
func TestBoardKeepsTheDesign(t *testing.T) {
	for size, window := range windows() {
		for name, arrange := range states(t) {
			for shadeName, shade := range map[string]look.Shade{"dark": look.Dark, "light": look.Light} {
				if shade == look.Light && size != "tablet" {
					continue // the shade changes colours only
				}
				s := newScene(t, shade, window)
				if size != "tablet" && name != "calm" && name != "cut" && name != "asked" {
					continue
				}
				arrange(s)
				assert.Empty(t, proof.Audit(s.look, s.screen.Object(), window), "%s, %s, %s", size, name, shadeName)
				s.draw("inside-" + size + "-" + name + "-" + shadeName)
			}
		}
	}
}

// Goal: what a screen says can be reviewed as text. Method: compare each state
// with its file; LINTEL_GOLDEN=1 writes the files again.
func TestScreensReadAsBefore(t *testing.T) {
	for size, window := range windows() {
		for name, arrange := range states(t) {
			if size != "tablet" && name != "asked" {
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

// Goal: one tap on the front page asks, as soon as was chosen, and can be
// undone for five seconds. Method: tap tiles; look at the acts.
func TestOneTapAsksAndCanBeUndone(t *testing.T) {
	s := newScene(t, look.Dark, windows()["tablet"])
	s.tap("3 Bougie")
	want := station.Ask{Room: "A1", Thing: requests.Thing{Item: 1108, Count: 1}, Urgency: requests.RightNow}
	require.Equal(t, []station.Act{want}, s.taps.acts)
	require.Equal(t, mesh.By{Role: "lead", Tag: "L1"}, s.taps.by)
	s.tap("undo")
	require.Equal(t, station.Undo{Mark: ref(101)}, s.taps.acts[1])
	s.tap("undo")
	require.Len(t, s.taps.acts, 2, "what was undone is not undone again")
	s.tap("next opening")
	s.tap("10 Ketamine")
	require.Equal(t, station.Ask{Room: "A1", Thing: requests.Thing{Item: 3046, Count: 1}, Urgency: requests.NextOpening}, s.taps.acts[2])
	s.now = s.now.Add(UndoFor)
	s.tap("undo")
	require.Len(t, s.taps.acts, 3, "after five seconds a tap on undo does nothing")
}

// Goal: other items take two taps, a typed number its digits and one; a rescue
// set says where it lies with the tap that asks. Method: tap and compare.
func TestOtherItemsAndRescueSets(t *testing.T) {
	s := newScene(t, look.Dark, windows()["tablet"])
	s.tap("other item")
	s.tap("3080 Propofol")
	for _, key := range []string{"other item", "4", "2", "6", "2", "ask"} {
		s.tap(key)
	}
	s.tap("B")
	var items []mesh.Number
	for _, act := range s.taps.acts {
		items = append(items, act.(station.Ask).Thing.Item)
	}
	require.Equal(t, []mesh.Number{3080, 4262, 229}, items)
	require.Contains(t, s.text(), "in the room, rescue trolley, left")
}

// Goal: agree, refuse, take in, withdraw, one more and an alternative are one
// tap in the panel, and say which request and which answer. Method: open the
// panel in each state and tap.
func TestPanelAnswersForTheRequestShown(t *testing.T) {
	for _, c := range []struct {
		state, button string
		want          station.Act
	}{
		{"held", "agree", station.Agree{Request: ref(1), Answers: ref(9)}},
		{"held", "refuse", station.Refuse{Request: ref(1), Answers: ref(9)}},
		{"held", "withdraw", station.Withdraw{Request: ref(1)}},
		{"offered", "1 × Etomidate", station.Agree{Request: ref(1), Which: 3, Answers: ref(8)}},
		{"offered", "refuse", station.Refuse{Request: ref(1), Answers: ref(8)}},
	} {
		s := newScene(t, look.Dark, windows()["tablet"])
		states(t)[c.state](s)
		s.tap(c.button)
		require.Equal(t, []station.Act{c.want}, s.taps.acts, c.button)
	}
	s := newScene(t, look.Dark, windows()["tablet"])
	states(t)["asked"](s)
	s.tap("open")
	s.tap("taken in")
	s.tap("next")
	s.tap("one more")
	more := open(calm(t), 1, 3046, 3, 1).Thing.Thing
	require.Equal(t, []station.Act{station.TakeIn{Request: ref(2)}, station.Change{Request: ref(1), Thing: more, Urgency: requests.RightNow}}, s.taps.acts)
}

// Goal: what could not be recorded is said in red where the strip stands, until
// the next tap. Method: let the act fail.
func TestFailuresAreSaid(t *testing.T) {
	for _, window := range windows() {
		s := newScene(t, look.Dark, window)
		s.taps.err = errTest
		s.tap("Arrest")
		s.screen.press(Button{Does: doesClose})
		require.Contains(t, s.text(), "The disk is full.")
		s.taps.err = nil
		s.tap("Arrest")
		s.screen.press(Button{Does: doesClose})
		require.NotContains(t, s.text(), "The disk is full.")
	}
}

// Goal: nothing that hands can do ends the program. Method: tap at random, with
// snapshots that change under the hands; the seed is printed.
func TestRandomTapsNeverPanic(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	for size, window := range windows() {
		s := newScene(t, look.Dark, window)
		for n := range 40 {
			hands := proof.Hands(s.look, s.screen.Object(), window)
			require.NotEmpty(t, hands, fmt.Sprintf("%s, tap %d", size, n))
			hands[random.IntN(len(hands))].On.Tapped(nil)
			if n%10 == 0 {
				snap := calm(t)
				for i := range random.IntN(4) {
					snap.Requests = append(snap.Requests, open(snap, byte(i+1), snap.Items[random.IntN(len(snap.Items))].Number, 1,
						requests.Shown(1+random.IntN(9)), requests.Act(1+random.IntN(14)), requests.ActAgree))
				}
				s.screen.Set(snap)
			}
		}
	}
}
