package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
	"lintel/requests"
)

// ref is a made-up ref.
func ref(n byte) mesh.Ref { return mesh.MakeRef(mesh.Key{n}, mesh.Tap{n}, 1) }

// Goal: an answer never means another read-back or offer than was seen. Method:
// every mixture of what may wait, with and without a number, agreeing and
// refusing; what is meant, or how many might be.
func TestAnAnswerMeansOneThingOrIsAskedFor(t *testing.T) {
	held := func(n byte, live bool) requests.ReadBack {
		return requests.ReadBack{Mark: requests.Mark{Ref: ref(n)}, Live: live}
	}
	offer := func(n byte) requests.Offer {
		return requests.Offer{Mark: requests.Mark{Ref: ref(n)}, Things: make([]requests.Thing, 2)}
	}
	for i, c := range []struct {
		r        requests.Request
		which    uint8
		refusing bool
		means    []byte
	}{
		{requests.Request{}, 0, false, nil},
		{requests.Request{InHand: []requests.ReadBack{held(1, true)}}, 0, false, []byte{1}},
		{requests.Request{InHand: []requests.ReadBack{held(1, true), held(2, true)}}, 0, false, []byte{1, 2}},
		{requests.Request{InHand: []requests.ReadBack{held(1, true), held(2, true)}}, 0, true, []byte{1, 2}},
		{requests.Request{InHand: []requests.ReadBack{held(1, false), held(2, true)}}, 0, false, []byte{2}},
		{requests.Request{Offers: []requests.Offer{offer(3)}}, 0, false, nil},
		{requests.Request{Offers: []requests.Offer{offer(3)}}, 0, true, []byte{3}},
		{requests.Request{Offers: []requests.Offer{offer(3), offer(4)}}, 1, false, []byte{3, 4}},
		{requests.Request{InHand: []requests.ReadBack{held(1, true)}, Offers: []requests.Offer{offer(3)}}, 2, false, []byte{3}},
		{requests.Request{InHand: []requests.ReadBack{held(1, true)}, Offers: []requests.Offer{offer(3)}}, 0, true, []byte{1}},
	} {
		var means []byte
		for _, o := range meant(c.r, c.which, c.refusing) {
			means = append(means, o.Ref[0])
		}
		require.Equal(t, c.means, means, "case %d", i)
	}
	one := answering{}
	require.NoError(t, one.names(open{things: make([]requests.Thing, 1), offer: true}, false))
	require.EqualValues(t, 1, one.which, "the only alternative")
	require.Error(t, (&answering{}).names(open{things: make([]requests.Thing, 2), offer: true}, false))
	require.Error(t, (&answering{which: 3}).names(open{things: make([]requests.Thing, 2), offer: true}, true))
	require.Error(t, (&answering{which: 1}).names(open{things: make([]requests.Thing, 1)}, false))
}

// Goal: with two runners, the strength that somebody saw is the one agreed to.
// Method: R1 reads back what was asked, R2 another strength after it; agree by
// the request's name is refused and lists both, by R1's mark it closes R1's loop.
func TestWithTwoRunnersTheReadBackThatWasSeenIsAgreed(t *testing.T) {
	dir := t.TempDir()
	inside, address := started(t, dir, "lead", "L1")
	first, _ := started(t, dir, "runner", "R1")
	second, _ := up(t, "runner 2", deviceProcess(t, t.TempDir(), "runner", "R2", nil))
	done(t, inside, "found Anvil")
	paired(t, inside, first, address)
	paired(t, inside, second, address)
	asked := done(t, inside, "ask 3046 x1 now").Ref
	sees(t, first, asked, 1)
	right := done(t, first, "readback "+asked+" 3046 x1")
	sees(t, inside, asked, 2)
	sees(t, second, asked, 2)
	done(t, second, "readback "+asked+" 3038 x1")
	e := sees(t, inside, asked, 3)
	require.Len(t, e.InHand, 2)

	for _, verb := range []string{"agree ", "refuse "} {
		a, err := inside.do(waiting(t), verb+asked)
		require.Error(t, err)
		require.Contains(t, a.Error, "say which one is meant")
		require.Contains(t, string(a.line), "by R1: "+e.InHand[0].Mark)
		require.Contains(t, string(a.line), "by R2: "+e.InHand[1].Mark)
	}
	done(t, inside, "agree "+e.InHand[0].Mark)
	done(t, inside, "refuse "+e.InHand[1].Mark+" other strength")
	e = sees(t, first, asked, 5)
	require.EqualValues(t, "closed", e.Loop)
	require.NotContains(t, e.Flags, "agreed-unlike")
	require.Len(t, e.InHand, 1)
	require.Equal(t, right.Ref, e.Ref)
	require.True(t, e.InHand[0].Closed)
	require.EqualValues(t, 3046, e.InHand[0].Number)
}
