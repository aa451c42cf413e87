package requests

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// lineIDs lists the ids of lines.
func lineIDs(lines []Line) (out []mesh.ID) {
	for _, line := range lines {
		out = append(out, line.ID)
	}
	return out
}

// Goal: a list is data over its starter lines. Method: change a line, add one,
// take one away, write one twice apart, and take writes back, reading between.
func TestListsAreRegistersOverTheirStarterLines(t *testing.T) {
	s := newScene(t)
	require.Equal(t, []mesh.ID{"voice-link", "paper-card"}, lineIDs(s.board().List("brief")))
	s.put(lead, KindListLine, &ListLine{List: "brief", ID: "speaker", Words: "Who speaks to the runner?", Place: 1})
	first := s.put(lead, KindListLine, &ListLine{List: "brief", ID: "voice-link", Words: "Heard?", Place: 9})
	b := s.board()
	require.Equal(t, []mesh.ID{"speaker", "paper-card", "voice-link"}, lineIDs(b.List("brief")))
	require.Equal(t, []mesh.Ref{first}, b.ListWrites("brief", "voice-link"))
	require.Empty(t, b.ListWrites("brief", "paper-card"))

	turn := s.turn + 1
	s.putAt(turn, lead, KindListLine, &ListLine{Replaces: []mesh.Ref{first}, List: "brief", ID: "voice-link", Words: "One?"})
	gone := s.putAt(turn, second, KindListLine, &ListLine{Replaces: []mesh.Ref{first}, List: "brief", ID: "voice-link", Gone: true})
	b = s.board()
	require.Equal(t, []mesh.ID{"speaker", "paper-card"}, lineIDs(b.List("brief")))
	line, known := b.ListLine("brief", "voice-link")
	require.True(t, known && line.Gone && line.TwoValues, "what was ticked stays readable")
	s.undo(second, gone)
	line, _ = s.board().ListLine("brief", "voice-link")
	require.Equal(t, mesh.Text("One?"), line.Words)
	require.False(t, line.TwoValues)
	_, known = s.board().ListLine("plan", "voice-link")
	require.False(t, known)
	require.Empty(t, s.board().List("other"))
}

// Goal: a setting is the unit's own, else the starter's. Method: numbers, words
// and nonsense, written over both.
func TestSettingsAreTheUnitsOwnElseTheStarters(t *testing.T) {
	s := newScene(t)
	b := s.board()
	require.Equal(t, 30*time.Second, b.Seconds("call-again"))
	require.EqualValues(t, 30, b.Number("call-again"))
	require.Zero(t, b.Number("spelling"))
	require.Zero(t, b.Seconds("other"))
	value, known := b.Setting("spelling")
	require.True(t, known)
	require.Equal(t, mesh.Text("us"), value)

	turn := s.turn + 1
	s.putAt(turn, lead, KindSetting, &Setting{Name: "call-again", Value: "20"})
	last := s.putAt(turn, second, KindSetting, &Setting{Name: "call-again", Value: "soon"})
	b = s.board()
	require.Equal(t, []mesh.Text{"soon", "20"}, b.SettingValues("call-again"))
	require.Len(t, b.SettingWrites("call-again"), 2)
	require.EqualValues(t, 30, b.Number("call-again"), "what is no number gives way to the starter's")
	s.undo(second, last)
	require.Equal(t, 20*time.Second, s.board().Seconds("call-again"))
	for value, want := range map[mesh.Text]time.Duration{"-5": 0, "9000000000000000000": secondsMax * time.Second} {
		s.put(lead, KindSetting, &Setting{Replaces: s.board().SettingWrites("call-again"), Name: "call-again", Value: value})
		require.Equal(t, want, s.board().Seconds("call-again"))
	}
}

// Goal: the board inside changes only by a named person's acceptance. Method: a
// proposal, an acceptance, another one apart, and one taken back.
func TestALayoutStandsOnlyOnceSomebodyAcceptedIt(t *testing.T) {
	s := newScene(t)
	s.put(lead, KindLayout, &Layout{Name: "proposal", Tiles: []Tile{{1, 117}}})
	_, known := s.board().Layout()
	require.False(t, known)
	turn := s.turn + 1
	first := s.putAt(turn, lead, KindLayout, &Layout{Name: "May", Tiles: []Tile{{1, 117}}, Accepted: "L1"})
	l, known := s.board().Layout()
	require.True(t, known)
	require.Equal(t, mesh.Label("May"), l.Name)
	require.Equal(t, first, l.Ref)
	other := s.putAt(turn, second, KindLayout, &Layout{Name: "June", Tiles: []Tile{}, Accepted: "L2"})
	l, _ = s.board().Layout()
	require.True(t, l.TwoValues)
	require.Equal(t, mesh.Label("June"), l.Name)
	require.Equal(t, []mesh.Ref{other, first}, s.board().LayoutWrites())
	s.undo(second, other)
	l, _ = s.board().Layout()
	require.Equal(t, first, l.Ref)
}
