package lan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: a device that was found knows where the other can be dialled, whatever
// port that one's connection came from; and the one that found says how. Method:
// one device keeps the other's address, over QUIC and over TCP; the accepting
// side's LinkUp, and the ways of both.
func TestTheFoundSideKnowsWhereTheOtherListens(t *testing.T) {
	for _, r := range reaches() {
		t.Run(r.name, func(t *testing.T) {
			u := newUnit()
			a, b := u.start(t), u.start(t)
			at := r.to(t, b)
			a.Keep(at)
			up := b.linked(a.Key())
			require.Equal(t, r.via, up.Via)
			require.Equal(t, a.Address(), up.Address)
			a.linked(b.Key())
			found := a.FoundBy(b.Key())
			require.Len(t, found, 1)
			require.Equal(t, at, found[0].Address)
			require.Equal(t, ByTyping, found[0].Ways)
			require.Empty(t, b.FoundBy(a.Key()))
			require.Empty(t, a.Nearby())
			a.Drop(at)
			require.Empty(t, a.FoundBy(mesh.Key{1}))
		})
	}
}

// Goal: what members pass on is only taken where it can mean something. Method:
// a device that looks for others on every address, told addresses of several
// kinds by a linked member, more than may be, and by one without a link; one that
// only listens on loopback takes none. Neither runs, so nothing is sent.
func TestOnlyUsefulAddressesAreTakenFromMembers(t *testing.T) {
	teller := mesh.Key{5}
	told := []string{"192.0.2.1:1", "127.0.0.1:2", "[fe80::1%e0]:3", "192.0.2.2:0", "nonsense", "[2001:db8::1]:4", "224.0.0.1:5", "192.0.2.3:6", "192.0.2.4:7"}
	for listen, want := range map[string][]string{
		":0":          {"192.0.2.1:1", "192.0.2.3:6", "[2001:db8::1]:4"},
		"127.0.0.1:0": nil,
	} {
		private, _ := newKey(t)
		n, err := New(Options{
			Key: private, Listen: listen, Find: true, Tries: new(MemoryTries), Member: func(mesh.Key) bool { return true },
			Group: func() (mesh.GroupID, bool) { return mesh.GroupID{1}, true }, Deliver: func(mesh.Event) {},
		})
		require.NoError(t, err)
		n.finder.tend, n.finder.drop = func() {}, func(string) {}
		n.Told(teller, told)
		require.Empty(t, n.finder.table.all, "no link with who tells")
		n.links.byPeer[teller] = &link{}
		n.Told(teller, told)
		var got []string
		for _, c := range n.finder.table.list(func(c *candidate) bool { return c.Ways == ByTelling && c.Teller == teller }) {
			got = append(got, c.Address)
		}
		require.Equal(t, want, got, listen)
		require.NoError(t, n.Close())
	}
}
