package station

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// propofol is a drug of the starter catalogue: 200 mg in 20 mL.
const propofol mesh.Number = 3080

// TestWhatIsInsideGetsItsEnd passes three ampoules in: one breaks, two become a
// syringe that leaves with the patient. Nothing is left inside, and the ledger
// has nothing to report of it.
func TestWhatIsInsideGetsItsEnd(t *testing.T) {
	d, of := opened(t)
	three := requests.Thing{Item: propofol, Count: 3}
	d.do(TakeIn{Request: d.do(PassIn{Room: "A1", Thing: three})})
	d.do(EndItem{Thing: requests.Thing{Item: propofol, Count: 1}, End: kits.Broken, Why: "fell"})
	syringe := d.do(DrawUp{Thing: requests.Thing{Item: propofol, Count: 2}, VolumeUL: 40_000, Label: "Propofol", DrawnBy: "D1", CheckedBy: "L1"})
	d.do(LeaveWith{Syringe: syringe, Unit: "ICU 2", ReceivedBy: "N7"})
	require.Empty(t, d.v.Ledger.BalancesAt(kits.Place{Sort: kits.InRoom, ID: "A1"}))
	left := d.v.Ledger.BalancesAt(kits.Place{Sort: kits.LeftWithPatient, ID: "A1"})
	require.Len(t, left, 1)
	require.EqualValues(t, 400_000, left[0].N)
	require.EqualValues(t, 1, d.v.Ledger.Held(kits.Place{Sort: kits.Broken, ID: "A1"}, propofol))
	for _, m := range d.v.Ledger.Movements()[1:] {
		require.Equal(t, of, m.Case)
	}
	for _, f := range d.v.Ledger.Audit() {
		require.Equal(t, kits.BelowZero, f.ID, "only the stock that nobody filled in: %+v", f)
	}
}

// TestEndsThatAreNoneAreNotRecorded gives each act of stock what nobody can mean.
func TestEndsThatAreNoneAreNotRecorded(t *testing.T) {
	d, of := opened(t)
	one := requests.Thing{Item: propofol, Count: 1}
	for _, c := range []struct {
		act  Act
		want error
	}{
		{EndItem{Thing: one, End: kits.Store}, ErrNoEnd},
		{EndItem{Thing: one, End: kits.LeftWithPatient}, ErrNoEnd},
		{EndItem{Thing: requests.Thing{Item: 999_999, Count: 1}, End: kits.Used}, ErrNoItem},
		{EndItem{Thing: requests.Thing{Item: propofol}, End: kits.Used}, ErrCount},
		{DrawUp{Thing: requests.Thing{Item: bougie, Count: 1}, VolumeUL: 5}, ErrNoDrug},
		{DrawUp{Thing: one}, ErrNoDrug},
		{LeaveWith{Syringe: of}, ErrNoSyringe},
		{LeaveWith{}, ErrNoItem},
	} {
		require.ErrorIs(t, d.refused(c.act), c.want, "%T %+v", c.act, c.act)
	}
}

// TestAnEndIsUndoneByItsReversal breaks an ampoule by mistake and undoes it: it
// lies inside again; undoing it twice has nothing to record.
func TestAnEndIsUndoneByItsReversal(t *testing.T) {
	d, _ := opened(t)
	d.do(TakeIn{Request: d.do(PassIn{Room: "A1", Thing: requests.Thing{Item: propofol, Count: 1}})})
	broken := d.do(EndItem{Thing: requests.Thing{Item: propofol, Count: 1}, End: kits.Broken})
	inside := kits.Place{Sort: kits.InRoom, ID: "A1"}
	require.Zero(t, d.v.Ledger.Held(inside, propofol))
	d.do(Undo{Mark: broken, Why: "slip"})
	require.EqualValues(t, 1, d.v.Ledger.Held(inside, propofol))
	require.ErrorIs(t, d.refused(Undo{Mark: broken}), ErrNothing)
}
