package lan

import (
	"fmt"
	"net"
	"net/netip"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// tableOf makes a table in which the given addresses have links.
func tableOf(linked ...string) *candidates {
	return &candidates{all: map[string]*candidate{}, linked: func(addr string, _ mesh.Key, _ bool) bool {
		for _, l := range linked {
			if l == addr {
				return true
			}
		}
		return false
	}}
}

func hostNumber(i int) string { return fmt.Sprintf("10.0.%d.%d:29460", i/200, i%200+1) }

func at(s int) time.Time { return time.Unix(1_800_000_000+int64(s), 0) }

func signed(addr string, match bool) sighting {
	return sighting{addr: addr, way: ByBeacon, sign: sampleBeacon(), match: match}
}

// Goal: made-up addresses cost no more than the bounds say, and never a link.
// Method: many more sightings than places, matching and not; the oldest go, the
// one with a link and the typed one stay.
func TestTheOldestGiveWayAndLinksStay(t *testing.T) {
	table := tableOf(hostNumber(0))
	table.keep("192.168.7.7:29460", ByTyping, at(0))
	for i := range 2 * matchingMax {
		gone, noted := table.found(signed(hostNumber(i), true), at(i))
		require.True(t, noted)
		if i >= matchingMax {
			require.Equal(t, hostNumber(i-matchingMax+1), gone)
		}
		table.found(signed(fmt.Sprintf("10.1.%d.%d:1", i/200, i%200), false), at(i))
	}
	matching := table.list(func(c *candidate) bool { return c.matches })
	require.Len(t, matching, matchingMax)
	require.Len(t, table.list(func(c *candidate) bool { return !c.matches && !c.lasting() }), strangeMax)
	require.Len(t, table.list((*candidate).lasting), 1)
	require.Contains(t, table.all, hostNumber(0))
}

// Goal: one host cannot fill the table with its ports. Method: sightings of one
// host at many ports.
func TestOneHostHasFewPlaces(t *testing.T) {
	table := tableOf()
	for i := range 100 {
		_, noted := table.found(signed(fmt.Sprintf("10.0.0.1:%d", i+1), true), at(i))
		require.True(t, noted)
	}
	require.Len(t, table.all, perHostMax)
}

// Goal: ways add up over one address however it is written, and what anybody
// can send does not undo a match. Method: one address found in every way, then
// by a beacon of another group.
func TestWaysOfOneAddressAddUp(t *testing.T) {
	table := tableOf()
	table.keep("10.0.0.1", ByTyping, at(0))
	table.keep("[::ffff:10.0.0.1]:29460", ByMemory, at(1))
	table.found(signed("10.0.0.1:29460", true), at(2))
	table.found(sighting{addr: "10.0.0.1:29460", way: ByMDNS, match: true}, at(3))
	table.found(sighting{addr: "10.0.0.1:29460", way: ByTelling, teller: mesh.Key{5}, match: true}, at(4))
	_, noted := table.found(signed("10.0.0.1:29460", false), at(5))
	require.False(t, noted)
	require.Equal(t, []Candidate{{
		Address: "10.0.0.1:29460", Ways: ByTyping | ByMemory | ByBeacon | ByMDNS | ByTelling,
		Teller: mesh.Key{5}, InUnit: true, Seen: at(4),
	}}, table.list(func(c *candidate) bool { return c.matches }))
}

// Goal: what matches is dialled once and let go when it is stale, unless it was
// typed; another group changes what matches. Method: the table's lists over time.
func TestWhatMatchesIsDialledUntilStale(t *testing.T) {
	linked := hostNumber(3)
	table := tableOf(linked)
	table.keep(hostNumber(1), ByTyping, at(0))
	table.found(signed(hostNumber(1), true), at(0))
	table.found(signed(hostNumber(2), true), at(0))
	table.found(signed(linked, true), at(0))
	table.found(signed(hostNumber(4), false), at(0))
	dial, drop := table.tend(at(1))
	require.Equal(t, []string{hostNumber(2)}, dial)
	require.Empty(t, drop)
	dial, drop = table.tend(at(2))
	require.Empty(t, append(dial, drop...))
	table.judge(func(beacon) bool { return false })
	_, drop = table.tend(at(3))
	require.Equal(t, []string{hostNumber(2)}, drop)
	table.judge(func(beacon) bool { return true })
	dial, _ = table.tend(at(4))
	require.Equal(t, []string{hostNumber(2), hostNumber(4)}, dial)
	_, drop = table.tend(at(1 + int(matchingFor.Seconds())))
	require.Equal(t, []string{hostNumber(2), hostNumber(4)}, drop)
	require.Len(t, table.all, 2, "the typed one and the one with a link stay")
}

// Goal: beacons go where there is a broadcast address. Method: prefixes of
// several lengths, an interface without broadcast, a device bound to one address.
func TestBroadcastAddresses(t *testing.T) {
	w := wire{at: net.Interface{Flags: net.FlagUp | net.FlagBroadcast}, prefixes: []netip.Prefix{
		netip.MustParsePrefix("10.0.0.5/24"), netip.MustParsePrefix("10.0.0.6/24"), netip.MustParsePrefix("172.16.5.1/12"),
		netip.MustParsePrefix("10.9.0.1/31"), netip.MustParsePrefix("10.9.0.9/32"), netip.MustParsePrefix("fe80::1/64"),
	}}
	var out []string
	for _, a := range w.broadcasts(netip.Addr{}) {
		out = append(out, a.String())
	}
	require.Equal(t, []string{"10.0.0.255", "172.31.255.255"}, out)
	require.Len(t, w.broadcasts(netip.MustParseAddr("172.16.5.1")), 1)
	w.at.Flags = net.FlagUp
	require.Empty(t, w.broadcasts(netip.Addr{}))
}

// Goal: another address is noticed, IPv6's own changes are not. Method: lists of
// interfaces that differ in one thing each.
func TestOnlyAnotherNetworkIsAMove(t *testing.T) {
	one := func(prefixes ...string) []wire {
		w := wire{at: net.Interface{Name: "e0"}}
		for _, p := range prefixes {
			w.prefixes = append(w.prefixes, netip.MustParsePrefix(p))
		}
		return []wire{w}
	}
	require.True(t, sameNetworks(one("10.0.0.5/24", "2001:db8::5/64"), one("2001:db8::77/64", "10.0.0.5/24", "fe80::1/64")))
	require.False(t, sameNetworks(one("10.0.0.5/24"), one("10.0.0.6/24")))
	require.False(t, sameNetworks(one("10.0.0.5/24"), one()))
	require.False(t, sameNetworks(one("2001:db8::5/64"), one("2001:db8:1::5/64")))
}
