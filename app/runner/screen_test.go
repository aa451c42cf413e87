package runner

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/station"
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
	voice := func(s *Screen) { s.begin(toVoice, "") }
	page := func(p pick) func(*Screen) { return func(s *Screen) { s.pick(p) } }
	door := page(pick{what: picksDoor, room: "A1"})
	count := func(n requests.Count) func(*Screen) { return page(pick{what: picksCount, n: n}) }
	rest := func(n int) func(*Screen) {
		return func(s *Screen) { s.hand.from = n; s.Paint() }
	}
	drill := busy(t)
	drill.Rooms[0].Drill = "drill 3"
	all := map[string]func(*scene){
		"calm":    with(calm(t)),
		"busy":    with(busy(t)),
		"next":    with(busy(t), rest(1)),
		"asked":   with(busy(t), rest(2)),
		"late":    with(late(t)),
		"drill":   with(drill, (*Screen).silence),
		"request": with(busy(t), page(pick{what: picksOpen, ref: ref(3)})),
		"drug":    with(busy(t), page(pick{what: picksOpen, ref: ref(2)})),
		"set":     with(busy(t), page(pick{what: picksOpen, ref: ref(1)})),
		"held":    with(busy(t), open(2, requests.ActReadBack)),
		"unread":  with(busy(t), open(3, requests.ActReadBack), func(s *Screen) { s.Scanned("]d20112345678901231") }),
		"mixed":   with(busy(t), open(3, requests.ActReadBack)),
		"look":    with(busy(t), page(pick{what: picksOpen, ref: ref(3)}), page(pick{what: picksLook})),
		"offer":   with(busy(t), open(2, requests.ActOffer), page(pick{what: picksHeld, item: 3051, n: 1})),
		"count":   with(busy(t), open(2, requests.ActReadBack), page(pick{what: picksItem, item: 3038})),
		"many":    with(busy(t), open(2, requests.ActReadBack), page(pick{what: picksItem, item: 3038}), page(pick{what: picksMany}), typed("12")),
		"cannot":  with(busy(t), open(2, requests.ActCouldNot)),
		"where":   with(busy(t), open(4, requests.ActPutAtDoor)),
		"at":      with(busy(t), page(pick{what: picksAtDoor, room: "A1"})),
		"bag":     with(busy(t), page(pick{what: picksAtDoor, room: "A1"}), page(pick{what: picksBag})),
		"say":     with(busy(t), page(pick{what: picksSayTo, room: "A1"})),
		"mine":    with(busy(t), page(pick{what: picksPassAll})),
		"pass":    with(busy(t), open(3, requests.ActPassOn)),
		"door":    with(calm(t), voice),
		"number":  with(calm(t), voice, door, typed("110")),
		"slip":    with(calm(t), voice, door, typed("3108")),
		"code":    with(calm(t), voice, door, typed("1108"), (*Screen).done, count(1), page(pick{what: picksSoon, soon: requests.RightNow}), typed("123")),
		"soon":    with(calm(t), voice, door, typed("1108"), (*Screen).done, count(1)),
		"wrong": func(c *scene) {
			with(busy(t), open(4, requests.ActPutAtDoor))(c)
			c.taps.err = &station.WrongDoorError{Read: "A3", For: "A2"}
			c.screen.pick(pick{what: picksWhere, room: "A3"})
		},
		"interrupted": with(called(t, requests.CallSaid), open(2, requests.ActReadBack)),
	}
	for name, why := range above() {
		all["call-"+name] = with(called(t, why))
		all["answer-"+name] = with(called(t, why), (*Screen).notice)
	}
	return all
}

// late is one drug that takes longer than usual.
func late(t *testing.T) Snapshot {
	s := busy(t)
	s.Requests = s.Requests[2:3]
	s.Requests[0].Shown, s.Requests[0].Late, s.Requests[0].Usual = requests.ShownAcknowledged, true, 100*time.Second
	s.Requests[0].Acts = []requests.Act{requests.ActReadBack, requests.ActOffer, requests.ActCouldNot, requests.ActPassOn}
	s.Requests[0].Mine, s.Requests[0].Going, s.Requests[0].Since = true, []string{"R1"}, s.Now-130_000
	return s
}

// above are the calls that stand above the list.
func above() map[string]requests.CallWhy {
	return map[string]requests.CallWhy{
		"breach": requests.CallBreach, "said": requests.CallSaid, "test": requests.CallTest, "still": requests.CallStill,
		"late": requests.CallReminded, "passed": requests.CallPassed, "contended": requests.CallContended, "same": NoticeSame,
		"inject": NoticeInject, "nobody": requests.CallNew, "withdrawn": requests.CallStop,
	}
}

// Goal: the list and its questions keep the design on every screen, dark and
// light. Method: audit each state on each window.
func TestListKeepsTheDesign(t *testing.T) {
	for size, window := range windows() {
		for name, arrange := range states(t) {
			if size != "desk" && size != "phone" && !slices.Contains(tight(), name) {
				continue
			}
			for shadeName, shade := range map[string]look.Shade{"dark": look.Dark, "light": look.Light} {
				if shade == look.Light && (size != "desk" || !slices.Contains(tight(), name)) {
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

// tight are the states that need the most room: they are tried on every window.
func tight() []string {
	return []string{"calm", "busy", "asked", "drill", "drug", "count", "number", "held", "mixed", "wrong", "bag", "pass", "call-said", "call-still", "answer-still", "interrupted"}
}

// Goal: what a screen says can be reviewed as text. Method: compare each state
// with its file; LINTEL_GOLDEN=1 writes the files again.
func TestScreensReadAsBefore(t *testing.T) {
	for size, window := range windows() {
		for name, arrange := range states(t) {
			if size != "desk" && size != "phone" {
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
