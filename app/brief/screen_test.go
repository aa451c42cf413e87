package brief

import (
	"maps"
	"math/rand/v2"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/stage"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// states are what the pages are shown in, each with what was tapped to get there.
func states() map[string]func(*scene) {
	in := func(to step) func(*scene) {
		return func(s *scene) {
			s.team()
			s.begun()
			s.screen.ask(to)
			s.screen.Set(linked(s.unit.look()))
		}
	}
	out := map[string]func(*scene){
		"rooms": func(s *scene) {
			s.team()
			s.begun()
			s.screen.AskRooms()
		},
		"kind":   func(s *scene) { s.team(); s.find("A1") },
		"case":   in(stepCase),
		"roles":  in(stepRoles),
		"tag":    func(s *scene) { in(stepRoles)(s); s.find("other tag") },
		"keys":   func(s *scene) { in(stepKeys)(s); s.screen.pick(pick{what: picksKey, text: "R"}) },
		"plans":  func(s *scene) { in(stepPlans)(s); s.find("Plan A"); s.screen.Set(linked(s.unit.look())) },
		"lines":  in(stepLines),
		"sets":   in(stepSets),
		"singly": in(stepSingly),
		"kits":   in(stepKits),
		"kit":    func(s *scene) { in(stepKits)(s); s.find("line by line") },
		"ppe": func(s *scene) {
			in(stepPPE)(s)
			s.find("who checks")
			s.find("O1")
			s.find("L1 Airway lead")
			s.find("O1 PPE observer")
			s.find("not well on")
			s.find("D1")
		},
		"hurried": func(s *scene) { s.team(); s.find("patient cannot wait") },
		"skipped": func(s *scene) {
			s.team()
			s.find("patient cannot wait")
			s.find("Left out")
			s.find("Plan A")
		},
		"comms": func(s *scene) {
			in(stepComms)(s)
			s.tested()
			s.screen.Set(linked(s.unit.look()))
		},
		"device": func(s *scene) {
			in(stepComms)(s)
			s.tested()
			s.screen.Set(linked(s.unit.look()))
			s.screen.pick(pick{what: picksDevice, key: mesh.Key{2}})
		},
		"end": in(stepEnd),
		"fault": func(s *scene) {
			in(stepPlans)(s)
			s.err = stage.ErrTest
			s.find("all four said")
		},
	}
	maps.Copy(out, unitStates())
	return out
}

// unitStates are those of what a unit decides in quiet times.
func unitStates() map[string]func(*scene) {
	unit := func(lead bool, to step) func(*scene) {
		return func(s *scene) {
			if s.team(); lead {
				s.lead()
			}
			s.screen.ask(to)
		}
	}
	return map[string]func(*scene){
		"unit":     unit(false, stepUnit),
		"drill":    unit(true, stepDrill),
		"inject":   func(s *scene) { unit(true, stepDrill)(s); s.find("A2"); s.find("Runner is called away") },
		"second":   func(s *scene) { unit(true, stepDrill)(s); s.find("A2"); s.find("Second patient at another door") },
		"layout":   unit(true, stepLayout),
		"settings": unit(true, stepSettings),
		"calls":    func(s *scene) { unit(true, stepCalls)(s); s.screen.pickRow(1); s.show() },
		"setting":  func(s *scene) { unit(true, stepSettings)(s); s.find("Nobody is going") },
	}
}

// Goal: the pages keep the design on every screen, dark and light. Method:
// audit each state on each glass.
func TestPagesKeepTheDesign(t *testing.T) {
	for glass := range glasses() {
		for name, arrange := range states() {
			for shadeName, shade := range map[string]look.Shade{"dark": look.Dark, "light": look.Light} {
				if shade == look.Light && glass != "desk" {
					continue // the shade changes colours only
				}
				s := newScene(t, shade, glass, false)
				arrange(s)
				assert.Empty(t, s.Audit(), "%s, %s, %s", glass, name, shadeName)
				s.Draw("brief-" + glass + "-" + name + "-" + shadeName)
			}
		}
	}
}

// Goal: on a device inside, double-gloved hands find targets as large as on the
// board. Method: audit what is used there on the tablet that is used there.
func TestPagesInsideAreForGloves(t *testing.T) {
	for _, name := range []string{"case", "comms", "lines", "roles"} {
		s := newScene(t, look.Dark, "desk", true)
		states()[name](s)
		assert.Empty(t, s.Audit(), name)
		s.Draw("brief-inside-" + name)
	}
	s := newScene(t, look.Dark, "desk", true)
	s.unit.hold(0, "lead", "L1", "A1")
	s.screen.AskComms("A1")
	s.show()
	s.tap("send a test")
	assert.Empty(t, s.Audit())
	s.Draw("brief-inside-door")
}

// Goal: what a screen says can be reviewed as text. Method: compare each state
// with its file; LINTEL_GOLDEN=1 writes the files again.
func TestScreensReadAsBefore(t *testing.T) {
	for _, glass := range []string{"desk", "phone"} {
		for name, arrange := range states() {
			s := newScene(t, look.Dark, glass, false)
			arrange(s)
			s.Golden(glass + "-" + name)
		}
	}
}

// briefTapsMax is how many taps a whole brief may take.
const briefTapsMax = 25

// Goal: a whole brief for four people takes at most briefTapsMax taps, from the
// list of rooms to the board, with nothing left out, turning pages included.
// Method: tap it all on each glass, and count; the smallest shows two lines at a
// time, so that turning comes on top there.
func TestAWholeBriefTakesFewTaps(t *testing.T) {
	for size := range glasses() {
		s := newScene(t, look.Dark, size, false)
		s.intubation()
		s.find("next")
		s.find("all four said")
		s.find("all said")
		s.find("all pointed at")
		for _, line := range []string{"Plans A to D said", "Voice link", "Paper card", "Kit checked", "Drugs drawn", "Doffing area"} {
			s.find(line)
		}
		s.find("First tray")
		s.find("O1")
		s.find("L1 Airway lead")
		s.find("D1 Airway assistant")
		s.find("who checks")
		s.find("L1")
		s.find("O1 PPE observer")
		s.find("to the board")
		c, open := s.unit.Board.CaseIn("A1")
		require.True(t, open)
		require.Empty(t, c.Skipped)
		require.Equal(t, []mesh.ID{"A1"}, s.boards)
		r, _ := s.unit.look().room("A1")
		n, all := r.Case.done()
		require.Equal(t, all, n, "%s: something is open:\n%s", size, s.Text())
		t.Log(size, s.taps, "taps")
		if size != "tiny" {
			require.LessOrEqual(t, s.taps, briefTapsMax, size)
		}
	}
}

// Goal: a patient who cannot wait needs one tap to the board; what was left out
// is listed, and can be said later. Method: tap once, then say a line.
func TestAPatientWhoCannotWaitNeedsOneTap(t *testing.T) {
	for glass := range glasses() {
		s := newScene(t, look.Dark, glass, false)
		s.team()
		s.tap("patient cannot wait")
		require.Equal(t, []mesh.ID{"A1"}, s.boards)
		require.Equal(t, []station.Act{station.OpenCase{Case: requests.CaseOpen{Room: "A1", Label: "1", Hurry: true}}}, s.acts)
		r, _ := s.unit.look().room("A1")
		left := len(r.Case.left())
		require.Equal(t, len(r.Case.Plans)+len(r.Case.Lines), left)
		s.find("Left out")
		s.find("Plan A")
		r, _ = s.unit.look().room("A1")
		require.Len(t, r.Case.left(), left-1)
	}
}

// Goal: going on without the rest records what was left out, list by list, and
// leads to the board. Method: say the plans, go on, and look at the case.
func TestGoingOnRecordsWhatWasLeftOut(t *testing.T) {
	s := newScene(t, look.Dark, "desk", false)
	s.intubation()
	s.tap("next")
	s.tap("all four said")
	s.screen.ask(stepCase)
	s.find("go on without")
	require.Equal(t, []mesh.ID{"A1"}, s.boards)
	c, _ := s.unit.Board.CaseIn("A1")
	lists := map[mesh.ID]int{}
	for _, x := range c.Skipped {
		lists[x.List]++
	}
	require.Equal(t, map[mesh.ID]int{listBrief: 19, listKit: 1}, lists)
	s.find("to the board")
	require.Len(t, s.boards, 2, "what was left out is not recorded a second time")
	s.find("Left out")
	s.find("Everybody has said")
	c, _ = s.unit.Board.CaseIn("A1")
	require.Equal(t, mesh.ID("roles-said"), c.Ticks[0].Line)
}

// Goal: whoever checks their own equipment is recorded, marked, and does not
// count as checked. Method: one check by another, one by the wearer.
func TestAWearerIsNoChecker(t *testing.T) {
	s := newScene(t, look.Dark, "desk", false)
	s.begun()
	s.screen.ask(stepRoles)
	s.screen.ask(stepPPE)
	require.Contains(t, s.Text(), "Say first who checks")
	s.find("who checks")
	s.tap("L1")
	s.find("L1 Airway lead")
	s.find("D1 Airway assistant")
	require.Contains(t, s.Text(), "no check by another")
	r, _ := s.unit.look().room("A1")
	n, all := r.Case.checked()
	require.Equal(t, 1, n)
	require.Equal(t, 3, all, "the runner stays outside")
	c, _ := s.unit.Board.CaseIn("A1")
	require.Len(t, c.PPE, 2)
}

// Goal: the last tap can be taken back for as long as the unit lets it, also
// when it said several lines. Method: say all plans and undo; then wait.
func TestTheLastTapCanBeUndone(t *testing.T) {
	s := newScene(t, look.Dark, "desk", false)
	s.begun()
	s.screen.ask(stepRoles)
	s.tap("next")
	s.screen.Set(s.unit.look())
	s.tap("all four said")
	undo := s.screen.hand.undo
	require.Len(t, undo, 4)
	s.screen.hand.until = s.screen.snap.Now + 5000
	s.screen.Paint()
	s.tap("undo")
	r, _ := s.unit.look().room("A1")
	n, _ := doneOf(r.Case.Plans)
	require.Zero(t, n)
	require.False(t, s.Try("undo"))
}

// Goal: what fails is said, and nothing after it is tried. Method: a disk that
// fails at the first of four.
func TestAFailureEndsTheTap(t *testing.T) {
	s := newScene(t, look.Dark, "desk", false)
	states()["fault"](s)
	require.Contains(t, s.Text(), "The disk is full.")
	require.Equal(t, stepPlans, s.screen.hand.step)
	before := len(s.acts)
	s.find("all four said")
	require.Len(t, s.acts, before+1)
}

// Goal: a tag can be typed. Method: letter, digits, erase, OK.
func TestATagCanBeTyped(t *testing.T) {
	for glass := range glasses() {
		s := newScene(t, look.Dark, glass, false)
		s.begun()
		s.screen.ask(stepRoles)
		s.find("other tag")
		s.find("type a tag")
		for _, key := range []string{"L", "←", "L", "1", "7", "←", "2", "OK"} {
			s.tap(key)
		}
		require.Equal(t, "L12", string(s.acts[len(s.acts)-1].(station.TakeRole).Tag))
		require.Equal(t, stepRoles, s.screen.hand.step)
	}
}

// Goal: the comms check goes from the device inside, with the door's number as
// it is read there, to somebody outside who hears it. Method: one device of
// each side; then a wrong number.
func TestCommsCheckGoesThroughTheDoor(t *testing.T) {
	inside := newScene(t, look.Dark, "desk", true)
	inside.unit.hold(0, "lead", "L1", "A1")
	inside.unit.do(0, mesh.By{Role: "lead", Tag: "L1"}, station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation"}})
	inside.screen.AskComms("A1")
	inside.show()
	inside.tap("send a test")
	inside.tap("A2")
	sent := inside.acts[0].(station.TestComms)
	require.Equal(t, mesh.ID("A2"), sent.Door)
	require.Equal(t, int32(81), sent.Battery)
	require.Contains(t, inside.Text(), "the door says A2")

	outside := newScene(t, look.Dark, "phone", false)
	outside.team()
	outside.intubation()
	outside.unit.do(2, mesh.By{Role: "lead", Tag: "L1"}, station.TestComms{Room: "A1", Battery: BatteryUnknown, Door: "A1"})
	outside.screen.AskComms("A1")
	outside.screen.Set(linked(outside.unit.look()))
	outside.screen.pick(pick{what: picksDevice, key: mesh.Key{2}})
	outside.tap("heard, with sound")
	heard := outside.acts[len(outside.acts)-1].(station.HearTest)
	require.True(t, heard.Sound)
	require.Equal(t, uint32(4), heard.RoundTripMS)
	said, good := verdict(outside.screen.opt.Words, linked(outside.unit.look()), linked(outside.unit.look()).Rooms[0].Devices[0])
	require.True(t, good, said)
}

// Goal: nothing that hands can do ends the program. Method: tap at random; the
// seed is printed.
func TestRandomTapsNeverPanic(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	for glass := range glasses() {
		s := newScene(t, look.Dark, glass, false)
		s.team()
		s.lead()
		for range 60 {
			hands := s.Hands()
			require.NotEmpty(t, hands)
			hands[random.IntN(len(hands))].On.Tapped(&fyne.PointEvent{})
			s.show()
		}
	}
}
