package lan

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"math/rand/v2"
	"net"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: ranks order any connections of two devices totally, so both sides keep
// the same. Method: all pairs and triples of a small range.
func TestRanksAreATotalOrder(t *testing.T) {
	var all []rank
	for epoch := range uint64(3) {
		for attempt := range uint64(3) {
			all = append(all, rank{epoch, false, attempt}, rank{epoch, true, attempt})
		}
	}
	for _, r := range all {
		for _, s := range all {
			require.Equal(t, r != s, r.over(s) != s.over(r), "%v %v", r, s)
			for _, q := range all {
				if r.over(s) && s.over(q) {
					require.True(t, r.over(q))
				}
			}
		}
	}
}

// settled waits until both hold exactly one link with each other, the same one,
// and a word gets through both ways.
func settled(t *testing.T, a, b *device, dials int) {
	t.Helper()
	late := time.After(patience)
	for {
		_, changedA := a.links.with(b.Key())
		_, changedB := b.links.with(a.Key())
		la, _ := a.links.with(b.Key())
		lb, _ := b.links.with(a.Key())
		if la != nil && lb != nil && la.rank == lb.rank {
			break
		}
		select {
		case <-changedA:
		case <-changedB:
		case <-late:
			t.Fatalf("not settled: %+v, %+v", la, lb)
		}
	}
	a.greets(b, "from a")
	b.greets(a, "from b")
	t.Logf("%d dials, %d and %d links on the way", dials, a.linksEver(), b.linksEver())
}

// Goal: 1,000 dials from both sides at once settle on one connection, the same
// on both sides; where nobody insists, without flapping. Method: 500 from each
// side over QUIC or TCP at random, once as a kept address dials and once with
// every dial insisting on being the one.
func TestSimultaneousDialsSettleOnOneConnection(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	for name, want := range map[string]intent{"as kept addresses": wantsAny, "each insisting": wantsFresh} {
		t.Run(name, func(t *testing.T) {
			const each = 500
			random := rand.New(rand.NewPCG(seed, uint64(want)))
			u := newUnit()
			a, b := u.start(t), u.start(t)
			begin := make(chan struct{})
			var dials sync.WaitGroup // joined below
			for i := range 2 * each {
				from, to, by := a, b, random.IntN(2)
				if i%2 == 1 {
					from, to = b, a
				}
				dials.Go(func() {
					<-begin
					_, _, _ = from.dial(context.Background(), to.Address(), want, from.ways()[by:by+1])
				})
			}
			close(begin)
			dials.Wait()
			// A dial may have been cut off behind its hello, and nobody repeats it
			// but a kept address, which is what devices have.
			a.Keep(b.Address())
			b.Keep(a.Address())
			settled(t, a, b, 2*each)
			if want == wantsAny {
				require.LessOrEqual(t, max(a.linksEver(), b.linksEver()), 4)
			}
		})
	}
}

// steady waits until two devices that keep each other's address have come to
// rest: on the connection that the smaller key dialled, on both sides.
func steady(t *testing.T, a, b *device) {
	t.Helper()
	if b.Key().Compare(a.Key()) < 0 {
		a, b = b, a
	}
	require.Eventually(t, func() bool {
		l, _ := a.links.with(b.Key())
		m, _ := b.links.with(a.Key())
		return l != nil && m != nil && l.dialled && l.rank == m.rank
	}, patience, time.Millisecond)
}

// Goal: devices that keep each other's address end up on the connection that
// the smaller key dialled. Method: both keep, several times.
func TestTheSmallerKeysConnectionStays(t *testing.T) {
	for range 4 {
		u := newUnit()
		a, b := u.start(t), u.start(t)
		a.Keep(b.Address())
		b.Keep(a.Address())
		steady(t, a, b)
		a.greets(b, "hello")
	}
}

// Goal: a link on TCP is replaced by QUIC as soon as datagrams get through.
// Method: a forwarder for TCP only, joined later by one for UDP on the same port.
func TestQUICReplacesTCP(t *testing.T) {
	u := newUnit()
	a, b := u.start(t, func(o *Options) { o.Limits.QUICAgain = 50 * time.Millisecond }), u.start(t)
	front := tcpOnly(t, b.Address(), nil)
	a.Keep(front)
	first := a.linked(b.Key())
	require.Equal(t, mesh.OverTCP, first.Via)
	udpOnly(t, front, b.Address(), unchanged)
	for _, d := range []*device{a, b} {
		d.await("QUIC instead", func() bool {
			up := standing(d.events)
			return len(up) == 1 && up[0].Via == mesh.OverQUIC
		})
	}
	a.greets(b, "hello")
	require.Equal(t, 2, a.linksEver())
}

// Goal: while QUIC is tried again, the end of the TCP link is noticed at once.
// Method: datagrams vanish, so that trying takes as long as it may; the link is
// hung up meanwhile.
func TestTryingQUICDoesNotDelayRedialling(t *testing.T) {
	u := newUnit()
	tried := make(chan struct{}, 1)
	a, b := u.start(t, func(o *Options) { o.Limits.QUICAgain = 10 * time.Millisecond }), u.start(t)
	front := tcpOnly(t, b.Address(), nil)
	udpOnly(t, front, b.Address(), func([]byte) [][]byte {
		select {
		case tried <- struct{}{}:
		default:
		}
		return nil
	})
	a.Keep(front)
	first := a.linked(b.Key())
	<-tried // by the first dial
	<-tried // and again, on the link
	began := time.Now()
	a.Hang(first.Link, "meanwhile")
	a.await("another link", func() bool { up := standing(a.events); return len(up) == 1 && up[0].Link != first.Link })
	require.Less(t, time.Since(began), Defaults().OpenWithin-time.Second)
}

// Goal: Redial replaces what stands, from either side. Method: three times from
// each side; each time the link is another one, of the next epoch.
func TestRedialReplacesWhatStands(t *testing.T) {
	u := newUnit()
	// No device comes to doubt a link by itself within the test.
	slow := func(o *Options) { o.Limits.RedialMin, o.Limits.RedialMax = patience, patience }
	a, b := u.start(t, slow), u.start(t, slow)
	a.Keep(b.Address())
	b.Keep(a.Address())
	steady(t, a, b)
	before, _ := a.links.with(b.Key())
	for i := range 6 {
		d, e := a, b
		if i%2 == 1 {
			d, e = b, a
		}
		d.Redial()
		require.Eventually(t, func() bool {
			l, _ := d.links.with(e.Key())
			m, _ := e.links.with(d.Key())
			return l != nil && m != nil && l.dialled && l.rank == m.rank && l.rank.epoch == before.rank.epoch+uint64(i)+1
		}, patience, time.Millisecond)
	}
	a.greets(b, "from a")
	b.greets(a, "from b")
}

// Goal: a device that was started again on its port is linked again at once, by
// whichever side dials, although the other side still believes in the old link.
// Method: the old run's socket vanishes without a goodbye.
func TestRestartedDeviceIsLinkedAtOnce(t *testing.T) {
	u := newUnit()
	private, public := newKey(t)
	u.admit(public, true)
	same := func(o *Options) { o.Key = private }
	a, b := u.start(t), u.start(t, same)
	addr := b.Address()
	a.Keep(addr)
	a.greets(b, "before")
	require.NoError(t, b.sockets.udp.Close()) // as a crash would
	b.stop()
	again := u.start(t, same, func(o *Options) { o.Listen = addr })
	a.Send(a.linked(public).Link, mesh.StreamTap, []byte("into the void"))
	again.linked(a.Key())
	a.await("the new link", func() bool { up := standing(a.events); return len(up) == 1 && up[0].Link > 1 })
	a.greets(again, "after")
}

// Goal: on the network as it is (datagrams lost, doubled, out of order, bits
// turned, old ones sent again) every frame still arrives once and in order.
// Method: a forwarder that does all of that to a fifth of the datagrams.
func TestReplayedAndMangledDatagramsChangeNothing(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	var mu sync.Mutex
	random := rand.New(rand.NewPCG(seed, 3))
	var old [][]byte
	mangle := func(d []byte) [][]byte {
		mu.Lock()
		defer mu.Unlock()
		if len(old) < 200 {
			old = append(old, slices.Clone(d))
		}
		switch random.IntN(25) {
		case 0:
			return nil
		case 1:
			return [][]byte{d, d}
		case 2:
			return [][]byte{d, old[random.IntN(len(old))]}
		case 3, 4:
			m := slices.Clone(d)
			m[random.IntN(len(m))] ^= 1 << random.IntN(8)
			return [][]byte{m, d}
		}
		return [][]byte{d}
	}
	const count = 60
	u := newUnit()
	a, b := u.start(t), u.start(t)
	a.Keep(udpOnly(t, "127.0.0.1:0", b.Address(), mangle))
	l := a.linked(b.Key())
	for i := range count {
		a.Send(l.Link, mesh.StreamTap, numbered(mesh.StreamTap, i))
		a.Send(l.Link, mesh.StreamCatchUp, numbered(mesh.StreamCatchUp, i))
	}
	b.await("all frames", func() bool { return inOrder(t, b.arrived(), count) })
	require.Equal(t, 1, a.linksEver())
	require.Equal(t, 1, b.linksEver())
}

// Goal: one bit turned on TCP ends the link and is never delivered. Method: a
// forwarder that turns a bit behind the first 20 kB.
func TestABitTurnedOnTCPEndsTheLink(t *testing.T) {
	var passed atomic.Int64
	u := newUnit()
	a, b := u.start(t), u.start(t)
	front := tcpOnly(t, b.Address(), func(chunk []byte) {
		if n := passed.Add(int64(len(chunk))); n > 20_000 && len(chunk) > 0 {
			chunk[len(chunk)/2] ^= 4
		}
	})
	_, _, err := a.dial(context.Background(), front, wantsAny, a.ways()[1:])
	require.NoError(t, err)
	l := a.linked(b.Key())
	b.linked(a.Key())
	for i := range 100 {
		f := bytes.Repeat([]byte{0xaa}, 1000)
		binary.BigEndian.PutUint32(f, uint32(i))
		a.Send(l.Link, mesh.StreamTap, f)
	}
	b.await("the end", func() bool { return len(standing(b.events)) == 0 })
	a.await("the end", func() bool { return len(standing(a.events)) == 0 })
	for i, f := range b.arrived() {
		require.Equal(t, uint32(i), binary.BigEndian.Uint32(f))
		require.Equal(t, bytes.Repeat([]byte{0xaa}, 996), f[4:])
	}
}

// Goal: a device that does not take its frames costs bounded memory on both
// sides, and then its link. Method: Deliver blocks on the first frame; the other
// side sends until the link ends. What it got rid of must be no more than its
// queue, the windows and the buffers of the system.
func TestSlowDeliverStopsTheReader(t *testing.T) {
	for _, r := range reaches() {
		t.Run(r.name, func(t *testing.T) {
			release := make(chan struct{})
			var frames atomic.Int32
			u := newUnit()
			a := u.start(t, func(o *Options) { o.Limits.QueueLenMax = 1 << 20 })
			b := u.start(t, func(o *Options) {
				keep := o.Deliver
				o.Deliver = func(e mesh.Event) {
					if _, ok := e.(mesh.Arrived); ok {
						frames.Add(1)
						<-release
					}
					keep(e)
				}
			})
			t.Cleanup(b.stop)
			t.Cleanup(func() { close(release) })
			addr := r.to(t, b)
			a.Keep(addr)
			l := a.linked(b.Key())
			b.linked(a.Key())
			a.Drop(addr)
			sent, f := 0, make([]byte, mesh.FrameLenMax)
			require.Eventually(t, func() bool { // a frame now and then, as fast as a queue could drain
				a.Send(l.Link, mesh.StreamCatchUp, f)
				sent += len(f)
				return a.links.get(l.Link) == nil
			}, patience, time.Millisecond)
			a.await("the end", func() bool { return len(standing(a.events)) == 0 })
			require.LessOrEqual(t, frames.Load(), int32(1))
			require.Less(t, sent, 8<<20)
		})
	}
}

// Goal: ports are the first free of four, an exact one is exact. Method: the
// four are taken one after the other.
func TestPortsNextThreeThenInUse(t *testing.T) {
	o := Options{Tries: new(MemoryTries), Group: func() (mesh.GroupID, bool) { return mesh.GroupID{}, false },
		Member: func(mesh.Key) bool { return false }, Deliver: func(mesh.Event) {}}
	var last int
	for {
		o.Key, _ = newKey(t)
		n, err := New(o)
		if err != nil {
			require.ErrorIs(t, err, ErrPortInUse)
			break
		}
		defer n.Close()
		require.Greater(t, n.Port(), last)
		require.Less(t, n.Port(), PortDefault+PortsTried)
		last = n.Port()
	}
	udp, err := net.ListenPacket("udp", "127.0.0.1:0")
	require.NoError(t, err)
	defer udp.Close()
	o.Listen = udp.LocalAddr().String()
	_, err = New(o)
	require.ErrorIs(t, err, ErrPortInUse) // taken for UDP only
	for _, bad := range []func(*Options){
		func(o *Options) { o.Listen = "nonsense" }, func(o *Options) { o.Key = nil },
		func(o *Options) { o.Tries = nil }, func(o *Options) { o.Member = nil },
		func(o *Options) { o.Limits.CodeTries = 7 }, func(o *Options) { o.Limits = Defaults(); o.Limits.QueueLenMax = 1 },
	} {
		wrong := o
		bad(&wrong)
		_, err := New(wrong)
		require.True(t, errors.Is(err, ErrOptions), "%v", err)
	}
	require.Greater(t, Defaults().IdleMax, time.Minute) // the longest silence a session must outlive
}
