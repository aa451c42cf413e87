package lan

import (
	"sync"

	"lintel/mesh"
)

// links knows which link stands with each device, and settles which of two stays.
type links struct {
	own mesh.Key

	mu      sync.Mutex // guards the rest
	byPeer  map[mesh.Key]*link
	byID    map[mesh.LinkID]*link
	last    mesh.LinkID
	shut    bool
	changed chan struct{} // closed and made anew whenever a link comes or goes
}

func newLinks(own mesh.Key) *links {
	return &links{
		own: own, byPeer: map[mesh.Key]*link{}, byID: map[mesh.LinkID]*link{},
		changed: make(chan struct{}),
	}
}

// intent says how much a dialling side wants its new connection.
type intent uint8

const (
	wantsAny    intent = iota // only if none stands that it dialled
	wantsBetter               // also instead of its own (QUIC instead of TCP)
	wantsFresh                // instead of any: what stands is doubted
)

// standing fills the accepting side's hello with what stands with peer.
func (t *links) standing(peer mesh.Key, h *Hello) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if l := t.byPeer[peer]; l != nil {
		h.Epoch, h.Attempt, h.ByAccepter, h.KnownRun = l.rank.epoch, l.rank.attempt, l.dialled, l.run
	}
}

// settleDialled decides whether a connection that this device dialled becomes
// the link, given the accepting side's hello, and gives it its rank. own is this
// device's run.
func (t *links) settleDialled(l *link, theirs Hello, own runID, attempt uint64, want intent) error {
	smaller := t.own.Compare(l.c.peer) < 0
	l.run, l.rank = theirs.Run, rank{bySmaller: smaller, attempt: attempt}
	t.mu.Lock()
	defer t.mu.Unlock()
	here := t.byPeer[l.c.peer]
	if here != nil && here.run != theirs.Run {
		here = nil // a link with a former run is dead, whether it knows or not
	}
	there := theirs.KnownRun == own
	if here != nil {
		l.rank.epoch = here.rank.epoch
	}
	if there {
		l.rank.epoch = max(l.rank.epoch, theirs.Epoch)
	}
	if want == wantsFresh {
		l.rank.epoch++
	}
	if want == wantsAny && here != nil && here.dialled {
		return errStands
	}
	if here != nil && !l.rank.over(here.rank) {
		return errStands
	}
	told := rank{epoch: theirs.Epoch, bySmaller: smaller != theirs.ByAccepter, attempt: theirs.Attempt}
	if there && !l.rank.over(told) {
		return errStands
	}
	return t.place(l)
}

// settleAccepted does the same for a connection that the other side dialled,
// whose hello says its rank.
func (t *links) settleAccepted(l *link, theirs Hello) error {
	l.run = theirs.Run
	l.rank = rank{epoch: theirs.Epoch, bySmaller: t.own.Compare(l.c.peer) > 0, attempt: theirs.Attempt}
	t.mu.Lock()
	defer t.mu.Unlock()
	here := t.byPeer[l.c.peer]
	if here != nil && here.run == theirs.Run && !l.rank.over(here.rank) {
		return errStands
	}
	return t.place(l)
}

// place makes l the link with its device. The lock is held.
func (t *links) place(l *link) error {
	if t.shut {
		return errStands
	}
	if old := t.byPeer[l.c.peer]; old != nil {
		old.end(closedReplaced, "replaced by another connection with the same device")
	}
	t.last++
	l.id = t.last
	t.byPeer[l.c.peer], t.byID[l.id] = l, l
	t.notify()
	return nil
}

// remove forgets a link that has ended.
func (t *links) remove(l *link) {
	t.mu.Lock()
	defer t.mu.Unlock()
	delete(t.byID, l.id)
	if t.byPeer[l.c.peer] == l {
		delete(t.byPeer, l.c.peer)
	}
	t.notify()
}

func (t *links) notify() {
	close(t.changed)
	t.changed = make(chan struct{})
}

// get returns a link by its id, nil if it is no more.
func (t *links) get(id mesh.LinkID) *link {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.byID[id]
}

// with returns the link that stands with a device, nil if none, and a channel
// that is closed at the next change of any link.
func (t *links) with(peer mesh.Key) (*link, <-chan struct{}) {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.byPeer[peer], t.changed
}

// addresses lists where the devices with a link listen. The lock is held.
func (t *links) addresses() (out []string) {
	for _, l := range t.byPeer {
		out = append(out, plainAddress(l.address))
	}
	return out
}

// close ends all links and lets none stand any more.
func (t *links) close() {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.shut = true
	for _, l := range t.byID {
		l.end(closedLeaving, "the program ends")
	}
}
