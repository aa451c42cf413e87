package debrief

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/stage"
	"lintel/app/station"
	"lintel/mesh"
)

// Goal: what is tapped is what is recorded, for the case that is looked at.
// Method: tap through each on every glass and compare the acts.
func TestTapsMakeTheActsTheySay(t *testing.T) {
	for glass := range glasses() {
		u, of := full(t)
		for _, x := range []struct {
			taps []string
			want station.Act
		}{
			{[]string{"questions", "What had to be fetched", "Ketamine", "Bougie", "record"}, station.AnswerLine{Case: of, Line: "fetched", Words: "Ketamine 50\u00a0mg/mL · Bougie 15\u00a0Fr"}},
			{[]string{"questions", "Was the plan", "yes", "✓ yes", "no", "record"}, station.AnswerLine{Case: of, Line: "plan", Words: "no"}},
			{[]string{"debrief", "yes"}, station.HoldDebrief{Case: of, Held: true}},
			{[]string{"debrief", "no", "it will be held later"}, station.HoldDebrief{Case: of, Why: "it will be held later"}},
		} {
			s := newScene(t, glass, look.Dark, u, of)
			s.find(x.taps...)
			require.Equal(t, []station.Act{x.want}, s.acts, "%s: %s", glass, x.taps)
		}
	}
}

// Goal: nothing is chosen or written before somebody does it, and nothing empty
// is recorded. Method: open a question that was answered before, and tap record.
func TestNothingIsAnsweredBeforehand(t *testing.T) {
	s, of := on(t, "desk", look.Dark)
	s.unit.do(desk, station.AnswerLine{Case: of, Line: "plan", Words: "yes"})
	s.look()
	s.find("questions", "Was the plan")
	require.Contains(t, s.Text(), "C1: yes", "what was answered is told")
	require.NotContains(t, s.Text(), "✓")
	s.screen.press([]Button{*s.screen.page.Record}, 0)
	s.Try("record")
	require.Empty(t, s.acts)
}

// Goal: what is typed at a desk is recorded behind what was chosen, also as a
// reason; where there is no keyboard nothing can be typed. Method: type both.
func TestWordsCanBeTypedAtADesk(t *testing.T) {
	s, of := on(t, "desk", look.Dark)
	s.find("questions", "What had to be fetched", "Bougie")
	s.screen.parts.entry.SetText(" second suction ")
	s.find("record")
	s.find("back", "debrief", "no")
	require.Empty(t, s.screen.parts.entry.Text, "words belong to one question")
	s.screen.parts.entry.SetText("transfer at once")
	s.find("record")
	require.Equal(t, []station.Act{
		station.AnswerLine{Case: of, Line: "fetched", Words: "Bougie 15\u00a0Fr · second suction"}, station.HoldDebrief{Case: of, Why: "transfer at once"},
	}, s.acts)

	hand := newScene(t, "phone", look.Dark, s.unit, of)
	hand.find("questions", "What had to be fetched")
	require.False(t, hand.screen.parts.entry.Visible())
	hand.find("back", "back", "debrief", "no")
	require.NotContains(t, hand.Text(), "record", "a reason is one tap")
}

// Goal: another case is asked of the host, and its first page is shown when it
// comes; a drill says so in words. Method: choose the exercise.
func TestAnotherCaseIsBroughtByTheHost(t *testing.T) {
	s, of := on(t, "desk", look.Dark)
	s.find("cases", "D 1")
	require.NotEqual(t, of, s.of)
	require.Equal(t, s.of, s.screen.Of())
	require.Contains(t, s.Text(), "drill · D 1 · A1 · Intubation")
	s.find("beside others")
	require.Contains(t, s.Text(), "drill · D 1 | this case")
	require.Contains(t, s.Text(), "All | 6 cases")
}

// Goal: the page stays with its case when a newer one is opened, and shows that
// one when it is asked for anew. Method: open a case meanwhile.
func TestPageStaysWithItsCase(t *testing.T) {
	u, of := full(t)
	s := newScene(t, "desk", look.Dark, u, mesh.Ref{})
	newer := u.open("C 13")
	s.look()
	require.Equal(t, of, s.screen.Of())
	s.screen.AskNewest()
	require.NotContains(t, s.Text(), "C 12")
	s.look()
	require.Equal(t, newer, s.screen.Of())
	require.Equal(t, newer, s.of)
	require.Contains(t, s.Text(), "goes on")
}

// Goal: it is said when clocks were never compared. Method: a case that a device
// ended whose clock was not.
func TestClocksThatWereNeverComparedAreSaid(t *testing.T) {
	u := newUnit(t)
	u.compared(phone, time.Second)
	s := newScene(t, "desk", look.Dark, u, u.small("C 1", 5, 4))
	require.Contains(t, s.Text(), "1 device was never compared")
	s.find("figures", "more")
	require.Contains(t, s.Text(), "Every time, at most")
}

// Goal: the last record can be taken back for as long as the unit set. Method:
// record, take back, record, wait.
func TestUndoIsThereForAsLongAsSet(t *testing.T) {
	s, of := on(t, "desk", look.Dark)
	s.find("debrief", "yes", "undo")
	require.IsType(t, station.Undo{}, s.acts[1])
	c, _ := s.unit.Board.Case(of)
	require.Empty(t, c.Debriefs)
	s.find("debrief", "yes")
	s.unit.Now.Wall += mesh.Wall(s.screen.snap.UndoFor.Milliseconds())
	s.look()
	require.NotContains(t, s.Text(), "undo")
	s.screen.pick(pick{what: picksUndo})
	require.Len(t, s.acts, 3)
}

// Goal: a failed record says so and keeps what was chosen; a paper says where it
// is, or why there is none. Method: acts and papers that fail, then not.
func TestFailuresAreSaidAndKeepWhatWasChosen(t *testing.T) {
	s, of := on(t, "desk", look.Dark)
	s.err = stage.ErrTest
	s.find("questions", "What had to be fetched", "Bougie", "record")
	require.Contains(t, s.Text(), "The disk is full.")
	require.Contains(t, s.Text(), "✓ Bougie")
	s.err = nil
	s.find("record")
	require.NotContains(t, s.Text(), "The disk is full.")
	require.Equal(t, s.acts[0], s.acts[1])

	s.find("back")
	s.err = stage.ErrTest
	s.find("the record")
	require.Contains(t, s.Text(), "The disk is full.")
	s.err = nil
	s.find("the record")
	require.Contains(t, s.Text(), "C12-record.pdf")
	require.Equal(t, []mesh.Ref{of, of}, s.papers)
	s.screen.opt.Paper = nil
	s.screen.Paint()
	require.NotContains(t, s.Text(), "the record")
}

// Goal: on a size that changes, the page suits the new one. Method: a tablet
// that is turned, there and back.
func TestPagesSuitTheSize(t *testing.T) {
	s, _ := on(t, "desk", look.Dark)
	before := s.Text()
	for _, turned := range []bool{true, false} {
		size := s.Glass.Size
		if turned {
			size = fyne.NewSize(350, 660)
		}
		require.Empty(t, proof.Audit(s.Look, s.screen.Object(), size))
	}
	require.Equal(t, before, s.Text())
}

// Goal: the picture can be brought nearer, moved and shown whole again. Method:
// tap through; every tap that is offered does something.
func TestPictureIsBroughtNearer(t *testing.T) {
	s, _ := on(t, "desk", look.Dark)
	whole := s.Text()
	s.find("nearer", "nearer", "earlier", "earlier", "later")
	require.NotEqual(t, whole, s.Text())
	for s.screen.hand.at > 0 {
		s.find("earlier")
	}
	require.NotContains(t, s.Text(), "earlier")
	s.find("whole")
	require.Equal(t, whole, s.Text())
}

// Goal: nothing that hands can do ends the program. Method: tap at random, with
// snapshots that change under the hands; the seed is printed.
func TestRandomTapsNeverPanic(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	for glass := range glasses() {
		s, _ := on(t, glass, look.Dark)
		for n := range 40 {
			hands := s.Hands()
			if len(hands) > 0 {
				hands[random.IntN(len(hands))].On.Tapped(nil)
			}
			switch {
			case n%20 == 19:
				s.screen.Set(Snapshot{})
			case n%4 == 0 || len(hands) == 0:
				s.look()
			}
		}
		require.NotEmpty(t, s.Text(), glass)
	}
}

// Goal: cases and questions of a busy unit do not take the screen apart. Method:
// forty small cases, each with figures of its own, on every glass.
func TestManyCasesStandBesideEachOther(t *testing.T) {
	u := newUnit(t)
	for i := range 40 {
		u.small(mesh.Label(fmt.Sprint("C ", i)), 10*i, i%30)
	}
	s := newScene(t, "desktop", look.Dark, u, mesh.Ref{})
	s.find("beside others")
	seen := map[string]bool{}
	for turns := 0; turns == 0 || s.screen.hand.from > 0; turns++ {
		require.Less(t, turns, BesideMax)
		for _, c := range s.screen.page.Compare.Others {
			seen[c.Head.Sentence] = true
		}
		s.find("more")
		require.Empty(t, s.Audit())
	}
	require.Len(t, seen, BesideMax-1)
	s.find("back", "cases")
	s.find("C 3 · A1")
	require.Contains(t, s.Text(), "C 3 · A1")
	require.Contains(t, s.Text(), "08:30")
}
