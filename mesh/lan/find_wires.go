package lan

import (
	"net"
	"net/netip"
	"slices"
)

// wiresMax bounds the interfaces on which devices are looked for.
const wiresMax = 16

// wire is one interface that is up, as far as finding needs it.
type wire struct {
	at       net.Interface
	prefixes []netip.Prefix // its addresses, with the length of their networks
}

// readWires lists the interfaces with an address; loopback is none of them.
func readWires() (out []wire) {
	all, _ := net.Interfaces() // without an answer nothing is looked for
	for _, i := range all {
		if i.Flags&net.FlagUp == 0 || i.Flags&net.FlagLoopback != 0 || len(out) == wiresMax {
			continue
		}
		w := wire{at: i}
		addrs, _ := i.Addrs() // an interface that has just gone has none
		for _, a := range addrs {
			if p, err := netip.ParsePrefix(a.String()); err == nil {
				w.prefixes = append(w.prefixes, netip.PrefixFrom(p.Addr().Unmap(), p.Bits()))
			}
		}
		if len(w.prefixes) > 0 {
			out = append(out, w)
		}
	}
	return out
}

// has tells whether the wire has an address of this family.
func (w wire) has(four bool) bool {
	return slices.ContainsFunc(w.prefixes, func(p netip.Prefix) bool { return p.Addr().Is4() == four })
}

// onLink tells whether an address is in one of the wire's networks.
func (w wire) onLink(a netip.Addr) bool {
	return slices.ContainsFunc(w.prefixes, func(p netip.Prefix) bool { return p.Masked().Contains(a.WithZone("")) })
}

// broadcasts lists the broadcast addresses of the wire's networks; none where
// there is no room for one. bound leaves only the network of that address.
func (w wire) broadcasts(bound netip.Addr) (out []netip.Addr) {
	if w.at.Flags&net.FlagBroadcast == 0 {
		return nil
	}
	for _, p := range w.prefixes {
		if !p.Addr().Is4() || p.Bits() > 30 || bound.IsValid() && bound != p.Addr() {
			continue
		}
		a := p.Addr().As4()
		for bit := p.Bits(); bit < 32; bit++ {
			a[bit/8] |= 0x80 >> (bit % 8)
		}
		if b := netip.AddrFrom4(a); !slices.Contains(out, b) {
			out = append(out, b)
		}
	}
	return out
}

// sameNetworks tells whether two lists of wires mean that this device is where
// it was. IPv6 addresses change by themselves: only their networks count, and
// link-local ones, which every interface has, not at all.
func sameNetworks(a, b []wire) bool {
	return slices.Equal(networks(a), networks(b))
}

func networks(wires []wire) (out []string) {
	for _, w := range wires {
		for _, p := range w.prefixes {
			switch {
			case p.Addr().Is4():
				out = append(out, w.at.Name+" "+p.String())
			case !p.Addr().IsLinkLocalUnicast():
				out = append(out, w.at.Name+" "+p.Masked().String())
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
