package station

import (
	"slices"

	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Reading is a log that was read by nobody's device: nothing in it is trusted,
// every entry is vouched for by a signature again, and nothing is written.
type Reading struct {
	View    View
	Entries []ReadEntry  // those that stand, in the order that all devices agree on
	Noted   []mesh.Noted // what could not be read or was not vouched for
	Gaps    []mesh.Feed  // one for each entry whose earlier ones are missing
	Wrong   []mesh.Feed  // one for each signature that does not fit its entry, though a later one vouches for it
}

// ReadEntry is one stored entry.
type ReadEntry struct {
	At    mesh.Order
	Entry *mesh.Entry
}

// Read folds the records of a log as a station does.
func Read(g mesh.GroupID, records []mesh.Record, verifier mesh.Signer, starter Starter) Reading {
	peer := mesh.New(mesh.Options{Group: g, Signer: verifier, Settings: mesh.Defaults()})
	r := Reading{View: View{
		Peer:   peer,
		Board:  requests.NewBoard(starter.Roles),
		Ledger: kits.NewLedger(kits.Options{Defaults: starter.Kits}),
	}}
	for _, ef := range peer.Load(mesh.Now{}, mesh.Stock{Records: records, Memory: true}) {
		switch e := ef.(type) {
		case mesh.Learnt:
			for _, f := range e.Facts {
				r.View.Board.Add(f)
				r.View.Ledger.Add(f)
			}
		case mesh.Noted:
			r.Noted = append(r.Noted, e)
		}
	}
	r.View.witnessed()
	r.list(g, records, verifier)
	return r
}

// list fills Entries, Gaps and Wrong.
func (r *Reading) list(g mesh.GroupID, records []mesh.Record, verifier mesh.Signer) {
	there := map[mesh.Hash]bool{}
	r.View.Peer.EachItem(func(at mesh.Order, it mesh.Item) {
		there[at.Hash] = true
		if e, err := mesh.DecodeEntry(it.Bytes); err == nil {
			r.Entries = append(r.Entries, ReadEntry{At: at, Entry: e})
		}
		if len(it.Signature) == len(mesh.Signature{}) &&
			!verifier.Verify(at.Feed.Author(), mesh.SignedText(g, at.Feed, at.Seq, at.Hash), mesh.Signature(it.Signature)) {
			r.Wrong = append(r.Wrong, at.Feed)
		}
	})
	slices.SortFunc(r.Entries, func(a, b ReadEntry) int { return a.At.Compare(b.At) })
	unsigned := map[mesh.Feed]int{}
	for _, n := range r.Noted {
		if n.Note == mesh.NoteBadSigned {
			unsigned[n.Feed]++
		}
	}
	for _, rec := range records {
		e, err := mesh.DecodeEntry(rec.Item.Bytes)
		if err != nil || there[mesh.HashEntry(rec.Item.Bytes)] {
			continue
		}
		if f := e.Feed(); unsigned[f] > 0 {
			unsigned[f]--
		} else {
			r.Gaps = append(r.Gaps, f)
		}
	}
}
