package runner

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// Devices of these tests, other than number 0 which looks.
const (
	leadDevice  = 1
	otherRunner = 2
)

// ward is a case in A1 with a lead inside, and two runners for all doors.
func ward(t *testing.T) *folded {
	f := newFolded(t)
	f.hold(leadDevice, "lead", "L1", "A1")
	f.hold(0, "runner", "R1")
	f.hold(otherRunner, "runner", "R2")
	f.do(leadDevice, "lead", station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation"}})
	return f
}

// hold gives a device to a tag.
func (f *folded) hold(device byte, role mesh.ID, tag mesh.Tag, rooms ...mesh.ID) {
	f.do(device, role, station.Hold{Holds: requests.Holds{Role: role, Tag: tag, Rooms: rooms}})
}

// asks asks for one of an item, from inside.
func (f *folded) asks(room mesh.ID, item mesh.Number, soon requests.Urgency) mesh.Ref {
	return f.do(leadDevice, "lead", station.Ask{Room: room, Thing: requests.Thing{Item: item, Count: 1}, Urgency: soon})
}

// later lets seconds go by.
func (f *folded) later(seconds mesh.Wall) Snapshot {
	f.Now.Wall += seconds * 1000
	return Look(f.View)
}

// notice is the one notice of a kind that a snapshot has.
func notice(t *testing.T, s Snapshot, why requests.CallWhy) Notice {
	t.Helper()
	var found []Notice
	for _, n := range s.Notices {
		if n.Why == why {
			found = append(found, n)
		}
	}
	require.Len(t, found, 1, "%v", s.Notices)
	return found[0]
}

// Goal: a door's head has its runner, its bag in the order of places, a low
// battery, a failed comms test, the exercise and the newest phrase. Method: record
// each and look.
func TestADoorHasWhatWasRecordedAboutIt(t *testing.T) {
	f := ward(t)
	tube, drug := f.asks("A1", 1032, requests.NextOpening), f.asks("A1", 3046, requests.NextOpening)
	f.asks("A2", 1108, requests.NextOpening)
	f.do(0, "runner", station.Go{Request: drug})
	f.do(leadDevice, "lead", station.Condition{Battery: 12})
	test := f.do(leadDevice, "lead", station.TestComms{Room: "A1", Battery: 12, Door: "A2", ScreenOn: true})
	f.do(0, "runner", station.HearTest{Test: test})
	f.do(0, "runner", station.StartDrill{Room: "A1", Label: "drill 3"})
	said := f.do(0, "runner", station.Say{Room: "A1", Phrase: "wait"})
	f.do(leadDevice, "lead", station.Hear{Said: said})

	s := Look(f.View)
	a1, a2 := s.room("A1"), s.room("A2")
	require.Equal(t, []mesh.Ref{tube, drug}, a1.Bag, "the airway trolley before the pharmacy room")
	require.Equal(t, []Low{{Tag: "L1", Battery: 12}}, a1.Low)
	require.Equal(t, []Failed{{Tag: "L1", Sound: true, Door: true}}, a1.Failed)
	require.Equal(t, "drill 3", a1.Drill)
	require.Equal(t, "Wait", a1.Said.Phrase)
	require.Equal(t, []mesh.Tag{"L1"}, a1.Said.Heard)
	require.Equal(t, []Runner{{Tag: "R1", Self: true, Doing: requests.Fetching, At: "A1"}, {Tag: "R2", Doing: requests.Here}}, a1.Runners)
	require.Equal(t, requests.Fetching, a2.Runners[0].Doing)
	require.Empty(t, a2.Drill)
	require.Len(t, a2.Bag, 1)
	require.Equal(t, []mesh.Ref{drug}, s.Carrying.Promised)
	require.Equal(t, []mesh.ID{"A1", "A2"}, s.Doors)
	require.Empty(t, f.later(301).room("A1").Said.Phrase, "a phrase is not shown for ever")
}

// Goal: what was said inside, a breach and a comms test stand above the list
// until somebody heard them. Method: record them, look, hear them, look.
func TestWhatIsSaidInsideStandsAboveUntilItIsHeard(t *testing.T) {
	f := ward(t)
	said := f.do(leadDevice, "lead", station.Say{Room: "A1", Phrase: "tube-in", Out: true})
	breach := f.do(leadDevice, "lead", station.ReportBreach{Tag: "L1", What: "glove"})
	test := f.do(leadDevice, "lead", station.TestComms{Room: "A1", Battery: 81, Door: "A1", ScreenOn: true})
	s := f.later(2)
	require.Equal(t, "Tube in", notice(t, s, requests.CallSaid).Words)
	require.Equal(t, "Glove torn", notice(t, s, requests.CallBreach).Words)
	require.Equal(t, mesh.Tag("L1"), notice(t, s, requests.CallBreach).Tag)
	require.EqualValues(t, 81, notice(t, s, requests.CallTest).Battery)
	require.Equal(t, requests.CallBreach, s.Notices[0].Why, "the gravest first")
	require.Len(t, s.Waiting(), 3)
	f.do(0, "runner", station.Hear{Said: said})
	f.do(otherRunner, "runner", station.Hear{Said: breach})
	f.do(0, "runner", station.HearTest{Test: test, Sound: true})
	require.Empty(t, f.later(2).Notices)
}

// Goal: "still on it?" asks whoever goes, when it takes longer than usual, then
// tells the others; an answer ends it. Method: go for something wanted now, let
// the shipped minute pass, and half of one.
func TestWhatTakesLongIsAskedOfWhoeverGoes(t *testing.T) {
	f := ward(t)
	mine := f.asks("A1", 1032, requests.RightNow)
	f.do(0, "runner", station.Go{Request: mine})
	s := f.later(59)
	require.Empty(t, s.Notices)
	s = f.later(2)
	n := notice(t, s, requests.CallStill)
	require.True(t, n.Self)
	require.EqualValues(t, 60e9, n.Usual)
	r, _ := s.request(mine)
	require.True(t, r.Late)
	f.do(0, "runner", station.Go{Request: mine})
	require.Empty(t, f.later(1).Notices, "yes, still")

	f = ward(t)
	theirs := f.asks("A1", 1032, requests.RightNow)
	f.do(otherRunner, "runner", station.Go{Request: theirs})
	require.Empty(t, f.later(61).Notices)
	n = notice(t, f.later(30), requests.CallStill)
	require.False(t, n.Self)
	require.Equal(t, requests.LevelAgain, n.Level)
}

// Goal: what another runner passes on is asked about here, and what comes back
// is said as that. Method: pass on, both ways; take it.
func TestWhatIsPassedOnIsAskedAndSaidWhenItComesBack(t *testing.T) {
	f := ward(t)
	r := f.asks("A1", 1032, requests.NextOpening)
	f.do(otherRunner, "runner", station.Go{Request: r})
	f.do(otherRunner, "runner", station.PassOn{Request: r, To: "R1"})
	n := notice(t, f.later(1), requests.CallPassed)
	require.False(t, n.Back)
	require.Equal(t, r, n.Ref)
	f.do(0, "runner", station.PassOn{Request: r, To: "R2"})
	require.Empty(t, f.later(1).Notices, "no")

	f = ward(t)
	r = f.asks("A1", 1032, requests.NextOpening)
	f.do(0, "runner", station.Go{Request: r})
	f.do(0, "runner", station.PassOn{Request: r, To: "R2"})
	require.Empty(t, f.later(1).Notices)
	f.do(otherRunner, "runner", station.PassOn{Request: r, To: "R1"})
	s := f.later(1)
	require.True(t, notice(t, s, requests.CallPassed).Back)
	require.Empty(t, s.Waiting(), "it calls nobody")
	f.do(0, "runner", station.Go{Request: r})
	require.Empty(t, f.later(1).Notices)
}

// Goal: two doors that want something of one runner now are said to that runner
// and to the others. Method: R1 goes for both; look as R1 and as R2.
func TestTwoDoorsNowAreSaidToBothRunners(t *testing.T) {
	for _, self := range []bool{true, false} {
		f := ward(t)
		goes := byte(0)
		if !self {
			goes = otherRunner
		}
		f.do(goes, "runner", station.Go{Request: f.asks("A1", 1032, requests.RightNow)})
		f.do(goes, "runner", station.Go{Request: f.asks("A2", 1032, requests.RightNow)})
		s := f.later(2)
		n := notice(t, s, requests.CallContended)
		require.Equal(t, []mesh.ID{"A1", "A2"}, n.Doors)
		require.Equal(t, self, n.Self)
	}
}

// Goal: a request that comes after a cut for what was noted outside offers to be
// joined with it, and not after that. Method: note one by voice, ask for it late.
func TestALateRequestIsOfferedAsTheSame(t *testing.T) {
	f := ward(t)
	thing := requests.Thing{Item: 1108, Count: 1}
	noted := f.do(0, "runner", station.Ask{Room: "A1", Thing: thing, Urgency: requests.NextOpening, Origin: requests.AskedByVoice})
	f.asks("A2", 1108, requests.NextOpening)
	late := f.asks("A1", 1108, requests.NextOpening)
	n := notice(t, f.later(2), NoticeSame)
	require.Equal(t, late, n.Ref)
	require.Equal(t, noted, n.Other)
	f.do(0, "runner", station.Join{One: late, Other: noted})
	require.Empty(t, f.later(2).Notices)
}
