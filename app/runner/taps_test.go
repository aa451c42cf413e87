package runner

import (
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// Goal: going, taken in as seen, cannot, pass on and taken back are what was
// tapped and nothing else. Method: tap through each and compare.
func TestTapsMakeTheActsTheySay(t *testing.T) {
	for _, c := range []struct {
		request byte
		taps    []string
		want    station.Act
		way     mesh.Way
	}{
		{2, []string{"I am going"}, station.Go{Request: ref(2)}, mesh.WaySelf},
		{4, []string{"at the door", "A2"}, station.PutAtDoor{Request: ref(4), Door: "A2"}, mesh.WaySelf},
		{5, []string{"taken in, seen"}, station.TakeIn{Request: ref(5)}, mesh.WayGlass},
		{6, []string{"taken back"}, station.TakeBack{Request: ref(6)}, mesh.WaySelf},
		{2, []string{"cannot", "locked away"}, station.CouldNot{Request: ref(2), Why: "locked away"}, mesh.WaySelf},
		{3, []string{"pass on", "R3"}, station.PassOn{Request: ref(3), To: "R3"}, mesh.WaySelf},
	} {
		for _, window := range mostUsed() {
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

// find taps a choice, turning pages until it is there; it counts the taps.
func (s *scene) find(name string) (taps int) {
	s.t.Helper()
	for n := range choicesMax {
		if proof.Tap(s.look, s.screen.Object(), s.window, name) {
			return n + 1
		}
		if !proof.Tap(s.look, s.screen.Object(), s.window, "more") {
			break
		}
	}
	require.Fail(s.t, "never shown", "%s\n%s", name, s.text())
	return 0
}

// held taps the key of a count beside what is in the hand, turning pages until
// the line is there; it counts the taps.
func (s *scene) held(word string, key int) (taps int) {
	s.t.Helper()
	for n := range heldMax {
		page := s.screen.page
		for i := range min(s.screen.shown, len(page.Held)-s.screen.hand.from) {
			if strings.HasPrefix(strings.ReplaceAll(page.Held[s.screen.hand.from+i].Word, "\u00a0", " "), word) {
				s.screen.parts.held[i].keys[key-1].Tapped(nil)
				return n + 1
			}
		}
		s.tap("more")
	}
	require.Fail(s.t, "never shown", "%s\n%s", word, s.text())
	return 0
}

// Goal: what a runner does most costs few taps: going 1, a read-back 2, at the
// door 2, a phrase 2, hearing one 1. Method: count them on a tablet and on a phone,
// from the list on.
func TestTheRunnersWayIsShort(t *testing.T) {
	for _, size := range []string{"desk", "phone"} {
		for _, c := range []struct {
			request byte
			taps    []string
		}{
			{2, []string{"I am going"}},
			{4, []string{"at the door", "A2"}},
			{3, []string{"say", "Wait"}},
		} {
			s := newScene(t, look.Dark, windows()[size])
			snap := busy(t)
			alone, _ := snap.request(ref(c.request))
			snap.Requests = []Request{alone}
			s.screen.Set(snap)
			for _, name := range c.taps {
				s.tap(name)
			}
			require.Len(t, s.taps.acts, 1, "%s: %v", size, c.taps)
		}
		s := newScene(t, look.Dark, windows()[size])
		snap := busy(t)
		mine, _ := snap.request(ref(3))
		snap.Requests = []Request{mine}
		s.screen.Set(snap)
		s.tap("read back")
		require.Equal(t, 1, s.held("Bougie 15 Fr", 1), size)
		require.Len(t, s.taps.acts, 1, size)
		s = newScene(t, look.Dark, windows()[size])
		s.screen.Set(called(t, requests.CallSaid))
		if size == "phone" {
			s.tap("A1 says: Tube in")
		} else {
			s.tap("heard")
		}
		require.Equal(t, []station.Act{station.Hear{Said: ref(2)}}, s.taps.acts)
	}
}

// Goal: a read-back is chosen, never filled in: no line and no key is marked, and
// the keys are the same whatever was asked. Method: look at every line for a
// request of two and of nine, then state another strength and count than asked.
func TestReadBackIsChosenNeverFilledIn(t *testing.T) {
	for _, window := range mostUsed() {
		s := newScene(t, look.Dark, window)
		var pages []Page
		for _, asked := range []requests.Count{9, 2} {
			snap := busy(t)
			for i := range snap.Requests {
				snap.Requests[i].Thing.Count = asked
			}
			s.screen.Set(snap)
			s.screen.pick(pick{what: picksAct, act: requests.ActReadBack, ref: ref(2)})
			pages = append(pages, s.screen.page)
			require.NotEmpty(t, s.screen.page.Held)
			for _, x := range s.screen.page.Held {
				for _, k := range x.Keys {
					require.False(t, k.Face.Chosen)
					require.Zero(t, k.Face.Tone)
				}
			}
		}
		require.Equal(t, pages[0], pages[1])
		s.held("10 mg/mL", 3)
		held := requests.Thing{Item: 3038, Strength: "10 mg/mL, 20 mL", Count: 3, Measure: mesh.Each}
		require.Equal(t, []station.Act{station.ReadBack{Request: ref(2), Thing: held, How: requests.Chosen}}, s.taps.acts)
	}
}

// Goal: more than have a key are asked for on a page of their own, more than nine
// are typed, and none is no count. Method: each.
func TestManyAreTyped(t *testing.T) {
	s := newScene(t, look.Dark, windows()["phone"])
	s.screen.Set(busy(t))
	s.screen.pick(pick{what: picksAct, act: requests.ActReadBack, ref: ref(2)})
	s.held("10 mg/mL", keysMax)
	require.Equal(t, stepCount, s.screen.hand.step)
	s.tap("←")
	require.Equal(t, stepItem, s.screen.hand.step)
	s.held("10 mg/mL", keysMax)
	for _, name := range []string{">9", "0", "OK"} {
		s.find(name)
	}
	require.Empty(t, s.taps.acts, "none is no count")
	for _, name := range []string{"1", "2", "OK"} {
		s.tap(name)
	}
	require.EqualValues(t, 12, s.taps.acts[0].(station.ReadBack).Thing.Count)
	require.EqualValues(t, 3038, s.taps.acts[0].(station.ReadBack).Thing.Item)
}

// Goal: up to three alternatives are offered, each with its count. Method:
// choose three; a fourth cannot be chosen.
func TestOffersHaveAtMostThreeThings(t *testing.T) {
	s := newScene(t, look.Dark, windows()["desk"])
	s.screen.Set(busy(t))
	s.screen.pick(pick{what: picksAct, act: requests.ActOffer, ref: ref(2)})
	for range offersMax {
		s.held("100", 1)
	}
	require.Empty(t, s.screen.page.Held)
	s.tap("offer these 3")
	require.Len(t, s.taps.acts[0].(station.Offer).Things, 3)
}

// Goal: what was asked by voice, and what was passed in unasked, is recorded as
// that. Method: type number, count and code; a code that was misread is kept back.
func TestVoiceAndPassedInAreRecordedAsSuch(t *testing.T) {
	for _, window := range mostUsed() {
		s := newScene(t, look.Dark, window)
		s.screen.begin(toVoice, "")
		for _, name := range []string{"A2", "1", "1", "0", "8", "OK", "2", "next opening", "1", "2", "3", "4", "5", "OK"} {
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
		s.screen.begin(toPassIn, "A1")
		for _, name := range []string{"1", "1", "0", "8", "OK", "2"} {
			s.tap(name)
		}
		require.Equal(t, station.PassIn{Room: "A1", Thing: thing}, s.taps.acts[1])
	}
}

// Goal: which door a thing was put at is asked where there is one door, none is
// marked, and another door than its own is a named fault whose way round stands
// apart. Method: one door; then the wrong one, and leave it there.
func TestTheDoorIsTappedAndAnotherOneIsNamed(t *testing.T) {
	for _, window := range mostUsed() {
		s := newScene(t, look.Dark, window)
		snap := busy(t)
		snap.Doors = []mesh.ID{"A2"}
		s.screen.Set(snap)
		s.screen.pick(pick{what: picksAct, act: requests.ActPutAtDoor, ref: ref(4)})
		require.Equal(t, stepWhere, s.screen.hand.step)
		require.Len(t, s.screen.page.Choices, 2)
		s.screen.Set(busy(t))
		s.taps.err = &station.WrongDoorError{Read: "A3", For: "A2"}
		s.find("A3")
		require.Equal(t, stepWrong, s.screen.hand.step)
		require.Contains(t, s.text(), "This is for")
		s.taps.err = nil
		s.tap("leave at A3")
		require.Equal(t, station.PutAtDoor{Request: ref(4), Door: "A3", Anyway: true}, s.taps.acts[1])
	}
}

// Goal: all that a runner carries is passed on with one answer, and what is
// passed to this one is taken or given back. Method: pass all; answer both ways.
func TestPassingOnGivesEverythingAndCanBeGivenBack(t *testing.T) {
	s := newScene(t, look.Dark, windows()["phone"])
	s.screen.Set(busy(t))
	for _, name := range []string{"A1", "pass all on", "pass these 3"} {
		s.find(name)
	}
	require.Contains(t, s.text(), "Counts when")
	s.find("R2")
	require.Equal(t, []station.Act{
		station.PassOn{Request: ref(4), To: "R2"}, station.PassOn{Request: ref(3), To: "R2"}, station.PassOn{Request: ref(5), To: "R2"},
	}, s.taps.acts)
	for answer, want := range map[string]station.Act{"take": station.Go{Request: ref(2)}, "no": station.PassOn{Request: ref(2), To: "R2"}} {
		s := newScene(t, look.Dark, windows()["desk"])
		s.screen.Set(called(t, requests.CallPassed))
		s.tap(answer)
		require.Equal(t, []station.Act{want}, s.taps.acts)
	}
}

// Goal: where there is nobody to pass on to, that is said. Method: open the question
// without other runners, on a tablet and on a phone.
func TestWithoutAnotherRunnerThatIsSaid(t *testing.T) {
	for _, window := range mostUsed() {
		s := newScene(t, look.Dark, window)
		snap := busy(t)
		snap.Others = nil
		s.screen.Set(snap)
		s.screen.pick(pick{what: picksAct, act: requests.ActPassOn, ref: ref(3)})
		require.Contains(t, s.text(), "No other runner.")
	}
}

// Goal: no strength is broken into two rows where one column fewer holds it whole.
// Method: lines of a drug on the widest screen, and short ones.
func TestColumnsLeaveStrengthsWhole(t *testing.T) {
	s := newScene(t, look.Dark, windows()["wide"])
	s.screen.Set(busy(t))
	s.screen.pick(pick{what: picksAct, act: requests.ActReadBack, ref: ref(2)})
	const width = 316
	require.Equal(t, 2, s.screen.heldColumns(width))
	s.screen.page.Held = []Held{{Word: "7.5"}}
	require.Equal(t, 3, s.screen.heldColumns(width))
}

// Goal: each notice is answered by what stands on its tiles, and one that asks
// nothing is turned away here only. Method: tap every answer of every notice,
// on its page, and come back to what was asked before.
func TestNoticesAreAnsweredAndGiveTheQuestionBack(t *testing.T) {
	for name, c := range map[string]struct {
		why  requests.CallWhy
		want map[string]station.Act
	}{
		"breach": {requests.CallBreach, map[string]station.Act{"heard": station.Hear{Said: ref(2)}}},
		"said":   {requests.CallSaid, map[string]station.Act{"heard": station.Hear{Said: ref(2)}}},
		"test": {requests.CallTest, map[string]station.Act{
			"heard": station.HearTest{Test: ref(2), Sound: true}, "no sound": station.HearTest{Test: ref(2)},
		}},
		"still":     {requests.CallStill, map[string]station.Act{"yes, still": station.Go{Request: ref(2)}}},
		"late":      {requests.CallReminded, map[string]station.Act{"I am going": station.Go{Request: ref(2)}, "seen": nil}},
		"contended": {requests.CallContended, map[string]station.Act{"seen": nil}},
		"same":      {NoticeSame, map[string]station.Act{"the same": station.Join{One: ref(2)}, "another": nil}},
		"nobody":    {requests.CallNew, map[string]station.Act{"I am going": station.Go{Request: ref(2)}, "seen": nil}},
		"inject":    {NoticeInject, map[string]station.Act{"seen": nil}},
		"withdrawn": {requests.CallStop, map[string]station.Act{"seen": nil}},
	} {
		for answer, want := range c.want {
			s := newScene(t, look.Dark, windows()["phone"])
			s.screen.Set(called(t, c.why))
			s.screen.pick(pick{what: picksAct, act: requests.ActReadBack, ref: ref(3)})
			s.tap(s.screen.rows.Notices[0].Short)
			require.Equal(t, stepNotice, s.screen.hand.step, name)
			s.find(answer)
			require.Equal(t, stepItem, s.screen.hand.step, "%s: %s", name, answer)
			require.Equal(t, ref(3), s.screen.hand.ref)
			if want == nil {
				require.Empty(t, s.taps.acts, name)
				require.Empty(t, s.screen.rows.Notices, name)
				continue
			}
			require.Equal(t, []station.Act{want}, s.taps.acts, name)
		}
	}
}

// Goal: "cannot" to "still on it?" asks why. Method: tap it.
func TestCannotAsksWhy(t *testing.T) {
	s := newScene(t, look.Dark, windows()["desk"])
	s.screen.Set(called(t, requests.CallStill))
	s.tap("cannot")
	s.tap("none left")
	require.Equal(t, []station.Act{station.CouldNot{Request: ref(2), Why: "none left"}}, s.taps.acts)
}

// Goal: a silence lasts as long as the unit says, is shown with the time left on
// every page, and ends with a tap. Method: silence, let time go, look at the list
// and at a question, end it.
func TestASilenceIsShownWithTheTimeLeft(t *testing.T) {
	s := newScene(t, look.Dark, windows()["desk"])
	s.screen.Set(called(t, requests.CallSaid))
	s.tap("silence")
	require.Equal(t, []time.Time{s.now.Add(120 * time.Second)}, s.quiet)
	s.now = s.now.Add(15 * time.Second)
	s.screen.Paint()
	require.Contains(t, s.text(), "silent 1:45")
	s.screen.pick(pick{what: picksOpen, ref: ref(2)})
	require.Contains(t, s.text(), "silent 1:45")
	s.screen.list()
	s.screen.Paint()
	s.tap("sound on")
	require.Equal(t, s.now, s.quiet[1])
	require.NotContains(t, s.text(), "silent")
	s.tap("silence")
	s.now = s.now.Add(2 * time.Minute)
	s.screen.Paint()
	require.NotContains(t, s.text(), "silent", "it ends by itself")
}

// Goal: a failure is said, a question about a request that is gone goes away,
// and what was put back is recorded as that. Method: each in turn.
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
	require.Contains(t, s.text(), "put back")
	s.taps.err, s.taps.acts = nil, nil
	s.tap("is put back")
	require.Equal(t, []station.Act{station.CouldNot{Request: ref(6), Why: "put back"}}, s.taps.acts)
}

// Goal: nothing that hands can do ends the program. Method: tap at random, with
// snapshots that change under the hands; the seed is printed.
func TestRandomTapsNeverPanic(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	for _, window := range windows() {
		s := newScene(t, look.Dark, window)
		for n := range 60 {
			hands := proof.Hands(s.look, s.screen.Object(), window)
			require.NotEmpty(t, hands)
			hands[random.IntN(len(hands))].On.Tapped(nil)
			if n%10 == 0 {
				snap := called(t, requests.CallSaid, requests.CallStill, NoticeSame)
				snap.Requests = snap.Requests[:random.IntN(len(snap.Requests))]
				snap.Notices = snap.Notices[:random.IntN(len(snap.Notices))]
				s.screen.Set(snap)
			}
		}
	}
}

// Goal: a scanned label states item and lot of the read-back, its count is asked,
// and another item is stated as it is: then it differs. Method: scan with one thing
// being fetched, with its page open, with nothing to answer, and rubbish.
func TestAScannedLabelIsTheReadBackButForItsCount(t *testing.T) {
	const label = "]d201095060001343521727120010B7"
	scene := func() *scene {
		s := newScene(t, look.Dark, windows()["phone"])
		snap := busy(t)
		for i := range snap.Items {
			if snap.Items[i].Number == 1093 {
				snap.Items[i].Codes = []mesh.Label{"09506000134352"}
			}
		}
		s.screen.Set(snap)
		return s
	}
	s := scene()
	require.False(t, newSceneCalm(t).screen.Scanned(label), "nobody waits for it")
	s.screen.pick(pick{what: picksAct, act: requests.ActReadBack, ref: ref(3)})
	require.True(t, s.screen.Scanned(label))
	require.Empty(t, s.taps.acts, "how many is asked")
	s.tap("2")
	held := requests.Thing{Item: 1093, Strength: "adult", Count: 2, Measure: mesh.Each}
	want := station.ReadBack{Request: ref(3), Thing: held, How: requests.Scanned, Lot: "B7", Expiry: 20271231, NoDay: true}
	require.Equal(t, []station.Act{want}, s.taps.acts)

	s = scene()
	s.screen.pick(pick{what: picksAct, act: requests.ActReadBack, ref: ref(3)})
	require.True(t, s.screen.Scanned("]d20112345678901231"))
	require.Contains(t, s.text(), "No item has | this label.")
	require.Empty(t, s.taps.acts)
	s.screen.pick(pick{what: picksAct, act: requests.ActReadBack, ref: ref(3)})
	s.held("Bougie 15 Fr", 1)
	require.Equal(t, requests.Chosen, s.taps.acts[0].(station.ReadBack).How, "a label that was refused leaves nothing behind")
}

func newSceneCalm(t *testing.T) *scene { return newScene(t, look.Dark, windows()["desk"]) }
