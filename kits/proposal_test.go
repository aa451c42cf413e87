package kits

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/assets"
	"lintel/mesh"
)

// starterOptions is a ledger with the starter lists.
func starterOptions(t testing.TB) Options {
	d, err := ReadDefaults(Files{Catalogue: assets.Catalogue(), Bundles: assets.Bundles(), Waste: assets.Waste()})
	require.NoError(t, err)
	o := DefaultOptions()
	o.Defaults = d
	return o
}

// accepted writes what was accepted.
func accepted(t testing.TB, p *pen, entries []EndEntry) (facts []mesh.Fact) {
	t.Helper()
	for _, e := range entries {
		require.LessOrEqual(t, e.parts(), EndPartsMax)
		require.NotZero(t, e.parts())
		size := 0
		for _, b := range e.Moved {
			facts = append(facts, p.write(&b))
		}
		for _, b := range e.Left {
			facts = append(facts, p.write(&b))
		}
		for _, b := range e.Ended {
			facts = append(facts, p.write(&b))
		}
		for _, f := range facts[len(facts)-e.parts():] {
			size += len(f.Body)
		}
		require.LessOrEqual(t, size, EndBytesMax)
	}
	return facts
}

// starterCase puts the first tray, rescue set B and what was asked for singly
// into a room, and draws up one controlled drug of an issue.
func starterCase(t testing.TB, p *pen, o Options) (facts []mesh.Fact, issue mesh.Ref) {
	mark := mesh.MakeRef(p.key, mesh.Tap{0xff}, 0)
	for _, b := range o.Defaults.Bundles[:2] {
		var lines []Line
		for _, x := range b.Lines {
			lines = append(lines, Containers(x.Item, x.Count))
		}
		facts = append(facts,
			p.write(&Moved{From: Place{Sort: Supplier}, To: trolley, Lines: lines}),
			p.write(&Moved{From: trolley, To: insideA1, Lines: lines}))
	}
	for _, n := range []mesh.Number{1108, 3009, 3080, 3153, 3190, 3038, 4001, 4025, 4208, 4224, 4235, 4243, 2070} {
		if _, ok := foldWith(o, nil).Item(n); ok {
			facts = append(facts, p.write(&Moved{From: Place{Sort: Supplier}, To: insideA1, Lines: []Line{Containers(n, 1)}, For: mark}))
		}
	}
	given := p.write(&Issued{Line: Containers(3102, 2), TakenBy: "T1", CheckedBy: "T2"})
	in := p.write(&Moved{From: Place{Sort: Supplier}, To: insideA1, Lines: []Line{Containers(3102, 2)}, Issue: given.Ref, For: mark})
	drawn := p.write(&DrawnUp{At: insideA1, Lines: []Line{Containers(3102, 1)}, Item: 3102, Amount: Quantity{100, mesh.Microgram}, VolumeUL: 2000, Issue: given.Ref})
	return append(facts, given, in, drawn), given.Ref
}

// Goal: a case of about forty lines closes in at most twelve taps, and afterwards
// nothing is inside and the controlled drugs are accounted for. Method: the
// starter's first tray, a rescue set and single requests; count the decisions,
// accept all as proposed, witness what needs it.
func TestAStarterCaseClosesInTwelveTaps(t *testing.T) {
	o := starterOptions(t)
	p := pens(t, 2)
	facts, issue := starterCase(t, p[0], o)
	l := foldWith(o, facts)
	ends := l.Proposal("A1")
	require.GreaterOrEqual(t, len(ends), 40)
	t.Logf("%d lines, %d decisions", len(ends), Decisions(ends))
	require.LessOrEqual(t, Decisions(ends), 12)

	facts = append(facts, accepted(t, p[0], l.Accept(ends, mesh.Ref{}))...)
	l = foldWith(o, facts)
	for _, m := range l.Movements() {
		if raw := l.moves.get(m.Ref); l.needsWitness(raw) {
			facts = append(facts, p[1].write(body(m.Witness("T2", OwnDevice))))
		}
	}
	l = foldWith(o, facts)
	require.Empty(t, l.BalancesAt(insideA1))
	require.Empty(t, l.Audit())
	require.Empty(t, l.Proposal("A1"))
	v, _ := l.Issue(issue)
	require.Equal(t, IssueBalanced, v.State)
	require.EqualValues(t, 100, v.Destroyed, "the whole ampoule, in microgram")
	require.EqualValues(t, 100, v.Wasted, "the syringe")
}

// Goal: each line is proposed the end that the rules give. Method: one line of
// each sort inside, one at the door, with the end and the question by hand.
func TestEachLineIsProposedItsEnd(t *testing.T) {
	o := testOptions()
	o.Defaults.Items = append(o.Defaults.Items,
		ItemLine{Number: 1, Name: "Scope", Stocked: mesh.Each, Flags: Reprocessed, Exit: Decontaminate},
		ItemLine{Number: 2, Name: "Wire", Stocked: mesh.Each, Flags: MustBeSeen, Exit: Discard},
		ItemLine{Number: 3, Name: "Needle", Stocked: mesh.Each, Waste: Sharps, Exit: Discard},
		ItemLine{Number: 4, Name: "Pump", Stocked: mesh.Each, Exit: QuarantineDays},
		ItemLine{Number: 5, Name: "Rocuronium", Stocked: mesh.Each, Flags: IsDrug, Content: Quantity{50000, mesh.Microgram}, Exit: ReturnUntaken})
	p := pens(t, 1)[0]
	mark := mesh.MakeRef(p.key, mesh.Tap{0xff}, 0)
	in := func(from Place, item mesh.Number, mark mesh.Ref) mesh.Fact {
		return p.write(&Moved{From: from, To: insideA1, Lines: []Line{Containers(item, 1)}, For: mark})
	}
	none := mesh.Ref{}
	facts := []mesh.Fact{
		in(trolley, 1, none), in(trolley, 2, mark), in(trolley, 3, none), in(trolley, 4, none), in(trolley, 5, none),
		in(trolley, tube, mark), in(Place{Kit, "tray"}, saline, none), in(trolley, ampoule, none),
		p.write(&DrawnUp{At: insideA1, Lines: []Line{Containers(5, 1)}, Item: 5, Amount: Quantity{50000, mesh.Microgram}}),
		in(trolley, 5, none),
		p.write(body(PutAtDoor(trolley, "A1", []Line{Containers(tube, 2)}, none, none))),
	}
	got := map[mesh.Number][]ProposedEnd{}
	for _, e := range foldWith(o, facts).Proposal("A1") {
		got[e.Cell.Item] = append(got[e.Cell.Item], e)
	}
	at := func(s PlaceSort) Place { return Place{s, "A1"} }
	require.Equal(t, at(Reprocessing), got[1][0].To)
	require.Equal(t, AskReprocessed, got[1][0].Ask)
	require.Equal(t, at(Used), got[2][0].To)
	require.Equal(t, AskSeen, got[2][0].Ask)
	require.Equal(t, AskSeen, got[3][0].Ask)
	require.Equal(t, WhyContaminated, got[3][0].Why)
	require.Equal(t, at(Quarantined), got[4][0].To)
	require.ElementsMatch(t, []Place{at(DestroyedUnopened), at(Given)}, []Place{got[5][0].To, got[5][1].To})
	require.ElementsMatch(t, []Place{at(Used), trolley}, []Place{got[tube][0].To, got[tube][1].To})
	require.Equal(t, at(Used), got[saline][0].To, "its kit was opened")
	require.Equal(t, AskControlled, got[ampoule][0].Ask)
	require.Equal(t, at(DestroyedUnopened), got[ampoule][0].To)
}

// Goal: what is inside is split by the issue that it belongs to, the earliest
// first, and what belongs to none is left. Method: two issues of two ampoules,
// one of the first was destroyed, and one ampoule without an issue.
func TestAProposalSplitsByIssue(t *testing.T) {
	p := pens(t, 1)[0]
	first, second := p.write(&Issued{Line: Containers(ampoule, 2)}), p.write(&Issued{Line: Containers(ampoule, 2)})
	in := func(issue mesh.Ref, n int64) mesh.Fact {
		return p.write(&Moved{From: store, To: insideA1, Lines: []Line{Containers(ampoule, n)}, Issue: issue})
	}
	l := fold(t, first, second, in(second.Ref, 2), in(first.Ref, 2), in(mesh.Ref{}, 1),
		p.write(&Moved{From: insideA1, To: Place{DestroyedUnopened, "A1"}, Lines: []Line{Containers(ampoule, 1)}, Issue: first.Ref}))
	got := map[mesh.Ref]int64{}
	for _, e := range l.Proposal("A1") {
		got[e.Issue] += e.N
	}
	require.Equal(t, map[mesh.Ref]int64{first.Ref: 1, second.Ref: 2, {}: 1}, got)
}

// Goal: what an exercise brought in ends in the exercise, and what an earlier
// case asked for and used says nothing of what is inside now. Method: three tubes
// asked for and used; an exercise leaves two, then a case takes in one unasked.
func TestWhatAnExerciseLeftEndsInTheExercise(t *testing.T) {
	p := pens(t, 1)[0]
	mark, drill, now := mesh.MakeRef(p.key, mesh.Tap{0xff}, 0), mesh.MakeRef(p.key, mesh.Tap{0xdd}, 0), mesh.MakeRef(p.key, mesh.Tap{0xcc}, 0)
	l := fold(t,
		p.write(&Moved{From: trolley, To: insideA1, Lines: []Line{Containers(tube, 3)}, For: mark}),
		p.write(&Moved{From: insideA1, To: Place{Used, "A1"}, Lines: []Line{Containers(tube, 3)}}),
		p.write(&Moved{From: trolley, To: insideA1, Lines: []Line{Containers(tube, 2)}, Case: drill}),
		p.write(&Moved{From: trolley, To: insideA1, Lines: []Line{Containers(tube, 1)}, Case: now}))
	ends := l.ProposalApart("A1", func(c mesh.Ref) bool { return c == drill })
	require.Len(t, ends, 2)
	require.Equal(t, []mesh.Ref{drill, {}}, []mesh.Ref{ends[0].Exercise, ends[1].Exercise})
	require.Equal(t, []int64{2, 1}, []int64{ends[0].N, ends[1].N})
	require.Equal(t, Place{Wasted, "A1"}, ends[1].To, "nobody asked for it")
	entries := l.Accept(ends, now)
	require.Len(t, entries, 1)
	require.Equal(t, []mesh.Ref{drill, now}, []mesh.Ref{entries[0].Moved[0].Case, entries[0].Moved[1].Case})
	require.Len(t, l.Proposal("A1"), 1, "who does not tell exercises apart sees three tubes")
}

// Goal: whatever happened, accepting the proposal leaves nothing inside above
// zero and nothing at the door but disputes. Method: random histories, the
// proposal accepted and written.
func TestAcceptingAProposalEmptiesTheRoom(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed: %d", seed)
	rng := rand.New(rand.NewPCG(seed, 0))
	for range 60 {
		facts := randomFacts(t, rng, 30)
		l := foldWith(testOptions(), facts)
		scribe := pens(t, 9)[8]
		*scribe.turn = 1000
		facts = append(facts, accepted(t, scribe, l.Accept(l.Proposal("A1"), mesh.Ref{}))...)
		l = foldWith(testOptions(), facts)
		requireConserved(t, l)
		for _, b := range l.BalancesAt(insideA1) {
			require.Negative(t, b.N, "%+v", b)
		}
		require.Empty(t, l.AtDoor("A1"))
	}
}

// Goal: a count of very many lines with long lots stays within entries. Method:
// 500 lots with lots of the greatest length, accepted.
func TestAcceptKeepsEntriesSmall(t *testing.T) {
	var ends []ProposedEnd
	for i := range 500 {
		lot := make([]byte, 150)
		for j := range lot {
			lot[j] = byte('a' + (i+j)%26)
		}
		c := Cell{insideA1, tube, mesh.Label(lot), mesh.Ref{}, mesh.Each}
		ends = append(ends, ProposedEnd{Cell: c, N: 1, To: Place{Used, "A1"}})
	}
	entries := foldWith(testOptions(), nil).Accept(ends, mesh.Ref{})
	require.Greater(t, len(entries), 5)
	require.Len(t, accepted(t, pens(t, 1)[0], entries), 13)
}
