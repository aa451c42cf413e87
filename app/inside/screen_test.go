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

// Goal: the board keeps the design in every state, on every glass, dark and
// light, and what it says can be reviewed as text. Method: audit each state on a
// tablet, and those that other glasses lay out in another way on these, and
// compare with its file; LINTEL_GOLDEN=1 writes the files again. The shade
// changes colours only.
func TestEveryStateKeepsTheDesignAndReadsAsBefore(t *testing.T) {
	scenes := map[string]*scene{}
	audited := func(size, name string, shade look.Shade, word string) {
		s := scenes[size+word]
		if s == nil {
			s = newScene(t, shade, windows()[size])
			scenes[size+word] = s
		}
		s.again()
		states(t)[name](s)
		assert.Empty(t, proof.Audit(s.look, s.screen.Object(), s.window), "%s, %s, %s", size, name, word)
		s.draw("inside-" + size + "-" + name + "-" + word)
		if word == "dark" && size != "desktop" && (size != "ten" || name == "calm") {
			golden(t, size+"-"+name+".txt", s.text())
		}
	}
	for name := range states(t) {
		audited("tablet", name, look.Dark, "dark")
		for _, size := range glasses(name) {
			audited(size, name, look.Dark, "dark")
		}
	}
	for _, name := range []string{"calm", "held", "cut", "called", "drill-say", "locked"} {
		audited("tablet", name, look.Light, "light")
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
	s.tap("9  relaxant")
	require.Equal(t, station.Ask{Room: "A1", Thing: requests.Thing{Item: 3009, Count: 1}, Urgency: requests.NextOpening}, s.taps.acts[2])
	s.now = s.now.Add(s.screen.snap.Limits.Undo)
	s.tap("undo")
	require.Len(t, s.taps.acts, 3, "after five seconds a tap on undo does nothing")
}

// Goal: other items take two taps, a typed number its digits and one; a rescue
// set says where it lies with the tap that asks. Method: tap and compare.
func TestOtherItemsAndRescueSets(t *testing.T) {
	s := newScene(t, look.Dark, windows()["tablet"])
	s.tap("other item")
	s.tap("2035 In-line")
	for _, key := range []string{"other item", "4", "2", "6", "2", "ask"} {
		s.tap(key)
	}
	s.tap("B")
	var items []mesh.Number
	for _, act := range s.taps.acts {
		items = append(items, act.(station.Ask).Thing.Item)
	}
	require.Equal(t, []mesh.Number{2035, 4262, 229}, items)
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
	snap := calm(t)
	snap.Requests = []Request{open(snap, 1, 3009, 2, requests.ShownAsked, asking()...), open(snap, 2, 1108, 1, requests.ShownAtDoor, requests.ActTakeIn)}
	s.screen.Set(snap)
	s.tap("open")
	s.tap("taken in")
	s.tap("next")
	s.tap("one more")
	more := open(snap, 1, 3009, 3, 1).Thing.Thing
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
	for _, size := range []string{"tablet", "tall", "phone"} {
		window := windows()[size]
		s := newScene(t, look.Dark, window)
		for n := range 40 {
			hands := proof.Hands(s.look, s.screen.Object(), window)
			if len(hands) == 0 { // locked
				s.now = s.now.Add(s.screen.snap.Limits.Wipe)
				s.screen.Paint()
				hands = proof.Hands(s.look, s.screen.Object(), window)
			}
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
