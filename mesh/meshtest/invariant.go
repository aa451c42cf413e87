package meshtest

import (
	"fmt"

	"lintel/mesh"
)

// Check names one promise that the simulation looks at.
type Check string

// The promises, each by what is found where it is broken.
const (
	SavedNotOnDisk      Check = "saved-not-on-disk"    // shown as saved, and the disk does not have it
	CopyToldNotThere    Check = "copy-told-not-there"  // a device is said to have stored what it has not
	CopyHeldNotThere    Check = "copy-held-not-there"  // a device counts at the end as having stored what it has not
	SentBeforeSync      Check = "sent-before-sync"     // an entry left its device before its sync
	FrameUnreadable     Check = "frame-unreadable"     // a device sent what nobody can read
	EntryUnreadable     Check = "entry-unreadable"     // a device holds what nobody can read
	EntryNotVouched     Check = "entry-not-vouched"    // a device holds what no signature of its author vouches for
	GapInChain          Check = "gap-in-chain"         // a device holds an entry without the one before
	StatesDiffer        Check = "states-differ"        // devices ended with different states
	RefoldDiffers       Check = "refold-differs"       // folding everything again gives another state
	AboveCutFolded      Check = "above-cut-folded"     // what a removed device wrote above its cut counts
	AcknowledgedMissing Check = "acknowledged-missing" // what was shown as safe is missing somewhere
	StayedAndLost       Check = "stayed-and-lost"      // a device said that nothing is only on it, and something was
)

// allChecks lists every check.
func allChecks() []Check {
	return []Check{
		SavedNotOnDisk, CopyToldNotThere, CopyHeldNotThere, SentBeforeSync, FrameUnreadable, EntryUnreadable,
		EntryNotVouched, GapInChain, StatesDiffer, RefoldDiffers, AboveCutFolded, AcknowledgedMissing, StayedAndLost,
	}
}

// Bug switches on one deliberate mistake, to show that the checks find it.
type Bug uint8

// The deliberate mistakes.
const (
	NoBug         Bug = 0
	AckBeforeSync Bug = 1  // the disk answers before the sync, and a crash loses it
	IgnoreRefold  Bug = 2  // a device goes on folding when it should begin again
	ArrivalOrder  Bug = 3  // the fold keeps what came last
	NoSignatures  Bug = 4  // signatures are not checked
	DropLadders   Bug = 5  // forks are never resolved
	ForgetPoison  Bug = 6  // a failed sync is tried again and believed
	SendUnsynced  Bug = 7  // what is to be written is sent at once
	GarbleSent    Bug = 8  // frames of entries lose their end on the way out
	GarbleHeld    Bug = 9  // the last entry held loses its end
	LoseHeld      Bug = 10 // an entry from the middle of a feed is lost
	LyingDisk     Bug = 11 // the last sync did not happen, which a crash shows
	CountAbove    Bug = 12 // what was folded before a cut goes on counting above it
	StayOnSent    Bug = 13 // what was sent to two devices is taken for stored there
	StayOnOne     Bug = 14 // one device that stored everything is taken for two
	bugEnd        Bug = 15
)

// finding is one broken promise.
type finding struct {
	check Check
	said  string
}

// broken records a broken promise.
func (s *Sim) broken(c Check, format string, args ...any) {
	s.found = append(s.found, finding{c, fmt.Sprintf(format, args...)})
}

// Broken lists the promises that did not hold.
func (s *Sim) Broken() (out []string) {
	for _, f := range s.found {
		out = append(out, string(f.check)+": "+f.said)
	}
	return out
}

// eachHeld visits what a device holds, with the mistakes that a Peer's own
// structure rules out and the checks must find all the same.
func (n *node) eachHeld(visit func(mesh.Order, mesh.Item)) {
	lost := false
	var last mesh.Order
	n.peer.EachItem(func(at mesh.Order, _ mesh.Item) { last = at })
	n.peer.EachItem(func(at mesh.Order, it mesh.Item) {
		switch {
		case n.sim.opt.Bug == GarbleHeld && at == last:
			it.Bytes = it.Bytes[:len(it.Bytes)-1]
		case n.sim.opt.Bug == LoseHeld && at.Seq == 2 && !lost:
			lost = true
			return
		}
		visit(at, it)
	})
}

// checkAbove checks that nothing is folded that a removed device wrote above
// its cut. Of several cuts of one incarnation the highest holds.
func (s *Sim) checkAbove(n *node) {
	removed := map[mesh.Key]bool{}
	for _, d := range n.peer.Devices() {
		removed[d.Key] = d.Status == mesh.RemovedOut
	}
	cuts := map[mesh.Feed]mesh.Seq{}
	n.eachHeld(func(_ mesh.Order, it mesh.Item) {
		e, err := mesh.DecodeEntry(it.Bytes)
		if err != nil {
			return // noted by another check
		}
		for _, p := range e.Parts {
			var r mesh.Removed
			if p.Kind != mesh.KindRemoved || mesh.Decode(p.Body, &r) != nil {
				continue
			}
			for _, c := range r.Cuts {
				f := mesh.MakeFeed(r.Key, c.Incarnation)
				cuts[f] = max(cuts[f], c.Seq)
			}
		}
	})
	for _, f := range n.folded {
		at := f.At
		if removed[at.Feed.Author()] && at.Seq > cuts[at.Feed] {
			s.broken(AboveCutFolded, "%v counts %s/%d, whose author was removed at %d", n, at.Feed, at.Seq, cuts[at.Feed])
			return
		}
	}
}
