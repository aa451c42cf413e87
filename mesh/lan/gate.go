package lan

import (
	"net"
	"net/netip"
	"sync"
)

// gate counts connections that have not said hello yet, so that strangers
// cannot use up the device.
type gate struct {
	limits Limits

	mu    sync.Mutex // guards the rest
	from  map[netip.Addr]int
	total int
}

func newGate(l Limits) *gate { return &gate{limits: l, from: map[netip.Addr]int{}} }

// slot is one counted connection.
type slot struct {
	gate *gate
	addr netip.Addr
	once sync.Once
}

// enter counts one more from addr; nil when there are too many.
func (g *gate) enter(addr net.Addr) *slot {
	a := hostOf(addr)
	most := g.limits.HalfOpenPerAddress
	if a.IsLoopback() {
		most = g.limits.HalfOpenLoopback
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.total >= g.limits.HalfOpenTotal || g.from[a] >= most {
		return nil
	}
	g.total++
	g.from[a]++
	return &slot{gate: g, addr: a}
}

// leave gives the place back; calling it again does nothing.
func (s *slot) leave() {
	s.once.Do(func() {
		g := s.gate
		g.mu.Lock()
		defer g.mu.Unlock()
		g.total--
		if g.from[s.addr]--; g.from[s.addr] == 0 {
			delete(g.from, s.addr)
		}
	})
}

// crowded tells whether a new address must first prove that it is its own.
func (g *gate) crowded(net.Addr) bool {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.total > g.limits.RetryOver
}

// hostOf returns the address without its port, the zero Addr if it has none.
func hostOf(addr net.Addr) netip.Addr {
	ap, err := netip.ParseAddrPort(addr.String())
	if err != nil {
		return netip.Addr{}
	}
	return ap.Addr().Unmap().WithZone("")
}
