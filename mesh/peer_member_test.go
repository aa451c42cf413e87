package mesh_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
	"lintel/mesh/meshtest"
)

// These tests are about a member that is broken or hostile: device 3, on link
// 3 of the device under test.

// besieged is a pair of devices of which the second has a link with a third.
func besieged(t *testing.T) (a, b *desk, send func(mesh.FrameKind, any) []mesh.Effect) {
	a, b = pair(t)
	carry(a, b, a.tap(2, admission(t, mesh.Key{3})))
	up := func() { b.step(mesh.LinkUp{Link: 3, Peer: mesh.Key{3}, Dialled: true}) }
	up()
	return a, b, func(k mesh.FrameKind, body any) []mesh.Effect {
		effects := b.step(mesh.Arrived{Link: 3, Frame: frame(t, k, body)})
		effects = b.written(effects)
		if len(pick[mesh.Hang](effects)) > 0 {
			up() // it comes again
		}
		return effects
	}
}

func admission(t *testing.T, k mesh.Key) mesh.Part {
	p, err := mesh.MakePart(mesh.KindAdmitted, &mesh.Admitted{Key: k, Name: "device"})
	require.NoError(t, err)
	return p
}

// Goal: nobody can make a device begin feed after feed. Method: forged entries
// of its own feed, then vectors with invented heads of it, each followed by a
// tap; one new incarnation, for the first invented head, is what caution costs.
func TestInventedHeadsCostOneIncarnation(t *testing.T) {
	_, b, send := besieged(t)
	own := itemsOf(t, b.tap(60, byPart(t, "L1")))[0]
	at, _ := b.peer.Entered(mesh.Tap{60})
	for n := range byte(5) {
		hung := send(mesh.FrameItems, &mesh.Items{Items: []mesh.Item{forge(t, own, func(e *mesh.Entry) { e.Tap = mesh.Tap{90, n} })}})
		require.NotEmpty(t, pick[mesh.Hang](hung))
		b.tap(61+n, byPart(t, "L1"))
		now, _ := b.peer.Entered(mesh.Tap{61 + n})
		require.Equal(t, at.Feed, now.Feed)
	}
	feeds := map[mesh.Feed]bool{}
	for n := range byte(20) {
		at, _ = b.peer.Entered(mesh.Tap{65 + n})
		feeds[at.Feed] = true
		send(mesh.FrameVector, &mesh.Vector{Heads: []mesh.Head{{Feed: at.Feed, Seq: 900, Hash: mesh.Short{n}}}})
		b.tap(66+n, byPart(t, "L1"))
	}
	require.Len(t, feeds, 2)
}

// Goal: a forger cannot use up what may wait from another device. Method: it
// sends the first of two entries with a bad signature; the second comes from
// the honest device and falls with it. Nothing may count as waiting then.
func TestWhatFallsWithAForgeryWaitsNoMore(t *testing.T) {
	a, b, _ := besieged(t)
	one, two := itemsOf(t, a.tap(60, byPart(t, "L1"))), itemsOf(t, a.tap(61, byPart(t, "L1")))
	bad := mesh.Item{Bytes: one[0].Bytes, Signature: make([]byte, 64)}
	first := b.step(mesh.Arrived{Link: 3, Frame: frame(t, mesh.FrameItems, &mesh.Items{Items: []mesh.Item{bad}})})
	b.step(mesh.Arrived{Link: 1, Frame: frame(t, mesh.FrameItems, &mesh.Items{Items: two})})
	require.Positive(t, b.peer.Waiting(1))
	b.written(first)
	require.Zero(t, b.peer.Waiting(1))
}

// Goal: answers to pings cannot fill the log. Method: a thousand pongs a
// second, each with another clock, for a minute of one ping a second.
func TestPongsDoNotFillTheLog(t *testing.T) {
	_, b, send := besieged(t)
	b.step(mesh.Pace{Busy: true})
	before := b.peer.Heads()
	n := uint64(1)
	for second := range 60 {
		b.now.Mono += time.Second
		for _, s := range pick[mesh.Send](b.step(mesh.Tick{})) {
			if body, err := mesh.DecodeFrame(s.Frame); err == nil && s.Link == 3 {
				if p, ok := body.(*mesh.Ping); ok {
					n = p.N
				}
			}
		}
		for i := range 1000 {
			send(mesh.FramePong, &mesh.Pong{N: n, Wall: mesh.Wall(1 + (second*1000+i)*10_000)})
		}
	}
	grown := mesh.Seq(0)
	for i, h := range b.peer.Heads() {
		if i >= len(before) {
			grown += h.Seq
		} else {
			grown += h.Seq - before[i].Seq
		}
	}
	require.LessOrEqual(t, grown, mesh.Seq(8))
}

// Goal: frames that prove nothing leave nothing behind. Method: entries of
// invented feeds with gaps and with bad signatures, and well signed receipts
// for invented feeds.
func TestInventedFeedsAreNotKept(t *testing.T) {
	a, b, send := besieged(t)
	real := itemsOf(t, a.tap(60, byPart(t, "L1")))[0]
	feeds, far := b.peer.Kept()
	signer := meshtest.KeyedHash{Self: mesh.Key{3}}
	for n := range byte(50) {
		send(mesh.FrameItems, &mesh.Items{Items: []mesh.Item{forge(t, real, func(e *mesh.Entry) { e.Incarnation = mesh.Incarnation{n} })}})
		send(mesh.FrameItems, &mesh.Items{Items: []mesh.Item{forge(t, real, func(e *mesh.Entry) {
			e.Incarnation, e.Seq, e.Before = mesh.Incarnation{n, 1}, 1, mesh.Hash{}
		})}})
		r := mesh.Receipt{Feed: mesh.Feed{n, 7}, Seq: 5}
		send(mesh.FrameFar, &mesh.FarReceipt{Receiver: mesh.Key{3}, Receipt: r, Signature: signer.Sign(mesh.ReceiptText(b.peer.Group(), mesh.Key{3}, r.Feed, r.Seq, r.Hash))})
	}
	feedsNow, farNow := b.peer.Kept()
	require.Equal(t, [2]int{feeds, far}, [2]int{feedsNow, farNow})
}

// Goal: no number stops a device. Method: frames with the highest and lowest
// numbers, clocks before 1970 and after 9999.
func TestExtremeNumbersStopNothing(t *testing.T) {
	_, b, send := besieged(t)
	own := b.peer.Heads()
	send(mesh.FramePing, &mesh.Ping{N: 1 << 63, Wall: mesh.WallMax, Measured: true, OffsetMS: -1 << 63, WithinMS: -1 << 63})
	send(mesh.FramePong, &mesh.Pong{N: 1, Wall: mesh.WallMax})
	send(mesh.FrameCredit, &mesh.Credit{Taken: 1<<64 - 1})
	send(mesh.FrameReceipt, &mesh.Receipt{Feed: own[0].Feed, Seq: mesh.SeqMax})
	for _, h := range own {
		h.Seq = mesh.SeqMax
		send(mesh.FrameVector, &mesh.Vector{Heads: []mesh.Head{h, h}, Answer: true, All: true, Stored: true, Taken: 1<<64 - 1})
		send(mesh.FrameLadder, &mesh.Ladder{Feed: h.Feed, Rungs: []mesh.Rung{{Seq: mesh.SeqMax}, {Seq: 0}}, Answer: true})
	}
	for _, wall := range []mesh.Wall{-1 << 60, 1 << 60} {
		b.now.Wall = wall
		b.step(mesh.ClockSet{})
		b.step(mesh.Tick{})
		require.Len(t, pick[mesh.Saved](b.tap(70+byte(wall>>63), byPart(t, "L1"))), 1)
	}
	require.NotEmpty(t, b.peer.Peers())
}

// Goal: a removed device does not return when the group grows. Method: of two
// devices the first removes the second, then admits a third, which alone then
// says the same of the first: one voice of three, which removes nobody.
func TestARemovalByOneOfTwoHoldsWhenMoreAreAdmitted(t *testing.T) {
	a, b := pair(t)
	parts, err := a.peer.RemovalOf(b.signer.Self, "stolen")
	require.NoError(t, err)
	a.tap(50, parts...)
	require.False(t, a.peer.IsMember(b.signer.Self))
	a.tap(51, admission(t, mesh.Key{3}))
	require.False(t, a.peer.IsMember(b.signer.Self))
	it := a.founding()
	c := newDesk(t, 3, &it, a.peer.Group())
	link(a, c, 3)
	require.Equal(t, a.peer.State(), c.peer.State())
	parts, err = c.peer.RemovalOf(a.signer.Self, "mistaken")
	require.NoError(t, err)
	c.tap(52, parts...)
	require.True(t, c.peer.IsMember(a.signer.Self))
	require.Equal(t, a.peer.State(), copyOf(t, a).peer.State())
}
