package station

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// issue is the only issue of the unit.
func (d *door) issue() kits.Issue {
	d.t.Helper()
	all := d.v.Ledger.Issues()
	require.Len(d.t, all, 1)
	return all[0]
}

// TestAnIssueForARequestIsMovedByBringingIt issues what a request wants and
// brings it: the crossing of the door belongs to the issue. It is given and the
// rest thrown away in millilitres, which adds up in micrograms to the last one.
func TestAnIssueForARequestIsMovedByBringingIt(t *testing.T) {
	d, of := filled(t)
	ref := d.do(Ask{Room: "A1", Thing: requests.Thing{Item: ketamine, Count: 1}, Urgency: requests.NextOpening})
	d.readBack(ref)
	d.do(IssueDrug{Request: ref, TakenBy: "R1", CheckedBy: "C1", AuthorisedBy: "lead", Register: "12"})
	require.Equal(t, of, d.issue().Case)
	d.do(PutAtDoor{Request: ref})
	require.EqualValues(t, 500_000, d.issue().Pending)
	d.do(TakeIn{Request: ref})
	require.Equal(t, kits.IssueOpen, d.issue().State)
	d.do(GiveDrug{Portion: Portion{Item: ketamine, VolumeUL: 3_333}})
	syringe, known := d.v.OnlySyringe(kits.Place{Sort: kits.InRoom, ID: "A1"}, ketamine)
	require.True(t, known)
	require.EqualValues(t, 166_650, d.issue().Given)
	l, known := d.v.SyringeLabel(syringe.Ref)
	require.True(t, known)
	require.EqualValues(t, 10_000, l.Amount.OverUL)
	wasted := d.do(WasteDrug{Portion: Portion{Syringe: syringe.Ref}, Seen: Seen{Tag: "O1", Grade: kits.ThroughGlass}})
	i := d.issue()
	require.EqualValues(t, 333_350, i.Wasted)
	require.Equal(t, kits.IssueUnwitnessed, i.State, "nobody's tag is known here, so the same device is no second person")
	d.do(Witness{Movements: []mesh.Ref{wasted}, Tag: "O1"})
	d.do(CloseIssue{Issue: i.Ref})
	require.Empty(t, d.v.Ledger.BalancesAt(kits.Place{Sort: kits.InRoom, ID: "A1"}))
}

// TestTheUnitDecidesWhichWitnessSuffices has a waste seen through the glass,
// which suffices, and no more once the unit asks for the same device at least.
func TestTheUnitDecidesWhichWitnessSuffices(t *testing.T) {
	d, _ := filled(t)
	d.do(IssueDrug{Thing: requests.Thing{Item: ketamine, Count: 1}, TakenBy: "R1"})
	wasted := d.do(WasteDrug{Portion: Portion{Item: ketamine, Containers: 1}})
	learnFrom(t, d.v, mesh.Key{2}, Witness{Movements: []mesh.Ref{wasted}, Tag: "O1", Grade: kits.ThroughGlass})
	d.v.witnessed()
	require.Equal(t, kits.IssueBalanced, d.issue().State)
	d.do(WriteSetting{Name: SettingWitness, Value: "own same"})
	d.v.witnessed()
	require.Equal(t, kits.IssueUnwitnessed, d.issue().State)
	d.do(WriteSetting{Name: SettingWitness, Value: "anything"})
	d.v.witnessed()
	require.Equal(t, kits.IssueBalanced, d.issue().State)
}

// learnFrom gives a view what another device writes.
func learnFrom(t *testing.T, v View, self mesh.Key, act Act) {
	t.Helper()
	parts, err := Compose(v, self, mesh.Tap{1}, mesh.By{}, act)
	require.NoError(t, err)
	for i, p := range parts {
		v.Ledger.Add(mesh.Fact{Ref: mesh.MakeRef(self, mesh.Tap{1}, i), At: mesh.Order{Turn: 1 << 20}, Kind: p.Kind, Body: p.Body})
	}
}

// TestEndsFindTheIssueThatTheyBelongTo issues the same drug twice, carried in:
// what breaks, is drawn up and leaves with the patient is taken from the first
// issue until it is used up, then from the second.
func TestEndsFindTheIssueThatTheyBelongTo(t *testing.T) {
	d, _ := filled(t)
	two := requests.Thing{Item: ketamine, Count: 2}
	first := d.do(IssueDrug{Thing: two, TakenBy: "R1"})
	second := d.do(IssueDrug{Thing: two, TakenBy: "R1"})
	d.do(EndItem{Thing: requests.Thing{Item: ketamine, Count: 3}, End: kits.Broken})
	a, _ := d.v.Ledger.Issue(first)
	b, _ := d.v.Ledger.Issue(second)
	require.EqualValues(t, 1_000_000, a.Broken)
	require.EqualValues(t, 500_000, b.Broken)
	syringe := d.do(DrawUp{Thing: requests.Thing{Item: ketamine, Count: 1}, VolumeUL: 10_000})
	d.do(GiveDrug{Portion: Portion{Syringe: syringe, VolumeUL: 4_000}})
	d.do(LeaveWith{Syringe: syringe, Unit: "ICU 2", ReceivedBy: "N7"})
	b, _ = d.v.Ledger.Issue(second)
	require.EqualValues(t, 200_000, b.Given)
	require.EqualValues(t, 300_000, b.Left, "what was left in it")
	require.Zero(t, b.Residual)
}

// TestAnyCourseOfAControlledDrugConserves plays random courses: after each act
// every sum over all places is zero, and issued equals what came to an end and
// what is still there.
func TestAnyCourseOfAControlledDrugConserves(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, seed))
	for range 20 {
		d, _ := filled(t)
		d.do(IssueDrug{Thing: requests.Thing{Item: ketamine, Count: 3}, TakenBy: "R1", AtDoor: random.IntN(2) == 0})
		for range 12 {
			d.anyAct(random)
			for _, f := range d.v.Ledger.Audit() {
				require.NotEqual(t, kits.NotConserved, f.ID)
				require.NotEqual(t, kits.SyringeMismatch, f.ID)
			}
			i := d.issue()
			require.Equal(t, i.Issued, i.Given+i.Wasted+i.Broken+i.Returned+i.Destroyed+i.Left+i.Residual)
		}
	}
}

// anyAct records one act that fits what is there, or none.
func (d *door) anyAct(random *rand.Rand) {
	one := requests.Thing{Item: ketamine, Count: 1}
	inside := kits.Place{Sort: kits.InRoom, ID: "A1"}
	act := Act(EndItem{Thing: one, End: kits.Broken})
	switch random.IntN(7) {
	case 0:
		act = DrawUp{Thing: one, VolumeUL: 10_000}
	case 1:
		act = GiveDrug{Portion: Portion{Item: ketamine, VolumeUL: 1 + random.Int64N(9_999)}}
	case 2:
		act = WasteDrug{Portion: Portion{Item: ketamine, Containers: 1}, Seen: Seen{Tag: "O1"}}
	case 3:
		s, known := d.v.OnlySyringe(inside, ketamine)
		if !known {
			return
		}
		act = WasteDrug{Portion: Portion{Syringe: s.Ref}}
	case 4:
		for _, h := range d.v.Ledger.AtDoor("A1") {
			d.do(Settle{HandOver: h.Ref, Taken: []int64{random.Int64N(4)}})
		}
		return
	case 5:
		all := d.v.AcceptEnds("A1", mesh.Ref{}, d.v.Ledger.Proposal("A1"))
		if len(all) == 0 {
			return
		}
		act = all[0]
	}
	d.do(act)
}
