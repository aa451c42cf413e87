package disk

import (
	"errors"
	"io/fs"
	"maps"
	"math/rand/v2"
	"slices"
)

// sectorLen is what a disk writes whole or not at all.
const sectorLen = 512

var errSimulated = errors.New("simulated input/output error")

// node is a file or folder of a Faulty, which guards it.
type node struct {
	dir      bool
	inode    uint64
	seen     []byte       // what programs read
	kept     []byte       // what the disk holds
	dirty    map[int]bool // pieces that the next sync writes
	lenDirty bool         // the length, too
}

func (n *node) touch(from, to int) {
	if n.dirty == nil {
		n.dirty = map[int]bool{}
	}
	for i := from / sectorLen; i*sectorLen < to; i++ {
		n.dirty[i] = true
	}
}

func (n *node) write(b []byte, off int) {
	if end := off + len(b); end > len(n.seen) {
		n.seen = append(n.seen, make([]byte, end-len(n.seen))...)
		n.lenDirty = true
	}
	copy(n.seen[off:], b)
	n.touch(off, off+len(b))
}

func (n *node) truncate(size int) {
	if size < len(n.seen) {
		n.seen = slices.Clone(n.seen[:size])
	} else {
		n.seen = append(n.seen, make([]byte, size-len(n.seen))...)
	}
	n.lenDirty = true
}

// settle brings to the disk those dirty pieces, and that length, that keep chooses.
func (n *node) settle(size int, keep func() bool) {
	if size < len(n.kept) {
		n.kept = n.kept[:size]
	} else {
		n.kept = append(n.kept, make([]byte, size-len(n.kept))...)
	}
	for _, i := range slices.Sorted(maps.Keys(n.dirty)) {
		from := i * sectorLen
		if keep() && from < min(len(n.kept), len(n.seen)) {
			copy(n.kept[from:], n.seen[from:min(from+sectorLen, len(n.seen))])
		}
	}
	n.dirty, n.lenDirty = nil, false
}

func always() bool { return true }

// sync makes all that is dirty durable.
func (n *node) sync() {
	size := len(n.kept)
	if n.lenDirty {
		size = len(n.seen)
	}
	n.settle(size, always)
}

// settleSome makes durable what chance chooses.
func (n *node) settleSome(rng *rand.Rand) {
	size := len(n.kept)
	if n.lenDirty {
		low, high := min(size, len(n.seen)), max(size, len(n.seen))
		switch rng.IntN(3) {
		case 0:
			size = len(n.seen)
		case 1:
			size = low + rng.IntN(high-low+1)
		}
	}
	n.settle(size, func() bool { return rng.IntN(2) == 0 })
}

// crash leaves what the disk holds.
func (n *node) crash(rng *rand.Rand) {
	n.settleSome(rng)
	n.seen = slices.Clone(n.kept)
}

// faultyFile is an open file of a Faulty.
type faultyFile struct {
	f    *Faulty
	n    *node
	name string
	life int
}

// dead tells whether the handle belongs to an earlier life.
func (h *faultyFile) dead() bool { return h.f.down || h.life != h.f.life }

// WriteAt implements File.
func (h *faultyFile) WriteAt(b []byte, off int64) (int, error) {
	h.f.mu.Lock()
	defer h.f.mu.Unlock()
	if h.dead() {
		return 0, ErrCrashed
	}
	if h.f.change() {
		h.n.write(b[:h.f.rng.IntN(len(b)+1)], int(off))
		return 0, ErrCrashed
	}
	fits := len(b)
	if grown := off + int64(len(b)) - int64(len(h.n.seen)); h.f.space >= 0 && grown > 0 {
		fits -= int(max(0, grown-h.f.space))
		h.f.space -= min(h.f.space, grown)
	}
	h.n.write(b[:fits], int(off))
	if fits < len(b) {
		return fits, fault("write", h.name, errNoSpace)
	}
	return fits, nil
}

// Truncate implements File.
func (h *faultyFile) Truncate(size int64) error {
	h.f.mu.Lock()
	defer h.f.mu.Unlock()
	if h.dead() {
		return ErrCrashed
	}
	crash := h.f.change()
	h.n.truncate(int(size))
	if crash {
		return ErrCrashed
	}
	return nil
}

// Sync implements File.
func (h *faultyFile) Sync() error {
	h.f.mu.Lock()
	defer h.f.mu.Unlock()
	switch {
	case h.dead():
		return ErrCrashed
	case h.f.change():
		h.n.settleSome(h.f.rng)
		return ErrCrashed
	case h.f.syncFails():
		h.n.settleSome(h.f.rng)
		return fault("sync", h.name, errSimulated)
	}
	h.n.sync()
	return nil
}

// Close implements File.
func (h *faultyFile) Close() error {
	h.f.mu.Lock()
	defer h.f.mu.Unlock()
	if h.dead() {
		return fs.ErrClosed
	}
	return nil
}
