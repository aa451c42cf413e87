package lan

import (
	"cmp"
	"maps"
	"net"
	"net/netip"
	"slices"
	"strconv"
	"sync"
	"time"

	"lintel/mesh"
)

// Bounds of what is found. Anybody on the network can make up addresses.
const (
	matchingMax = 256              // addresses that match the group or were passed on by a member
	strangeMax  = 64               // addresses that do not match
	perHostMax  = 8                // matching addresses of one host
	matchingFor = 5 * time.Minute  // how long one is dialled that is not found again and has no link
	strangeFor  = 75 * time.Second // how long one is shown that is not found again
)

// Ways tells how an address was found; several bits may be set.
type Ways uint8

// The ways.
const (
	ByTyping  Ways = 1 << iota // somebody typed it
	ByMemory                   // it worked before
	ByBeacon                   // it called
	ByMDNS                     // it answered by mDNS
	ByTelling                  // a member passed it on
)

// Candidate is an address at which a device may listen.
type Candidate struct {
	Address string // "host:port"
	Ways    Ways
	Teller  mesh.Key  // with ByTelling, who passed it on last
	InUnit  bool      // it says that it belongs to a unit
	Seen    time.Time // when it was found last
}

// candidate is one address in the table.
type candidate struct {
	Candidate
	sign    beacon   // the last one from there; port 0: none
	matches bool     // the sign is the group's, or a member passed it on
	dialled bool     // a keeper dials it because it was found
	peer    mesh.Key // who answered there last
	reached bool
}

// lasting tells whether it stays whatever is found.
func (c *candidate) lasting() bool { return c.Ways&(ByTyping|ByMemory) != 0 }

// candidates is the table of addresses. It does not dial.
type candidates struct {
	// linked tells whether a link stands with the device at an address; known
	// is that device if there is one.
	linked func(addr string, peer mesh.Key, known bool) bool

	mu  sync.Mutex // guards the rest
	all map[string]*candidate
}

// plainAddress gives an address the form that all ways of finding share. A
// name stays a name.
func plainAddress(addr string) string {
	if _, _, err := net.SplitHostPort(addr); err != nil {
		addr = net.JoinHostPort(addr, strconv.Itoa(PortDefault))
	}
	if ap, err := netip.ParseAddrPort(addr); err == nil {
		return netip.AddrPortFrom(ap.Addr().Unmap(), ap.Port()).String()
	}
	return addr
}

// keep notes an address that is dialled whatever is found.
func (t *candidates) keep(addr string, way Ways, now time.Time) {
	t.mu.Lock()
	defer t.mu.Unlock()
	c := t.at(addr, now)
	c.Ways |= way
}

// forget takes from an address what makes it lasting.
func (t *candidates) forget(addr string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	addr = plainAddress(addr)
	if c := t.all[addr]; c != nil {
		c.dialled = false
		if c.Ways &^= ByTyping | ByMemory; c.Ways == 0 {
			delete(t.all, addr)
		}
	}
}

// at returns the entry of an address, made if there is none. The lock is held.
func (t *candidates) at(addr string, now time.Time) *candidate {
	addr = plainAddress(addr)
	c := t.all[addr]
	if c == nil {
		c = &candidate{Candidate: Candidate{Address: addr}}
		t.all[addr] = c
	}
	c.Seen = now
	return c
}

// sighting is one address found in one way.
type sighting struct {
	addr   string
	way    Ways
	sign   beacon // port 0: none
	teller mesh.Key
	match  bool
}

// found notes a sighting. It gives the address that had to make room for it,
// and tells whether it was noted: one that finds no room is not, nor one that
// does not match where another did, for anybody could send it.
func (t *candidates) found(s sighting, now time.Time) (gone string, noted bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	addr := plainAddress(s.addr)
	c := t.all[addr]
	if c != nil && c.matches && !s.match {
		return "", false
	}
	if c == nil || !c.lasting() && s.match && !c.matches {
		var room bool
		if gone, room = t.makeRoom(addr, s.match); !room {
			return "", false
		}
	}
	c = t.at(addr, now)
	c.Ways |= s.way
	c.matches = s.match
	if s.sign.port != 0 {
		c.sign, c.InUnit = s.sign, s.sign.inUnit()
	}
	if s.way == ByTelling {
		c.Teller = s.teller
	}
	return gone, true
}

// makeRoom lets the oldest go where there are too many. Addresses whose device
// has a link never have to. The lock is held.
func (t *candidates) makeRoom(addr string, match bool) (gone string, room bool) {
	host, _, _ := net.SplitHostPort(addr)
	var all, same []*candidate
	for _, c := range t.all {
		if c.lasting() || c.matches != match || c.Address == addr {
			continue
		}
		all = append(all, c)
		if h, _, _ := net.SplitHostPort(c.Address); h == host {
			same = append(same, c)
		}
	}
	most := strangeMax
	if match {
		most = matchingMax
	}
	from := all
	switch {
	case match && len(same) >= perHostMax:
		from = same
	case len(all) < most:
		return "", true
	}
	from = slices.DeleteFunc(from, func(c *candidate) bool { return t.linked(c.Address, c.peer, c.reached) })
	if len(from) == 0 {
		return "", false
	}
	oldest := slices.MinFunc(from, byAge)
	delete(t.all, oldest.Address)
	return oldest.Address, true
}

func byAge(a, b *candidate) int {
	return cmp.Or(a.Seen.Compare(b.Seen), cmp.Compare(a.Address, b.Address))
}

// reached notes who answered at an address.
func (t *candidates) reached(addr string, peer mesh.Key) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if c := t.all[plainAddress(addr)]; c != nil {
		c.peer, c.reached = peer, true
	}
}

// judge compares all signs again, after the group has changed. What members of
// the former group passed on counts no more.
func (t *candidates) judge(matches func(beacon) bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	for _, c := range t.all {
		c.matches = c.sign.port != 0 && matches(c.sign)
	}
}

// isLasting tells whether an address was typed or is remembered.
func (t *candidates) isLasting(addr string) bool {
	t.mu.Lock()
	defer t.mu.Unlock()
	c := t.all[plainAddress(addr)]
	return c != nil && c.lasting()
}

// tend lists the addresses to dial from now on, and those to let go.
func (t *candidates) tend(now time.Time) (dial, drop []string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	for _, c := range t.sorted() {
		age, linked := now.Sub(c.Seen), t.linked(c.Address, c.peer, c.reached)
		switch {
		case c.lasting():
		case !c.matches && c.dialled:
			drop, c.dialled = append(drop, c.Address), false
		case !c.matches && age > strangeFor, c.matches && !linked && age > matchingFor:
			drop = append(drop, c.Address)
			delete(t.all, c.Address)
		case c.matches && !c.dialled && !linked:
			dial, c.dialled = append(dial, c.Address), true
		}
	}
	return dial, drop
}

// dialAll marks everything that matches as dialled and lists it.
func (t *candidates) dialAll() (dial []string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	for _, c := range t.sorted() {
		if c.matches && !c.lasting() {
			dial, c.dialled = append(dial, c.Address), true
		}
	}
	return dial
}

// sorted lists all by address. The lock is held.
func (t *candidates) sorted() []*candidate {
	return slices.SortedFunc(maps.Values(t.all), func(a, b *candidate) int { return cmp.Compare(a.Address, b.Address) })
}

// list gives those that fit, by address.
func (t *candidates) list(fits func(*candidate) bool) (out []Candidate) {
	t.mu.Lock()
	defer t.mu.Unlock()
	for _, c := range t.sorted() {
		if fits(c) {
			out = append(out, c.Candidate)
		}
	}
	return out
}
