package lan

import (
	"context"
	"errors"
	"sync"
	"time"

	"lintel/mesh"
)

// keepers are the addresses that are dialled again and again.
type keepers struct {
	mu  sync.Mutex // guards the rest
	ctx context.Context
	net *Net
	all map[string]*keeper
}

// keeper keeps one address. Its fields but again belong to its own goroutine.
type keeper struct {
	addr   string
	cancel context.CancelFunc
	again  chan struct{} // holds at most one signal: dial at once, doubt what stands

	peer    mesh.Key // last found at the address
	found   bool
	doubted bool // the other side kept a link that this side does not have
}

// Keep dials an address, "host:port" or "host" for PortDefault, and dials again
// whenever no link with the device found there stands. Keeping it twice is
// keeping it once.
func (n *Net) Keep(addr string) { n.keepAs(addr, ByTyping) }

func (n *Net) keepAs(addr string, way Ways) {
	n.finder.table.keep(addr, way, time.Now())
	n.keepers.keep(plainAddress(addr))
}

// Drop stops keeping an address. A link that stands stays.
func (n *Net) Drop(addr string) {
	n.finder.table.forget(addr)
	n.keepers.drop(plainAddress(addr))
}

// keep begins to dial an address, once.
func (k *keepers) keep(addr string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.all[addr] != nil {
		return
	}
	k.all[addr] = &keeper{addr: addr, again: make(chan struct{}, 1)}
	k.begin(k.all[addr])
}

// drop dials an address no more.
func (k *keepers) drop(addr string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if one := k.all[addr]; one != nil {
		delete(k.all, addr)
		if one.cancel != nil {
			one.cancel()
		}
	}
}

// Redial dials every kept address at once and prefers what comes of it to what
// stands: after a sleep, or when this device has another address.
func (n *Net) Redial() {
	k := &n.keepers
	k.mu.Lock()
	defer k.mu.Unlock()
	for _, one := range k.all {
		select {
		case one.again <- struct{}{}:
		default: // the signal that is there does the same
		}
	}
}

// start begins to dial what was kept before Run.
func (k *keepers) start(ctx context.Context, n *Net) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.ctx, k.net = ctx, n
	for _, one := range k.all {
		k.begin(one)
	}
}

// stop returns when no keeper can begin any more; the context has ended.
func (k *keepers) stop() {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.ctx = nil
}

// begin starts a keeper's goroutine, which Run joins. The lock is held.
func (k *keepers) begin(one *keeper) {
	if k.ctx == nil {
		return
	}
	var ctx context.Context
	ctx, one.cancel = context.WithCancel(k.ctx)
	k.net.working.Go(func() { one.keep(ctx, k.net) })
}

// keep dials, waits while a link stands, and pauses ever longer while none comes.
func (one *keeper) keep(ctx context.Context, n *Net) {
	want, pause := wantsAny, n.opt.Limits.RedialMin
	var began time.Time
	for ctx.Err() == nil {
		if want == wantsFresh || !one.stands(n) {
			began = time.Now()
			if one.dial(ctx, n, want) {
				pause = n.opt.Limits.RedialMin
			}
			if !one.stands(n) {
				want = one.rest(ctx, began.Add(pause))
				pause = min(2*pause, n.opt.Limits.RedialMax)
				continue
			}
		}
		if want = one.watch(ctx, n); want == wantsAny {
			// At once, unless the link was so short that it may happen again.
			want = one.rest(ctx, began.Add(n.opt.Limits.RedialMin))
		}
	}
}

// stands tells whether there is a link with the device last found.
func (one *keeper) stands(n *Net) bool {
	if !one.found {
		return false
	}
	l, _ := n.links.with(one.peer)
	return l != nil
}

// dial tries once and tells whether somebody answered.
func (one *keeper) dial(ctx context.Context, n *Net, want intent) bool {
	if one.doubted {
		want = wantsFresh
	}
	_, peer, err := n.dial(ctx, one.addr, want, n.ways())
	// The other side keeps a link that may be on its way; if this side still
	// has none when the pause is over, that link is a dead one.
	one.doubted = errors.Is(err, errStands)
	if peer != (mesh.Key{}) {
		one.peer, one.found = peer, true
		n.finder.table.reached(one.addr, peer)
	}
	if err != nil && !one.doubted && ctx.Err() == nil && n.finder.table.isLasting(one.addr) {
		n.opt.Failed(one.addr, err)
	}
	return err == nil || one.doubted
}

// rest pauses until it is time for the next dial.
func (one *keeper) rest(ctx context.Context, until time.Time) intent {
	timer := time.NewTimer(max(time.Until(until), 0))
	defer timer.Stop()
	select {
	case <-ctx.Done():
	case <-timer.C:
	case <-one.again:
		return wantsFresh
	}
	return wantsAny
}

// watch waits until the link with the device is gone or is to be doubted. While
// a link dialled from here is on TCP it tries QUIC again beside waiting.
func (one *keeper) watch(ctx context.Context, n *Net) intent {
	better := time.NewTicker(n.opt.Limits.QUICAgain)
	defer better.Stop()
	trying := make(chan struct{}, 1) // holds one token while QUIC is tried
	var tries sync.WaitGroup         // joined when watch returns, after its context ended
	defer tries.Wait()
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	for {
		l, changed := n.links.with(one.peer)
		if l == nil {
			return wantsAny
		}
		one.doubted = false
		select {
		case <-ctx.Done():
			return wantsAny
		case <-one.again:
			return wantsFresh
		case <-better.C:
			if !l.dialled || l.c.via != mesh.OverTCP || len(trying) > 0 {
				continue
			}
			trying <- struct{}{}
			tries.Go(func() {
				// It fails as long as QUIC does not get through; nothing is lost then.
				_, _, _ = n.dial(ctx, one.addr, wantsBetter, n.ways()[:1])
				<-trying
			})
		case <-changed:
		}
	}
}
