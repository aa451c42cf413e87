package inside

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// through taps one name after another and gives how many acts came of it.
func (s *scene) through(names ...string) []station.Act {
	before := len(s.taps.acts)
	for _, n := range names {
		s.tap(n)
	}
	return s.taps.acts[before:]
}

// Goal: what is urgent takes few taps. Method: count them on a tablet: a place
// on the front page 1, every other place of the board 2, a page 2 at most, what
// stands there 1, a breach 2.
func TestTapsAreFew(t *testing.T) {
	s := newScene(t, look.Dark, windows()["tablet"])
	onFront := 0
	for _, place := range s.screen.opt.Board.Tiles {
		front := fmt.Sprint(place.Place, " ", place.Word)
		if i, _ := s.screen.snap.item(place.Item); i.Drug != nil {
			front = fmt.Sprint(place.Place, "  ")
		}
		var acts []station.Act
		if place.Place > s.screen.front {
			acts = s.fromShelf(place.Item)
		} else {
			onFront++
			acts = s.through(front)
		}
		if s.screen.snap.counts(place.Item) {
			require.Empty(t, acts, "how many is asked first")
			acts = s.through("1")
		}
		require.Len(t, acts, 1, front)
		require.Equal(t, place.Item, acts[0].(station.Ask).Thing.Item)
		s.now = s.now.Add(time.Minute)
	}
	require.Positive(t, onFront)
	say := "R1 here"
	require.Equal(t, []station.Act{station.Say{Room: "A1", Phrase: "tube-in", Out: true}}, s.through(say, "Tube in"))
	s.tap("back")
	want := station.Ask{Room: "A1", Thing: requests.Thing{Item: 6015, Count: 1}, Urgency: requests.RightNow}
	require.Equal(t, []station.Act{want}, s.through(say, "call a person", "More experienced operator"))
	require.Equal(t, []station.Act{station.ReportBreach{Tag: "D1", What: "glove"}}, s.through(say, "breach", "D1", "Glove torn"))
	require.Equal(t, []station.Act{station.ReportBreach{What: "out"}}, s.through("breach", "no tag", "I have to get out"))
	require.Equal(t, []station.Act{station.NoteTime{What: "cuff-up"}}, s.through("times", "Cuff up"))
	require.Equal(t, []station.Act{station.Undo{Mark: ref(byte(100 + len(s.taps.acts)))}}, s.through("undo"))
}

// Goal: closing a loop takes two taps. Method: count them from the board with a
// read-back that waits.
func TestALoopIsClosedInTwoTaps(t *testing.T) {
	for _, size := range []string{"tablet", "ten", "tall", "phone"} {
		s := newScene(t, look.Dark, windows()[size])
		states(t)["held"](s)
		s.screen.show(pageBoard)
		names := []string{"answer", "agree"}
		if size == "ten" {
			names[0] = "Ketamine" // the strip itself
		}
		require.Equal(t, []station.Act{station.Agree{Request: ref(1), Answers: ref(9)}}, s.through(names...), size)
	}
}

// Goal: for some seconds one more is a tap away, and never of a controlled drug.
// Method: ask, tap, let the time pass; ask for a controlled drug.
func TestOneMoreIsATapForSomeSeconds(t *testing.T) {
	s := newScene(t, look.Dark, windows()["tablet"])
	states(t)["one-more"](s)
	thing := open(calm(t), 1, 3009, 2, 1).Thing.Thing
	require.Equal(t, []station.Act{station.Change{Request: ref(101), Thing: thing, Urgency: requests.RightNow}}, s.through("one more"))
	require.Equal(t, []station.Act{station.Undo{Mark: mesh.MakeRef(mesh.Key{}, mesh.Tap{102}, 1)}}, s.through("undo"), "it takes back the one more, not the asking")
	states(t)["one-more"](s)
	s.now = s.now.Add(s.screen.snap.Limits.More)
	s.screen.Paint()
	require.NotContains(t, s.text(), "one | more")
	require.Contains(t, s.text(), "1 × Rocuronium 10~mg/mL")

	s = newScene(t, look.Dark, windows()["tablet"])
	acts := s.through("10  induction", "more", "6")
	want := station.Ask{Room: "A1", Thing: requests.Thing{Item: 3046, Count: 6}, Urgency: requests.RightNow}
	require.Equal(t, []station.Act{want}, acts)
	states(t)["asked"](s)
	s.tap("open")
	s.tap("next")
	require.Equal(t, []station.Act{station.Change{Request: ref(1), Thing: open(calm(t), 1, 3046, 3, 1).Thing.Thing, Urgency: requests.RightNow}}, s.through("one more", "3"))
}

// Goal: a part can be taken in, a voice request joined, and what comes out put
// at the door, each with one tap on its panel. Method: tap.
func TestPanelTakesPartsJoinsAndPutsOut(t *testing.T) {
	for state, c := range map[string]struct {
		taps []string
		want station.Act
	}{
		"part":     {[]string{"fewer", "2"}, station.TakeIn{Request: ref(1), Count: 2}},
		"twin":     {[]string{"back", "same?", "same as"}, station.Join{One: ref(1), Other: ref(2)}},
		"out-open": {[]string{"at the door"}, station.PutAtDoor{Request: ref(1)}},
	} {
		for _, size := range []string{"tablet", "tall"} {
			s := newScene(t, look.Dark, windows()[size])
			states(t)[state](s)
			require.Equal(t, []station.Act{c.want}, s.through(c.taps...), state)
		}
	}
	s := newScene(t, look.Dark, windows()["tall"])
	states(t)["late-open"](s)
	require.Equal(t, []station.Act{station.Withdraw{Request: ref(1)}}, s.through("withdraw"), "a tall phone withdraws")
	s = newScene(t, look.Dark, windows()["tablet"])
	require.Equal(t, requests.NextOpening, s.through("R1 here", "coming out", "Specimen")[0].(station.Ask).Urgency)
	require.True(t, s.taps.acts[0].(station.Ask).Out)
}

// Goal: what was said inwards stands over every page until a person taps it, and
// a finger that was already on its way has not heard it. Method: tap at once,
// and after a glance.
func TestWhatIsSaidInwardsWaitsForATap(t *testing.T) {
	s := newScene(t, look.Dark, windows()["tablet"])
	snap := calm(t)
	snap.Said = talk(snap)
	s.screen.Set(snap)
	require.Empty(t, s.through("from R1"))
	s.now = s.now.Add(glance)
	require.Equal(t, []station.Act{station.Hear{Said: ref(51)}}, s.through("from R1"))
	for _, p := range []page{pageOther, pageSign, pageSay, pageBreach, pageTimes} {
		s.screen.show(p)
		require.Contains(t, s.text(), "Bed ready", p)
	}
	snap.Said = snap.Said[1:]
	s.screen.Set(snap)
	require.NotContains(t, s.text(), "tap: heard")
}

// Goal: a rescue set calls the persons whom the unit chose, and an exercise ends
// with two taps. Method: tap.
func TestRescueCallsPersonsAndThisIsRealEndsADrill(t *testing.T) {
	s := newScene(t, look.Dark, windows()["tablet"])
	snap := calm(t)
	snap.Callees, snap.Drill = []mesh.Number{6015, 1108}, Drill{Ref: ref(60), Label: "arrest"}
	s.screen.Set(snap)
	var items []mesh.Number
	for _, act := range s.through("Arrest") {
		items = append(items, act.(station.Ask).Thing.Item)
	}
	require.Equal(t, []mesh.Number{6015, s.screen.snap.Sets[3].Number}, items, "no bougie is a person")
	s.screen.press(Button{Does: doesClose})
	require.Equal(t, []station.Act{station.EndDrill{Drill: ref(60)}}, s.through("R1 here", "this is real"))
}

// Goal: what is said outwards calls somebody, also where nobody began a case.
// Method: say a phrase in a room without one.
func TestAPhraseBeginsACaseWhereNoneIsOpen(t *testing.T) {
	s := newScene(t, look.Dark, windows()["tablet"])
	snap := calm(t)
	snap.Case = false
	s.screen.Set(snap)
	want := []station.Act{station.OpenCase{Case: requests.CaseOpen{Room: "A1"}}, station.Say{Room: "A1", Phrase: "wait", Out: true}}
	require.Equal(t, want, s.through("R1 here", "Wait"))
}
