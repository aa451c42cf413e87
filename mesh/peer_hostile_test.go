package mesh_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: many small taps, each signed on its own, travel. Method: 400 taps while
// nobody is linked, then a link.
func TestManySignedEntriesFitTheirFrames(t *testing.T) {
	a, b := pair(t)
	a.step(mesh.LinkDown{Link: 1})
	b.step(mesh.LinkDown{Link: 1})
	for n := range 400 {
		a.written(a.step(mesh.Enter{Tap: mesh.Tap{7, byte(n >> 8), byte(n)}, Parts: []mesh.Part{byPart(t, "L1")}}))
	}
	link(a, b, 2)
	require.Equal(t, a.peer.State(), b.peer.State())
}

// Goal: a long run under one signature travels. Method: 400 taps wait for one
// disk write; the other device must get all of them.
func TestALongRunUnderOneSignatureTravels(t *testing.T) {
	a, b := pair(t)
	first := a.step(mesh.Enter{Tap: mesh.Tap{6}, Parts: []mesh.Part{byPart(t, "L1")}})
	for n := range 400 {
		a.step(mesh.Enter{Tap: mesh.Tap{7, byte(n >> 8), byte(n)}, Parts: []mesh.Part{{Kind: 0x7000, Body: []byte{0x90}}}})
	}
	carry(a, b, a.written(first))
	require.Equal(t, a.peer.State(), b.peer.State())
}

// link has two devices meet and talk until nobody has more to say.
func link(a, b *desk, id mesh.LinkID) {
	up := a.step(mesh.LinkUp{Link: id, Peer: b.signer.Self, Dialled: true})
	back := b.step(mesh.LinkUp{Link: id, Peer: a.signer.Self})
	carryOn(a, b, id, up)
	carryOn(b, a, id, back)
}

// carryOn is carry for a link of any number.
func carryOn(a, b *desk, id mesh.LinkID, effects []mesh.Effect) {
	for _, s := range pick[mesh.Send](effects) {
		if s.Link == id {
			carryOn(b, a, id, b.written(b.step(mesh.Arrived{Link: id, Frame: s.Frame})))
		}
	}
}
