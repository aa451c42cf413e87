package requests

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: a person is in the zone entered last and not left. Method: walks
// through the zones of a room with steps left out.
func TestAPersonIsInTheZoneEnteredLastAndNotLeft(t *testing.T) {
	for name, walk := range map[string]struct {
		steps []string
		zone  mesh.ID
		side  Side
	}{
		"in":                            {[]string{"+ante", "+in"}, "in", Inside},
		"back in the anteroom":          {[]string{"+ante", "+in", "-in"}, "ante", Anteroom},
		"out":                           {[]string{"+ante", "+in", "-in", "-ante"}, "", Outside},
		"out of the anteroom":           {[]string{"+in", "-ante"}, "", Outside},
		"out without a zone":            {[]string{"+ante", "+in", "-"}, "", Outside},
		"in without a zone":             {[]string{"+"}, "in", Inside},
		"outwards by entering":          {[]string{"+in", "+ante"}, "ante", Anteroom},
		"twice in":                      {[]string{"+in", "+in", "-in"}, "", Outside},
		"out and in again":              {[]string{"+in", "-in", "+in"}, "in", Inside},
		"an unknown zone":               {[]string{"+annex"}, "annex", Inside},
		"a zone never entered":          {[]string{"+ante", "-in"}, "ante", Anteroom},
		"never in":                      {[]string{"-in"}, "", Outside},
		"from one inside zone to other": {[]string{"+in", "+annex", "-annex"}, "", Outside},
	} {
		t.Run(name, func(t *testing.T) {
			s := newScene(t)
			first := s.open("A1")
			var last mesh.Ref
			for _, step := range walk.steps {
				zone := mesh.ID(step[1:])
				if step[0] == '+' {
					last = s.put(lead, KindEntered, &Entered{first, "L1", zone, "B1"})
				} else {
					last = s.put(lead, KindLeft, &Left{first, "L1", zone, ""})
				}
			}
			c := s.ofCase(first)
			require.Len(t, c.People, 1)
			require.Equal(t, walk.zone, c.People[0].Zone)
			require.Equal(t, walk.side, c.People[0].Side)
			require.Equal(t, last, c.People[0].Since.Ref)
			require.Len(t, c.Crossings, len(walk.steps))
		})
	}
}

// Goal: zones are data. Method: people go in where the room has no zones, then
// somebody writes them, with the zone on another side.
func TestSidesOfZonesFollowTheRoomAsItStands(t *testing.T) {
	s := newScene(t)
	first := s.open("A2")
	s.put(lead, KindEntered, &Entered{first, "L1", "", "B1"})
	s.put(lead, KindEntered, &Entered{first, "L2", "ante", ""})
	c := s.ofCase(first)
	require.Equal(t, zoneInside, c.People[0].Zone)
	require.Equal(t, mesh.Tag("B1"), c.People[0].Checker)
	require.Equal(t, Inside, c.People[1].Side, "an unknown zone counts as inside")
	line := s.put(lead, KindRoomLine, &RoomLine{ID: "A2", Zones: starterZones()})
	c = s.ofCase(first)
	require.Equal(t, mesh.ID("in"), c.People[0].Zone)
	require.Equal(t, Anteroom, c.People[1].Side)
	require.Equal(t, Anteroom, c.Crossings[1].Side)
	s.undo(lead, line)
	require.Equal(t, Inside, s.ofCase(first).People[1].Side)
}

// Goal: people outside know of a phrase or a breach only when one of them says
// so. Method: hear a phrase twice, a breach once, and something that is neither.
func TestAPhraseAndABreachAreHeardByWhoeverSaysSo(t *testing.T) {
	s := newScene(t)
	first := s.open("A1")
	said := s.put(lead, KindSaid, &Said{Room: "A1", Phrase: "tube-in", Out: true})
	breach := s.put(lead, KindBreach, &Breach{first, "L1", "glove", "left hand"})
	step := s.put(runner1, KindDoffStep, &DoffStep{first, "L1", "gloves", "B1", false})
	for _, names := range []mesh.Ref{said, said, breach, step} {
		s.put(runner1, KindSaidHeard, &SaidHeard{names})
	}
	c := s.ofCase(first)
	require.Len(t, c.Said[0].Heard, 2)
	require.True(t, c.Said[0].Out)
	require.Len(t, c.Breaches[0].Heard, 1)
	require.Equal(t, runner1.key, c.Breaches[0].Heard[0].Device())
	require.Equal(t, mesh.ID("gloves"), c.Doffing[0].Step)
	require.False(t, c.Doffing[0].Good)
	require.Len(t, s.board().Astray(), 1)
}

// Goal: a crossing entered afterwards stands where it happened: somebody who is
// said to have gone in before coming out is out, and the other way round.
// Method: a coming out, then a going in half an hour earlier; a going in, then a
// coming out before it.
func TestALateCrossingStandsWhereItHappened(t *testing.T) {
	s := newScene(t)
	first := s.open("A1")
	before := func(k mesh.Kind, body any) {
		s.put(lead, k, body)
		s.facts[len(s.facts)-1].By.Happened = s.facts[0].Wall + 1
	}
	s.put(lead, KindLeft, &Left{first, "L2", "in", ""})
	before(KindEntered, &Entered{first, "L2", "in", "B1"})
	s.put(lead, KindEntered, &Entered{first, "L3", "in", "B1"})
	before(KindLeft, &Left{first, "L3", "in", ""})
	c := s.ofCase(first)
	require.Len(t, c.People, 2)
	require.Equal(t, Outside, c.People[0].Side, "L2 came out after going in")
	require.Equal(t, Inside, c.People[1].Side, "L3 went in after coming out")
}
