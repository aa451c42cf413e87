package integration

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/device"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/mesh/lan"
	"lintel/mesh/lan/lossy"
	"lintel/requests"
)

// lossShare is the share of packets that the switch loses, each way.
const lossShare = 0.20

// BenchmarkTapToReceiptAt20PercentLoss measures from a tap until another
// device's receipt for it: entry, signature, sync, QUIC over a switch that
// loses a fifth of the packets each way, verification, sync, receipt. Beside it,
// on the same switch: 300 bytes over plain TCP, synced on both ends, answered.
// It needs root, /dev/net/tun and ip.
func BenchmarkTapToReceiptAt20PercentLoss(b *testing.B) {
	for name, measure := range map[string]func(*testing.B, *lossy.World, *lossy.World){"Lintel": taps, "TCP": plainTCP} {
		b.Run(name, func(b *testing.B) {
			one, err := lossy.NewWorld("10.9.0.1/24")
			b.Cleanup(one.Close)
			two, err2 := lossy.NewWorld("10.9.0.2/24")
			b.Cleanup(two.Close)
			if err := errors.Join(err, err2); err != nil {
				b.Skipf("no lossy switch on this machine: %v", err)
			}
			seed := rand.Uint64()
			b.Logf("seed %d", seed)
			b.Cleanup(lossy.Join(one, two, lossShare, seed))
			measure(b, one, two)
		})
	}
}

// reportTimes reports the percentiles (nearest rank) of what was measured.
func reportTimes(b *testing.B, took []time.Duration) {
	slices.Sort(took)
	for _, p := range []int{50, 90, 99} {
		b.ReportMetric(float64(took[(len(took)-1)*p/100].Microseconds())/1000, fmt.Sprintf("p%d-ms", p))
	}
}

// lossyDevice is a device whose sockets lie in a world of its own.
func lossyDevice(b *testing.B, w *lossy.World, listen string, told func(mesh.Effect)) (d *device.Device) {
	limits := lan.Defaults()
	limits.OpenWithin = time.Minute
	var err error
	w.Do(func() {
		d, err = device.Open(device.Options{Dir: b.TempDir(), Name: mesh.Label(listen), Listen: listen, Told: told, Limits: limits, Quiet: true})
	})
	require.NoError(b, err)
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- d.Run(ctx) }() // awaited in the cleanup
	b.Cleanup(func() {
		stop()
		<-ended
	})
	<-d.Ready()
	return d
}

func taps(b *testing.B, one, two *lossy.World) {
	receipts := make(chan mesh.Seq, 1<<16)
	told := func(e mesh.Effect) {
		if c, ok := e.(mesh.Copied); ok {
			receipts <- c.At.Seq
		}
	}
	a := lossyDevice(b, one, "10.9.0.1:29460", told)
	z := lossyDevice(b, two, "10.9.0.2:29460", nil)
	require.NoError(b, a.Found("lossy unit"))
	code, _, err := a.Invite(b.Context(), mesh.By{}, func(mesh.Key, error) {})
	require.NoError(b, err)
	require.NoError(b, z.Join(b.Context(), a.Address(), code))
	s, err := a.Station()
	require.NoError(b, err)
	tap := func() time.Duration {
		began := time.Now()
		r, err := s.Do(b.Context(), people(0), station.Ask{
			Room: "A1", Thing: requests.Thing{Item: 1007, Count: 1}, Urgency: requests.RightNow,
		})
		require.NoError(b, err)
		for seq := range receipts {
			if seq >= r.At.Seq {
				return time.Since(began)
			}
		}
		return 0
	}
	tap() // until the link stands
	var took []time.Duration
	for b.Loop() {
		took = append(took, tap())
	}
	reportTimes(b, took)
}

// syncedFile writes a message and syncs.
func syncedFile(b *testing.B) func([]byte) {
	f, err := os.Create(filepath.Join(b.TempDir(), "log"))
	require.NoError(b, err)
	b.Cleanup(func() { _ = f.Close() })
	return func(p []byte) {
		_, err := f.Write(p)
		require.NoError(b, errors.Join(err, f.Sync()))
	}
}

func plainTCP(b *testing.B, one, two *lossy.World) {
	var l net.Listener
	var here net.Conn
	var err error
	two.Do(func() { l, err = net.Listen("tcp", "10.9.0.2:29470") })
	require.NoError(b, err)
	b.Cleanup(func() { _ = l.Close() })
	writeThere := syncedFile(b)
	go func() { // ends when the connection or the listener is closed
		there, err := l.Accept()
		if err != nil {
			return
		}
		defer there.Close()
		p := make([]byte, 300)
		for {
			if _, err := io.ReadFull(there, p); err != nil {
				return
			}
			writeThere(p)
			if _, err := there.Write(p[:1]); err != nil {
				return
			}
		}
	}()
	one.Do(func() { here, err = net.DialTimeout("tcp", "10.9.0.2:29470", time.Minute) })
	require.NoError(b, err)
	b.Cleanup(func() { _ = here.Close() })
	writeHere := syncedFile(b)
	p := make([]byte, 300)
	var took []time.Duration
	for b.Loop() {
		began := time.Now()
		writeHere(p)
		_, err := here.Write(p)
		require.NoError(b, err)
		_, err = io.ReadFull(here, make([]byte, 1))
		require.NoError(b, err)
		took = append(took, time.Since(began))
	}
	reportTimes(b, took)
}
