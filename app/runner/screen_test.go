package runner

import (
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

// states are what the list is shown in, each with what was tapped to get there.
func states(t *testing.T) map[string]func(*scene) {
	with := func(s Snapshot, steps ...func(*Screen)) func(*scene) {
		return func(c *scene) {
			c.screen.Set(s)
			for _, step := range steps {
				step(c.screen)
			}
		}
	}
	open := func(n byte, act requests.Act) func(*Screen) {
		return func(s *Screen) { s.pick(pick{what: picksAct, act: act, ref: ref(n)}) }
	}
	typed := func(digits string) func(*Screen) {
		return func(s *Screen) {
			for _, d := range digits {
				s.typeDigit(d)
			}
		}
	}
	voice := func(s *Screen) { s.begin(toVoice) }
	door := func(s *Screen) { s.pick(pick{what: picksDoor, room: "A1"}) }
	rest := func(n int) func(*Screen) {
		return func(s *Screen) { s.hand.from = n; s.Paint() }
	}
	return map[string]func(*scene){
		"calm":    with(calm(t)),
		"busy":    with(busy(t)),
		"next":    with(busy(t), rest(4)),
		"asked":   with(busy(t), rest(2)),
		"request": with(busy(t), func(s *Screen) { s.pick(pick{what: picksOpen, ref: ref(3)}) }),
		"set":     with(busy(t), func(s *Screen) { s.pick(pick{what: picksOpen, ref: ref(1)}) }),
		"held":    with(busy(t), open(2, requests.ActReadBack)),
		"count":   with(busy(t), open(2, requests.ActReadBack), func(s *Screen) { s.pick(pick{what: picksItem, item: 3038}) }, typed("2")),
		"cannot":  with(busy(t), open(2, requests.ActCouldNot)),
		"door":    with(calm(t), voice),
		"number":  with(calm(t), voice, door, typed("110")),
		"slip":    with(calm(t), voice, door, typed("3108")),
		"code": with(calm(t), voice, door, typed("1108"), (*Screen).done, typed("1"), (*Screen).done,
			func(s *Screen) { s.pick(pick{what: picksSoon, soon: requests.RightNow}) }, typed("123")),
		"soon": with(calm(t), voice, door, typed("1108"), (*Screen).done, typed("1"), (*Screen).done),
	}
}

// Goal: the list and its questions keep the design on every screen, dark and
// light. Method: audit each state on each window.
func TestListKeepsTheDesign(t *testing.T) {
	for size, window := range windows() {
		for name, arrange := range states(t) {
			for shadeName, shade := range map[string]look.Shade{"dark": look.Dark, "light": look.Light} {
				if shade == look.Light && size != "desk" {
					continue // the shade changes colours only
				}
				s := newScene(t, shade, window)
				arrange(s)
				assert.Empty(t, proof.Audit(s.look, s.screen.Object(), window), "%s, %s, %s", size, name, shadeName)
				s.draw("runner-" + size + "-" + name + "-" + shadeName)
			}
		}
	}
}

// Goal: what a screen says can be reviewed as text. Method: compare each state
// with its file; LINTEL_GOLDEN=1 writes the files again.
func TestScreensReadAsBefore(t *testing.T) {
	for size, window := range windows() {
		for name, arrange := range states(t) {
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

// Goal: going, at the door, taken in as seen, cannot, pass on and taken back are
// what was tapped and nothing else. Method: tap through each and compare.
func TestTapsMakeTheActsTheySay(t *testing.T) {
	for _, c := range []struct {
		request byte
		taps    []string
		want    station.Act
		way     mesh.Way
	}{
		{2, []string{"I am going"}, station.Go{Request: ref(2)}, mesh.WaySelf},
		{4, []string{"at the door"}, station.PutAtDoor{Request: ref(4)}, mesh.WaySelf},
		{5, []string{"taken in, seen"}, station.TakeIn{Request: ref(5)}, mesh.WayGlass},
		{6, []string{"taken back"}, station.TakeBack{Request: ref(6)}, mesh.WaySelf},
		{2, []string{"cannot", "locked away"}, station.CouldNot{Request: ref(2), Why: "locked away"}, mesh.WaySelf},
		{3, []string{"pass on", "R3"}, station.PassOn{Request: ref(3), To: "R3"}, mesh.WaySelf},
	} {
		for _, window := range windows() {
			s := newScene(t, look.Dark, window)
			s.screen.Set(busy(t))
			s.screen.pick(pick{what: picksOpen, ref: ref(c.request)})
			for _, name := range c.taps {
				s.find(name)
			}
			require.Equal(t, []station.Act{c.want}, s.taps.acts, c.taps)
			require.Equal(t, c.way, s.taps.by.Way)
			require.Equal(t, stepList, s.screen.hand.step)
		}
	}
}

// find taps a choice, turning pages until it is there.
func (s *scene) find(name string) {
	s.t.Helper()
	for range choicesMax {
		if proof.Tap(s.look, s.screen.Object(), s.window, name) {
			return
		}
		s.tap("more")
	}
	require.Fail(s.t, "never shown", name)
}

// Goal: a read-back is chosen and typed, never filled in. Method: read back
// another strength and count than asked; until both are given there is no act.
func TestReadBackIsChosenAndTyped(t *testing.T) {
	for _, window := range windows() {
		s := newScene(t, look.Dark, window)
		s.screen.Set(busy(t))
		s.screen.pick(pick{what: picksAct, act: requests.ActReadBack, ref: ref(2)})
		s.find("10 mg/mL")
		s.tap("OK")
		require.Empty(t, s.taps.acts, "no count was typed")
		s.tap("0")
		s.tap("OK")
		require.Empty(t, s.taps.acts, "none is no count")
		s.tap("3")
		s.tap("OK")
		held := requests.Thing{Item: 3038, Strength: "10 mg/mL, 20 mL", Count: 3, Measure: mesh.Each}
		require.Equal(t, []station.Act{station.ReadBack{Request: ref(2), Thing: held, How: requests.Chosen}}, s.taps.acts)
	}
}

// Goal: up to three alternatives are offered, each with its count. Method:
// choose three; a fourth cannot be chosen.
func TestOffersHaveAtMostThreeThings(t *testing.T) {
	s := newScene(t, look.Dark, windows()["desk"])
	s.screen.Set(busy(t))
	s.screen.pick(pick{what: picksAct, act: requests.ActOffer, ref: ref(2)})
	for range offersMax {
		s.find("100")
		s.tap("1")
		s.tap("OK")
	}
	require.NotContains(t, s.text(), "100")
	s.tap("offer these 3")
	require.Len(t, s.taps.acts[0].(station.Offer).Things, 3)
}

// Goal: what was asked by voice, and what was passed in unasked, is recorded as
// that. Method: type number, count and code; a code that was misread is kept back.
func TestVoiceAndPassedInAreRecordedAsSuch(t *testing.T) {
	for _, window := range windows() {
		s := newScene(t, look.Dark, window)
		s.screen.begin(toVoice)
		for _, name := range []string{"A2", "1", "1", "0", "8", "OK", "2", "OK", "next opening", "1", "2", "3", "4", "5", "OK"} {
			s.tap(name)
		}
		require.Empty(t, s.taps.acts, "the code's last digit does not fit")
		s.tap("←")
		check, _ := mesh.Damm("1234")
		s.tap(string(check))
		s.tap("OK")
		thing := requests.Thing{Item: 1108, Strength: "15 Fr", Count: 2, Measure: mesh.Each}
		want := station.Ask{Room: "A2", Thing: thing, Urgency: requests.NextOpening, Origin: requests.AskedByVoice, Code: mesh.Label("1234" + string(check))}
		require.Equal(t, []station.Act{want}, s.taps.acts)
		require.Equal(t, mesh.WayVoice, s.taps.by.Way)
		s.screen.begin(toPassIn)
		for _, name := range []string{"A1", "1", "1", "0", "8", "OK", "2", "OK"} {
			s.tap(name)
		}
		require.Equal(t, station.PassIn{Room: "A1", Thing: thing}, s.taps.acts[1])
	}
}

// Goal: a failure is said, a question about a request that is gone goes away,
// and what was put back is taken off the list. Method: each in turn.
func TestListFollowsWhatHappens(t *testing.T) {
	s := newScene(t, look.Dark, windows()["desk"])
	s.screen.Set(busy(t))
	s.taps.err = errTest
	s.screen.pick(pick{what: picksAct, act: requests.ActAcknowledge, ref: ref(2)})
	require.Contains(t, s.text(), "The disk is full.")
	s.screen.pick(pick{what: picksOpen, ref: ref(2)})
	require.Equal(t, stepRequest, s.screen.hand.step)
	require.NotContains(t, s.text(), "The disk is full.")
	s.screen.Set(calm(t))
	require.Equal(t, stepList, s.screen.hand.step)
	gone := busy(t)
	gone.Requests = gone.Requests[:1]
	gone.Requests[0].Back, gone.Requests[0].Acts, gone.Requests[0].Shown = true, nil, requests.ShownWithdrawn
	s.screen.Set(gone)
	require.Contains(t, s.text(), "put it back.")
	s.tap("is put back")
	require.Empty(t, s.screen.rows.Entries)
}

// Goal: nothing that hands can do ends the program. Method: tap at random, with
// snapshots that change under the hands; the seed is printed.
func TestRandomTapsNeverPanic(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	for _, window := range windows() {
		s := newScene(t, look.Dark, window)
		for n := range 40 {
			hands := proof.Hands(s.look, s.screen.Object(), window)
			require.NotEmpty(t, hands)
			hands[random.IntN(len(hands))].On.Tapped(nil)
			if n%15 == 0 {
				snap := busy(t)
				snap.Requests = snap.Requests[:random.IntN(len(snap.Requests))]
				s.screen.Set(snap)
			}
		}
	}
}
