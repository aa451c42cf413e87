package lossy

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"runtime"
	"sync"
	"time"

	"golang.org/x/sys/unix"
)

// World is one thread in a network namespace of its own, whose only way out is
// a tunnel device. Sockets made by functions given to Do belong to it.
type World struct {
	jobs   chan func()
	tun    *os.File
	thread sync.WaitGroup // joined by Close
}

// NewWorld makes one with this address (a.b.c.d/n) on its tunnel, or says what
// the machine lacks. Close ends it also after an error.
func NewWorld(address string) (*World, error) {
	made := make(chan error, 1)
	w := &World{jobs: make(chan func())}
	w.thread.Go(func() {
		runtime.LockOSThread() // never unlocked: the thread ends with this goroutine
		var err error
		w.tun, err = enter(address)
		made <- err
		for f := range w.jobs {
			f()
		}
	})
	return w, <-made
}

// Do calls f on the world's thread and waits for it.
func (w *World) Do(f func()) {
	done := make(chan struct{})
	w.jobs <- func() { defer close(done); f() }
	<-done
}

// Close ends the world's thread and with it the namespace.
func (w *World) Close() {
	close(w.jobs)
	w.thread.Wait()
	if w.tun != nil {
		_ = w.tun.Close() // nothing was kept in it
	}
}

// enter moves the calling thread into a new namespace with a tunnel.
func enter(address string) (*os.File, error) {
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

// packetLenMax is the longest packet that a tunnel gives.
const packetLenMax = 64 << 10

// Join carries packets between two worlds and loses a share of them, each way,
// until stop is called. The seed decides which.
func Join(one, two *World, share float64, seed uint64) (stop func()) {
	var both sync.WaitGroup // joined by stop
	carry := func(from, to *os.File, random *rand.Rand) {
		for p := make([]byte, packetLenMax); ; {
			n, err := from.Read(p)
			if err != nil {
				return
			}
			if random.Float64() >= share {
				_, _ = to.Write(p[:n]) // a full tunnel loses it, as a network does
			}
		}
	}
	both.Go(func() { carry(one.tun, two.tun, rand.New(rand.NewPCG(seed, 1))) })
	both.Go(func() { carry(two.tun, one.tun, rand.New(rand.NewPCG(seed, 2))) })
	return func() {
		_ = one.tun.SetReadDeadline(time.Unix(1, 0)) // a deadline on an open tunnel cannot fail
		_ = two.tun.SetReadDeadline(time.Unix(1, 0))
		both.Wait()
	}
}
