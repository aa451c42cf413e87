package inside

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/kits"
)

// Goal: what became of a drug is said in three taps behind what can be said, no
// amount is filled in, and the tap is taken back whole. Method: tap on a tablet
// and a tall phone; look at the acts.
func TestAllThatIsLeftEndsInThreeTaps(t *testing.T) {
	for size, say := range map[string]string{"tablet": "R1 here", "tall": "say"} {
		s := newScene(t, look.Dark, windows()[size])
		snap := calm(t)
		drugsInside(&snap)
		s.screen.Set(snap)
		s.tap(say)
		if size == "tall" {
			s.screen.show(pageDrugs)
		} else {
			s.tap("drugs")
		}
		want := station.EndDrug{Room: "A1", Portion: station.Portion{Item: 3046, Syringe: ref(71)}, End: kits.Given}
		s.tap("induction")
		require.Empty(t, s.screen.hand.digits, "no amount is proposed")
		require.Equal(t, []station.Act{want}, s.through("given"), size)
		s.screen.tapUndo()
		require.Equal(t, station.ReverseTap{Movement: ref(101), Why: "undone"}, s.taps.acts[1])
	}
}

// Goal: part of a drug ends by millilitres or containers, with who saw it.
// Method: type on the keys.
func TestPartOfADrugEndsAsTyped(t *testing.T) {
	s := newScene(t, look.Dark, windows()["tablet"])
	snap := calm(t)
	drugsInside(&snap)
	s.screen.Set(snap)
	s.screen.show(pageDrugs)
	s.screen.pick(pick{does: picksDrug, item: 3046, mark: ref(71)})
	acts := s.through("2", ".", "5", "who saw", "D1", "wasted")
	want := station.EndDrug{Room: "A1", Portion: station.Portion{Item: 3046, Syringe: ref(71), VolumeUL: 2_500}, End: kits.Wasted}
	want.Seen = station.Seen{Tag: "D1", Grade: kits.SameDevice}
	require.Equal(t, []station.Act{want}, acts)
	s.screen.pick(pick{does: picksDrug, item: 3009})
	want = station.EndDrug{Room: "A1", Portion: station.Portion{Item: 3009, Containers: 2}, End: kits.Broken}
	require.Equal(t, []station.Act{want}, s.through("2", "broken"))
	s.screen.pick(pick{does: picksDrug, item: 3009})
	require.Empty(t, s.through("0", "given"), "nothing is no amount")
}

// Goal: millilitres are read and written exactly. Method: a table.
func TestMillilitresAreReadExactly(t *testing.T) {
	for typed, ul := range map[string]int64{"2.5": 2500, ".5": 500, "3": 3000, "0.125": 125, "1.0005": 0, ".": 0, "0": 0, "7.": 7000} {
		require.Equal(t, ul, microlitresOf(typed), typed)
	}
	for ul, text := range map[int64]string{2500: "2.5", 3000: "3", 125: "0.125", 10_000: "10"} {
		require.Equal(t, text, millilitres(ul))
	}
}
