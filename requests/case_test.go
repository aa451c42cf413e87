package requests

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: a case holds what was recorded for it, also after it was shut. Method:
// open, move, shut, and write on; then take the shutting back.
func TestACaseIsOverWhenSomebodyShutItAndKeepsWhatComesLater(t *testing.T) {
	s := newScene(t)
	first := s.open("A1")
	s.put(lead, KindCaseMoved, &CaseMoved{Case: first, To: "scan"})
	s.put(lead, KindCaseMoved, &CaseMoved{Case: first, To: "theatre"})
	c := s.ofCase(first)
	require.Equal(t, mesh.ID("intubation"), c.What)
	require.Equal(t, mesh.Label("theatre"), c.MovedTo)
	require.Len(t, c.Moves, 2)
	require.False(t, c.Over)

	shut := s.shut(first)
	s.put(second, KindDebrief, &Debrief{Case: first, Held: true, Why: "at once"})
	c = s.ofCase(first)
	require.True(t, c.Over)
	require.Equal(t, mesh.Label("left"), c.Shut[0].Why)
	require.Len(t, c.Debriefs, 1)
	_, open := s.board().CaseIn("A1")
	require.False(t, open)

	s.undo(lead, shut)
	c, open = s.board().CaseIn("A1")
	require.True(t, open)
	require.Empty(t, c.Shut)
}

// Goal: two cases that were opened in one room apart are both kept, and one is
// in use everywhere. Method: open two at one turn, then shut the one in use.
func TestTwoCasesInOneRoomAreBothKeptAndTheHighestIsInUse(t *testing.T) {
	s := newScene(t)
	turn := s.turn + 1
	one := s.putAt(turn, lead, KindCaseOpen, &CaseOpen{Room: "A1"})
	require.Empty(t, s.board().TwoCases("A1"))
	two := s.putAt(turn, second, KindCaseOpen, &CaseOpen{Room: "A1"})
	other := s.open("A2")
	b := s.board()
	require.Len(t, b.Cases(), 3)
	c, _ := b.CaseIn("A1")
	require.Equal(t, two, c.Ref, "the device with the higher key")
	both := b.TwoCases("A1")
	require.Equal(t, []mesh.Ref{two, one}, []mesh.Ref{both[0].Ref, both[1].Ref})
	require.Empty(t, b.TwoCases("A2"))

	s.shut(two)
	b = s.board()
	c, _ = b.CaseIn("A1")
	require.Equal(t, one, c.Ref)
	require.Empty(t, b.TwoCases("A1"))
	c, _ = b.CaseIn("A2")
	require.Equal(t, other, c.Ref)

	s.put(lead, KindCaseMoved, &CaseMoved{Case: other, To: "theatre"})
	c, _ = s.board().CaseIn("A2")
	require.Equal(t, other, c.Ref, "until the next is opened there")
	s.open("A2")
	require.Empty(t, s.board().TwoCases("A2"), "one goes on elsewhere")
}

// Goal: what names no case belongs to the newest case that was opened in its
// room before. Method: ask and say things before, between and after two cases,
// then take the second opening back.
func TestWhatNamesNoCaseBelongsToTheNewestInItsRoomBeforeIt(t *testing.T) {
	s := newScene(t)
	early := s.ask()
	first := s.open("A1")
	mine := s.ask()
	s.shut(first)
	late := s.put(lead, KindSaid, &Said{Room: "A1", Phrase: "wait", Out: true})
	next := s.open("A1")
	named := s.put(lead, KindAsked, &Asked{Case: first, Room: "A1", Thing: tube(), Urgency: RightNow})
	door := s.put(runner1, KindDoor, &Door{Room: "A1", Open: true})
	going := s.going(runner1, mine)
	b := s.board()
	for fact, of := range map[mesh.Ref]mesh.Ref{
		mine: first, late: first, named: first, going: first, first: first, door: next, next: next,
	} {
		got, known := b.CaseOf(fact)
		require.True(t, known)
		require.Equal(t, of, got)
	}
	for _, none := range []mesh.Ref{early, s.facts[0].Ref, mesh.MakeRef(mesh.Key{9}, mesh.Tap{}, 0)} {
		_, known := b.CaseOf(none)
		require.False(t, known)
	}
	require.Equal(t, []mesh.Ref{mine, named}, s.ofCase(first).Requests)
	require.Len(t, s.ofCase(next).Doors, 1)
	r := s.request(mine)
	require.Equal(t, first, r.Case, "a request says the case that it belongs to")

	s.undo(lead, next)
	_, known := s.board().Case(next)
	require.False(t, known)
	c := s.ofCase(first)
	require.Len(t, c.Doors, 1)
	require.Len(t, s.board().Cases(), 1)
}

// Goal: what belongs to no case is listed, and joins its case when that comes.
// Method: name a case that is not here, a request, nothing; then the case comes.
func TestFactsWithoutACaseAreListedAndJoinItWhenItComes(t *testing.T) {
	s := newScene(t)
	asked := s.ask()
	first := s.open("A1")
	opened := s.facts[len(s.facts)-1]
	s.facts = s.facts[:len(s.facts)-1]
	s.put(lead, KindRoleTaken, &RoleTaken{Case: first, Tag: "L1", Role: "lead"})
	s.put(lead, KindRoleTaken, &RoleTaken{Case: asked, Tag: "L1", Role: "lead"})
	s.put(lead, KindRoleTaken, &RoleTaken{Tag: "L1", Role: "lead"})
	s.put(lead, KindSaidHeard, &SaidHeard{Names: asked})
	drill := s.put(lead, KindDrill, &Drill{Case: first, Room: "A1"})
	s.put(lead, KindInject, &Inject{Drill: drill, What: "battery"})
	require.Len(t, s.board().Astray(), 6)
	require.Empty(t, s.board().Cases())

	s.facts = append(s.facts, opened)
	b := s.board()
	require.Len(t, b.Astray(), 3)
	c, _ := b.Case(first)
	require.Len(t, c.Roles, 1)
	require.Len(t, c.Drills[0].Injects, 1)
}

// Goal: whatever was taken back is in no list. Method: write one fact of every
// kind of a case, take each back alone, and compare with a board that never had it.
func TestWhatWasTakenBackIsInNoList(t *testing.T) {
	for _, withCase := range []bool{true, false} {
		s, first, facts := everyFact(t, withCase)
		for _, ref := range facts {
			undone := *s
			undone.facts = append([]mesh.Fact(nil), s.facts...)
			undone.undo(lead, ref)
			without := *s
			without.facts = nil
			for _, f := range s.facts {
				if f.Ref != ref {
					without.facts = append(without.facts, f)
				}
			}
			got, _ := fold(undone.facts).Case(first)
			want, _ := fold(without.facts).Case(first)
			require.Equal(t, want, got, "kind %#04x", uint16(fold(s.facts).facts[ref].Kind))
			all, _ := fold(s.facts).Case(first)
			require.NotEqual(t, all, got)
		}
	}
}

// everyFact writes a case with one fact of each kind and returns them; without
// a name of the case where their room is enough.
func everyFact(t *testing.T, named bool) (s *scene, first mesh.Ref, facts []mesh.Ref) {
	s = newScene(t)
	first = s.open("A1")
	in := first
	if !named {
		in = mesh.Ref{}
	}
	put := func(k mesh.Kind, body any) mesh.Ref {
		ref := s.put(lead, k, body)
		facts = append(facts, ref)
		return ref
	}
	test := put(KindTestAsked, &TestAsked{Case: in, Room: "A1", Battery: 80, Door: "A1"})
	put(KindTestHeard, &TestHeard{Names: test, Sound: true})
	said := put(KindSaid, &Said{Case: in, Room: "A1", Phrase: "wait"})
	put(KindSaidHeard, &SaidHeard{said})
	drill := put(KindDrill, &Drill{Case: in, Room: "A1", Label: "drill 3"})
	put(KindInject, &Inject{Drill: drill, What: "battery"})
	put(KindThisIsReal, &ThisIsReal{drill})
	put(KindAsked, &Asked{Case: in, Room: "A1", Thing: tube(), Urgency: RightNow})
	put(KindDoor, &Door{Room: "A1", Open: true})
	if !named {
		return s, first, facts
	}
	put(KindCaseShut, &CaseShut{Case: in})
	put(KindCaseMoved, &CaseMoved{Case: in, To: "scan"})
	put(KindRoleTaken, &RoleTaken{in, "L1", "lead"})
	put(KindLineDone, &LineDone{in, "brief", "paper-card", true, ""})
	put(KindPPECheck, &PPECheck{Case: in, Wearer: "L1", Checker: "B1", Good: true})
	put(KindSkipped, &Skipped{in, "brief", []mesh.ID{"voice-link"}})
	put(KindEntered, &Entered{in, "L1", "in", "B1"})
	put(KindLeft, &Left{in, "L1", "in", "B1"})
	breach := put(KindBreach, &Breach{in, "L1", "glove", ""})
	put(KindSaidHeard, &SaidHeard{breach})
	put(KindDoffStep, &DoffStep{in, "L1", "gloves", "B1", true})
	moment := put(KindTime, &Time{Case: in, What: "cuff-up"})
	put(KindLateTime, &LateTime{moment, 900_000, 0})
	put(KindChartClock, &ChartClock{in, 60_000, 500})
	put(KindDebrief, &Debrief{in, true, ""})
	put(KindDebriefLine, &DebriefLine{in, "went-well", "the loop"})
	return s, first, facts
}
