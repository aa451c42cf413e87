package lan

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
	"lintel/mesh/lan/lossy"
)

// BenchmarkRoundTripAt20PercentLoss measures a frame and its answer over a
// switch that loses a fifth of the packets each way: QUIC beside TCP, both with
// the same TLS and the same frames. It needs root, /dev/net/tun and ip.
func BenchmarkRoundTripAt20PercentLoss(b *testing.B) {
	for _, over := range []mesh.Transport{mesh.OverQUIC, mesh.OverTCP} {
		b.Run(map[mesh.Transport]string{mesh.OverQUIC: "QUIC", mesh.OverTCP: "TCP"}[over], func(b *testing.B) {
			one, err := lossy.NewWorld("10.9.0.1/24")
			two, err2 := lossy.NewWorld("10.9.0.2/24")
			b.Cleanup(one.Close)
			b.Cleanup(two.Close)
			if err := errors.Join(err, err2); err != nil {
				b.Skipf("no lossy switch on this machine: %v", err)
			}
			roundTrips(b, one, two, over, 0.20)
		})
	}
}

func roundTrips(b *testing.B, one, two *lossy.World, over mesh.Transport, loss float64) {
	seed := rand.Uint64()
	b.Logf("seed %d", seed)
	u := newUnit()
	patient := func(o *Options) { o.Limits.OpenWithin = time.Minute }
	var a, z *device
	back := make(chan struct{}, 1)
	one.Do(func() {
		a = u.start(b, patient, func(o *Options) {
			o.Listen = "10.9.0.1:0"
			keep := o.Deliver
			o.Deliver = func(e mesh.Event) {
				if _, ok := e.(mesh.Arrived); ok {
					back <- struct{}{}
					return
				}
				keep(e)
			}
		})
	})
	two.Do(func() {
		z = u.start(b, patient, func(o *Options) {
			o.Listen = "10.9.0.2:0"
			keep := o.Deliver
			o.Deliver = func(e mesh.Event) {
				if f, ok := e.(mesh.Arrived); ok {
					z.Send(f.Link, mesh.StreamTap, f.Frame)
					return
				}
				keep(e)
			}
		})
	})
	b.Cleanup(lossy.Join(one, two, loss, seed))
	// In the world's own thread, since dialling TCP makes a socket.
	one.Do(func() {
		open := map[mesh.Transport]func(context.Context, string, string) opened{mesh.OverQUIC: a.openQUIC, mesh.OverTCP: a.openTCP}[over]
		ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
		defer cancel()
		o := open(ctx, z.Address(), forFrames)
		require.NoError(b, o.err)
		_, err := a.take(o, wantsAny)
		require.NoError(b, err)
	})
	l := a.linked(z.Key())
	require.Equal(b, over, l.Via)
	z.linked(a.Key())
	frame := make([]byte, 300) // about a tap
	var took []time.Duration
	for b.Loop() {
		began := time.Now()
		a.Send(l.Link, mesh.StreamTap, frame)
		<-back
		took = append(took, time.Since(began))
	}
	slices.Sort(took)
	for _, p := range []int{50, 90, 99} {
		b.ReportMetric(float64(took[(len(took)-1)*p/100].Microseconds())/1000, fmt.Sprintf("p%d-ms", p))
	}
}
