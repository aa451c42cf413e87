package lan

import (
	"context"
	"net"
	"net/netip"
	"slices"
	"time"

	"lintel/mesh"
)

// toldMax bounds the addresses taken at once from one member about one device.
const toldMax = 8

// Nearby lists what was found lately and does not match this device's group, or
// everything if it has none: what a device that wants to join can choose from.
// One device can stand in it with several addresses. Nothing in it is proved.
func (n *Net) Nearby() []Candidate {
	now := time.Now()
	return n.finder.table.list(func(c *candidate) bool {
		return !c.matches && c.sign.port != 0 && now.Sub(c.Seen) <= strangeFor
	})
}

// FoundBy lists the addresses at which a device answered, or has its link, with
// the ways they were found. None: it found this device, and not the other way.
func (n *Net) FoundBy(peer mesh.Key) []Candidate {
	at := ""
	if l, _ := n.links.with(peer); l != nil {
		at = plainAddress(l.address)
	}
	return n.finder.table.list(func(c *candidate) bool { return c.reached && c.peer == peer || c.Address == at })
}

// Remember is Keep for an address that worked before.
func (n *Net) Remember(addr string) { n.keepAs(addr, ByMemory) }

// Told takes the addresses of a device that a member has passed on. Those that
// only mean something on the teller's machine are left out. It does nothing
// without Options.Find.
func (n *Net) Told(teller mesh.Key, hosts []string) {
	l, _ := n.links.with(teller)
	if l == nil || !n.finds() {
		return
	}
	for _, h := range hosts[:min(len(hosts), toldMax)] {
		ap, err := netip.ParseAddrPort(h)
		if err != nil || ap.Port() == 0 || !ap.Addr().Unmap().IsGlobalUnicast() {
			continue // link-local ones need the teller's own interface, loopback is its own
		}
		n.finder.note(sighting{addr: h, way: ByTelling, teller: teller, match: true})
	}
}

// finds tells whether this Net looks for others: it is asked to, and can be
// reached from elsewhere.
func (n *Net) finds() bool {
	return n.opt.Find && !n.sockets.tcp.Addr().(*net.TCPAddr).IP.IsLoopback()
}

// startFinding begins to look for others.
func (n *Net) startFinding(ctx context.Context) {
	if !n.finds() {
		return
	}
	f := n.finder
	if at := n.sockets.tcp.Addr().(*net.TCPAddr).AddrPort().Addr().Unmap(); !at.IsUnspecified() {
		f.bound = at
	}
	f.send = func(b []byte, to netip.AddrPort) {
		_, _ = n.transport.WriteTo(b, net.UDPAddrFromAddrPort(to)) // the next one may get through
	}
	m := &multicast{finder: f, zones: map[int]*served{}}
	f.serve = m.serve
	f.query = func(w wire) {
		n.working.Go(func() { m.query(ctx, w) }) // joined by Run
	}
	f.moved = func() { n.moved(ctx) }
	f.tend = func() { n.tend(ctx) }
	f.drop = n.keepers.drop
	n.working.Go(func() { f.look(ctx) }) // both joined by Run
	n.working.Go(func() { n.readBeacons(ctx) })
}

// readBeacons takes what comes on the UDP socket and is not QUIC.
func (n *Net) readBeacons(ctx context.Context) {
	b := make([]byte, beaconLen+1) // what is longer is no beacon
	for {
		size, from, err := n.transport.ReadNonQUICPacket(ctx, b)
		if err != nil {
			return // ctx has ended, or the socket is gone and Run with it
		}
		if at, ok := from.(*net.UDPAddr); ok {
			n.finder.hear(b[:size], at.AddrPort())
		}
	}
}

// tend dials what was found and matches, and lets go of what is stale.
func (n *Net) tend(ctx context.Context) {
	n.tending.Lock()
	defer n.tending.Unlock()
	dial, drop := n.finder.table.tend(time.Now())
	for _, addr := range drop {
		n.keepers.drop(addr)
	}
	if ctx.Err() == nil {
		for _, addr := range dial {
			n.keepers.keep(addr)
		}
	}
}

// moved dials every address that matches, and prefers what comes of it: links
// that others dialled lead to an address that this device no longer has.
func (n *Net) moved(ctx context.Context) {
	n.tending.Lock()
	defer n.tending.Unlock()
	if ctx.Err() != nil {
		return
	}
	for _, addr := range n.finder.table.dialAll() {
		n.keepers.keep(addr)
	}
	n.Redial()
}

// linked tells whether a link stands with the device at an address, or with
// the one that answered there last.
func (n *Net) linked(addr string, peer mesh.Key, known bool) bool {
	n.links.mu.Lock()
	defer n.links.mu.Unlock()
	if known && n.links.byPeer[peer] != nil {
		return true
	}
	return slices.ContainsFunc(n.links.addresses(), func(at string) bool { return at == addr })
}
