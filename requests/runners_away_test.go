package requests

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: a drill's inject calls one runner of its room away, who is shown so, and
// calls go to the others until that runner does something, or until it is real.
// Method: two runners, one of whom was busy; each way in which it begins and ends.
func TestADrillCallsARunnerAway(t *testing.T) {
	k1, k2 := runner1.key, runner2.key
	for name, c := range map[string]struct {
		words mesh.Text
		away  mesh.Key
		ends  func(s *scene, drill mesh.Ref, away actor)
	}{
		"who was busy last":       {"", k2, func(s *scene, drill mesh.Ref, _ actor) { s.put(lead, KindThisIsReal, &ThisIsReal{Drill: drill}) }},
		"who is named":            {"R1", k1, func(s *scene, drill mesh.Ref, _ actor) { s.put(lead, KindThisIsReal, &ThisIsReal{Drill: drill}) }},
		"nobody has that tag":     {"R9", k2, func(s *scene, drill mesh.Ref, _ actor) { s.put(lead, KindThisIsReal, &ThisIsReal{Drill: drill}) }},
		"who comes back, is back": {"R1", k1, func(s *scene, _ mesh.Ref, away actor) { s.going(away, s.askAt("A1", NextOpening)) }},
	} {
		t.Run(name, func(t *testing.T) {
			s := newScene(t)
			drill := s.put(lead, KindDrill, &Drill{Room: "A1"})
			s.going(runner2, s.askAt("A2", NextOpening))
			s.put(lead, KindInject, &Inject{Drill: drill, What: injectAway, Words: c.words})
			away, is := s.board().away("A1")
			require.True(t, is)
			require.Equal(t, c.away, away)
			for _, r := range s.board().RunnerAt("A1") {
				require.Equal(t, r.Device == c.away, r.Doing == Away)
			}
			other := map[mesh.Key]mesh.Key{k1: k2, k2: k1}[c.away]
			require.Equal(t, []mesh.Key{other}, (&caller{b: s.board()}).callable("A1"))
			require.Equal(t, []mesh.Key{k1, k2}, (&caller{b: s.board()}).callable("A2"), "another room")
			require.Equal(t, []mesh.Key{k1, k2}, s.board().RunnersFor("A1"), "a receipt stays one")
			c.ends(s, drill, map[mesh.Key]actor{k1: runner1, k2: runner2}[c.away])
			_, is = s.board().away("A1")
			require.False(t, is)
		})
	}
}
