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

// itemsOf collects the items of the frames that effects would send.
func itemsOf(t *testing.T, effects []mesh.Effect) (out []mesh.Item) {
	for _, s := range pick[mesh.Send](effects) {
		body, err := mesh.DecodeFrame(s.Frame)
		require.NoError(t, err)
		if items, ok := body.(*mesh.Items); ok {
			out = append(out, items.Items...)
		}
	}
	return out
}

// frame puts a body behind its kind.
func frame(t *testing.T, k mesh.FrameKind, body any) []byte {
	b, err := mesh.Encode(body)
	require.NoError(t, err)
	return append([]byte{byte(k)}, b...)
}

// forge changes an entry and gives it a signature that its author never made.
func forge(t *testing.T, it mesh.Item, change func(*mesh.Entry)) mesh.Item {
	e, err := mesh.DecodeEntry(it.Bytes)
	require.NoError(t, err)
	change(e)
	b, err := mesh.EncodeEntry(e)
	require.NoError(t, err)
	return mesh.Item{Bytes: b, Signature: make([]byte, 64)}
}

// Goal: an entry that its author did not sign leaves nothing behind. Method: a
// third device sends a forged next entry of the first; while it waits for the
// disk the real one comes. Both devices must end in the same state.
func TestAForgedEntryBesideARealOneIsNoFork(t *testing.T) {
	a, b := pair(t)
	real := itemsOf(t, a.tap(60, byPart(t, "L1")))
	b.step(mesh.LinkUp{Link: 3, Peer: mesh.Key{3}})
	forged := forge(t, real[0], func(e *mesh.Entry) { e.Tap, e.Turn = mesh.Tap{66}, mesh.TurnMax })
	first := b.step(mesh.Arrived{Link: 3, Frame: frame(t, mesh.FrameItems, &mesh.Items{Items: []mesh.Item{forged}})})
	require.Empty(t, b.step(mesh.Arrived{Link: 1, Frame: frame(t, mesh.FrameItems, &mesh.Items{Items: real})}))
	b.written(first)
	require.Equal(t, a.peer.State(), b.peer.State())
	require.Empty(t, b.peer.Forks())
	e, err := mesh.DecodeEntry(itemsOf(t, b.tap(61, byPart(t, "L2")))[0].Bytes)
	require.NoError(t, err)
	require.Less(t, e.Turn, mesh.Turn(100), "a forged turn counts for nothing")
}

// copyOf starts what a device's folder holds a second time.
func copyOf(t *testing.T, d *desk) *desk {
	s := mesh.Stock{}
	d.peer.EachItem(func(_ mesh.Order, it mesh.Item) { s.Records = append(s.Records, mesh.Record{Item: it}) })
	s.Verified = len(s.Records)
	c := &desk{t: t, signer: d.signer, now: d.now, serial: 100}
	c.peer = mesh.New(mesh.Options{Self: d.signer.Self, Group: d.peer.Group(), Signer: d.signer, Random: c.random, Settings: mesh.Defaults()})
	c.peer.Load(c.now, s)
	return c
}

// Goal: nobody is believed to have stored what lies on another branch. Method:
// a copied folder writes two entries that reach b; the first body writes one
// that does not.
func TestACopyOfOneBranchIsNoCopyOfTheOther(t *testing.T) {
	a, b := pair(t)
	c := copyOf(t, a)
	a.step(mesh.LinkDown{Link: 1})
	saved := pick[mesh.Saved](a.tap(70, byPart(t, "L1")))
	b.step(mesh.LinkDown{Link: 1})
	c.tap(71, byPart(t, "L2"))
	c.tap(72, byPart(t, "L2"))
	link(c, b, 2)
	b.step(mesh.LinkDown{Link: 2})
	b.step(mesh.LinkUp{Link: 3, Peer: a.signer.Self, Dialled: true})
	a.step(mesh.LinkUp{Link: 3, Peer: b.signer.Self})
	var other []mesh.Item
	b.peer.EachItem(func(_ mesh.Order, it mesh.Item) { other = append(other, it) })
	a.written(a.step(mesh.Arrived{Link: 3, Frame: frame(t, mesh.FrameItems, &mesh.Items{Items: other})}))
	require.Len(t, a.peer.Forks(), 1)
	a.step(mesh.Arrived{Link: 3, Frame: frame(t, mesh.FrameVector, &mesh.Vector{Heads: b.peer.Heads(), Stored: true})})
	require.Len(t, saved, 1)
	require.Empty(t, a.peer.Copies(saved[0].At), "b holds the other branch only")
	before, ok := a.peer.Entered(mesh.Tap{1})
	require.True(t, ok)
	require.Equal(t, []mesh.Key{b.signer.Self}, a.peer.Copies(before))
}
