package requests

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// anything writes a random fact by a random device that names a random earlier
// one, most often of the right sort; sometimes the device was apart.
func (s *scene) anything(random *rand.Rand) {
	actors := []actor{lead, second, runner1, runner2}
	a := actors[random.IntN(len(actors))]
	turn := s.turn + 1
	if random.IntN(4) == 0 {
		turn = mesh.Turn(1 + random.Uint64N(uint64(turn)))
	}
	whichever := func() mesh.Ref { return s.facts[random.IntN(len(s.facts))].Ref }
	of := func(kinds ...mesh.Kind) mesh.Ref {
		for range 8 {
			f := s.facts[random.IntN(len(s.facts))]
			if slices.Contains(kinds, f.Kind) {
				return f.Ref
			}
		}
		return whichever()
	}
	want := func() mesh.Ref { return of(KindAsked, KindAsked, KindChanged) }
	thing := things(Count(1 + random.IntN(3)))
	which := uint8(random.IntN(4))
	bodies := []randomBody{
		{KindAsked, func() any { return &Asked{Room: "A1", Thing: thing, Urgency: RightNow} }},
		{KindChanged, func() any { return &Changed{want(), thing, NextOpening} }},
		{KindAcknowledged, func() any { return &Acknowledged{of(KindAsked)} }},
		{KindCouldNot, func() any { return &CouldNot{Names: of(KindAsked)} }},
		{KindPassedOn, func() any { return &PassedOn{Names: of(KindAsked), To: a.tag} }},
		{KindOffered, func() any { return &Offered{want(), []Thing{thing, things(4)}} }},
		{KindInHand, func() any { return &InHand{Names: want(), Thing: thing, How: Scanned} }},
		{KindAgreed, func() any { return &Agreed{of(KindInHand, KindOffered), which} }},
		{KindRefused, func() any { return &Refused{Names: of(KindInHand, KindOffered), Which: which} }},
		{KindAtDoor, func() any { return &AtDoor{Names: of(KindInHand)} }},
		{KindTakenIn, func() any { return &TakenIn{of(KindAtDoor), thing.Count} }},
		{KindTakenBack, func() any { return &TakenBack{Names: of(KindAtDoor)} }},
		{KindWithdrawn, func() any { return &Withdrawn{Names: of(KindAsked)} }},
		{KindUndone, func() any { return &Undone{Names: whichever()} }},
		{KindJoined, func() any { return &Joined{of(KindAsked), of(KindAsked)} }},
		{KindJoinedCode, func() any {
			return &JoinedCode{Names: of(KindAsked), Room: "A1", Code: mesh.Label(Code(of(KindAsked)))}
		}},
		{KindHolds, func() any { return &Holds{Role: a.role, Tag: a.tag, Rooms: []mesh.ID{"A1"}} }},
		{KindRoleLine, func() any {
			return &RoleLine{Replaces: []mesh.Ref{of(KindRoleLine)}, ID: a.role, Side: Inside, Can: CanAsk | CanAgree}
		}},
		{KindReminded, func() any { return &Reminded{Names: whichever()} }},
	}
	if random.IntN(2) == 0 {
		bodies = caseBodies(random, a, of)
	}
	pick := bodies[random.IntN(len(bodies))]
	s.putAt(turn, a, pick.kind, pick.body())
}

// TestStateIgnoresOrderAndRepeatsOfRandomMarks folds small and big random sets:
// the small ones in every order of their last facts, the big ones shuffled, all
// with repeats.
func TestStateIgnoresOrderAndRepeatsOfRandomMarks(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 2))
	for _, size := range []int{4, 6, 6, 6, 12, 40, 150, 600} {
		s := newScene(t)
		s.ask()
		for range size {
			s.anything(random)
		}
		s.board()
	}
}

// TestReadingBetweenAddsChangesNothing looks at everything after every fact:
// what is kept of a derivation must be dropped when a fact touches it.
func TestReadingBetweenAddsChangesNothing(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 3))
	for range 20 {
		s := newScene(t)
		s.ask()
		for range 60 {
			s.anything(random)
		}
		random.Shuffle(len(s.facts), func(i, j int) { s.facts[i], s.facts[j] = s.facts[j], s.facts[i] })
		read := NewBoard(starter())
		for i, f := range s.facts {
			read.Add(f)
			again := fold(s.facts[:i+1])
			require.Equal(t, len(again.Open()) > 0, read.Busy(), "after %d facts", i+1)
			require.Equal(t, again.Open(), read.Open(), "after %d facts", i+1)
			require.Equal(t, again.State(), read.State(), "after %d facts", i+1)
		}
	}
}

// TestEverythingThatWasAddedIsListed counts: every fact stands under a request
// or a case, or is loose, astray, unmet, unreadable, kept, or a register's.
func TestEverythingThatWasAddedIsListed(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 4))
	s := newScene(t)
	for range 500 {
		s.anything(random)
	}
	s.putRaw(s.turn, lead, KindAsked, []byte{0x90})
	b := fold(s.facts)
	listed := len(b.Loose()) + len(b.Unreadable())
	for _, r := range b.Requests() {
		listed += len(r.Marks)
	}
	for _, n := range b.Kept() {
		listed += n
	}
	listed += len(b.Astray())
	others := 0
	for _, f := range s.facts {
		n := b.facts[f.Ref]
		_, ofCase := b.CaseOf(f.Ref)
		switch {
		case f.Kind == KindHolds || f.Kind == KindCondition || f.Kind == KindJoined || f.Kind == KindJoinedCode:
			others++
		case replaces(n.body) != nil:
			others++
		case f.Kind == KindUndone:
			others += int(bit(n.root == nil && b.endsOther(n)))
		case b.correctsMark(n):
			others++
		case ofCase && n.root == nil || f.Kind == KindCaseOpen:
			others++
		}
	}
	require.Equal(t, len(s.facts), listed+others)
}

// TestOrderDependentFoldIsCaught folds with a board that has a mistake put in:
// it hangs a mark only under what is there already. The search that all tests
// use must find an order that shows it.
func TestOrderDependentFoldIsCaught(t *testing.T) {
	s := newScene(t)
	s.served(runner1, s.ask())
	mistaken := func(facts []mesh.Fact) []byte {
		b := NewBoard(starter())
		for _, f := range facts {
			b.Add(f)
			if n := b.facts[f.Ref]; n.isMark && n.root == nil {
				delete(b.answers, n.names)
			}
		}
		return b.State()
	}
	_, err := findOrder(s.facts, mistaken)
	require.Error(t, err)

	lastArrivedWins := func(facts []mesh.Fact) []byte {
		b := NewBoard(starter())
		for _, f := range facts {
			b.Add(f)
			b.holds[f.Ref.Author()] = b.holds[f.Ref.Author()][max(0, len(b.holds[f.Ref.Author()])-1):]
		}
		return b.State()
	}
	s = newScene(t)
	s.put(runner1, KindHolds, &Holds{Role: "scribe"})
	_, err = findOrder(s.facts, lastArrivedWins)
	require.Error(t, err)
}

// FuzzAddNeverPanicsNorDependsOnOrder adds arbitrary bodies of arbitrary kinds
// beside a real request. Seeds are the examples of every kind.
func FuzzAddNeverPanicsNorDependsOnOrder(f *testing.F) {
	for kind, body := range examples() {
		bytes, err := mesh.Encode(body)
		require.NoError(f, err)
		f.Add(uint16(kind), bytes, uint16(KindUndone), []byte{0x90})
	}
	f.Add(uint16(0x01ff), []byte{0xc1}, uint16(0x0201), []byte{})
	f.Fuzz(func(t *testing.T, kind1 uint16, body1 []byte, kind2 uint16, body2 []byte) {
		s := newScene(t)
		s.served(runner1, s.ask())
		s.putRaw(s.turn+1, lead, mesh.Kind(kind1), body1)
		s.putRaw(s.turn, second, mesh.Kind(kind2), body2)
		want := fold(s.facts)
		want.Loose()
		want.Open()
		slices.Reverse(s.facts)
		require.Equal(t, want.State(), fold(append(s.facts, s.facts...)).State())
	})
}
