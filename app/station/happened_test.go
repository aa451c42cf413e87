package station

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
	"lintel/requests"
)

// Goal: a noted time is when its author said that it was, and a later
// correction by whoever wrote it, by this device's clock; that it came here late
// does not move it. Method: moments of this device and of one that was never
// compared, noted now, late, and put right.
func TestHappenedIsWhenSomebodySaidAndNotWhenItCame(t *testing.T) {
	starter, err := ReadStarter()
	require.NoError(t, err)
	v := Read(mesh.GroupID{}, nil, nil, starter).View
	at := func(key byte, wall, stated mesh.Wall) requests.Mark {
		return requests.Mark{Ref: mesh.MakeRef(mesh.Key{key}, mesh.Tap{1}, 1), Wall: wall, By: mesh.By{Happened: stated}}
	}
	fixed := at(0, 500_000, 100_000)
	fixed.Corrected = 90_000
	for _, c := range []struct {
		name   string
		moment requests.Moment
		want   mesh.Wall
		least  bool
	}{
		{"now", requests.Moment{Mark: at(0, 500_000, 0), Happened: 500_000}, 500_000, false},
		{"late", requests.Moment{Mark: at(0, 500_000, 100_000), Happened: 100_000}, 100_000, false},
		{"put right", requests.Moment{Mark: fixed, Happened: 90_000, Fixes: []requests.LateFix{{Mark: at(0, 600_000, 0), Happened: 90_000}}}, 90_000, false},
		{"another's", requests.Moment{Mark: at(1, 500_000, 100_000), Happened: 100_000}, 100_000, true},
	} {
		got, least := v.Happened(c.moment)
		require.Equal(t, c.want, got, c.name)
		require.Equal(t, c.least, least, c.name)
	}
}
