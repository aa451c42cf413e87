package lan

import (
	"context"
	"crypto/rand"
	"encoding/hex"
	"fmt"
	mathrand "math/rand/v2"
	"net/netip"
	"sync"
	"time"

	"lintel/mesh"
)

// answersEvery is how often one address is answered at most.
const answersEvery = time.Second

// answeredMax bounds the addresses whose last answer is kept; when it is full
// of fresh ones nobody else is answered.
const answeredMax = 256

// sleptMin is how far the wall clock must have gone without the other before
// every link is doubted. Less would doubt them at every correction of the clock.
const sleptMin = 5 * time.Second

// finder looks for the devices of the group. Its loop, run by look, owns the
// fields without a word about it.
type finder struct {
	table  *candidates
	nonce  [nonceLen]byte // of this run: the same in every beacon, so that a device knows its own
	called string         // what this run is called in mDNS
	port   uint16
	bound  netip.Addr // the only address to be found at; not valid: all

	group func() (mesh.GroupID, bool)
	wires func() []wire                     // what interfaces there are
	send  func(b []byte, to netip.AddrPort) // sends a beacon
	query func(w wire)                      // asks on one wire by mDNS; must not block
	serve func(ws []wire)                   // answers mDNS on these from now on
	wall  func() time.Time                  // the wall clock, which goes on in a sleep
	moved func()                            // this device is somewhere else on the network, or has slept
	tend  func()                            // dials and drops what the table says
	drop  func(addr string)                 // dials it no more

	beacons, queries schedule
	judged           mesh.GroupID
	inUnit           bool
	began            time.Time
	ahead            time.Duration // how much further than the other the wall clock went since began

	mu       sync.Mutex // guards the rest
	here     []wire     // where this device is now
	answered map[netip.Addr]time.Time
}

// newFinder makes the table, which serves typed addresses as well, and what is
// needed to look for others. What connects it with the network is filled in by
// whoever does.
func newFinder() (*finder, error) {
	f := &finder{wires: readWires, table: &candidates{all: map[string]*candidate{}}, answered: map[netip.Addr]time.Time{}}
	name := make([]byte, nonceLen)
	_, err := rand.Read(f.nonce[:])
	if err == nil {
		_, err = rand.Read(name)
	}
	if err != nil {
		return nil, fmt.Errorf("random: %w", err)
	}
	f.called = hex.EncodeToString(name)
	f.beacons = schedule{quick: beaconQuick(), every: beaconEvery, jitter: beaconJitter, random: mathrand.N[time.Duration]}
	f.queries = schedule{quick: queryQuick(), every: queryEvery, jitter: queryJitter, random: mathrand.N[time.Duration]}
	return f, nil
}

// look looks for others until ctx ends.
func (f *finder) look(ctx context.Context) {
	defer f.serve(nil)
	now := time.Now()
	f.began = now
	f.hurry(now)
	f.slept(now)
	var wiresNext time.Time
	timer := time.NewTimer(0)
	defer timer.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-timer.C:
		}
		now = time.Now()
		if !now.Before(wiresNext) {
			elsewhere := f.lookAround() && !wiresNext.IsZero()
			if slept := f.slept(now); slept || elsewhere {
				f.hurry(now)
				f.moved()
			}
			wiresNext = now.Add(wiresEvery)
		}
		f.regroup(now)
		if f.beacons.due(now) {
			f.call()
		}
		if f.queries.due(now) {
			for _, w := range f.where() {
				f.query(w)
			}
		}
		f.tend()
		next := wiresNext
		for _, at := range []time.Time{f.beacons.next, f.queries.next} {
			if at.Before(next) {
				next = at
			}
		}
		timer.Reset(time.Until(next))
	}
}

// hurry begins to look quickly again.
func (f *finder) hurry(now time.Time) {
	f.beacons.begin(now)
	f.queries.begin(now)
}

// slept tells whether the wall clock has gone further than the other since it
// was last asked: the device slept, or was set, and what stands is to be doubted.
func (f *finder) slept(now time.Time) bool {
	before := f.ahead
	f.ahead = f.wall().Round(0).Sub(f.began) - now.Sub(f.began)
	return f.ahead-before > sleptMin
}

// lookAround reads the interfaces and tells whether this device is somewhere else.
func (f *finder) lookAround() bool {
	fresh := f.wires()
	f.mu.Lock()
	old := f.here
	f.here = fresh
	f.mu.Unlock()
	f.serve(fresh)
	return !sameNetworks(old, fresh)
}

// where lists the wires that this device is on.
func (f *finder) where() []wire {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.here
}

// regroup judges everything found again when this device has another group.
func (f *finder) regroup(now time.Time) {
	g, ok := f.group()
	if g == f.judged && ok == f.inUnit {
		return
	}
	f.judged, f.inUnit = g, ok
	f.table.judge(func(b beacon) bool { return b.matches(g, ok) })
	f.hurry(now)
}

// sign is what this device says about itself.
func (f *finder) sign(k beaconKind) beacon {
	b := beacon{kind: k, port: f.port, nonce: f.nonce}
	if g, ok := f.group(); ok {
		b.tag = groupTag(g, f.nonce)
	}
	return b
}

// call sends a beacon to everybody, on all ports where a device may listen.
func (f *finder) call() {
	b := encodeBeacon(f.sign(beaconCall))
	for _, w := range f.where() {
		for _, to := range w.broadcasts(f.bound) {
			for port := PortDefault; port < PortDefault+PortsTried; port++ {
				f.send(b, netip.AddrPortFrom(to, uint16(port)))
			}
		}
	}
}

// hear takes a datagram that is not QUIC.
func (f *finder) hear(in []byte, from netip.AddrPort) {
	b, err := decodeBeacon(in)
	if err != nil || b.nonce == f.nonce {
		return // rubbish, or this device's own
	}
	host := from.Addr().Unmap()
	match := f.sighted(b, host, ByBeacon)
	if match && b.kind == beaconCall && f.mayAnswer(host, time.Now()) {
		f.send(encodeBeacon(f.sign(beaconAnswer)), netip.AddrPortFrom(host, from.Port()))
	}
}

// sighted notes a device that says b at host, and tells whether it matches.
func (f *finder) sighted(b beacon, host netip.Addr, way Ways) (match bool) {
	if !host.IsValid() || host.IsUnspecified() || host.IsMulticast() || host.IsLoopback() || b.nonce == f.nonce {
		return false
	}
	match = b.matches(f.group())
	f.note(sighting{addr: netip.AddrPortFrom(host, b.port).String(), way: way, sign: b, match: match})
	return match
}

// note puts a sighting into the table and has it dialled if it is to be.
func (f *finder) note(s sighting) {
	gone, noted := f.table.found(s, time.Now())
	if gone != "" {
		f.drop(gone)
	}
	if noted && s.match {
		f.tend()
	}
}

// mayAnswer bounds the answers to one address, and to all together.
func (f *finder) mayAnswer(host netip.Addr, now time.Time) bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	if last, ok := f.answered[host]; ok && now.Sub(last) < answersEvery {
		return false
	}
	if len(f.answered) >= answeredMax {
		for a, last := range f.answered {
			if now.Sub(last) >= answersEvery {
				delete(f.answered, a)
			}
		}
	}
	if len(f.answered) >= answeredMax {
		return false
	}
	f.answered[host] = now
	return true
}
