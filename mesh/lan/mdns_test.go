package lan

import (
	"net"
	"net/netip"
	"testing"
	"time"

	"github.com/hashicorp/mdns"
	"github.com/miekg/dns"
	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// noWire is an interface that no machine has, so that nothing is really sent.
const noWire = 1 << 30

// onWire is a finder whose device is on one such interface.
func onWire(t *testing.T, prefixes ...string) (*finder, wire) {
	f, err := newFinder()
	require.NoError(t, err)
	w := wire{at: net.Interface{Index: noWire, Name: "e9", Flags: net.FlagUp | net.FlagMulticast}}
	for _, p := range prefixes {
		w.prefixes = append(w.prefixes, netip.MustParsePrefix(p))
	}
	f.here, f.port = []wire{w}, 29461
	f.group = func() (mesh.GroupID, bool) { return mesh.GroupID{9}, true }
	f.table.linked = func(string, mesh.Key, bool) bool { return false }
	f.tend, f.drop = func() {}, func(string) {}
	return f, w
}

// Goal: one answer holds all that is needed, with the addresses of the moment,
// and nothing about people. Method: the service's records before and after the
// interface's addresses change, and of questions about something else.
func TestTheZoneAnswersWithTheAddressesOfTheMoment(t *testing.T) {
	f, _ := onWire(t, "10.0.0.5/24", "fe80::5/64")
	z := &zone{finder: f, at: f.here[0].at}
	ask := dns.Question{Name: "_lintel._udp.local.", Qtype: dns.TypePTR, Qclass: dns.ClassINET | askedAlone}
	kinds := map[uint16]dns.RR{}
	for _, r := range z.Records(ask) {
		kinds[r.Header().Rrtype] = r
	}
	require.Len(t, kinds, 5)
	require.Equal(t, "10.0.0.5", kinds[dns.TypeA].(*dns.A).A.String())
	require.Equal(t, "fe80::5", kinds[dns.TypeAAAA].(*dns.AAAA).AAAA.String())
	require.Equal(t, uint16(29461), kinds[dns.TypeSRV].(*dns.SRV).Port)
	require.Equal(t, txtOf(f.sign(beaconCall)), kinds[dns.TypeTXT].(*dns.TXT).Txt)
	require.NotEqual(t, hexOf(f.nonce[:]), f.called, "the names say nothing about the device")
	f.here[0].prefixes = []netip.Prefix{netip.MustParsePrefix("10.0.0.6/24")}
	for _, r := range z.Records(ask) {
		if a, ok := r.(*dns.A); ok {
			require.Equal(t, "10.0.0.6", a.A.String())
		}
	}
	ask.Name = "_ipp._tcp.local."
	require.Empty(t, z.Records(ask))
	f.here = nil
	ask.Name = "_lintel._udp.local."
	require.Empty(t, z.Records(ask), "the interface is gone")
}

func hexOf(b []byte) string { return txtOf(beacon{nonce: [nonceLen]byte(b)})[2][2:] }

// Goal: everybody is told at most once a second, and not when the asker alone
// wants to know. Method: when the zone last announced, after questions of both
// kinds.
func TestEverybodyIsToldAtMostOnceASecond(t *testing.T) {
	f, w := onWire(t, "10.0.0.5/24")
	z := &zone{finder: f, at: w.at}
	ask := dns.Question{Name: "_lintel._udp.local.", Qtype: dns.TypePTR, Qclass: dns.ClassINET | askedAlone}
	z.Records(ask)
	require.Zero(t, z.announced)
	ask.Qclass = dns.ClassINET
	z.Records(ask)
	first := z.announced
	require.NotZero(t, first)
	z.Records(ask)
	require.Equal(t, first, z.announced)
	z.announced = first.Add(-announceEvery)
	z.Records(ask)
	require.Less(t, time.Since(z.announced), announceEvery)
}

// Goal: of answers only those count that can be of a device on the same network.
// Method: answers that differ from a good one in one thing each.
func TestOnlyAnswersFromTheSameNetworkCount(t *testing.T) {
	f, w := onWire(t, "10.0.0.5/24", "fe80::5/64")
	m := &multicast{finder: f}
	good := func() *mdns.ServiceEntry {
		return &mdns.ServiceEntry{Name: "0011-2._lintel._udp.local.", Port: PortDefault, AddrV4: net.IPv4(10, 0, 0, 7), InfoFields: txtOf(sampleBeacon())}
	}
	for name, c := range map[string]struct {
		change func(*mdns.ServiceEntry)
		want   string
	}{
		"good":            {func(*mdns.ServiceEntry) {}, "10.0.0.7:29460"},
		"another network": {func(e *mdns.ServiceEntry) { e.AddrV4 = net.IPv4(192, 0, 2, 1) }, ""},
		"loopback":        {func(e *mdns.ServiceEntry) { e.AddrV4 = net.IPv4(127, 0, 0, 1) }, ""},
		"another port":    {func(e *mdns.ServiceEntry) { e.Port++ }, ""},
		"another service": {func(e *mdns.ServiceEntry) { e.Name = "x._ipp._tcp.local." }, ""},
		"no texts":        {func(e *mdns.ServiceEntry) { e.InfoFields = nil }, ""},
		"no address":      {func(e *mdns.ServiceEntry) { e.AddrV4 = nil }, ""},
		"own": {func(e *mdns.ServiceEntry) {
			b := f.sign(beaconCall)
			e.Port, e.InfoFields = int(b.port), txtOf(b)
		}, ""},
		"IPv6": {func(e *mdns.ServiceEntry) {
			e.AddrV4, e.AddrV6IPAddr = nil, &net.IPAddr{IP: net.ParseIP("fe80::7")}
		}, "[fe80::7%e9]:29460"},
	} {
		f.table.all = map[string]*candidate{}
		e := good()
		c.change(e)
		m.take(w, []*mdns.ServiceEntry{e})
		found := f.table.list(func(*candidate) bool { return true })
		if c.want == "" {
			require.Empty(t, found, name)
			continue
		}
		require.Len(t, found, 1, name)
		require.Equal(t, c.want, found[0].Address)
		require.Equal(t, ByMDNS, found[0].Ways)
	}
}
