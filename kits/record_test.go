package kits

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// issueStory is one issue of three ampoules: one syringe of two of them given in
// part, the rest of it wasted and seen, one ampoule broken and seen by nobody.
func issueStory(t testing.TB) (p []*pen, facts []mesh.Fact, issue mesh.Ref) {
	p = pens(t, 2)
	given := p[0].write(&Issued{Line: Containers(ampoule, 3), TakenBy: "T1", CheckedBy: "T2", AuthorisedBy: "lead", Register: "page 12"})
	in := p[0].write(&Moved{From: store, To: insideA1, Lines: []Line{Containers(ampoule, 3)}, Issue: given.Ref})
	drawn := p[0].write(&DrawnUp{At: insideA1, Lines: []Line{Containers(ampoule, 2)}, Item: ampoule,
		Amount: Quantity{200, mesh.Microgram}, VolumeUL: 20000, Issue: given.Ref})
	some := func(n int64) []Line {
		return []Line{{Item: ampoule, Syringe: drawn.Ref, Quantity: Quantity{n, mesh.Microgram}}}
	}
	gave := p[0].write(&Moved{From: insideA1, To: Place{Given, "A1"}, Lines: some(140), Issue: given.Ref})
	waste := p[0].write(&Moved{From: insideA1, To: Place{Wasted, "A1"}, Lines: some(60), Issue: given.Ref})
	seen := p[1].write(&Witnessed{Names: waste.Ref, Lines: some(60), Tag: "T2", Grade: OwnDevice})
	broke := p[0].write(&Moved{From: insideA1, To: Place{Broken, "A1"}, Lines: []Line{Containers(ampoule, 1)}, Issue: given.Ref})
	return p, []mesh.Fact{p[0].write(stock(store, ampoule, 10)), given, in, drawn, gave, waste, seen, broke}, given.Ref
}

// Goal: an issue is read as one equation with slots, containers and millilitres
// first, and every entry says who saw it. Method: issueStory, by hand.
func TestAnIssueIsOneEquationWithSlots(t *testing.T) {
	p, facts, issue := issueStory(t)
	l := fold(t, facts...)
	r, ok := l.IssueRecord(issue)
	require.True(t, ok)
	var slots []SlotID
	base := map[SlotID]int64{}
	for _, s := range r.Slots {
		slots = append(slots, s.ID)
		base[s.ID] = s.Amount.Base.N
	}
	require.Equal(t, []SlotID{SlotIssued, SlotGiven, SlotWasted, SlotBroken, SlotReturned, SlotDestroyed, SlotLeft, SlotResidual}, slots)
	require.Equal(t, map[SlotID]int64{SlotIssued: 300, SlotGiven: 140, SlotWasted: 60, SlotBroken: 100, SlotReturned: 0,
		SlotDestroyed: 0, SlotLeft: 0, SlotResidual: 0}, base)
	require.Equal(t, Measured{1, 800, true, Quantity{140, mesh.Microgram}}, r.Slots[1].Amount, "one ampoule and 0.8 mL of the next")
	require.Len(t, r.Entries, 5)
	require.EqualValues(t, 14000, r.Entries[2].Amount.OverUL, "14 mL of the syringe")
	require.True(t, r.Entries[3].Seen)
	require.True(t, r.Entries[4].Needs)
	require.False(t, r.Entries[4].Seen)
	require.Equal(t, IssueUnwitnessed, r.State)
	require.Equal(t, mesh.ID("lead"), r.AuthorisedBy)
	require.Empty(t, r.Closings)

	strict := testOptions()
	strict.Suffices = []Grade{ThroughGlass}
	hard, _ := foldWith(strict, facts).IssueRecord(issue)
	require.False(t, hard.Entries[3].Seen, "the site wants more")
	chosen := foldWith(testOptions(), facts)
	chosen.SetSuffices([]Grade{ThroughGlass})
	same, _ := chosen.IssueRecord(issue)
	require.Equal(t, hard, same, "a choice made later is the same choice")
	require.Equal(t, l.State(), chosen.State(), "and no part of the state")
	shut := p[1].write(&IssueShut{Issue: issue, Why: "asked the lead"})
	closed, _ := fold(t, append(facts, shut)...).IssueRecord(issue)
	require.Len(t, closed.Closings, 1)
	require.Equal(t, mesh.Text("asked the lead"), closed.Closings[0].Why)
	require.Equal(t, mesh.Tag("T2"), closed.Closings[0].By.Tag)
}

// listedIDs are those of a list, in its order.
func listedIDs(all []Listed) (out []ListedID) {
	for _, x := range all {
		out = append(out, x.ID)
	}
	return out
}

// Goal: what broke, what left with a patient and what belongs to no issue is
// always listed, and exercises are apart. Method: issueStory with its witness,
// then one movement after the other.
func TestTheAuditorsListNeverLeavesOutWhatBrokeOrLeft(t *testing.T) {
	p, facts, issue := issueStory(t)
	broke := facts[len(facts)-1]
	facts = append(facts, p[1].write(&Witnessed{Names: broke.Ref, Lines: []Line{Containers(ampoule, 1)}, Tag: "T2", Grade: OwnDevice}))
	l := fold(t, facts...)
	require.Equal(t, []ListedID{ListedBroken}, listedIDs(l.ControlledList(nil)))
	require.Empty(t, l.ControlledList(func(c mesh.Ref) bool { return c.IsZero() }), "an exercise")

	loose := p[0].write(&Moved{From: insideA1, To: Place{Given, "A1"}, Lines: []Line{Containers(ampoule, 1)}})
	left := p[0].write(&LeftWith{From: insideA1, Lines: []Line{Containers(ampoule, 1)}, Unit: "ward", ReceivedBy: "W1", Issue: issue})
	l = fold(t, append(facts, loose, left)...)
	require.Equal(t, []ListedID{ListedBroken, ListedLeft, ListedOver, ListedNoIssue}, listedIDs(l.ControlledList(nil)))
}

// Goal: a case closed while short says who, and that nobody said why. Method:
// one ampoule issued, half given, closed without and with a reason.
func TestAShortClosingWithoutAReasonIsListed(t *testing.T) {
	p := pens(t, 1)[0]
	given := p.write(&Issued{Line: Containers(ampoule, 1), TakenBy: "T1", CheckedBy: "T2"})
	in := p.write(&Moved{From: Place{Sort: Supplier}, To: insideA1, Lines: []Line{Containers(ampoule, 1)}, Issue: given.Ref})
	shut := p.write(&IssueShut{Issue: given.Ref})
	l := fold(t, given, in, shut)
	require.Equal(t, []FindingID{ShortIssue, ShutUnsaid}, ids(l.Audit()))
	require.Equal(t, []ListedID{ListedShort, ListedUnsaid}, listedIDs(l.ControlledList(nil)))
	said := fold(t, given, in, shut, p.write(&IssueShut{Issue: given.Ref, Why: "fell down the sink"}))
	require.Equal(t, []FindingID{ShortIssue}, ids(said.Audit()))
}

// Goal: the sheet for the paper register is in order, keeps corrections beside
// what they correct, and its balance is the stock. Method: issueStory with a
// slip that is reversed, by hand; then random histories, the last balance of
// each sheet against the ledger's.
func TestTheRegisterSheetKeepsOrderAndBalance(t *testing.T) {
	p, facts, _ := issueStory(t)
	stocked := facts[0]
	slip := p[0].write(stock(store, ampoule, 5))
	l := fold(t, append(facts, slip, reverse(t, p[0], slip))...)
	sheets := l.RegisterSheets(nil)
	require.Len(t, sheets, 1)
	require.Equal(t, []mesh.Label{"page 12"}, sheets[0].Pages)
	rows := sheets[0].Rows
	require.Len(t, rows, 7)
	require.EqualValues(t, 3, rows[0].Out, "the issue was written before the stock")
	require.EqualValues(t, -3, rows[0].Balance)
	require.Equal(t, mesh.Tag("T2"), rows[0].CheckedBy)
	require.Equal(t, stocked.Ref, rows[5].Ref)
	require.EqualValues(t, 7, rows[5].Balance)
	require.Len(t, rows[6].Reversed, 1)
	require.EqualValues(t, 7, rows[6].Balance)

	seed := rand.Uint64()
	t.Logf("seed: %d", seed)
	rng := rand.New(rand.NewPCG(seed, 0))
	for range 60 {
		l := foldWith(testOptions(), randomFacts(t, rng, 40))
		for _, s := range l.RegisterSheets(nil) {
			var want int64
			for _, b := range l.Balances() {
				if c := b.Cell; cleanStock(c.Place) && c.Item == s.Item.Number && c.Measure == mesh.Each && c.Syringe.IsZero() {
					want += b.N
				}
			}
			require.Equal(t, want, s.Rows[len(s.Rows)-1].Balance)
		}
	}
}

// Goal: a site's choice of grades is read by word. Method: all words, none, one
// twice, a strange one.
func TestGradesAreReadByWord(t *testing.T) {
	for text, want := range map[string][]Grade{
		"": nil, "own": {OwnDevice}, " later glass  same own ": {LaterSigned, ThroughGlass, SameDevice, OwnDevice}, "own own": {OwnDevice},
	} {
		got, ok := ReadGrades(text)
		require.True(t, ok, text)
		require.Equal(t, want, got, text)
	}
	_, ok := ReadGrades("own any")
	require.False(t, ok)
}
