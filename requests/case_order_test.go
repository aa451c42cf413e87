package requests

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: State says everything that counts. Method: of random histories leave
// out one fact after another, and change one after another in what it says, when,
// and by whom; no two States are equal.
func TestStateDiffersWhenAFactDiffers(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 5))
	s := newScene(t)
	s.open("A1")
	for range 150 {
		s.anything(random)
	}
	seen := map[string]int{string(fold(s.facts).State()): -1}
	differs := func(i int, facts []mesh.Fact) {
		state := string(fold(facts).State())
		other, twice := seen[state]
		require.False(t, twice, "facts %d and %d, kinds %#04x", i, other, uint16(s.facts[i].Kind))
		seen[state] = i
	}
	for i := range s.facts {
		differs(i, append(slices.Clone(s.facts[:i]), s.facts[i+1:]...))
		for _, change := range []func(*mesh.Fact){
			func(f *mesh.Fact) { f.Wall++ },
			func(f *mesh.Fact) { f.At.Turn++ },
			func(f *mesh.Fact) { f.By.Tag += "x" },
			func(f *mesh.Fact) { f.Body = append(slices.Clone(f.Body), 0xc0) },
		} {
			changed := slices.Clone(s.facts)
			change(&changed[i])
			differs(i, changed)
		}
	}
}

// Goal: a correction, an answer, an undoing and a case may come before what
// they name. Method: a whole case backwards, read after every fact.
func TestFactsOfACaseMayComeBeforeWhatTheyName(t *testing.T) {
	for _, named := range []bool{true, false} {
		s, first, facts := everyFact(t, named)
		for _, ref := range facts[len(facts)/2:] {
			s.undo(second, ref)
		}
		want := s.ofCase(first)
		b := NewBoard(starter())
		for _, f := range slices.Backward(s.facts) {
			b.Add(f)
			b.Cases()
			b.Astray()
			b.DrillIn("A1")
		}
		got, known := b.Case(first)
		require.True(t, known)
		require.Equal(t, want, got)
		require.Equal(t, fold(s.facts).State(), b.State())
	}
}

// Goal: a tap that was entered again under a lower order moves to the place of
// that order. Method: two cases in one room, and a phrase that moves from one
// to the other.
func TestATapEnteredAgainMovesToTheCaseOfItsLowerOrder(t *testing.T) {
	s := newScene(t)
	first := s.open("A1")
	s.turn += 5
	next := s.open("A1")
	said := s.put(lead, KindSaid, &Said{Room: "A1", Phrase: "wait"})
	again := s.facts[len(s.facts)-1]
	require.Len(t, s.ofCase(next).Said, 1)
	again.At.Turn -= 3
	s.facts = append(s.facts, again)
	of, _ := s.board().CaseOf(said)
	require.Equal(t, first, of)
	require.Empty(t, s.ofCase(next).Said)
}

// Goal: the search for orders sees a fold of cases that depends on order.
// Method: two mistakes put in; each must be found.
func TestOrderDependentFoldOfCasesIsCaught(t *testing.T) {
	s, _, _ := everyFact(t, true)
	forgetsEarly := func(facts []mesh.Fact) []byte {
		b := NewBoard(starter())
		for _, f := range facts {
			b.Add(f)
			if n := b.facts[f.Ref]; b.facts[n.names] == nil {
				delete(b.cases.beside, n.names)
			}
		}
		return b.State()
	}
	_, err := findOrder(s.facts, forgetsEarly)
	require.Error(t, err)

	s.put(lead, KindLineDone, &LineDone{s.open("A1"), "brief", "paper-card", true, ""})
	s.put(lead, KindSaid, &Said{Room: "A1", Phrase: "wait"})
	keepsViews := func(facts []mesh.Fact) []byte {
		b := NewBoard(starter())
		for _, f := range facts {
			kept := maps.Clone(b.cases.views["A1"])
			b.Add(f)
			if kept != nil {
				b.cases.views["A1"] = kept
			}
			b.Cases()
		}
		return b.State()
	}
	_, err = findOrder(s.facts, keepsViews)
	require.Error(t, err)
}

// manyFacts are facts of many cases, one case of twenty at a time, a third of
// them without its name.
func manyFacts(t testing.TB, n int) []mesh.Fact {
	s := newScene(t)
	var of, moment mesh.Ref
	for i := range n {
		switch i % 20 {
		case 0:
			of = s.open("A1")
		case 1, 2, 3, 4, 5, 6:
			s.put(runner1, KindDoor, &Door{Room: "A1", Open: i%2 == 0})
		case 7:
			moment = s.put(lead, KindTime, &Time{Case: of, What: "cuff-up"})
		case 8:
			s.put(second, KindLateTime, &LateTime{Names: moment, Happened: 1_000_000})
		case 9:
			s.undo(lead, moment)
		case 10:
			s.put(lead, KindAsked, &Asked{Room: "A1", Thing: tube(), Urgency: RightNow})
		default:
			s.put(lead, KindLineDone, &LineDone{of, "brief", "paper-card", true, ""})
		}
	}
	return s.facts
}

// BenchmarkCases adds many facts of cases, in their order and from the last to
// the first, and derives all cases: one must cost the same however many there are.
func BenchmarkCases(b *testing.B) {
	for _, held := range []int{1_000, 100_000} {
		facts := manyFacts(b, held)
		for _, order := range []string{"forwards", "backwards"} {
			b.Run(fmt.Sprintf("held=%d/%s", held, order), func(b *testing.B) {
				for b.Loop() {
					board := fold(facts)
					board.Cases()
				}
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(held), "ns/fact")
			})
			slices.Reverse(facts)
		}
	}
}

// BenchmarkCase derives one case anew after a fact touched it, and asks for it
// again with nothing changed.
func BenchmarkCase(b *testing.B) {
	s := newScene(b)
	first := s.open("A1")
	for i := range 500 {
		s.put(lead, KindEntered, &Entered{first, mesh.Tag(fmt.Sprint("L", i%5)), "in", "B1"})
	}
	board := fold(s.facts)
	b.Run("derived", func(b *testing.B) {
		for b.Loop() {
			board.touch(board.facts[first])
			board.Case(first)
		}
	})
	b.Run("kept", func(b *testing.B) {
		for b.Loop() {
			board.Case(first)
		}
	})
}
