package requests

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// asked writes an Asked of the lead in a case.
func (s *timed) asked(of mesh.Ref, u Urgency) mesh.Ref {
	return s.put(lead, KindAsked, &Asked{Case: of, Room: "A1", Thing: tube(), Urgency: u})
}

func (s *timed) entered(of mesh.Ref, tag mesh.Tag, zone mesh.ID) mesh.Ref {
	return s.put(scribe1, KindEntered, &Entered{Case: of, Tag: tag, Zone: zone, Checker: "O1"})
}

func (s *timed) left(of mesh.Ref, tag mesh.Tag, zone mesh.ID) mesh.Ref {
	return s.put(scribe1, KindLeft, &Left{Case: of, Tag: tag, Zone: zone})
}

// handCase writes one case whose figures are worked out by hand in the comments.
func handCase(s *timed) (of mesh.Ref) {
	of = s.at(0).open("A1")
	s.at(10).entered(of, "L1", "in")
	s.at(15).entered(of, "A1", "in")

	one := s.at(60).asked(of, NextOpening) // 4 s to "going", 50 s to taken in, closed
	s.at(64).going(runner1, one)
	held := s.at(80).inHand(runner1, one, tube())
	s.agree(second, held, 0)
	door := s.at(100).atDoor(runner1, held)
	s.at(110).takeIn(lead, door, 1)

	two := s.at(120).asked(of, RightNow) // 6 s, 45 s; the wrong one was caught; closed
	s.at(126).going(runner1, two)
	wrong := s.at(130).inHand(runner1, two, things(2))
	s.put(second, KindRefused, &Refused{Names: wrong})
	held = s.at(140).inHand(runner1, two, tube())
	s.agree(second, held, 0)
	door = s.at(160).atDoor(runner1, held)
	s.at(165).takeIn(lead, door, 1)

	never := s.at(200).asked(of, NextOpening) // nobody answered, and then not wanted
	s.at(260).put(lead, KindWithdrawn, &Withdrawn{Names: never})

	unasked := s.at(300).put(runner1, KindAsked, &Asked{Case: of, Room: "A1", Thing: tube(), Urgency: NextOpening, Origin: PassedIn})
	door = s.atDoor(runner1, s.inHand(runner1, unasked, tube()))
	s.at(310).takeIn(lead, door, 1) // one opening with who enters at 320
	s.at(320).entered(of, "OP2", "in")

	voice := s.at(400).put(runner1, KindAsked, &Asked{Case: of, Room: "A1", Thing: tube(), Urgency: NextOpening, Origin: AskedByVoice})
	s.at(407).going(runner2, voice) // 7 s, 20 s; not closed
	door = s.at(415).atDoor(runner2, s.inHand(runner2, voice, tube()))
	s.at(420).takeIn(lead, door, 1)
	s.joined(s.at(425).asked(of, NextOpening), voice) // the same need, asked again when the link was back
	s.at(430).put(lead, KindBreach, &Breach{Case: of, Tag: "L1", What: "glove"})

	s.at(600).left(of, "L1", "in")
	s.at(605).left(of, "A1", "in")
	s.at(660).put(scribe1, KindCaseShut, &CaseShut{Case: of})
	s.at(700).put(scribe1, KindDebrief, &Debrief{Case: of, Why: "next patient"})
	return of
}

// threeClocks sets two devices' clocks 90 s off either way, and compares them
// with the scribe's, which is right.
func (s *timed) threeClocks() {
	s.ahead[lead.key], s.ahead[runner1.key] = 90*time.Second, -90*time.Second
	for _, a := range []actor{lead, second, runner1, runner2} {
		s.compare(scribe1, a, 10*time.Millisecond, mesh.ClockFirst)
	}
}

// Goal: the figures of a case are those that a person works out from its record,
// whatever the clocks of its devices show. Method: one case with everything in
// it; the sums are in handCase. Published methods: nearest rank and linear
// interpolation.
func TestFiguresAreThoseWorkedOutByHand(t *testing.T) {
	s := newTimed(t)
	s.threeClocks()
	of := handCase(s)
	b := s.board()
	f := b.Figures(of)
	ack, deliver := []time.Duration{seconds(4), seconds(6), seconds(7)}, []time.Duration{seconds(20), seconds(45), seconds(50)}
	require.Equal(t, SpreadOf(ack), f.ToAcknowledge)
	require.Equal(t, SpreadOf(deliver), f.ToDeliver)
	require.Equal(t, seconds(49), f.ToDeliver.P90Linear)
	require.Equal(t, []int{6, 5}, []int{f.Requests, f.Needs})
	requests := s.quick().Requests()
	never := requests[2].Ref
	require.Equal(t, []mesh.Ref{never}, f.Unanswered)
	require.Equal(t, []mesh.Ref{never}, f.Undelivered)
	require.Equal(t, 1, f.Withdrawn)
	require.Len(t, f.WrongCaught, 1)
	require.Equal(t, Share{2, 3}, f.Closed)
	require.Equal(t, OpeningFigures{Count: 6, Window: 20 * time.Second}, f.Openings)
	require.Equal(t, seconds(590+590+340), f.Inside)
	require.Equal(t, []int{3, 1, 1}, []int{f.Entries, f.StillIn, f.Breaches})
	require.Equal(t, Share{0, 1}, f.Debriefs)
	require.Equal(t, []mesh.Text{"next patient"}, f.NoDebrief)
	require.Equal(t, 540*time.Millisecond, f.Within)
	require.Zero(t, f.Apart)
	require.Empty(t, f.Roles, "one case says nothing about a role")
	require.False(t, f.Drill)
	all := b.Figures(mesh.Ref{})
	all.Of = of
	require.Equal(t, f, all)
	require.Equal(t, Figures{Of: never}, b.Figures(never), "no case")
}

// Goal: clocks that were never compared spoil no figure. Method: the same case
// without any comparison; what lies between two devices is counted apart.
func TestFiguresLeaveOutWhatNoClockCanTell(t *testing.T) {
	s := newTimed(t)
	s.ahead[lead.key] = time.Hour
	of := handCase(s)
	f := s.board().Figures(of)
	require.Zero(t, f.ToAcknowledge.N)
	require.Equal(t, SpreadOf([]time.Duration{seconds(45), seconds(50)}), f.ToDeliver, "asked and taken in on the same device")
	require.Equal(t, 4, f.Apart)
	require.Equal(t, seconds(590+590+340), f.Inside, "all by the scribe's clock")
	require.Equal(t, 6, f.Needs+1)
}

// Goal: a contact at the door is believed rather than what crossed. Method: two
// measured openings of 5 s and 8 s in the same case.
func TestFiguresUseMeasuredOpeningsWhereThereAre(t *testing.T) {
	s := newTimed(t)
	s.threeClocks()
	of := s.at(0).open("A1")
	for _, at := range []struct{ open, shut float64 }{{100, 105}, {200, 208}} {
		s.at(at.open).put(scribe1, KindDoor, &Door{Room: "A1", Open: true})
		s.at(at.open+1).put(scribe1, KindDoor, &Door{Room: "A1", Open: true})
		s.at(at.shut).put(scribe1, KindDoor, &Door{Room: "A1"})
	}
	s.at(203).entered(of, "OP2", "in")
	b := s.board()
	require.Equal(t, OpeningFigures{Count: 2, Measured: 2, Window: 20 * time.Second, Open: seconds(13)}, b.Figures(of).Openings)
	openings := b.Timeline(of).Openings
	require.True(t, openings[0].Measured)
	require.Equal(t, []int{0, 1}, []int{openings[0].Crossings, openings[1].Crossings})
	require.Equal(t, seconds(208), s.truly(openings[1].To, scribe1))
}

// Goal: exercises are apart, and a case that began as one counts from when it
// was real. Method: a real case, an exercise, and one that turned real.
func TestFiguresKeepExercisesApart(t *testing.T) {
	s := newTimed(t)
	s.threeClocks()
	real := handCase(s)
	drillCase := s.at(1000).open("A1")
	s.put(lead, KindDrill, &Drill{Case: drillCase, Room: "A1"})
	s.served(runner1, s.asked(drillCase, NextOpening))
	s.shut(drillCase)
	turned := s.at(2000).open("A1")
	drill := s.put(lead, KindDrill, &Drill{Case: turned, Room: "A1"})
	s.served(runner1, s.asked(turned, NextOpening))
	s.put(lead, KindThisIsReal, &ThisIsReal{Drill: drill})
	s.served(runner1, s.asked(turned, NextOpening))
	b := s.board()
	require.True(t, b.Figures(drillCase).Drill)
	require.Equal(t, 1, b.Figures(drillCase).Requests)
	require.False(t, b.Figures(turned).Drill)
	require.Equal(t, 1, b.Figures(turned).Requests)
	all := b.Figures(mesh.Ref{})
	require.Equal(t, []int{2, 1, 7}, []int{all.Cases, all.Drills, all.Requests})
	require.Equal(t, 6, b.Figures(real).Requests)
}

// Goal: an exercise that was begun before its case was opened holds for that
// case too, and for what is asked without one. Method: the exercise, a request,
// then a case in the room; another room is real.
func TestAnExerciseHoldsForTheCaseThatIsOpenedInIt(t *testing.T) {
	s := newTimed(t)
	drill := s.at(0).put(lead, KindDrill, &Drill{Room: "A1"})
	s.served(runner1, s.askAt("A1", NextOpening))
	of := s.open("A1")
	s.served(runner1, s.asked(of, NextOpening))
	s.served(runner1, s.askAt("A2", NextOpening))
	b := s.board()
	require.True(t, b.Figures(of).Drill)
	require.True(t, b.IsDrill(of))
	all := b.Figures(mesh.Ref{})
	require.Equal(t, []int{0, 1, 1}, []int{all.Cases, all.Drills, all.Requests})
	_, n := b.Usual(tube().Item, NextOpening)
	require.Equal(t, 1, n)
	s.put(lead, KindThisIsReal, &ThisIsReal{Drill: drill})
	s.served(runner1, s.asked(of, NextOpening))
	all = s.board().Figures(mesh.Ref{})
	require.Equal(t, []int{1, 0, 2}, []int{all.Cases, all.Drills, all.Requests})
	require.False(t, s.board().IsDrill(of))
	require.False(t, s.board().IsDrill(drill), "that is no case")
}

// Goal: figures of a role begin with five cases in which it took part, and there
// are none of a person. Method: the same small case four and five times.
func TestFiguresOfARoleBeginWithFiveCases(t *testing.T) {
	s := newTimed(t)
	s.threeClocks()
	for n := range RolesFrom {
		require.Empty(t, s.quick().Figures(mesh.Ref{}).Roles)
		of := s.at(float64(1000 * n)).open("A1")
		asked := s.asked(of, NextOpening)
		s.at(s.now.Seconds()+5).going(runner1, asked)
		held := s.inHand(runner1, asked, tube())
		s.agree(second, held, 0)
		door := s.atDoor(runner1, held)
		s.at(s.now.Seconds()+25).takeIn(lead, door, 1)
		s.shut(of)
	}
	roles := s.board().Figures(mesh.Ref{}).Roles
	five := func(t time.Duration) Spread { return SpreadOf([]time.Duration{t, t, t, t, t}) }
	require.Equal(t, []RoleFigures{
		{Role: "lead", Cases: 5, Asked: 5, Closed: Share{5, 5}},
		{Role: "runner", Cases: 5, Acknowledged: 5, ToAcknowledge: five(seconds(5)), ToDeliver: five(seconds(30))},
	}, roles)
}

// Goal: what was asked outside any case is in the sum of all, and nowhere else.
// Method: a request in a room where no case was opened.
func TestFiguresOfAllHoldRequestsWithoutACase(t *testing.T) {
	s := newTimed(t)
	s.served(runner1, s.at(10).askAt("A2", NextOpening))
	f := s.board().Figures(mesh.Ref{})
	require.Equal(t, []int{0, 1, 1}, []int{f.Cases, f.Requests, f.Needs})
}
