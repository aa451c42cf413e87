package requests

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// A scene writes facts as devices would: every entry sees those before it,
// unless a device is set apart by its own turn.
type scene struct {
	t     testing.TB
	turn  mesh.Turn
	seqs  map[mesh.Key]mesh.Seq
	facts []mesh.Fact
}

// actor is a device held by somebody.
type actor struct {
	key  mesh.Key
	role mesh.ID
	tag  mesh.Tag
}

var (
	lead    = actor{mesh.Key{1}, "lead", "L1"}
	second  = actor{mesh.Key{2}, "assistant", "A1"}
	runner1 = actor{mesh.Key{3}, "runner", "R1"}
	runner2 = actor{mesh.Key{4}, "runner", "R2"}
)

// starter is what the tests begin with.
func starter() Defaults {
	return Defaults{
		Roles: []RoleLine{
			{ID: "lead", Name: "airway lead", Side: Inside, Can: CanAsk | CanAgree | CanLead, Place: 1},
			{ID: "assistant", Name: "assistant", Side: Inside, Can: CanAsk | CanAgree, Place: 2},
			{ID: "scribe", Name: "scribe", Side: Outside, Can: CanScribe, Place: 3},
			{ID: "runner", Name: "runner", Side: Outside, Can: CanFetch, Place: 4},
		},
		Rooms:    []RoomLine{{ID: "A1", Name: "Anvil 1", Zones: starterZones()}, {ID: "A2", Name: "Anvil 2"}},
		Lists:    starterLists(),
		Settings: []Setting{{Name: "call-again", Value: "30"}, {Name: "spelling", Value: "us"}},
	}
}

// newScene begins with two people inside A1 and two runners outside.
func newScene(t testing.TB) *scene {
	s := &scene{t: t, seqs: map[mesh.Key]mesh.Seq{}}
	for _, a := range []actor{lead, second} {
		s.put(a, KindHolds, &Holds{Role: a.role, Tag: a.tag, Rooms: []mesh.ID{"A1"}})
	}
	for _, a := range []actor{runner1, runner2} {
		s.put(a, KindHolds, &Holds{Role: a.role, Tag: a.tag})
	}
	return s
}

// put writes an entry of one part and returns its name.
func (s *scene) put(a actor, k mesh.Kind, body any) mesh.Ref {
	s.turn++
	return s.putAt(s.turn, a, k, body)
}

// putAt writes an entry at a turn of its own, as a device does that was apart.
func (s *scene) putAt(turn mesh.Turn, a actor, k mesh.Kind, body any) mesh.Ref {
	bytes, err := mesh.Encode(body)
	require.NoError(s.t, err)
	return s.putRaw(turn, a, k, bytes)
}

func (s *scene) putRaw(turn mesh.Turn, a actor, k mesh.Kind, body []byte) mesh.Ref {
	s.seqs[a.key]++
	seq := s.seqs[a.key]
	s.turn = max(s.turn, turn)
	ref := mesh.MakeRef(a.key, mesh.Tap{byte(seq >> 8), byte(seq)}, 0)
	s.facts = append(s.facts, mesh.Fact{
		Ref:  ref,
		At:   mesh.Order{Turn: turn, Feed: mesh.MakeFeed(a.key, mesh.Incarnation{1}), Seq: seq},
		Wall: mesh.Wall(1_000_000 + 1000*int64(turn)),
		By:   mesh.By{Role: a.role, Tag: a.tag},
		Kind: k,
		Body: body,
	})
	return ref
}

// tube is what most tests ask for.
func tube() Thing { return Thing{Item: 117, Strength: "7.5", Count: 1, Measure: mesh.Each} }

func things(n Count) Thing { t := tube(); t.Count = n; return t }

// ask writes an Asked of the lead.
func (s *scene) ask() mesh.Ref { return s.askFor(lead, tube(), Tapped) }

func (s *scene) askFor(a actor, t Thing, o Origin) mesh.Ref {
	return s.put(a, KindAsked, &Asked{Room: "A1", Thing: t, Urgency: NextOpening, Origin: o})
}

func (s *scene) going(a actor, asked mesh.Ref) mesh.Ref {
	return s.put(a, KindAcknowledged, &Acknowledged{Names: asked})
}

func (s *scene) inHand(a actor, want mesh.Ref, t Thing) mesh.Ref {
	return s.put(a, KindInHand, &InHand{Names: want, Thing: t, How: Chosen})
}

func (s *scene) agree(a actor, names mesh.Ref, which uint8) mesh.Ref {
	return s.put(a, KindAgreed, &Agreed{Names: names, Which: which})
}

func (s *scene) atDoor(a actor, inHand mesh.Ref) mesh.Ref {
	return s.put(a, KindAtDoor, &AtDoor{Names: inHand, Door: "A1"})
}

func (s *scene) takeIn(a actor, door mesh.Ref, n Count) mesh.Ref {
	return s.put(a, KindTakenIn, &TakenIn{Names: door, Count: n})
}

func (s *scene) undo(a actor, names mesh.Ref) mesh.Ref {
	return s.put(a, KindUndone, &Undone{Names: names})
}

func (s *scene) joined(one, other mesh.Ref) mesh.Ref {
	return s.put(runner1, KindJoined, &Joined{One: one, Other: other})
}

// served writes a whole delivery of what was asked, and returns the AtDoor.
func (s *scene) served(a actor, asked mesh.Ref) mesh.Ref {
	s.going(a, asked)
	door := s.atDoor(a, s.inHand(a, asked, tube()))
	s.takeIn(lead, door, 1)
	return door
}

// board folds the scene, and checks that no other order of the same facts
// folds to another state. Every test goes through it.
func (s *scene) board() *Board {
	s.t.Helper()
	b := fold(s.facts)
	requireOrderFree(s.t, s.facts, func(facts []mesh.Fact) []byte { return fold(facts).State() })
	return b
}

func (s *scene) request(asked mesh.Ref) Request {
	s.t.Helper()
	r, known := s.board().Request(asked)
	require.True(s.t, known)
	return r
}

func fold(facts []mesh.Fact) *Board {
	b := NewBoard(starter())
	for _, f := range facts {
		b.Add(f)
	}
	return b
}

// permuteMax is how many facts are tried in every order; more are shuffled.
const permuteMax = 5

// requireOrderFree folds facts in other orders and with repeats. The last
// facts, which are the ones a test is about, are tried in every order.
func requireOrderFree(t testing.TB, facts []mesh.Fact, state func([]mesh.Fact) []byte) {
	t.Helper()
	order, err := findOrder(facts, state)
	require.NoError(t, err, "%v", order)
}

// findOrder looks for an order of facts that folds to another state.
func findOrder(facts []mesh.Fact, state func([]mesh.Fact) []byte) ([]int, error) {
	want := string(state(facts))
	seed := rand.Uint64()
	random := rand.New(rand.NewPCG(seed, 1))
	for range 40 {
		mixed := append(slices.Clone(facts), facts[random.IntN(len(facts))], facts[random.IntN(len(facts))])
		random.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
		if string(state(mixed)) != want {
			return nil, fmt.Errorf("a shuffled order with repeats folds to another state, seed %d", seed)
		}
	}
	tail := min(len(facts), permuteMax)
	head, rest := facts[:len(facts)-tail], facts[len(facts)-tail:]
	for order := range permutations(tail) {
		mixed := make([]mesh.Fact, 0, len(facts))
		for _, i := range order {
			mixed = append(mixed, rest[i])
		}
		if string(state(append(mixed, head...))) != want {
			return slices.Clone(order), fmt.Errorf("an order of the last %d folds to another state", tail)
		}
	}
	return nil, nil
}

// permutations yields every order of n indexes; the slice is used again.
func permutations(n int) func(func([]int) bool) {
	return func(yield func([]int) bool) {
		order := make([]int, n)
		for i := range order {
			order[i] = i
		}
		permute(order, 0, yield)
	}
}

func permute(order []int, from int, yield func([]int) bool) bool {
	if from == len(order) {
		return yield(order)
	}
	for i := from; i < len(order); i++ {
		order[from], order[i] = order[i], order[from]
		if !permute(order, from+1, yield) {
			return false
		}
		order[from], order[i] = order[i], order[from]
	}
	return true
}
