package lan

import (
	"context"
	"net"
	"net/netip"
	"slices"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// ether is a network in memory on which beacons travel at once.
type ether struct {
	began time.Time
	slept time.Duration // how far the wall clocks went on while the others stood; under the lock

	mu   sync.Mutex // guards the rest
	all  []*station
	sent []letter
}

// letter is one beacon that was sent.
type letter struct {
	from, to netip.AddrPort
	kind     beaconKind
	after    time.Duration
}

// station is one finder on the ether. The ether's lock guards what can change.
type station struct {
	*finder
	at     netip.AddrPort
	unit   mesh.GroupID
	wires  []wire
	asked  []time.Duration
	dialed []string
	moves  int
}

// with reads or changes something of the stations.
func (e *ether) with(f func()) {
	e.mu.Lock()
	defer e.mu.Unlock()
	f()
}

// join puts a device on the ether; a zero group is none.
func (e *ether) join(t *testing.T, addr string, g mesh.GroupID) *station {
	f, err := newFinder()
	require.NoError(t, err)
	s := &station{finder: f, at: netip.MustParseAddrPort(addr), unit: g, wires: wiresWith(addr)}
	f.port = s.at.Port()
	f.group = func() (g mesh.GroupID, ok bool) {
		e.with(func() { g, ok = s.unit, s.unit != mesh.GroupID{} })
		return g, ok
	}
	f.table.linked = func(string, mesh.Key, bool) bool { return false }
	f.wires = func() (w []wire) {
		e.with(func() { w = s.wires })
		return w
	}
	f.serve, f.drop = func([]wire) {}, func(string) {}
	f.query = func(wire) { e.with(func() { s.asked = append(s.asked, time.Since(e.began)) }) }
	f.wall = func() (now time.Time) {
		e.with(func() { now = time.Now().Add(e.slept) })
		return now
	}
	f.moved = func() { e.with(func() { s.moves++ }) }
	f.tend = func() {
		dial, _ := f.table.tend(time.Now())
		e.with(func() { s.dialed = append(s.dialed, dial...) })
	}
	f.send = func(b []byte, to netip.AddrPort) { e.carry(s, b, to) }
	e.all = append(e.all, s)
	return s
}

func wiresWith(addr string) []wire {
	a := netip.MustParseAddrPort(addr).Addr()
	return []wire{{
		at:       net.Interface{Index: 1, Name: "e0", Flags: net.FlagUp | net.FlagBroadcast | net.FlagMulticast},
		prefixes: []netip.Prefix{netip.PrefixFrom(a, 24)},
	}}
}

// carry delivers a beacon to everybody listening where it goes, its sender as well.
func (e *ether) carry(from *station, b []byte, to netip.AddrPort) {
	e.with(func() {
		e.sent = append(e.sent, letter{from: from.at, to: to, kind: beaconKind(b[0]), after: time.Since(e.began)})
	})
	for _, s := range e.all {
		broadcast := slices.Contains(wiresWith(s.at.String())[0].broadcasts(netip.Addr{}), to.Addr())
		if s.at.Port() == to.Port() && (broadcast || s.at == to) {
			s.hear(b, from.at)
		}
	}
}

// calls lists when a station called, one for all ports together.
func (e *ether) calls(s *station) (out []time.Duration) {
	for _, l := range e.sent {
		if l.from == s.at && l.kind == beaconCall && l.to.Port() == PortDefault {
			out = append(out, l.after)
		}
	}
	return out
}

// runAll runs every finder of the ether in a bubble; the test's work happens
// between start and end.
func (e *ether) runAll(work func()) {
	ctx, stop := context.WithCancel(context.Background())
	var all sync.WaitGroup // joined below
	for _, s := range e.all {
		all.Go(func() { s.look(ctx) })
	}
	work()
	stop()
	all.Wait()
}

// Goal: devices call quickly at first, then every 10 to 12 s and never more
// often; again after a change of address. Method: one finder alone in a bubble
// for two minutes, its address changed in the second.
func TestCallsKeepToTheirSchedule(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		e := &ether{began: time.Now()}
		s := e.join(t, "10.0.0.1:29460", mesh.GroupID{1})
		e.runAll(func() {
			time.Sleep(time.Minute)
			synctest.Wait()
			e.with(func() { s.wires = wiresWith("10.0.0.77:29460") })
			time.Sleep(time.Minute)
			synctest.Wait()
		})
		calls := e.calls(s)
		require.Equal(t, []time.Duration{0, time.Second, 2 * time.Second, 4 * time.Second}, calls[:4])
		moved := 4
		for ; calls[moved] < time.Minute; moved++ {
			require.GreaterOrEqual(t, calls[moved]-calls[moved-1], beaconEvery)
			require.Less(t, calls[moved]-calls[moved-1], beaconEvery+beaconJitter)
		}
		if calls[moved+1]-calls[moved] != time.Second {
			moved++ // a regular one came before the change was noticed
		}
		quick := calls[moved : moved+4]
		require.LessOrEqual(t, quick[0], time.Minute+wiresEvery)
		require.Equal(t, 4*time.Second, quick[3]-quick[0])
		require.Equal(t, 1, s.moves)
		require.LessOrEqual(t, len(calls), 2*(4+6))
		require.Equal(t, []time.Duration{0, 2 * time.Second, 6 * time.Second}, s.asked[:3])
		require.Equal(t, 4*len(calls), len(e.sent), "each call goes to all default ports")
	})
}

// Goal: after a sleep, but not after a small correction of the clock, a device
// doubts its links and calls quickly. Method: the wall clock goes on alone, by
// little and then by much.
func TestAfterASleepEverythingIsDialledAgain(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		e := &ether{began: time.Now()}
		s := e.join(t, "10.0.0.1:29460", mesh.GroupID{1})
		e.runAll(func() {
			time.Sleep(30 * time.Second)
			e.with(func() { e.slept += sleptMin / 2 })
			time.Sleep(2 * wiresEvery)
			e.with(func() {
				require.Zero(t, s.moves)
				e.slept += time.Hour
			})
			time.Sleep(2 * wiresEvery)
		})
		require.Equal(t, 1, s.moves)
		calls := e.calls(s)
		require.Equal(t, time.Second, calls[len(calls)-2]-calls[len(calls)-3], "%v", calls)
	})
}

// Goal: devices of one group find each other however late they come, and
// dial; others are only listed. Method: five finders on one ether, two groups and
// one device without; what each dials and lists.
func TestDevicesOfOneGroupFindEachOther(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		e := &ether{began: time.Now()}
		a := e.join(t, "10.0.0.1:29460", mesh.GroupID{1})
		b := e.join(t, "10.0.0.2:29461", mesh.GroupID{1})
		c := e.join(t, "10.0.0.3:29460", mesh.GroupID{1})
		other := e.join(t, "10.0.0.4:29460", mesh.GroupID{2})
		none := e.join(t, "10.0.0.5:29460", mesh.GroupID{})
		e.runAll(func() {
			time.Sleep(500 * time.Millisecond)
			synctest.Wait()
		})
		addresses := func(s *station, matches bool) (out []string) {
			for _, k := range s.table.list(func(k *candidate) bool { return k.matches == matches }) {
				out = append(out, k.Address)
			}
			return out
		}
		require.ElementsMatch(t, []string{"10.0.0.2:29461", "10.0.0.3:29460"}, a.dialed)
		require.ElementsMatch(t, []string{"10.0.0.1:29460", "10.0.0.3:29460"}, b.dialed)
		require.ElementsMatch(t, []string{"10.0.0.1:29460", "10.0.0.2:29461"}, c.dialed)
		require.Empty(t, append(other.dialed, none.dialed...))
		require.Equal(t, []string{"10.0.0.4:29460", "10.0.0.5:29460"}, addresses(a, false))
		require.Len(t, addresses(none, false), 4)
		require.Empty(t, addresses(none, true))
	})
}

// Goal: calls cannot be used to make devices talk: only a match is answered, and
// one address once a second. Method: many calls of one address, then of many
// addresses, within one moment; an answer; a device's own call.
func TestAnswersAreFew(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		e := &ether{began: time.Now()}
		s := e.join(t, "10.0.0.1:29460", mesh.GroupID{9})
		call := encodeBeacon(sampleBeacon())
		answers := func() int {
			n := len(e.sent)
			e.sent = nil
			return n
		}
		for range 100 {
			s.hear(call, netip.MustParseAddrPort("10.0.0.9:29460"))
		}
		require.Equal(t, 1, answers())
		time.Sleep(answersEvery)
		for i := range 4 * answeredMax {
			s.hear(call, netip.MustParseAddrPort(hostNumber(i)))
		}
		require.Equal(t, answeredMax, answers())
		time.Sleep(answersEvery)
		stranger, answer, own := sampleBeacon(), sampleBeacon(), s.sign(beaconCall)
		stranger.tag[0]++
		answer.kind = beaconAnswer
		for _, b := range []beacon{stranger, answer, own} {
			s.hear(encodeBeacon(b), netip.MustParseAddrPort("10.0.0.9:29460"))
		}
		s.hear([]byte("rubbish"), netip.MustParseAddrPort("10.0.0.9:29460"))
		require.Zero(t, answers())
	})
}

// Goal: whoever joins a group finds its devices at once among what it had only
// listed, and the other way round. Method: the group changes under a finder.
func TestJoiningTurnsWhatWasListedIntoWhatIsDialled(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		e := &ether{began: time.Now()}
		s := e.join(t, "10.0.0.1:29460", mesh.GroupID{})
		e.join(t, "10.0.0.2:29460", mesh.GroupID{1})
		e.runAll(func() {
			time.Sleep(30 * time.Second)
			synctest.Wait()
			e.with(func() {
				require.Empty(t, s.dialed)
				s.unit = mesh.GroupID{1}
			})
			time.Sleep(wiresEvery)
			synctest.Wait()
		})
		require.Equal(t, []string{"10.0.0.2:29460"}, s.dialed)
	})
}
