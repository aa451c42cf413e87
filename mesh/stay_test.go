package mesh_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: an entry stops being only here when enough others said, from a healthy
// store, that they have it, and no earlier. Method: two devices; count before a
// tap, while its disk works, while its frame is under way, and after the receipt;
// strangers, this device itself and one device named twice count for nothing.
func TestWhatIsOnlyHereIsKnownFromReceiptsAlone(t *testing.T) {
	a, b := pair(t)
	clean := []mesh.Key{b.signer.Self}
	require.Zero(t, a.peer.OnlyHere(clean, 1), "what the founder wrote was told by the first vector")

	before := a.step(mesh.Enter{Tap: mesh.Tap{9}, Parts: []mesh.Part{byPart(t, "L1")}})
	require.Equal(t, 1, a.peer.OnlyHere(clean, 1), "it waits for this device's disk")
	sent := a.written(before)
	require.Equal(t, 1, a.peer.OnlyHere(clean, 1), "it is under way")
	carry(a, b, sent)
	require.Zero(t, a.peer.OnlyHere(clean, 1), "the receipt is here")

	all := 0
	a.peer.EachItem(func(mesh.Order, mesh.Item) { all++ })
	require.Greater(t, all, 2)
	require.Equal(t, all, a.peer.OnlyHere(nil, 1))
	require.Equal(t, all, a.peer.OnlyHere(clean, 2))
	require.Equal(t, all, a.peer.OnlyHere([]mesh.Key{b.signer.Self, b.signer.Self}, 2), "one device named twice")
	require.Equal(t, all, a.peer.OnlyHere([]mesh.Key{b.signer.Self, a.signer.Self}, 2), "this device is no copy of itself")
	require.Equal(t, all, a.peer.OnlyHere([]mesh.Key{b.signer.Self, {77}}, 2), "a stranger stores nothing for anybody")
}

// Goal: others' entries count as well, and are known from vectors. Method: the
// second device writes; the founder holds it and knows that its author has it
// only when a vector of a healthy store says so.
func TestOthersEntriesAreOnlyHereUntilAVectorSaysMore(t *testing.T) {
	a, b := pair(t)
	clean := []mesh.Key{b.signer.Self}
	carry(b, a, b.tap(9, byPart(t, "R1")))
	require.Equal(t, 1, a.peer.OnlyHere(clean, 1), "it was sent, which says nothing of its author's disk")
	for range 4 {
		a.now.Mono, b.now.Mono = a.now.Mono+time.Second, b.now.Mono+time.Second
		carry(b, a, b.step(mesh.Tick{}))
		carry(a, b, a.step(mesh.Tick{}))
	}
	require.Zero(t, a.peer.OnlyHere(clean, 1))
	require.Zero(t, b.peer.OnlyHere([]mesh.Key{a.signer.Self}, 1))
}
