package mesh

import "slices"

// OnlyHere counts the entries held by this device, its own and others', that
// are not known to be on the disks of at least least of the given devices. At 0
// this device can be lost and nothing is. What is known comes from receipts and
// from vectors of healthy stores, never from what was sent. What still waits for
// this device's own disk counts, and a frame that waits for a membership counts
// as one. Devices that are no members, and this one, store nothing for anybody.
//
// It costs as many steps as there are feeds times devices, whatever the feeds
// hold.
func (p *Peer) OnlyHere(clean []Key, least int) (n int) {
	var trusted []Key
	for _, k := range clean {
		if k != p.self && p.IsMember(k) && !slices.Contains(trusted, k) {
			trusted = append(trusted, k)
		}
	}
	for _, t := range p.feeds {
		for _, b := range t.branches {
			n += int(b.head() - max(b.from, p.storedBy(b, trusted, least)))
		}
	}
	for _, l := range p.links {
		n += len(l.parked)
	}
	return n
}

// storedBy is the last sequence of a line that at least least of the devices
// have stored; 0: none.
func (p *Peer) storedBy(b *branch, devices []Key, least int) Seq {
	if least < 1 {
		return b.head()
	}
	var reached []Seq
	for _, k := range devices {
		far := Seq(0)
		for _, m := range p.copies[b.feed][k] {
			far = max(far, min(m.seq, shared(b, m.br)))
		}
		reached = append(reached, far)
	}
	if len(reached) < least {
		return 0
	}
	slices.Sort(reached)
	return reached[len(reached)-least]
}
