package requests

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// callRow is what a call is checked for.
type callRow struct {
	Why   CallWhy
	Level uint8
	For   []mesh.Key
}

// calls lists what calls now.
func (s *timed) calls() []Call {
	s.t.Helper()
	return s.quick().Calls(s.elapsed)
}

// callsAt requires the calls at a moment.
func (s *timed) callsAt(sec float64, want ...callRow) {
	s.t.Helper()
	s.at(sec)
	var got []callRow
	for _, c := range s.calls() {
		got = append(got, callRow{c.Why, c.Level, c.For})
	}
	require.Equal(s.t, want, got, "at %v s", sec)
}

func keys(actors ...actor) (out []mesh.Key) {
	for _, a := range actors {
		out = append(out, a.key)
	}
	return out
}

var (
	both  = keys(runner1, runner2)
	watch = actor{mesh.Key{7}, "observer", "O1"}
)

// withObserver adds a PPE observer's device outside, who fetches nothing.
func (s *timed) withObserver() *timed {
	s.put(lead, KindRoleLine, &RoleLine{ID: "observer", Name: "observer", Side: Anteroom, Can: CanObserve})
	s.put(watch, KindHolds, &Holds{Role: "observer", Tag: "O1", Rooms: []mesh.ID{"A1"}})
	return s
}

// Goal: a request calls the runners after a second, again after half a minute,
// and then everybody outside; what is wanted now does so three times as fast.
// Method: fake time over the shipped settings.
func TestNewRequestsEscalate(t *testing.T) {
	s := newTimed(t).withObserver()
	s.at(100).ask()
	everybody := keys(runner1, runner2, watch)
	s.callsAt(100.9)
	s.callsAt(101, callRow{CallNew, 1, both})
	s.callsAt(129.9, callRow{CallNew, 1, both})
	s.callsAt(130, callRow{CallNew, 2, both})
	s.callsAt(160, callRow{CallNew, 3, everybody})

	s = newTimed(t).withObserver()
	s.at(100).askNow("A1")
	s.callsAt(101, callRow{CallNew, 1, both})
	s.callsAt(110, callRow{CallNew, 2, both})
	s.callsAt(120, callRow{CallNew, 3, everybody})
	require.Equal(t, seconds(20), s.calls()[0].Elapsed)
}

// Goal: with no runner everybody outside is called at once; with nobody outside
// the call is still listed, for no device. Method: both runners give their
// devices to a scribe, who then hands them to somebody inside.
func TestACallReachesEverybodyWhenThereIsNoRunner(t *testing.T) {
	s := newTimed(t)
	for _, a := range []actor{runner1, runner2} {
		s.put(a, KindHolds, &Holds{Role: "scribe", Tag: a.tag})
	}
	s.at(100).ask()
	s.callsAt(101, callRow{CallNew, 1, both})
	for _, a := range []actor{runner1, runner2} {
		s.put(a, KindHolds, &Holds{Role: "lead", Tag: a.tag})
	}
	s.callsAt(102, callRow{CallNew, 1, nil})
}

// Goal: a change of what is wanted calls anew from the change on. Method: a
// request is acknowledged, then changed.
func TestAChangeCallsAnew(t *testing.T) {
	s := newTimed(t)
	asked := s.at(100).ask()
	s.at(105).going(runner1, asked)
	s.callsAt(110)
	s.at(150).put(lead, KindChanged, &Changed{Names: asked, Thing: things(2), Urgency: RightNow})
	s.callsAt(150.5)
	s.callsAt(151, callRow{CallNew, 1, both})
	s.callsAt(160, callRow{CallNew, 2, both})
	s.at(161).going(runner1, asked)
	s.callsAt(161)
}

// Goal: a reminder makes a call louder, or asks whoever is going; it ends when
// somebody outside answers. Method: "call again" before, "still on it?" after.
func TestRemindersCallUntilTheyAreAnswered(t *testing.T) {
	s := newTimed(t)
	asked := s.at(100).ask()
	s.at(105).put(lead, KindReminded, &Reminded{Names: asked, Level: 1})
	s.callsAt(105, callRow{CallNew, 2, both})
	s.at(110).going(runner1, asked)
	s.callsAt(110)
	s.at(120).put(lead, KindReminded, &Reminded{Names: asked, Level: 1})
	s.callsAt(121, callRow{CallReminded, 1, keys(runner1)})
	s.put(lead, KindReminded, &Reminded{Names: asked, Level: 2})
	s.callsAt(122, callRow{CallReminded, 2, both})
	s.going(runner1, asked)
	s.callsAt(123)
	s.put(runner1, KindCouldNot, &CouldNot{Names: asked})
	s.put(lead, KindReminded, &Reminded{Names: asked})
	s.callsAt(130, callRow{CallReminded, 1, both})
}

// Goal: what takes longer than usual asks the runner, then the other runners;
// saying "going" once more gives that time anew. Method: the starter settings,
// 3 minutes and 1 minute.
func TestWhatTakesLongAsksStillOnIt(t *testing.T) {
	s := newTimed(t)
	asked := s.at(0).ask()
	s.at(10).going(runner1, asked)
	s.callsAt(189.9)
	s.callsAt(190, callRow{CallStill, 1, keys(runner1)})
	s.callsAt(280, callRow{CallStill, 2, both})
	c := s.calls()[0]
	require.Equal(t, seconds(270), c.Elapsed)
	require.Equal(t, seconds(180), c.Usual)
	s.at(285).going(runner1, asked)
	s.callsAt(286)
	s.callsAt(465, callRow{CallStill, 1, keys(runner1)})
	require.Equal(t, seconds(455), s.calls()[0].Elapsed, "the asker has waited since the first")
	s.at(466).going(runner2, asked)
	s.callsAt(467)
	s.atDoor(runner2, s.inHand(runner2, asked, tube()))
	s.callsAt(1000)

	s = newTimed(t)
	s.going(runner1, s.at(0).askNow("A1"))
	s.callsAt(59)
	s.callsAt(60, callRow{CallStill, 1, keys(runner1)})
	s.callsAt(90, callRow{CallStill, 2, both})
}

// Goal: what is not wanted any more calls whoever has to do with it. Method: it
// is withdrawn while somebody goes for it, holds it, and when it lies at the door.
func TestWhatIsWithdrawnCallsWhoHasIt(t *testing.T) {
	s := newTimed(t)
	asked := s.at(0).ask()
	s.at(5).going(runner1, asked)
	s.at(10).put(lead, KindWithdrawn, &Withdrawn{Names: asked})
	s.callsAt(11, callRow{CallStop, 1, keys(runner1)})
	s.callsAt(40)

	s = newTimed(t)
	asked = s.at(0).ask()
	s.going(runner1, asked)
	held := s.inHand(runner1, asked, tube())
	s.at(10).put(lead, KindWithdrawn, &Withdrawn{Names: asked})
	s.callsAt(11, callRow{CallPutBack, 1, keys(runner1)})
	s.callsAt(500, callRow{CallPutBack, 2, keys(runner1)})
	s.put(runner1, KindTakenBack, &TakenBack{Names: held, Why: "put back"})
	s.callsAt(501)

	s = newTimed(t)
	asked = s.at(0).ask()
	s.going(runner1, asked)
	held = s.inHand(runner1, asked, Thing{Item: 117, Strength: "7.0", Count: 1, Measure: mesh.Each})
	s.put(lead, KindRefused, &Refused{Names: held})
	s.at(10).put(lead, KindWithdrawn, &Withdrawn{Names: asked})
	s.callsAt(11, callRow{CallPutBack, 1, keys(runner1)}) // the wrong one is in the hand still
	s.put(runner1, KindCouldNot, &CouldNot{Names: asked, Why: "put back"})
	s.callsAt(12)

	s = newTimed(t)
	asked = s.at(0).ask()
	s.going(runner1, asked)
	door := s.atDoor(runner1, s.inHand(runner1, asked, tube()))
	s.at(10).put(lead, KindWithdrawn, &Withdrawn{Names: asked})
	s.callsAt(11, callRow{CallTakeBack, 1, both})
	s.put(runner1, KindTakenBack, &TakenBack{Names: door})
	s.callsAt(12)
}

// Goal: an undoing within the first second never rings, and one later stops
// whoever set out. Method: undone at half a second, and after a runner went.
func TestAnUndoneRequestStopsCalling(t *testing.T) {
	s := newTimed(t)
	asked := s.at(0).ask()
	s.at(0.5).undo(lead, asked)
	s.callsAt(2)
	asked = s.at(10).ask()
	s.going(runner1, asked)
	s.at(14).undo(lead, asked)
	s.callsAt(15, callRow{CallStop, 1, keys(runner1)})
}

// Goal: what was passed on calls the next runner until that one goes, and the
// one who still has it when nobody takes it. Method: by tag, also when the first
// one goes once more, then by a tag that nobody has.
func TestPassingOnCallsTheNextRunner(t *testing.T) {
	s := newTimed(t)
	asked := s.at(0).ask()
	s.going(runner1, asked)
	s.at(10).put(runner1, KindPassedOn, &PassedOn{Names: asked, To: "R2"})
	s.callsAt(11, callRow{CallPassed, 1, keys(runner2)})
	s.callsAt(40, callRow{CallPassed, 2, both})
	s.going(runner2, asked)
	s.callsAt(41)
	s.going(runner1, asked)
	s.callsAt(42)
	s.put(runner1, KindCouldNot, &CouldNot{Names: asked})
	s.at(50).put(runner2, KindPassedOn, &PassedOn{Names: asked, To: "R9"})
	s.callsAt(51, callRow{CallPassed, 1, keys(runner2)})
}

// Goal: nothing rings for what is joined to something that was brought. Method:
// a voice request is served; the late one from inside is joined to it.
func TestWhatIsJoinedToSomethingServedNeverCalls(t *testing.T) {
	s := newTimed(t)
	voice := s.at(0).askFor(runner1, tube(), AskedByVoice)
	s.served(runner1, voice)
	late := s.at(300).ask()
	s.callsAt(302, callRow{CallNew, 1, both})
	s.joined(voice, late)
	s.callsAt(303)
	s.callsAt(900)
}

// Goal: a phrase, a breach and a test call until somebody heard them. Method:
// each in an open case, with its levels; phrases to the inside call nobody.
func TestVoicesFromInsideCallUntilHeard(t *testing.T) {
	s := newTimed(t).withObserver()
	of := s.at(0).open("A1")
	said := s.at(10).put(lead, KindSaid, &Said{Case: of, Phrase: "say-again", Out: true})
	s.put(runner1, KindSaid, &Said{Case: of, Phrase: "wait"})
	everybody := keys(runner1, runner2, watch)
	s.callsAt(11, callRow{CallSaid, 1, both})
	s.callsAt(40, callRow{CallSaid, 2, both})
	s.callsAt(70, callRow{CallSaid, 3, everybody})
	s.put(runner1, KindSaidHeard, &SaidHeard{Names: said})
	s.callsAt(71)
	breach := s.at(100).put(lead, KindBreach, &Breach{Case: of, Tag: "L1", What: "glove"})
	s.callsAt(101, callRow{CallBreach, 1, everybody})
	s.callsAt(111, callRow{CallBreach, 2, everybody})
	s.put(watch, KindSaidHeard, &SaidHeard{Names: breach})
	s.callsAt(112)
	s.at(120).put(lead, KindTestAsked, &TestAsked{Case: of, Room: "A1", Battery: 80})
	second := s.put(lead, KindTestAsked, &TestAsked{Case: of, Room: "A1", Battery: 80})
	s.callsAt(500, callRow{CallTest, 1, both})
	s.put(runner1, KindTestHeard, &TestHeard{Names: second, Sound: true})
	s.callsAt(501)
	s.board() // in every order
}

// Goal: the gravest call comes first. Method: a breach, a phrase, a request
// wanted now and one for the next opening.
func TestTheGravestCallComesFirst(t *testing.T) {
	s := newTimed(t)
	of := s.at(0).open("A1")
	s.ask()
	s.askNow("A1")
	s.put(lead, KindSaid, &Said{Case: of, Phrase: "say-again", Out: true})
	s.put(lead, KindBreach, &Breach{Case: of, Tag: "L1", What: "glove"})
	s.at(5)
	var why []CallWhy
	for _, c := range s.calls() {
		why = append(why, c.Why)
		require.Equal(t, mesh.ID("A1"), c.Room)
	}
	require.Equal(t, []CallWhy{CallBreach, CallSaid, CallNew, CallNew}, why)
	require.Equal(t, RightNow, s.calls()[2].Urgency)
}

// Goal: when a case is shut nobody is called for what it left open, except for
// what was wanted now. Method: both kinds, a phrase and a breach; then the end.
func TestAShutCaseCallsOnlyForWhatWasWantedNow(t *testing.T) {
	s := newTimed(t)
	of := s.at(0).open("A1")
	s.put(lead, KindAsked, &Asked{Case: of, Room: "A1", Thing: tube(), Urgency: BeforeWeLeave})
	now := s.put(lead, KindAsked, &Asked{Case: of, Room: "A1", Thing: tube(), Urgency: RightNow})
	s.put(lead, KindSaid, &Said{Case: of, Phrase: "say-again", Out: true})
	s.at(5)
	require.Len(t, s.calls(), 3)
	s.shut(of)
	s.at(6)
	require.Len(t, s.calls(), 1)
	require.Equal(t, now, s.calls()[0].Ref)
	s.put(runner1, KindCouldNot, &CouldNot{Names: now})
	s.callsAt(7)
}

// Goal: two doors that want one runner now call another. Method: the only runner
// of two rooms goes for one and then for both; a second runner has a third room.
func TestTwoDoorsCallAnotherRunner(t *testing.T) {
	s := newTimed(t)
	s.put(lead, KindRoomLine, &RoomLine{ID: "B3", Name: "Beam"})
	s.put(runner1, KindHolds, &Holds{Role: "runner", Tag: "R1", Rooms: []mesh.ID{"A1", "A2"}})
	s.put(runner2, KindHolds, &Holds{Role: "runner", Tag: "R2", Rooms: []mesh.ID{"B3"}})
	one := s.at(0).askNow("A1")
	s.going(runner1, one)
	s.callsAt(2)
	two := s.askNow("A2")
	s.callsAt(4, callRow{CallNew, 1, keys(runner1)}, callRow{CallContended, 1, keys(runner2)})
	require.Equal(t, two, s.calls()[1].Ref)
	require.Equal(t, []Contention{{runner1.key, []mesh.ID{"A1", "A2"}, []mesh.Ref{one, two}}}, s.board().Contended())
	s.going(runner1, two)
	s.callsAt(5, callRow{CallContended, 1, keys(runner2)})
	s.going(runner2, two)
	s.callsAt(6)
	require.Empty(t, s.board().Contended())
}

// Goal: the asker reads how long it has been and what is usual. Method: before
// and after "going", beyond the usual time, and when it lies at the door.
func TestEscalatedSaysHowLongAndWhatIsUsual(t *testing.T) {
	s := newTimed(t)
	asked := s.at(0).ask()
	escalated := func(sec float64) Escalation {
		s.at(sec)
		b := s.quick()
		r, _ := b.Request(asked)
		return b.Escalated(r, s.elapsed)
	}
	usual := 180 * time.Second
	require.Equal(t, Escalation{Elapsed: seconds(40), Usual: usual, Level: 2}, escalated(40))
	s.going(runner1, asked)
	require.Equal(t, Escalation{Acknowledged: true, Elapsed: seconds(130), Usual: usual}, escalated(170))
	require.Equal(t, Escalation{Acknowledged: true, Elapsed: usual, Usual: usual, Level: 1, Overdue: true}, escalated(220))
	s.atDoor(runner1, s.inHand(runner1, asked, tube()))
	require.Equal(t, Escalation{Usual: usual, Of: 1}, escalated(230))
}

// Goal: calls follow from the set of facts, whenever they are asked for. Method:
// a scene with everything in it is folded in order and asked after every fact;
// another board learns all of it first.
func TestCallsDoNotDependOnWhenTheyWereAsked(t *testing.T) {
	s := newTimed(t).withObserver()
	of := s.at(0).open("A1")
	drill := s.put(lead, KindDrill, &Drill{Case: of, Room: "A1"})
	for i := range 12 {
		asked := s.at(float64(20 * i)).ask()
		s.going(runner1, asked)
		s.at(float64(20*i+5+i)).atDoor(runner1, s.inHand(runner1, asked, tube()))
		if i == 3 {
			s.put(lead, KindThisIsReal, &ThisIsReal{Drill: drill})
		}
	}
	s.at(300).going(runner1, s.ask())
	s.put(lead, KindWithdrawn, &Withdrawn{Names: s.ask()})
	s.at(400)
	b := NewBoard(starter())
	for _, f := range s.facts {
		b.Add(f)
		b.Calls(s.elapsed)
	}
	require.Equal(t, s.quick().Calls(s.elapsed), b.Calls(s.elapsed))
	usual, of8 := b.Usual(tube().Item, NextOpening)
	require.Equal(t, 8, of8, "four were asked in the exercise")
	require.Equal(t, 180*time.Second, usual, "fewer than ten")
}
