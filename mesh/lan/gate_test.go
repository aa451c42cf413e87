package lan

import (
	"fmt"
	"io"
	"net"
	"net/netip"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: half-open connections are bounded per address and in all, and given
// back once each. Method: the gate alone, over made-up addresses.
func TestGateBoundsHalfOpenConnections(t *testing.T) {
	l := Defaults()
	g := newGate(l)
	at := func(host string) net.Addr { return &net.TCPAddr{IP: net.ParseIP(host), Port: 1} }
	var slots []*slot
	for range l.HalfOpenPerAddress {
		slots = append(slots, g.enter(at("192.0.2.1")))
	}
	require.NotContains(t, slots, (*slot)(nil))
	require.Nil(t, g.enter(at("192.0.2.1")))
	require.Nil(t, g.enter(at("::ffff:192.0.2.1")), "the same address in IPv6's clothes")
	require.False(t, g.crowded(nil), "Retry is asked for only beyond RetryOver")
	slots = append(slots, g.enter(at("192.0.2.2")))
	require.True(t, g.crowded(nil))
	for i := 0; len(slots) < l.HalfOpenTotal; i++ {
		slots = append(slots, g.enter(&net.UDPAddr{IP: net.IPv4(198, 51, 100, byte(i)), Port: 9}))
	}
	require.Nil(t, g.enter(at("192.0.2.3")))
	for _, s := range slots {
		s.leave()
		s.leave()
	}
	require.Zero(t, g.total)
	require.Empty(t, g.from)
	for range l.HalfOpenLoopback {
		require.NotNil(t, g.enter(at("127.0.0.1")))
	}
	require.Nil(t, g.enter(at("127.0.0.1")))
}

// Goal: silent connections keep nobody out for longer than OpenWithin. Method:
// as many silent TCP connections as are let in; one more is closed at once; a
// device still links.
func TestSilentConnectionsAreCutOff(t *testing.T) {
	u := newUnit()
	a := u.start(t)
	b := u.start(t, func(o *Options) { o.Limits.OpenWithin = 500 * time.Millisecond })
	dial := func() net.Conn {
		c, err := net.Dial("tcp", b.Address())
		require.NoError(t, err)
		t.Cleanup(func() { _ = c.Close() })
		return c
	}
	began := time.Now()
	var silent []net.Conn
	for range Defaults().HalfOpenLoopback {
		silent = append(silent, dial())
	}
	over := dial()
	_ = over.SetReadDeadline(time.Now().Add(patience))
	_, err := over.Read(make([]byte, 1))
	require.Error(t, err)
	require.NotErrorIs(t, err, net.ErrClosed)
	for _, c := range silent {
		_ = c.SetReadDeadline(time.Now().Add(patience))
		_, err := c.Read(make([]byte, 1))
		require.ErrorIs(t, err, io.EOF)
	}
	require.Less(t, time.Since(began), patience/2)
	a.Keep(b.Address())
	a.greets(b, "hello")
}

// Goal: an admitted device that never says hello is cut off too and is no link.
// Method: a session by hand that stops before its hello.
func TestNoHelloIsNoLink(t *testing.T) {
	u := newUnit()
	b := u.start(t, func(o *Options) { o.Limits.OpenWithin = 300 * time.Millisecond })
	tc, c, _ := u.byHand(t, b)
	_ = tc.SetReadDeadline(time.Now().Add(patience))
	_, _, err := c.read(c.lanes[0], mesh.FrameLenMax)
	var closed *closedError
	require.ErrorAs(t, err, &closed)
	require.Zero(t, b.linksEver())
}

// Goal: Address can be dialled as it stands. Method: a loopback device, and one
// on every address of the machine.
func TestAddressCanBeDialled(t *testing.T) {
	u := newUnit()
	a := u.start(t)
	b := u.start(t, func(o *Options) { o.Listen = ":0" })
	require.Equal(t, fmt.Sprintf("127.0.0.1:%d", a.Port()), a.Address())
	for _, addr := range b.Addresses() {
		if _, err := netip.ParseAddrPort(addr); err != nil {
			t.Fatal(err)
		}
	}
	b.Keep(a.Address())
	b.linked(a.Key())
	host, port, err := net.SplitHostPort(b.Address())
	require.NoError(t, err)
	require.NotEmpty(t, host)
	require.Equal(t, fmt.Sprint(b.Port()), port)
}
