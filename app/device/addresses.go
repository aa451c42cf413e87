package device

import (
	"context"
	"slices"

	"lintel/mesh"
	"lintel/mesh/lan"
)

// rememberedMax bounds the addresses that are dialled at the next start. More
// of them finds a device sooner where nothing can be found, and costs dials.
const rememberedMax = 16

// workedMax bounds what waits to be remembered; what finds no room is
// remembered when its link comes up again.
const workedMax = 64

// remember puts an address that works before the others.
func (c *config) remember(addr string) {
	c.Peers = append([]string{addr}, slices.DeleteFunc(c.Peers, func(a string) bool { return a == addr })...)
	c.Peers = c.Peers[:min(len(c.Peers), rememberedMax)]
}

// told takes what the station tells, from its loop, and hands it on.
func (d *Device) told(ef mesh.Effect) {
	switch e := ef.(type) {
	case mesh.Told:
		d.net.Told(e.By, e.Hosts)
	case mesh.LinkState:
		if e.Peer.Health == mesh.Connected && e.Peer.Address != "" {
			select {
			case d.worked <- e.Peer:
			default:
			}
		}
	}
	if missesPicture(ef) {
		d.fetcher.wakeUp()
	}
	if d.opt.Told != nil {
		d.opt.Told(ef)
	}
}

// rememberAll writes down where links came up, until ctx ends. One that only
// answers again is no news.
func (d *Device) rememberAll(ctx context.Context) {
	last := map[mesh.Key]mesh.LinkID{}
	for {
		select {
		case <-ctx.Done():
			return
		case p := <-d.worked:
			if last[p.Peer] == p.Link {
				continue
			}
			last[p.Peer] = p.Link
			if peers := d.settings.get().Peers; len(peers) > 0 && peers[0] == p.Address {
				continue
			}
			_ = d.settings.change(func(c *config) { c.remember(p.Address) }) // else it must be found again
		}
	}
}

// Nearby lists the devices on the network that do not belong to this one's unit,
// or all where it belongs to none: those with which it could join one. Nothing
// in it is proved.
func (d *Device) Nearby() []lan.Candidate { return d.net.Nearby() }

// FoundBy lists the addresses of a device with the ways in which they were
// found. None: it found this one.
func (d *Device) FoundBy(k mesh.Key) []lan.Candidate { return d.net.FoundBy(k) }
