package lan

import (
	"context"
	"crypto/ed25519"
	"crypto/tls"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// patience is how long a test waits for something that should come soon.
const patience = 20 * time.Second

// unit is a group of test devices: who is admitted is shared by all of them.
type unit struct {
	group mesh.GroupID

	mu      sync.Mutex // guards members
	members map[mesh.Key]bool
}

func newUnit() *unit { return &unit{group: mesh.GroupID{1, 2, 3}, members: map[mesh.Key]bool{}} }

func (u *unit) admit(k mesh.Key, in bool) {
	u.mu.Lock()
	defer u.mu.Unlock()
	u.members[k] = in
}

func (u *unit) member(k mesh.Key) bool {
	u.mu.Lock()
	defer u.mu.Unlock()
	return u.members[k]
}

// device is a Net at work whose events are kept.
type device struct {
	*Net
	t    testing.TB
	stop func() // ends Run and waits for it

	mu      sync.Mutex // guards the rest
	events  []mesh.Event
	failed  []error
	changed chan struct{}
}

func newKey(t testing.TB) (ed25519.PrivateKey, mesh.Key) {
	public, private, err := ed25519.GenerateKey(nil)
	require.NoError(t, err)
	return private, mesh.Key(public)
}

// start runs an admitted device on loopback; change may alter its options.
func (u *unit) start(t testing.TB, change ...func(*Options)) *device {
	private, public := newKey(t)
	u.admit(public, true)
	d := &device{t: t, changed: make(chan struct{})}
	o := Options{
		Key: private, Listen: "127.0.0.1:0", Tries: new(MemoryTries), Limits: Defaults(),
		Group: func() (mesh.GroupID, bool) { return u.group, true }, Member: u.member,
		Deliver: func(e mesh.Event) { d.keep(func() { d.events = append(d.events, e) }) },
		Failed:  func(_ string, err error) { d.keep(func() { d.failed = append(d.failed, err) }) },
	}
	o.Limits.TCPAfter = 200 * time.Millisecond
	o.Limits.RedialMin = 20 * time.Millisecond
	o.Limits.RedialMax = 100 * time.Millisecond
	for _, f := range change {
		f(&o)
	}
	var err error
	d.Net, err = New(o)
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- d.Run(ctx) }() // joined by stop
	d.stop = sync.OnceFunc(func() {
		cancel()
		select {
		case err := <-ended:
			require.NoError(t, err)
		case <-time.After(patience):
			t.Error("Run did not end")
		}
	})
	t.Cleanup(d.stop)
	return d
}

func (d *device) keep(change func()) {
	d.mu.Lock()
	defer d.mu.Unlock()
	change()
	close(d.changed)
	d.changed = make(chan struct{})
}

// await waits until holds, which is asked with the lock held, is true.
func (d *device) await(what string, holds func() bool) {
	d.t.Helper()
	late := time.After(patience)
	for {
		d.mu.Lock()
		ok, changed := holds(), d.changed
		d.mu.Unlock()
		if ok {
			return
		}
		select {
		case <-changed:
		case <-late:
			d.mu.Lock()
			defer d.mu.Unlock()
			d.t.Fatalf("%s did not come; %d events, last %+v; failures %v",
				what, len(d.events), d.events[max(0, len(d.events)-3):], d.failed[max(0, len(d.failed)-3):])
		}
	}
}

// standing returns the links that are up, in the order in which they came.
func standing(events []mesh.Event) (up []mesh.LinkUp) {
	for _, e := range events {
		switch e := e.(type) {
		case mesh.LinkUp:
			up = append(up, e)
		case mesh.LinkDown:
			up = slices.DeleteFunc(up, func(u mesh.LinkUp) bool { return u.Link == e.Link })
		}
	}
	return up
}

// linked waits for exactly one link with a device and returns it.
func (d *device) linked(with mesh.Key) (up mesh.LinkUp) {
	d.t.Helper()
	d.await("a link", func() bool {
		n := 0
		for _, u := range standing(d.events) {
			if u.Peer == with {
				n, up = n+1, u
			}
		}
		return n == 1
	})
	return up
}

// linksEver counts LinkUp events.
func (d *device) linksEver() (n int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, e := range d.events {
		if _, ok := e.(mesh.LinkUp); ok {
			n++
		}
	}
	return n
}

// arrived returns the frames that came, with the lock held.
func (d *device) arrived() (frames [][]byte) {
	for _, e := range d.events {
		if a, ok := e.(mesh.Arrived); ok {
			frames = append(frames, a.Frame)
		}
	}
	return frames
}

// greets sends a word from d to e on their link, again if that is replaced by
// another, and waits for it.
func (d *device) greets(e *device, word string) {
	d.t.Helper()
	var sentOn *link
	require.Eventually(d.t, func() bool {
		if l, _ := d.links.with(e.Key()); l != nil && l != sentOn {
			d.Send(l.id, mesh.StreamTap, []byte(word))
			sentOn = l
		}
		e.mu.Lock()
		defer e.mu.Unlock()
		return slices.ContainsFunc(e.arrived(), func(f []byte) bool { return string(f) == word })
	}, patience, time.Millisecond, word)
}

// strangerTLS is what a program of our own making would dial with.
func strangerTLS(t testing.TB, private ed25519.PrivateKey, protocol string) *tls.Config {
	certificate, err := certify(private)
	require.NoError(t, err)
	return &tls.Config{
		MinVersion: tls.VersionTLS13, Certificates: []tls.Certificate{certificate},
		NextProtos: []string{protocol}, InsecureSkipVerify: true, ServerName: "x",
	}
}
