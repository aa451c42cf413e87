package lan

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"runtime"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"

	"lintel/mesh"
)

// world is one thread in a network namespace of its own, whose only way out is
// a tunnel device. Sockets made by functions given to do belong to it.
type world struct {
	do  func(func())
	tun *os.File
}

// newWorld makes one with this address (a.b.c.d/n) on its tunnel, or says what
// the machine lacks.
func newWorld(b *testing.B, address string) (*world, error) {
	jobs, made := make(chan func()), make(chan error, 1)
	w := &world{do: func(f func()) {
		done := make(chan struct{})
		jobs <- func() { defer close(done); f() }
		<-done
	}}
	var thread sync.WaitGroup // joined by the cleanup
	thread.Go(func() {
		runtime.LockOSThread() // never unlocked: the thread ends with this goroutine
		var err error
		w.tun, err = enterWorld(address)
		made <- err
		for f := range jobs {
			f()
		}
	})
	b.Cleanup(func() {
		close(jobs)
		thread.Wait()
		if w.tun != nil {
			_ = w.tun.Close()
		}
	})
	return w, <-made
}

// enterWorld moves the calling thread into a new namespace with a tunnel.
func enterWorld(address string) (*os.File, error) {
	if err := unix.Unshare(unix.CLONE_NEWNET); err != nil {
		return nil, fmt.Errorf("a network namespace: %w", err)
	}
	fd, err := unix.Open("/dev/net/tun", unix.O_RDWR|unix.O_NONBLOCK|unix.O_CLOEXEC, 0)
	if err != nil {
		return nil, fmt.Errorf("a tunnel: %w", err)
	}
	request, err := unix.NewIfreq("wire0")
	if err == nil {
		request.SetUint16(unix.IFF_TUN | unix.IFF_NO_PI)
		err = unix.IoctlIfreq(fd, unix.TUNSETIFF, request)
	}
	if err != nil {
		_ = unix.Close(fd)
		return nil, fmt.Errorf("a tunnel: %w", err)
	}
	for _, args := range [][]string{{"addr", "add", address, "dev", "wire0"}, {"link", "set", "wire0", "up"}} {
		if out, err := exec.Command("ip", args...).CombinedOutput(); err != nil {
			_ = unix.Close(fd)
			return nil, fmt.Errorf("ip %v: %v: %s", args, err, out)
		}
	}
	return os.NewFile(uintptr(fd), "tunnel"), nil
}

// lossySwitch carries packets between two worlds and loses a share of them, each
// way, until the test ends.
func lossySwitch(b *testing.B, one, two *world, share float64, seed uint64) {
	var both sync.WaitGroup // joined by the cleanup
	carry := func(from, to *os.File, random *rand.Rand) {
		for p := make([]byte, 64<<10); ; {
			n, err := from.Read(p)
			if err != nil {
				return
			}
			if random.Float64() >= share {
				_, _ = to.Write(p[:n])
			}
		}
	}
	both.Go(func() { carry(one.tun, two.tun, rand.New(rand.NewPCG(seed, 1))) })
	both.Go(func() { carry(two.tun, one.tun, rand.New(rand.NewPCG(seed, 2))) })
	b.Cleanup(func() {
		_ = one.tun.SetReadDeadline(time.Unix(1, 0))
		_ = two.tun.SetReadDeadline(time.Unix(1, 0))
		both.Wait()
	})
}

// BenchmarkRoundTripAt20PercentLoss measures a frame and its answer over a
// switch that loses a fifth of the packets each way: QUIC beside TCP, both with
// the same TLS and the same frames. It needs root, /dev/net/tun and ip.
func BenchmarkRoundTripAt20PercentLoss(b *testing.B) {
	for _, over := range []mesh.Transport{mesh.OverQUIC, mesh.OverTCP} {
		b.Run(map[mesh.Transport]string{mesh.OverQUIC: "QUIC", mesh.OverTCP: "TCP"}[over], func(b *testing.B) {
			one, err := newWorld(b, "10.9.0.1/24")
			two, err2 := newWorld(b, "10.9.0.2/24")
			if err := errors.Join(err, err2); err != nil {
				b.Skipf("no lossy switch on this machine: %v", err)
			}
			roundTrips(b, one, two, over, 0.20)
		})
	}
}

func roundTrips(b *testing.B, one, two *world, over mesh.Transport, loss float64) {
	seed := rand.Uint64()
	b.Logf("seed %d", seed)
	u := newUnit()
	patient := func(o *Options) { o.Limits.OpenWithin = time.Minute }
	var a, z *device
	back := make(chan struct{}, 1)
	one.do(func() {
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
	two.do(func() {
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
	lossySwitch(b, one, two, loss, seed)
	// In the world's own thread, since dialling TCP makes a socket.
	one.do(func() {
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
