package requests

import (
	"math/rand/v2"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// starterLists are short lists that the tests begin with.
func starterLists() []ListLine {
	return []ListLine{
		{List: "brief", ID: "voice-link", Words: "Voice link heard both ways.", Place: 1},
		{List: "brief", ID: "paper-card", Words: "Paper card and pen inside.", Place: 2},
		{List: "plan", ID: "a", Words: "Plan A.", Place: 1},
		{List: "time-after", ID: "first-ventilation.cuff-up", Words: "Cuff up comes before.", Place: 1},
	}
}

// starterZones are the zones of room A1, from the outermost inwards.
func starterZones() []Zone {
	return []Zone{
		{ID: "corridor", Name: "corridor", Side: Outside},
		{ID: "ante", Name: "anteroom", Side: Anteroom},
		{ID: "in", Name: "inside", Side: Inside},
	}
}

// open writes a CaseOpen of the lead.
func (s *scene) open(room mesh.ID) mesh.Ref {
	return s.put(lead, KindCaseOpen, &CaseOpen{Room: room, What: "intubation", Label: "case 12"})
}

func (s *scene) shut(of mesh.Ref) mesh.Ref {
	return s.put(lead, KindCaseShut, &CaseShut{Case: of, Why: "left"})
}

// ofCase folds the scene and gives one of its cases.
func (s *scene) ofCase(ref mesh.Ref) Case {
	s.t.Helper()
	c, known := s.board().Case(ref)
	require.True(s.t, known)
	return c
}

// randomBody makes a body of a kind when it is asked.
type randomBody struct {
	kind mesh.Kind
	body func() any
}

// caseBodies makes the facts that are no marks of requests. of gives a fact of
// the kinds named, now and then another; some facts name no case.
func caseBodies(random *rand.Rand, a actor, of func(...mesh.Kind) mesh.Ref) []randomBody {
	any1 := func(ids ...mesh.ID) mesh.ID { return ids[random.IntN(len(ids))] }
	room := func() mesh.ID { return any1("A1", "A1", "A2", "") }
	yes := func() bool { return random.IntN(2) == 0 }
	in := func() mesh.Ref {
		if random.IntN(3) == 0 {
			return mesh.Ref{}
		}
		return of(KindCaseOpen)
	}
	tag := func() mesh.Tag { return []mesh.Tag{"L1", "L2", ""}[random.IntN(3)] }
	at := func() mesh.Wall { return mesh.Wall(random.IntN(3) * 1_010_000) }
	return []randomBody{
		{KindCaseOpen, func() any { return &CaseOpen{Room: room(), Follows: in(), Hurry: yes()} }},
		{KindCaseOpen, func() any { return &CaseOpen{Room: "A1"} }},
		{KindCaseShut, func() any { return &CaseShut{Case: in()} }},
		{KindCaseMoved, func() any { return &CaseMoved{Case: in(), To: mesh.Label(any1("theatre", "scan"))} }},
		{KindRoleTaken, func() any { return &RoleTaken{in(), tag(), any1("lead", "scribe")} }},
		{KindLineDone, func() any { return &LineDone{in(), "brief", any1("voice-link", "paper-card"), yes(), ""} }},
		{KindPPECheck, func() any { return &PPECheck{Case: in(), Wearer: tag(), Checker: tag(), Good: yes()} }},
		{KindSkipped, func() any { return &Skipped{in(), "brief", []mesh.ID{"paper-card", "other"}} }},
		{KindTestAsked, func() any { return &TestAsked{Case: in(), Room: room(), Battery: 50, Door: room()} }},
		{KindTestHeard, func() any { return &TestHeard{Names: of(KindTestAsked), Sound: yes()} }},
		{KindCondition, func() any { return &Condition{Battery: int32(random.IntN(100))} }},
		{KindSaid, func() any { return &Said{in(), room(), "wait", yes()} }},
		{KindSaidHeard, func() any { return &SaidHeard{of(KindSaid, KindBreach)} }},
		{KindEntered, func() any { return &Entered{in(), tag(), any1("in", "ante", "", "annex"), tag()} }},
		{KindLeft, func() any { return &Left{in(), tag(), any1("in", "ante", "", "annex"), tag()} }},
		{KindBreach, func() any { return &Breach{in(), tag(), "glove", ""} }},
		{KindDoffStep, func() any { return &DoffStep{in(), tag(), "gloves", tag(), yes()} }},
		{KindDoor, func() any { return &Door{room(), yes()} }},
		{KindTime, func() any { return &Time{Case: in(), What: any1("cuff-up", "first-ventilation")} }},
		{KindChartClock, func() any { return &ChartClock{in(), 60_000, 500} }},
		{KindLateTime, func() any { return &LateTime{of(KindTime, KindTime, KindEntered, KindAcknowledged), at(), 30_000} }},
		{KindDebrief, func() any { return &Debrief{in(), yes(), ""} }},
		{KindDebriefLine, func() any { return &DebriefLine{in(), "went-well", mesh.Text(a.tag)} }},
		{KindDrill, func() any { return &Drill{in(), room(), "drill"} }},
		{KindInject, func() any { return &Inject{of(KindDrill), "cut-link", ""} }},
		{KindThisIsReal, func() any { return &ThisIsReal{of(KindDrill)} }},
		{KindLayout, func() any { return &Layout{Replaces: []mesh.Ref{of(KindLayout)}, Tiles: []Tile{}, Accepted: tag()} }},
		{KindListLine, func() any {
			return &ListLine{Replaces: []mesh.Ref{of(KindListLine)}, List: "brief", ID: any1("voice-link", "new"), Gone: yes()}
		}},
		{KindSetting, func() any { return &Setting{[]mesh.Ref{of(KindSetting)}, "call-again", mesh.Text(a.tag)} }},
		{KindRoomLine, func() any {
			return &RoomLine{Replaces: []mesh.Ref{of(KindRoomLine)}, ID: "A1", Zones: starterZones()[:2]}
		}},
		{KindUndone, func() any { return &Undone{Names: of(KindCaseOpen, KindCaseShut, KindTime, KindEntered, KindLineDone)} }},
		{KindUndone, func() any { return &Undone{Names: of(KindSaidHeard, KindTestHeard, KindLateTime, KindThisIsReal)} }},
		{KindUndone, func() any { return &Undone{Names: of(KindListLine, KindRoomLine, KindLayout, KindSetting)} }},
	}
}
