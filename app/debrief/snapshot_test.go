package debrief

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Goal: what is shown of a case is what was recorded of it. Method: fold a case
// with something of everything and look at it.
func TestLookShowsWhatWasRecorded(t *testing.T) {
	u, of := full(t)
	u.do(desk, station.AnswerLine{Case: of, Line: "waited", Words: "the tube"})
	u.do(desk, station.HoldDebrief{Case: of, Why: "no time"})
	s := u.look(mesh.Ref{})
	require.Equal(t, of, s.Of, "the newest case, where none is named")
	require.Equal(t, mesh.By{Role: "charge", Tag: "C1"}, s.By)
	c, known := s.looked()
	require.True(t, known)
	require.Equal(t, "C 12 · A1 · Intubation", name(c))
	require.Equal(t, Debrief{Said: true, Why: "no time", Tag: "C1", At: u.Now.Wall}, c.Debrief)
	require.Len(t, s.Cases, 7)
	require.True(t, s.Cases[6].Drill, "the newest first")
	require.Equal(t, 6, s.All.Cases)
	require.Equal(t, 1, s.answered())
	q, n := s.question("waited")
	require.Equal(t, Question{"waited", "Where did something wait longest?", "the tube", "C1"}, q)
	require.Equal(t, 5, n)

	require.Len(t, s.Course.People, 4)
	require.Equal(t, "anteroom", s.Course.People[2].Zone)
	require.Len(t, s.Course.Moments, 7)
	require.Len(t, s.Course.Harms, 1)
	require.Len(t, s.Course.Said, 1)
	require.Zero(t, s.Course.Apart)
	require.Len(t, s.Course.Asked, 4)
	drug := s.Course.Asked[1]
	require.Equal(t, []any{"Ketamine", int64(2), requests.RightNow, true, false}, []any{drug.Name, drug.Count, drug.Urgency, drug.Wrong, drug.Unanswered})
	require.Equal(t, 9*time.Second, time.Duration(drug.Acknowledged.Wall-drug.From.Wall)*time.Millisecond)
	require.Equal(t, 170*time.Second, time.Duration(drug.Taken.Wall-drug.From.Wall)*time.Millisecond)
	require.True(t, s.Course.Asked[2].Unanswered)
	require.True(t, s.Course.Asked[3].Withdrawn)

	drill := u.look(s.Cases[6].Ref)
	require.Equal(t, []string{"Link cut for 2 minutes"}, []string{drill.Course.Given[0].Words})
	require.Equal(t, Snapshot{}.Of, newUnit(t).look(of).Of, "a unit without cases")
}

// Goal: figures are those of the board, each with its method, and say what they
// leave out. Method: a case whose numbers are plain, and made-up ones at the ends.
func TestFiguresNameTheirMethods(t *testing.T) {
	u, of := full(t)
	s := u.look(of)
	c, _ := s.looked()
	w := words.English()
	got := map[string]Figure{}
	for _, f := range figures(w, c.Figures, c, s.Course.lists(w, time.UTC)) {
		got[f.Label] = f
	}
	for label, want := range map[string][2]string{
		"Requests":                                {"4", "for 4 needs: joined requests are one need"},
		"Asked to acknowledged, median":           {"11.5\u00a0s", "of 2 needs"},
		"Asked to taken in, 90th percentile":      {"220\u00a0s", "by nearest rank; 215\u00a0s between neighbours"},
		"Never taken in":                          {"2", "1 of them not wanted any more · 1 × Tracheal tube, cuffed 7.5, 09:24 · 2 × Bougie 15\u00a0Fr, 09:24"},
		"Read back as something else, and caught": {"1", "2 × Ketamine 50\u00a0mg/mL, 09:18"},
		"Closed loops, of what was brought":       {"2 of 2", "100\u00a0%, 95\u00a0% interval 34 to 100\u00a0% (Wilson)"},
		"Door openings":                           {"6", "derived: hand-overs and persons within 20\u00a0s are one"},
		"Person-minutes inside":                   {"77.4", "of 3 entries, 1 without a coming out"},
		"Breaches":                                {"1", ""},
		"Debrief":                                 {"not said", ""},
	} {
		require.Equal(t, Figure{label, want[0], want[1]}, got[label])
	}
	require.Equal(t, "measured, open for 90\u00a0s in sum", openings(w, requests.OpeningFigures{Count: 2, Measured: 2, Open: 90 * time.Second}))
	require.Equal(t, "1 measured, open for 0\u00a0s in sum; 2 derived: hand-overs and persons within 20\u00a0s are one",
		openings(w, requests.OpeningFigures{Count: 3, Measured: 1, Window: 20 * time.Second}))
	require.Equal(t, "none", share(w, requests.Share{}))
	require.Equal(t, "33 %", interval(w, requests.Share{Of: 40, All: 120}), "of a hundred and more without an interval")
	require.Equal(t, "no times", spread(w, "ack", requests.Spread{})[1].Value)
}

// Goal: a role has figures only from its fifth case on, and a person never.
// Method: the unit with four small cases, then with a fifth; no tag is in them.
func TestRolesHaveFiguresFromTheirFifthCaseOn(t *testing.T) {
	u, w := newUnit(t), words.English()
	u.compared(phone, time.Second)
	for i := range requests.RolesFrom - 1 {
		u.small("C", 10*i, 5)
	}
	require.Empty(t, roles(w, u.look(mesh.Ref{})))
	u.small("C", 60, 5)
	u.exercise("D", 80)
	all := roles(w, u.look(mesh.Ref{}))
	require.Equal(t, Figure{"Airway lead", "5 cases", "5 asked, 0 acknowledged"}, all[0], "the exercise is left out")
	require.Contains(t, all, Figure{"Runner. Asked to acknowledged, median", "5\u00a0s", "of 5 needs"})
	s := u.look(mesh.Ref{})
	for _, f := range append(all, figures(w, s.All, Case{}, lists{})...) {
		require.NotRegexp(t, `\b(L1|R1|C1|O1)\b`, f.Label+f.Value+f.Method)
	}
}

// Goal: a question is answered with what the case's own record has for it, and
// no answer names a person. Method: ask each of the list.
func TestQuestionsOfferWhatTheRecordHas(t *testing.T) {
	u, of := full(t)
	s, w := u.look(of), words.English()
	for q, want := range map[mesh.ID][]string{
		"fetched":    {"Bougie 15\u00a0Fr", "Ketamine 50\u00a0mg/mL", "nothing", "talked about"},
		"wrong-item": {"2 × Ketamine 50\u00a0mg/mL, 09:18", "nothing", "talked about"},
		"plan":       {"yes", "in part", "no", "talked about"},
		"ppe":        {"Glove torn", "nothing", "talked about"},
		"unit's own": {"yes", "in part", "no", "talked about"},
	} {
		require.Equal(t, want, answers(w, s, q, time.UTC), q)
	}
	require.Equal(t, "1 × Tracheal tube, cuffed 7.5, 09:24", answers(w, s, "waited", time.UTC)[0], "what never came waited longest")
	require.Equal(t, "09:12 · 2 persons", answers(w, s, "openings", time.UTC)[0])
	for _, q := range s.Questions {
		for _, a := range answers(w, s, q.ID, time.UTC) {
			require.NotRegexp(t, `\b[A-Z]1\b`, a)
		}
	}
}
