package station

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
	"lintel/requests"
)

// Goal: the tap on a rescue set notes a time for the timeline of its case, and
// undoing the tap takes both back; no other tap does, and none where no case is
// open. Method: a set and a tube, with and without a case.
func TestARescueSetIsATimeToo(t *testing.T) {
	d, of := opened(t)
	var rescue mesh.Number
	for _, b := range d.v.Ledger.Bundles() {
		if b.Rescue != "" {
			rescue = b.Number
		}
	}
	ref := d.do(Ask{Room: "A1", Thing: requests.Thing{Item: rescue, Count: 1}, Urgency: requests.RightNow})
	d.do(Ask{Room: "A1", Thing: requests.Thing{Item: 1032, Count: 1}, Urgency: requests.RightNow})
	d.do(Ask{Room: "A9", Thing: requests.Thing{Item: rescue, Count: 1}, Urgency: requests.RightNow})
	noted := d.one(of).Moments
	require.Len(t, noted, 1)
	require.Equal(t, timeRescue, noted[0].What)
	require.Contains(t, string(noted[0].Words), "set")
	d.do(Undo{Mark: ref})
	require.Empty(t, d.one(of).Moments)
	require.True(t, d.request(ref).Over())
}
