package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/words"
	"lintel/mesh"
	"lintel/mesh/lan"
)

// Goal: peers says in words by which ways a device was found. Method: candidates
// as the network gives them; what is said and what the JSON line holds.
func TestPeersSayHowTheyWereFound(t *testing.T) {
	w := words.English()
	names := map[mesh.Key]string{{1}: "runner phone"}
	for _, c := range []struct {
		found  []lan.Candidate
		linked bool
		said   string
	}{
		{nil, false, ""},
		{nil, true, "its own search"},
		{[]lan.Candidate{{Ways: lan.ByTyping}}, true, "typed address"},
		{[]lan.Candidate{{Ways: lan.ByMDNS | lan.ByBeacon}, {Ways: lan.ByMemory}}, false, "remembered, beacon, mDNS"},
		{[]lan.Candidate{{Ways: lan.ByTelling, Teller: mesh.Key{1}}, {Ways: lan.ByTelling, Teller: mesh.Key{1}}}, true, "told by runner phone"},
		{[]lan.Candidate{{Ways: lan.ByTelling, Teller: mesh.Key{2}}}, true, "told"},
	} {
		e := peerEvent{Device: "0123456789", Name: "tablet", Status: "member", link: "connected"}
		e.foundBy(c.found, c.linked, names)
		require.Equal(t, c.said, e.sayFound(w))
		require.Equal(t, c.said != "", len(e.Found) > 0)
		if c.said != "" {
			require.Equal(t, "01234567, tablet, member, connected, found by: "+c.said, e.say(w))
		}
	}
}
