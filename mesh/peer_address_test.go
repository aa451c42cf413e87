package mesh_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// admitted is a group of devices, of which the first has admitted the others.
func admitted(t *testing.T, n int) []*desk {
	a := newDesk(t, 1, nil, mesh.GroupID{})
	all := []*desk{a}
	for i := 1; i < n; i++ {
		it := a.founding()
		d := newDesk(t, byte(i+1), &it, a.peer.Group())
		p, err := mesh.MakePart(mesh.KindAdmitted, &mesh.Admitted{Key: d.signer.Self, Name: mesh.Label(fmt.Sprint("device ", i))})
		require.NoError(t, err)
		a.tap(byte(i), p)
		all = append(all, d)
	}
	return all
}

// told are the Addresses frames among effects, by link.
func told(t *testing.T, effects []mesh.Effect) map[mesh.LinkID][]mesh.Address {
	out := map[mesh.LinkID][]mesh.Address{}
	for _, s := range pick[mesh.Send](effects) {
		body, err := mesh.DecodeFrame(s.Frame)
		require.NoError(t, err)
		if f, ok := body.(*mesh.Addresses); ok {
			require.Equal(t, mesh.StreamTap, s.Stream)
			out[s.Link] = append(out[s.Link], f.Known...)
		}
	}
	return out
}

// Goal: whoever finds one device learns where all others are, and they learn of
// it. Method: links come up one after the other; the frames that each causes. A
// link without an address tells nothing.
func TestANewLinkPassesOnAddressesBothWays(t *testing.T) {
	all := admitted(t, 4)
	a := all[0]
	key := func(i int) mesh.Key { return all[i].signer.Self }
	up := func(i int, addr string) map[mesh.LinkID][]mesh.Address {
		return told(t, a.step(mesh.LinkUp{Link: mesh.LinkID(i), Peer: key(i), Address: addr}))
	}
	require.Empty(t, up(1, "10.0.0.2:29460"))
	second := mesh.Address{Key: key(1), Hosts: []mesh.Label{"10.0.0.2:29460"}}
	third := mesh.Address{Key: key(2), Hosts: []mesh.Label{"10.0.0.3:29460"}}
	require.Equal(t, map[mesh.LinkID][]mesh.Address{1: {third}, 2: {second}}, up(2, "10.0.0.3:29460"))
	require.Equal(t, map[mesh.LinkID][]mesh.Address{3: {second, third}}, up(3, ""))
}

// Goal: of what is passed on only addresses of members are handed on, and no
// frame with too many is read. Method: one frame about a member, the receiver
// itself, the teller itself and a stranger; then hosts beyond the bound.
func TestOnlyMembersAddressesAreHandedOn(t *testing.T) {
	all := admitted(t, 3)
	a := all[0]
	a.step(mesh.LinkUp{Link: 1, Peer: all[1].signer.Self})
	about := func(k mesh.Key) mesh.Address { return mesh.Address{Key: k, Hosts: []mesh.Label{"10.0.0.9:29460"}} }
	effects := a.step(mesh.Arrived{Link: 1, Frame: frame(t, mesh.FrameAddress, &mesh.Addresses{Known: []mesh.Address{
		about(all[2].signer.Self), about(a.signer.Self), about(all[1].signer.Self), about(mesh.Key{99}),
	}})})
	require.Equal(t, []mesh.Told{{By: all[1].signer.Self, Peer: all[2].signer.Self, Hosts: []string{"10.0.0.9:29460"}}}, pick[mesh.Told](effects))
	many := about(all[2].signer.Self)
	for len(many.Hosts) <= mesh.HostsMax {
		many.Hosts = append(many.Hosts, many.Hosts[0])
	}
	_, err := mesh.Encode(&mesh.Addresses{Known: []mesh.Address{many}})
	require.ErrorIs(t, err, mesh.ErrRange)
}
