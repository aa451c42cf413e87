package station

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/kits"
	"lintel/requests"
)

// TestAPortionEndsAndItsTapIsTakenBackWhole gives millilitres of an ampoule, so
// that one tap draws it up and gives it, and takes that tap back: everything is
// as it was. Then all that is left is wasted with who saw it, and a box breaks.
func TestAPortionEndsAndItsTapIsTakenBackWhole(t *testing.T) {
	d, _ := filled(t)
	d.do(IssueDrug{Thing: requests.Thing{Item: ketamine, Count: 2}, TakenBy: "R1"})
	inside := kits.Place{Sort: kits.InRoom, ID: "A1"}
	before := d.v.Ledger.BalancesAt(inside)
	given := d.do(EndDrug{Portion: Portion{Item: ketamine, VolumeUL: 3_000}, End: kits.Given})
	require.EqualValues(t, 150_000, d.issue().Given)
	d.do(ReverseTap{Movement: given, Why: "undone"})
	require.Equal(t, before, d.v.Ledger.BalancesAt(inside))
	require.Zero(t, d.issue().Given)
	d.do(EndDrug{Portion: Portion{Item: ketamine, Containers: 1}, End: kits.Broken})
	require.EqualValues(t, 500_000, d.issue().Broken)
	d.do(EndDrug{Portion: Portion{Item: ketamine, Containers: 1}, End: kits.Wasted, Seen: Seen{Tag: "O1"}})
	require.EqualValues(t, 500_000, d.issue().Wasted)
	require.Empty(t, d.v.Ledger.BalancesAt(inside))
}
