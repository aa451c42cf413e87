package device

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh/lan"
)

// Goal: what works is remembered, newest first, and the list does not grow.
// Method: many addresses one after the other, an old one again.
func TestTheNewestWorkingAddressesAreRemembered(t *testing.T) {
	var c config
	for i := range 3 * rememberedMax {
		c.remember(fmt.Sprintf("10.0.0.%d:29460", i))
	}
	require.Len(t, c.Peers, rememberedMax)
	require.Equal(t, "10.0.0.47:29460", c.Peers[0])
	c.remember("10.0.0.40:29460")
	require.Len(t, c.Peers, rememberedMax)
	require.Equal(t, []string{"10.0.0.40:29460", "10.0.0.47:29460"}, c.Peers[:2])
}

// Goal: a link that came up is enough to find each other again, on both sides,
// and the device can say how. Method: two devices join over loopback; device.json
// of both, also of the one that was dialled; the ways on the one that dialled.
func TestBothSidesOfALinkRememberEachOther(t *testing.T) {
	dirs := []string{t.TempDir(), t.TempDir()}
	a, b := running(t, dirs[0], "a"), running(t, dirs[1], "b")
	require.NoError(t, a.Found("Invented unit"))
	joined(t, a, b)
	remembered := func(dir string) []string {
		s, err := readSettings(dir)
		require.NoError(t, err)
		return s.get().Peers
	}
	require.Eventually(t, func() bool {
		at := remembered(dirs[0])
		return len(at) == 1 && at[0] == b.Address() && len(remembered(dirs[1])) == 1
	}, 10*time.Second, 20*time.Millisecond)
	require.Eventually(t, func() bool {
		found := b.FoundBy(a.Key())
		return len(found) == 1 && found[0].Address == a.Address() && found[0].Ways == lan.ByMemory
	}, 10*time.Second, 20*time.Millisecond)
	require.Empty(t, a.FoundBy(b.Key()), "it was found, and has found nobody")
	require.Empty(t, a.Nearby())
}
