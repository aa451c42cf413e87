package kits

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// scribble writes random facts that name each other rightly and wrongly.
type scribble struct {
	rng    *rand.Rand
	pens   []*pen
	moved  []mesh.Ref // movements, hand-overs among them
	puts   []mesh.Ref // hand-overs
	ends   []mesh.Ref
	counts []mesh.Ref
	kits   []mesh.Ref // preparations and seals
	bodies map[mesh.Ref]any
	facts  []mesh.Fact
}

// randomFacts gives about n facts of three devices.
func randomFacts(t testing.TB, rng *rand.Rand, n int) []mesh.Fact {
	s := &scribble{rng: rng, pens: pens(t, 3), bodies: map[mesh.Ref]any{}}
	for range n {
		s.one()
	}
	return s.facts
}

func pick[T any](rng *rand.Rand, from []T) (v T) {
	if len(from) == 0 {
		return v
	}
	return from[rng.IntN(len(from))]
}

func (s *scribble) place() Place {
	return pick(s.rng, []Place{{Sort: Supplier}, store, trolley, insideA1, {Used, "A1"}, {Wasted, "A1"}})
}

func (s *scribble) lines() (out []Line) {
	for range 1 + s.rng.IntN(2) {
		x := Containers(pick(s.rng, []mesh.Number{tube, ampoule, saline, 999}), 1+s.rng.Int64N(5))
		x.Lot = pick(s.rng, []mesh.Label{"", "L1"})
		out = append(out, x)
	}
	return out
}

func (s *scribble) write(body any) mesh.Ref {
	f := pick(s.rng, s.pens).write(body)
	s.facts = append(s.facts, f)
	s.bodies[f.Ref] = body
	return f.Ref
}

// one writes one random fact.
func (s *scribble) one() {
	switch s.rng.IntN(14) {
	case 0, 1, 2:
		from, to := s.place(), s.place()
		if from != to {
			s.moved = append(s.moved, s.write(&Moved{From: from, To: to, Lines: s.lines()}))
		}
	case 3, 4:
		m := PutAtDoor(pick(s.rng, []Place{store, trolley}), "A1", s.lines(), mesh.Ref{}, mesh.Ref{})
		r := s.write(&m)
		s.moved, s.puts = append(s.moved, r), append(s.puts, r)
	case 5, 6:
		s.end()
	case 7:
		s.reverse()
	case 8:
		s.moved = append(s.moved, s.write(&DrawnUp{
			At: insideA1, Lines: s.lines(), Item: ampoule, Amount: Quantity{1 + s.rng.Int64N(300), mesh.Microgram}}))
	case 9:
		s.moved = append(s.moved, s.write(&LeftWith{From: insideA1, Lines: s.lines()}))
	case 10:
		s.count()
	case 11:
		s.small()
	case 12:
		s.reopen()
	case 13:
		s.kit()
	}
}

// kit writes what is of kits, orders and waste containers, named rightly and wrongly.
func (s *scribble) kit() {
	id, seal := pick(s.rng, []mesh.ID{"tray-1", "tray-2"}), pick(s.rng, []mesh.Label{"", "S1", "S2"})
	named := pick(s.rng, append(slices.Clone(s.kits), mesh.Ref{}))
	switch s.rng.IntN(7) {
	case 0, 1:
		s.kits = append(s.kits, s.write(&Prepared{Kit: id, Template: "first", Lines: s.lines(), PreparedBy: "T1", CheckedBy: pick(s.rng, []mesh.Tag{"", "T1", "T2"})}))
	case 2, 3:
		s.kits = append(s.kits, s.write(&Sealed{Names: named, Kit: id, Seal: seal, Expiry: 20261231}))
	case 4:
		s.write(&SealOpened{Names: named, Kit: id, Seal: seal, Whole: s.rng.IntN(2) == 0})
	case 5:
		s.write(&BrokenDown{Names: named, Kit: id})
	case 6:
		s.write(&Ordered{Item: tube, Count: 1 + s.rng.Int64N(5)})
		s.write(&WasteBox{Room: "A1", Seal: seal, LitresT: 300})
	}
}

// end ends a hand-over, sometimes another one than is there, or misfitting.
func (s *scribble) end() {
	put := pick(s.rng, s.puts)
	if s.rng.IntN(10) == 0 {
		put = pick(s.rng, s.moved)
	}
	lines := 1
	if m, ok := s.bodies[put].(*Moved); ok {
		lines = len(m.Lines)
	}
	e := Ended{Names: put, Taken: make([]int64, lines)}
	for i := range e.Taken {
		e.Taken[i] = s.rng.Int64N(3)
	}
	for range s.rng.IntN(3) {
		e.Settles = append(e.Settles, pick(s.rng, s.ends))
	}
	s.ends = append(s.ends, s.write(&e))
}

// reverse reverses a movement, sometimes wrongly.
func (s *scribble) reverse() {
	r := Reversed{Names: pick(s.rng, s.moved)}
	switch m := s.bodies[r.Names].(type) {
	case *Moved:
		r.From, r.To, r.Lines = m.From, m.To, m.Lines
	case *DrawnUp:
		r.From, r.To, r.Lines = m.At, m.At, m.Lines
	case *LeftWith:
		r.From, r.To, r.Lines = m.From, Place{LeftWithPatient, m.From.ID}, m.Lines
	}
	if s.rng.IntN(4) == 0 {
		r.Lines = s.lines()
	}
	s.write(&r)
}

// reopen takes back an end, sometimes what is none.
func (s *scribble) reopen() {
	r := Reopened{Names: pick(s.rng, s.ends)}
	if r.Names.IsZero() || s.rng.IntN(6) == 0 {
		r.Names = mesh.MakeRef(s.pens[0].key, mesh.Tap{0, byte(1 + s.rng.IntN(20))}, 0)
	}
	s.write(&r)
}

// count counts a place having seen a random part of each feed.
func (s *scribble) count() {
	c := Counted{Place: pick(s.rng, []Place{store, insideA1}), Lines: s.lines(), Whole: s.rng.IntN(3) == 0}
	if s.rng.IntN(3) > 0 {
		c.Before = pick(s.rng, s.counts)
	}
	for _, p := range s.pens {
		if seq := mesh.Seq(s.rng.Uint64N(uint64(p.seq) + 1)); seq > 0 {
			c.Seen = append(c.Seen, mesh.Head{Feed: p.feed, Seq: seq})
		}
	}
	s.counts = append(s.counts, s.write(&c))
}

// small writes what moves nothing.
func (s *scribble) small() {
	named := pick(s.rng, s.moved)
	switch s.rng.IntN(5) {
	case 0:
		s.write(&Witnessed{Names: named, Lines: s.lines(), Tag: "T2", Grade: SameDevice})
	case 1:
		s.write(&ParLine{Place: store, Item: tube, Par: s.rng.Int64N(9), Replaces: []mesh.Ref{pick(s.rng, s.facts).Ref}})
	case 2:
		s.write(&Issued{Line: Containers(ampoule, 2)})
	case 3:
		s.write(&IssueShut{Issue: pick(s.rng, s.facts).Ref})
	case 4:
		s.write(&SealOpened{Names: named, Seal: "S1"})
	}
}

// disagreement says where a ledger and the naive evaluator differ; empty: nowhere.
func disagreement(l *Ledger, n naive) string {
	want, got := n.balances(), map[Cell]int64{}
	for _, b := range l.Balances() {
		got[b.Cell] = b.N
	}
	if maps.Equal(want, got) {
		return ""
	}
	return fmt.Sprintf("by the rules %v\nin the ledger %v", want, got)
}

// Goal: the fold follows the rules, and neither order nor repeats matter.
// Method: random sets of facts, each folded in several orders with repeats;
// states and audits are equal, and an independent evaluator comes to the same
// balances. The seed is printed.
func TestRandomFactsFoldByTheRulesInAnyOrder(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed: %d", seed)
	for round := range uint64(100) {
		rng := rand.New(rand.NewPCG(seed, round))
		facts := randomFacts(t, rng, 5+rng.IntN(40))
		l := foldWith(testOptions(), facts)
		requireConserved(t, l)
		require.Empty(t, disagreement(l, naive{facts: facts}), "round %d", round)
		for range 4 {
			again := foldWith(testOptions(), shuffled(rng, facts))
			require.Equal(t, l.State(), again.State(), "round %d", round)
			require.Equal(t, l.Audit(), again.Audit(), "round %d", round)
			require.Equal(t, l.Movements(), again.Movements(), "round %d", round)
			require.Equal(t, l.AtDoor(""), again.AtDoor(""), "round %d", round)
		}
	}
}

// Goal: the comparison above would notice a wrong fold. Method: give the
// evaluator one deliberate mistake after another; each must be found within the
// same random facts.
func TestEachDeliberateMistakeIsFound(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed: %d", seed)
	for name, wrong := range map[string]faults{
		"counts repeats":             {countsRepeats: true},
		"the first end wins":         {firstEndWins: true},
		"a loose reversal counts":    {looseReversal: true},
		"every reversal counts":      {everyReversal: true},
		"a count ignores its vector": {countIgnoresSeen: true},
		"the last count holds":       {lastCountHolds: true},
		"the rest does not go back":  {forgetsWhatGoBack: true},
		"a reopened end stands":      {keepsReopened: true},
		"reopening unsettles":        {reopensSettled: true},
	} {
		found := slices.ContainsFunc(slices.Collect(upTo(400)), func(round uint64) bool {
			rng := rand.New(rand.NewPCG(seed, round))
			facts := shuffled(rng, randomFacts(t, rng, 40))
			return disagreement(foldWith(testOptions(), facts), naive{facts, wrong}) != ""
		})
		require.True(t, found, name)
	}
}

func upTo(n uint64) func(func(uint64) bool) {
	return func(give func(uint64) bool) {
		for i := range n {
			if !give(i) {
				return
			}
		}
	}
}
