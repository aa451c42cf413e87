package requests

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// whats lists what the noted times of a case were, in their order.
func whats(c Case) (out []mesh.ID) {
	for _, m := range c.Moments {
		out = append(out, m.What)
	}
	return out
}

// note writes a time that its author states to have happened at a wall; 0: now.
func (s *scene) note(of mesh.Ref, what mesh.ID, happened mesh.Wall) mesh.Ref {
	ref := s.put(lead, KindTime, &Time{Case: of, What: what})
	s.facts[len(s.facts)-1].By.Happened = happened
	return ref
}

// Goal: times stand by when they happened, and the newest correction counts
// while all stay. Method: late entries, two corrections of one time, one that
// gives none, and one taken back.
func TestTimesStandByWhenTheyHappenedAndTheNewestCorrectionCounts(t *testing.T) {
	s := newScene(t)
	first := s.open("A1")
	tube := s.note(first, "tube", 0)
	s.note(first, "cuff-up", 0)
	s.note(first, "induction", 1_000_000)
	c := s.ofCase(first)
	require.Equal(t, []mesh.ID{"induction", "tube", "cuff-up"}, whats(c))
	require.True(t, c.Moments[0].Late)
	require.False(t, c.Moments[1].Late)

	s.put(second, KindLateTime, &LateTime{tube, 900_000, 60_000})
	last := s.put(second, KindLateTime, &LateTime{tube, 2_000_000, 30_000})
	s.put(second, KindLateTime, &LateTime{tube, 0, 0})
	c = s.ofCase(first)
	require.Equal(t, []mesh.ID{"induction", "cuff-up", "tube"}, whats(c))
	require.Equal(t, mesh.Wall(2_000_000), c.Moments[2].Happened)
	require.Equal(t, c.Moments[2].Happened, c.Moments[2].When())
	require.Equal(t, uint32(30_000), c.Moments[2].WithinMS)
	require.True(t, c.Moments[2].Late)
	require.Len(t, c.Moments[2].Fixes, 3)

	s.undo(second, last)
	c = s.ofCase(first)
	require.Equal(t, []mesh.ID{"tube", "induction", "cuff-up"}, whats(c))
}

// Goal: any fact of a case and any mark of a request can be corrected. Method:
// correct a crossing, a case, and an acknowledgement before it is here.
func TestWhenAnythingHappenedCanBeCorrected(t *testing.T) {
	s := newScene(t)
	first := s.open("A1")
	in := s.put(lead, KindEntered, &Entered{first, "L1", "in", "B1"})
	asked := s.ask()
	s.put(second, KindLateTime, &LateTime{in, 700_000, 0})
	s.put(second, KindLateTime, &LateTime{first, 600_000, 0})
	going := mesh.MakeRef(runner1.key, mesh.Tap{0, 2}, 0)
	late := s.put(second, KindLateTime, &LateTime{going, 800_000, 500})
	require.Len(t, s.board().Astray(), 1)
	require.Equal(t, going, s.going(runner1, asked))
	c := s.ofCase(first)
	require.Equal(t, mesh.Wall(700_000), c.Crossings[0].When())
	require.Equal(t, mesh.Wall(700_000), c.People[0].Since.When())
	require.Equal(t, mesh.Wall(600_000), c.Opened.When())
	r := s.request(asked)
	require.Equal(t, mesh.Wall(800_000), r.Acknowledged[0].When())
	of, known := s.board().CaseOf(late)
	require.True(t, known)
	require.Equal(t, first, of)

	again := s.put(second, KindLateTime, &LateTime{late, 100_000, 0})
	b := s.board()
	require.Equal(t, again, b.Astray()[0].Ref, "a correction of a correction is no time of anything")
	s.undo(second, late)
	require.Equal(t, r.Acknowledged[0].Wall, s.request(asked).Acknowledged[0].When())
}

// Goal: a time that came before what must come first is flagged, and the rule
// is a line of a list. Method: ventilate without, before and after cuff up, by
// taps on clocks that differ and by late entries; then without the rule.
func TestTimesOutOfOrderAreFlaggedByTheRulesOfAList(t *testing.T) {
	s := newScene(t)
	first := s.open("A1")
	s.note(first, "first-ventilation", 0)
	require.Equal(t, []mesh.ID{"cuff-up"}, s.ofCase(first).Moments[0].Against)
	cuff := s.note(first, "cuff-up", 0)
	c := s.ofCase(first)
	require.Equal(t, []mesh.ID{"cuff-up"}, c.Moments[0].Against, "it came later")
	require.Empty(t, c.Moments[1].Against)
	s.put(second, KindLateTime, &LateTime{cuff, 900_000, 0})
	c = s.ofCase(first)
	require.Equal(t, mesh.ID("cuff-up"), c.Moments[0].What)
	require.Empty(t, c.Moments[1].Against)

	s.put(lead, KindListLine, &ListLine{List: "time-after", ID: "cuff-up.tube", Words: "Tube comes before."})
	require.Equal(t, []mesh.ID{"tube"}, s.ofCase(first).Moments[0].Against)

	next := s.open("A1")
	s.put(lead, KindTime, &Time{Case: next, What: "cuff-up"})
	s.put(runner1, KindTime, &Time{Case: next, What: "first-ventilation"})
	s.facts[len(s.facts)-1].Wall -= 90_000
	c = s.ofCase(next)
	require.Equal(t, []mesh.ID{"first-ventilation", "cuff-up"}, whats(c), "by the clocks of their authors")
	require.Empty(t, c.Moments[0].Against, "the order of entries knows better than a clock that is wrong")
}

// Goal: the rest of the notes stands in order. Method: two ties to a monitor, a
// debrief said twice, an answer given twice.
func TestChartsDebriefsAndAnswersAreListed(t *testing.T) {
	s := newScene(t)
	first := s.open("A1")
	s.put(lead, KindChartClock, &ChartClock{first, 60_000, 500})
	s.put(lead, KindChartClock, &ChartClock{first, 120_000, 500})
	s.put(lead, KindDebrief, &Debrief{first, false, "next case"})
	s.put(lead, KindDebrief, &Debrief{first, true, ""})
	s.put(lead, KindDebriefLine, &DebriefLine{first, "went-well", "loop"})
	s.put(second, KindDebriefLine, &DebriefLine{first, "went-well", "loops"})
	s.put(second, KindDebriefLine, &DebriefLine{first, "change", "one more tube"})
	c := s.ofCase(first)
	require.Equal(t, mesh.Wall(120_000), c.Charts[1].Monitor)
	require.True(t, c.Debriefs[1].Held)
	require.Len(t, c.Answers, 2)
	require.Equal(t, mesh.ID("change"), c.Answers[0].Line)
	require.Equal(t, mesh.Text("loops"), c.Answers[1].Words)
}
