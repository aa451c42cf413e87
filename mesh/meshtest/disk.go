package meshtest

import (
	"errors"
	"math/rand/v2"

	"lintel/mesh"
)

// errDisk is what a failing simulated disk answers.
var errDisk = errors.New("simulated disk failure")

// batch is one write of the simulated disk.
type batch struct {
	number  uint64
	records []mesh.Record
	void    []mesh.VoidMark
}

// disk is a simulated disk: what was synced survives a crash; the batch under
// way survives wholly, in part (torn), or not at all.
type disk struct {
	synced   []batch
	writing  *mesh.Append
	full     bool               // every write fails from now on
	fresh    mesh.Why           // why the next start must begin a new incarnation
	has      map[mesh.Hash]bool // every entry that is really on it
	short    map[mesh.Short]bool
	poisoned bool
}

func newDisk() *disk { return &disk{has: map[mesh.Hash]bool{}, short: map[mesh.Short]bool{}} }

// finish completes the write under way and tells what the Peer hears.
func (d *disk) finish(verify func(mesh.SignatureCheck) bool) mesh.Wrote {
	a := d.writing
	d.writing = nil
	w := mesh.Wrote{Batch: a.Batch}
	for i, c := range a.Checks {
		if !verify(c) {
			w.Bad = append(w.Bad, i)
		}
	}
	if d.full || d.poisoned {
		d.poisoned = true
		w.Err = errDisk
		return w
	}
	d.store(a, len(a.Records))
	return w
}

func (d *disk) store(a *mesh.Append, n int) {
	d.synced = append(d.synced, batch{number: a.Batch, records: a.Records[:n:n], void: a.Void})
	d.mark(a.Records[:n])
}

func (d *disk) mark(records []mesh.Record) {
	for _, r := range records {
		h := mesh.HashEntry(r.Item.Bytes)
		d.has[h], d.short[h.Short()] = true, true
	}
}

// crash decides what becomes of the write under way.
func (d *disk) crash(r *rand.Rand) {
	a := d.writing
	d.writing = nil
	if a == nil || d.full || d.poisoned {
		return
	}
	switch r.IntN(3) {
	case 0: // nothing reached the disk
	case 1: // all of it did, and nobody was told
		d.store(a, len(a.Records))
	case 2: // a torn tail: the start cuts the whole batch
		d.fresh = mesh.WhyTorn
	}
}

// load gives what a start finds. Only what lies behind the last batch's mark
// is verified again.
func (d *disk) load() mesh.Stock {
	s := mesh.Stock{Fresh: d.fresh, Memory: d.full}
	d.fresh, d.poisoned = 0, false
	gone := map[mesh.VoidMark]bool{}
	for _, b := range d.synced {
		for _, v := range b.void {
			gone[v] = true
		}
	}
	for i, b := range d.synced {
		if i == len(d.synced)-1 {
			s.Verified = len(s.Records)
		}
		for j, r := range b.records {
			v := mesh.VoidMark{Batch: b.number, Index: uint32(j)}
			if !gone[v] {
				s.Records = append(s.Records, r)
				s.Places = append(s.Places, v)
			}
		}
		s.Newest = b.number
	}
	return s
}

// copy is the disk as a copied or restored folder has it.
func (d *disk) copy() *disk {
	c := newDisk()
	c.synced = append(c.synced, d.synced...)
	for _, b := range c.synced {
		c.mark(b.records)
	}
	return c
}
