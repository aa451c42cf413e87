package lan

import (
	"bytes"
	"context"
	"crypto/tls"
	"encoding/binary"
	"fmt"
	"math/rand/v2"
	"net"
	"testing"
	"time"

	"github.com/quic-go/quic-go"
	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// reach names how one device reaches the other in a test.
type reach struct {
	name string
	via  mesh.Transport
	to   func(t testing.TB, d *device) string
}

func reaches() []reach {
	return []reach{
		{"QUIC", mesh.OverQUIC, func(_ testing.TB, d *device) string { return d.Address() }},
		{"TCP, UDP not answered", mesh.OverTCP, func(t testing.TB, d *device) string { return tcpOnly(t, d.Address(), nil) }},
	}
}

// numbered makes frame i of a stream: stream, number, then padding that goes
// through all lengths up to the longest.
func numbered(s mesh.Stream, i int) []byte {
	f := make([]byte, 5+i*i%(mesh.FrameLenMax-5))
	if i == 7 {
		f = make([]byte, mesh.FrameLenMax)
	}
	f[0] = byte(s)
	binary.BigEndian.PutUint32(f[1:], uint32(i))
	return f
}

// inOrder tells whether frames holds count frames of each stream, each in order.
func inOrder(t testing.TB, frames [][]byte, count int) bool {
	next := [2]int{}
	for _, f := range frames {
		s := mesh.Stream(f[0])
		require.Equal(t, numbered(s, next[s]), f)
		next[s]++
	}
	return next == [2]int{count, count}
}

// Goal: both hellos, then every frame of both streams in order and whole, both
// ways, over both transports. Method: two devices over loopback, 60 frames per
// stream and side, among them one of the greatest length.
func TestFramesArriveInOrderOnBothStreams(t *testing.T) {
	const count = 60
	for _, r := range reaches() {
		t.Run(r.name, func(t *testing.T) {
			u := newUnit()
			a, b := u.start(t), u.start(t)
			a.Keep(r.to(t, b))
			atA, atB := a.linked(b.Key()), b.linked(a.Key())
			require.True(t, atA.Dialled)
			require.False(t, atB.Dialled)
			require.Equal(t, r.via, atA.Via)
			require.Equal(t, r.via, atB.Via)
			for i := range count {
				for s := mesh.StreamTap; s <= mesh.StreamCatchUp; s++ {
					a.Send(atA.Link, s, numbered(s, i))
					b.Send(atB.Link, s, numbered(s, i))
				}
			}
			for _, d := range []*device{a, b} {
				d.await("all frames", func() bool { return inOrder(t, d.arrived(), count) })
			}
			a.Hang(atA.Link, "enough")
			b.await("the end", func() bool { return len(standing(b.events)) == 0 })
		})
	}
}

// Goal: a device that is not admitted reads not one byte and raises no event, on
// both transports; one that is not admitted any more gets no new link. Method:
// connections of our own making, then a Net that is told why.
func TestStrangersReadNothing(t *testing.T) {
	u := newUnit()
	b := u.start(t)
	private, _ := newKey(t)
	conf := strangerTLS(t, private, forFrames)

	tc, err := tls.Dial("tcp", b.Address(), conf)
	require.NoError(t, err) // TLS 1.3 lets the dialling side believe so
	require.Empty(t, readAll(tc))
	_ = tc.Close()

	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	if qc, err := quic.DialAddr(ctx, b.Address(), conf, nil); err == nil {
		_, err = qc.AcceptStream(ctx)
		require.Error(t, err)
		require.NoError(t, ctx.Err())
	}

	a := u.start(t)
	u.admit(a.Key(), false)
	for _, to := range []string{b.Address(), tcpOnly(t, b.Address(), nil)} {
		a.Keep(to)
		a.await("a refusal", func() bool { return len(a.failed) > 0 })
		a.mu.Lock()
		require.ErrorIs(t, a.failed[0], ErrRefused)
		a.failed = nil
		a.mu.Unlock()
		a.Drop(to)
	}
	require.Zero(t, b.linksEver())
	require.Zero(t, a.linksEver())
}

// Goal: whom this device does not admit it does not talk to either, and says so
// to its own person. Method: the accepting side admits, the dialling one does not.
func TestDiallingSideRefusesToo(t *testing.T) {
	u := newUnit()
	b := u.start(t)
	a := u.start(t, func(o *Options) { o.Member = func(mesh.Key) bool { return false } })
	a.Keep(b.Address())
	a.await("a refusal", func() bool { return len(a.failed) > 0 })
	require.ErrorIs(t, a.failed[0], ErrNotAdmitted)
	require.Zero(t, b.linksEver())
}

// Goal: another group is told apart from silence, and a device never links with
// itself. Method: a device of another group; its own address; a free port.
func TestWhyNoLinkComesIsNamed(t *testing.T) {
	u := newUnit()
	b := u.start(t)
	other := mesh.GroupID{9}
	a := u.start(t, func(o *Options) { o.Group = func() (mesh.GroupID, bool) { return other, true } })
	free, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	require.NoError(t, free.Close())
	for _, c := range []struct {
		addr string
		want error
	}{
		{b.Address(), ErrOtherGroup},
		{tcpOnly(t, b.Address(), nil), ErrOtherGroup},
		{a.Address(), ErrOwnAddress},
		{"127.0.0.1:notaport", ErrAddress},
		{":1", ErrAddress},
	} {
		_, _, err := a.dial(context.Background(), c.addr, wantsAny, a.ways())
		require.ErrorIs(t, err, c.want, c.addr)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 500*time.Millisecond)
	defer cancel()
	_, _, err = a.dial(ctx, free.Addr().String(), wantsAny, a.ways())
	require.ErrorIs(t, err, ErrNoAnswer)
	require.Zero(t, b.linksEver())
}

// byHand opens an admitted TCP session up to the other side's hello, and returns
// the key that it was opened with.
func (u *unit) byHand(t *testing.T, to *device) (*tls.Conn, *carrier, mesh.Key) {
	private, public := newKey(t)
	u.admit(public, true)
	tc, err := tls.Dial("tcp", to.Address(), strangerTLS(t, private, forFrames))
	require.NoError(t, err)
	t.Cleanup(func() { _ = tc.Close() })
	c, err := tcpCarrier(tc)
	require.NoError(t, err)
	h, err := c.greeting()
	require.NoError(t, err)
	require.Equal(t, u.group, h.Group)
	return tc, c, public
}

// Goal: another version is refused by name. Method: a hello of version 2.
func TestAnotherVersionIsNamed(t *testing.T) {
	u := newUnit()
	b := u.start(t)
	tc, c, _ := u.byHand(t, b)
	_, err := tc.Write(appendFrame(nil, true, 0, []byte{helloVersion + 1, 1, 2, 3}))
	require.NoError(t, err)
	_, _, err = c.read(c.lanes[0], mesh.FrameLenMax)
	require.ErrorIs(t, err, ErrOtherVersion)
	require.Zero(t, b.linksEver())
}

// Goal: what cannot be read ends the link it came on and no other. Method: an
// admitted device sends an oversize frame, an unknown stream, an empty frame,
// and a hello that is too long, while another one's link is used.
func TestRubbishEndsOnlyItsOwnLink(t *testing.T) {
	u := newUnit()
	a, b := u.start(t), u.start(t)
	a.Keep(b.Address())
	a.linked(b.Key())
	oversize := binary.BigEndian.AppendUint32([]byte{0}, mesh.FrameLenMax+1)
	for i, rubbish := range [][]byte{oversize, {7, 0, 0, 0, 1, 1}, {0, 0, 0, 0, 0}} {
		tc, c, own := u.byHand(t, b)
		require.NoError(t, c.greet(Hello{Group: u.group, Run: runID{byte(i)}, Port: 1}))
		b.linked(own)
		_, err := tc.Write(rubbish)
		require.NoError(t, err)
		_, _, err = c.read(c.lanes[0], mesh.FrameLenMax)
		var closed *closedError
		require.ErrorAs(t, err, &closed)
		require.Equal(t, closedRubbish, closed.code)
		a.greets(b, fmt.Sprintf("still here %d", i))
	}
	tc, _, _ := u.byHand(t, b)
	_, err := tc.Write(binary.BigEndian.AppendUint32([]byte{0}, openFrameLenMax+1))
	require.NoError(t, err)
	readAll(tc) // it ends
	a.greets(b, "and here")
	require.Equal(t, 4, b.linksEver())
}

// Goal: a listener that was sent rubbish still serves. Method: random datagrams,
// among them QUIC-looking ones, and random bytes over TCP, then a device.
func TestListenerSurvivesGarbage(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	u := newUnit()
	a, b := u.start(t), u.start(t)
	uc, err := net.Dial("udp", b.Address())
	require.NoError(t, err)
	defer uc.Close()
	for i := range 500 {
		d := make([]byte, 1+random.IntN(1400))
		for j := range d {
			d[j] = byte(random.Uint32())
		}
		if i%2 == 0 && len(d) > 5 {
			d[0] |= 0xc0
			copy(d[1:5], []byte{0, 0, 0, 1})
		}
		_, _ = uc.Write(d)
	}
	for range 20 {
		tc, err := net.Dial("tcp", b.Address())
		require.NoError(t, err)
		_, _ = tc.Write(bytes.Repeat([]byte{byte(random.Uint32())}, 700))
		_ = tc.Close()
	}
	a.Keep(b.Address())
	a.greets(b, "hello")
}
