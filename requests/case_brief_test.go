package requests

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: the newest word counts per tag and per line. Method: two devices write
// one after the other, and one at a turn of long ago.
func TestRolesAndTicksAreTheNewestPerTagAndLine(t *testing.T) {
	s := newScene(t)
	first := s.open("A1")
	turn := s.turn + 1
	s.putAt(turn+5, second, KindRoleTaken, &RoleTaken{first, "L2", "lead"})
	s.putAt(turn, lead, KindRoleTaken, &RoleTaken{first, "L2", "scribe"})
	s.put(lead, KindRoleTaken, &RoleTaken{first, "L1", "assistant"})
	s.put(lead, KindLineDone, &LineDone{first, "plan", "a", true, "tube first"})
	s.put(lead, KindLineDone, &LineDone{first, "brief", "voice-link", true, ""})
	s.put(lead, KindLineDone, &LineDone{first, "brief", "voice-link", false, ""})
	c := s.ofCase(first)
	require.Len(t, c.Roles, 2)
	require.Equal(t, mesh.Tag("L1"), c.Roles[0].Tag)
	require.Equal(t, mesh.ID("lead"), c.Roles[1].Role)
	require.Len(t, c.Ticks, 2)
	require.Equal(t, mesh.ID("brief"), c.Ticks[0].List)
	require.False(t, c.Ticks[0].Done)
	require.Equal(t, mesh.Text("tube first"), c.Ticks[1].Words)
	b := s.board()
	require.Len(t, b.NotDone(c, "brief"), 2)
	require.Empty(t, b.NotDone(c, "plan"))
}

// Goal: nobody checks himself. Method: pairs, one tag twice, and a tag missing;
// all stand, and those that are no check by another are marked.
func TestChecksByOneselfStandAndAreMarked(t *testing.T) {
	s := newScene(t)
	first := s.open("A1")
	for _, pair := range [][2]mesh.Tag{{"L1", "B1"}, {"L1", "L1"}, {"L1", ""}, {"", "B1"}} {
		s.put(lead, KindPPECheck, &PPECheck{Case: first, Wearer: pair[0], Checker: pair[1], Good: true})
	}
	var self []bool
	for _, p := range s.ofCase(first).PPE {
		self = append(self, p.Self)
	}
	require.Equal(t, []bool{false, true, true, true}, self)
}

// Goal: what was left out is listed until it is made up for. Method: skip two
// lines, tick one; then a case in a hurry, which lists the brief and the plans
// by itself, also a line that the unit adds.
func TestWhatWasSkippedIsListedUntilItIsTicked(t *testing.T) {
	s := newScene(t)
	first := s.open("A1")
	s.put(lead, KindSkipped, &Skipped{first, "brief", []mesh.ID{"voice-link", "paper-card"}})
	s.put(second, KindSkipped, &Skipped{first, "brief", []mesh.ID{"paper-card"}})
	s.put(lead, KindLineDone, &LineDone{first, "brief", "paper-card", true, ""})
	rows := s.ofCase(first).Skipped
	require.Len(t, rows, 2)
	require.False(t, rows[0].Made)
	require.True(t, rows[1].Made)
	require.Equal(t, lead.key, rows[1].Device(), "who left it out first")

	hurry := s.put(lead, KindCaseOpen, &CaseOpen{Room: "A2", Hurry: true})
	require.Len(t, s.ofCase(hurry).Skipped, 3)
	s.put(lead, KindListLine, &ListLine{List: "plan", ID: "b", Words: "Plan B.", Place: 2})
	s.put(lead, KindLineDone, &LineDone{hurry, "plan", "a", true, ""})
	rows = s.ofCase(hurry).Skipped
	require.Len(t, rows, 4)
	require.True(t, rows[2].Made)
	require.Equal(t, mesh.ID("b"), rows[3].Line)
	require.Equal(t, hurry, rows[3].Ref)
}

// Goal: a test request shows who heard it and whether the door is the right
// one. Method: one answered twice, one before another door, one that says none.
func TestTestRequestsShowWhoHeardThemAndWhetherTheDoorIsRight(t *testing.T) {
	s := newScene(t)
	first := s.open("A1")
	test := s.put(lead, KindTestAsked, &TestAsked{Case: first, Room: "A1", Battery: -1, Door: "A1"})
	s.put(second, KindTestAsked, &TestAsked{Room: "A1", Battery: 12, Door: "A2"})
	s.put(second, KindTestAsked, &TestAsked{Room: "A1"})
	s.put(runner1, KindTestHeard, &TestHeard{test, true, 28})
	s.put(runner2, KindTestHeard, &TestHeard{test, false, 40})
	s.put(runner2, KindTestHeard, &TestHeard{first, true, 1})
	c := s.ofCase(first)
	require.Len(t, c.Tests, 3)
	require.Len(t, c.Tests[0].Heard, 2)
	require.True(t, c.Tests[0].Heard[0].Sound)
	require.Equal(t, int32(-1), c.Tests[0].Battery)
	require.Equal(t, []bool{true, false, false}, []bool{c.Tests[0].DoorOK, c.Tests[1].DoorOK, c.Tests[2].DoorOK})
	require.Len(t, s.board().Astray(), 1, "an answer to what is no test")
}

// Goal: the newest word of a device on its battery counts, whoever hears of it
// in whatever order. Method: two words, the second taken back.
func TestTheNewestConditionOfADeviceCounts(t *testing.T) {
	s := newScene(t)
	s.put(lead, KindCondition, &Condition{Battery: 80, Charging: true, DiskMB: 512})
	last := s.put(lead, KindCondition, &Condition{Battery: 9})
	c, m, known := s.board().Condition(lead.key)
	require.True(t, known)
	require.Equal(t, Condition{Battery: 9}, c)
	require.Equal(t, last, m.Ref)
	s.undo(lead, last)
	c, _, _ = s.board().Condition(lead.key)
	require.Equal(t, int32(80), c.Battery)
	_, _, known = s.board().Condition(second.key)
	require.False(t, known)
}

// Goal: a drill goes on until somebody says that this is real or its case is
// shut after it began. Method: end one each way, and begin one after a case was shut.
func TestADrillGoesOnUntilItIsRealOrItsCaseIsShut(t *testing.T) {
	s := newScene(t)
	_, on := s.board().DrillIn("A1")
	require.False(t, on)
	first := s.open("A1")
	drill := s.put(lead, KindDrill, &Drill{Case: first, Label: "drill 3"})
	s.put(lead, KindInject, &Inject{drill, "battery", "5 %"})
	d, on := s.board().DrillIn("A1")
	require.True(t, on)
	require.Equal(t, mesh.ID("A1"), d.Room, "the room of its case")
	require.Equal(t, mesh.ID("battery"), d.Injects[0].What)
	_, on = s.board().DrillIn("A2")
	require.False(t, on)

	real := s.put(runner1, KindThisIsReal, &ThisIsReal{drill})
	_, on = s.board().DrillIn("A1")
	require.False(t, on)
	require.Len(t, s.ofCase(first).Drills[0].Real, 1)
	s.undo(runner1, real)
	s.shut(first)
	_, on = s.board().DrillIn("A1")
	require.False(t, on)

	again := s.put(lead, KindDrill, &Drill{Room: "A1"})
	d, on = s.board().DrillIn("A1")
	require.True(t, on, "the case was shut before it")
	require.Equal(t, again, d.Ref)
}
