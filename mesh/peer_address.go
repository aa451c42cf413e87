package mesh

// HostsMax bounds the addresses of one device in an Addresses frame.
const HostsMax = 8

// addressesPerFrame is how many devices one Addresses frame is about.
const addressesPerFrame = 128

// Valid reports more hosts than a device can have.
func (a Address) Valid() error { return Within("hosts", int64(len(a.Hosts)), 1, HostsMax) }

// passOnAddresses tells the other side of a new link where this device reaches
// others, and the others where it is reached. So whoever finds one finds all.
func (p *Peer) passOnAddresses(fresh *link) {
	var known []Address
	for _, l := range p.sortedLinks() {
		if l == fresh {
			continue
		}
		if at, ok := l.address(); ok {
			known = append(known, at)
		}
		if at, ok := fresh.address(); ok {
			p.send(l, StreamTap, FrameAddress, &Addresses{Known: []Address{at}})
		}
	}
	for len(known) > 0 {
		n := min(len(known), addressesPerFrame)
		p.send(fresh, StreamTap, FrameAddress, &Addresses{Known: known[:n]})
		known = known[n:]
	}
}

// address is where the other side of a link listens, if that is known.
func (l *link) address() (Address, bool) {
	host := Label(l.up.Address)
	return Address{Key: l.peer, Hosts: []Label{host}}, host != "" && host.Valid() == nil
}

// addresses hands on where members are, as another one tells. Nothing is
// believed of it but that dialling may be worth a try.
func (p *Peer) addresses(l *link, f *Addresses) {
	for _, a := range f.Known {
		if a.Key == p.self || a.Key == l.peer || p.members.Status(a.Key) != Member {
			continue
		}
		hosts := make([]string, 0, len(a.Hosts))
		for _, h := range a.Hosts {
			hosts = append(hosts, string(h))
		}
		p.emit(Told{By: l.peer, Peer: a.Key, Hosts: hosts})
	}
}
