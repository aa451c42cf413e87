package lan

import (
	"context"
	"io"
	"net"
	"net/netip"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// tcpOnly forwards TCP connections to a device and has nobody on UDP. change,
// if not nil, may alter the bytes of each chunk on its way to the device. It
// returns the address to dial.
func tcpOnly(t testing.TB, to string, change func([]byte)) string {
	front, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	var all sync.WaitGroup // joined by the cleanup
	t.Cleanup(func() {
		cancel()
		_ = front.Close()
		all.Wait()
	})
	all.Go(func() {
		for {
			near, err := front.Accept()
			if err != nil {
				return
			}
			far, err := net.Dial("tcp", to)
			if err != nil {
				_ = near.Close()
				continue
			}
			context.AfterFunc(ctx, func() { _, _ = near.Close(), far.Close() })
			all.Go(func() { pipe(far, near, change) })
			all.Go(func() { pipe(near, far, nil) })
		}
	})
	return front.Addr().String()
}

func pipe(to, from net.Conn, change func([]byte)) {
	defer to.Close()
	defer from.Close()
	b := make([]byte, 32<<10)
	for {
		n, err := from.Read(b)
		if change != nil {
			change(b[:n])
		}
		if _, werr := to.Write(b[:n]); werr != nil || err != nil {
			return
		}
	}
}

// udpOnly forwards datagrams between anybody and a device, one socket per
// sender, and has nobody on TCP. pass decides for each datagram which ones go
// on in its place. at is where to listen, "127.0.0.1:0" for anywhere.
func udpOnly(t testing.TB, at, to string, pass func([]byte) [][]byte) string {
	front, err := net.ListenPacket("udp", at)
	require.NoError(t, err)
	device, err := net.ResolveUDPAddr("udp", to)
	require.NoError(t, err)
	var all sync.WaitGroup // joined by the cleanup
	var mu sync.Mutex
	backs := map[netip.AddrPort]net.PacketConn{}
	t.Cleanup(func() {
		_ = front.Close()
		mu.Lock()
		for _, b := range backs {
			_ = b.Close()
		}
		mu.Unlock()
		all.Wait()
	})
	relay := func(from net.PacketConn, send func([]byte)) {
		for b := make([]byte, 64<<10); ; {
			n, _, err := from.ReadFrom(b)
			if err != nil {
				return
			}
			for _, d := range pass(append([]byte(nil), b[:n]...)) {
				send(d)
			}
		}
	}
	all.Go(func() {
		for b := make([]byte, 64<<10); ; {
			n, sender, err := front.ReadFrom(b)
			if err != nil {
				return
			}
			key := sender.(*net.UDPAddr).AddrPort()
			mu.Lock()
			back := backs[key]
			if back == nil {
				back, err = net.ListenPacket("udp", "127.0.0.1:0")
				if err == nil {
					backs[key] = back
					all.Go(func() { relay(back, func(d []byte) { _, _ = front.WriteTo(d, sender) }) })
				}
			}
			mu.Unlock()
			if err != nil {
				return
			}
			for _, d := range pass(append([]byte(nil), b[:n]...)) {
				_, _ = back.WriteTo(d, device)
			}
		}
	})
	return front.LocalAddr().String()
}

// unchanged passes every datagram on as it is.
func unchanged(d []byte) [][]byte { return [][]byte{d} }

// readAll reads what a connection gives within patience.
func readAll(c net.Conn) []byte {
	_ = c.SetReadDeadline(time.Now().Add(patience))
	b, _ := io.ReadAll(c)
	return b
}
