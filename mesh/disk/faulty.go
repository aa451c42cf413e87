package disk

import (
	"errors"
	"io"
	"io/fs"
	"maps"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"sync"
	"syscall"
)

// ErrCrashed is what every call on a Faulty gives between its crash and Restart.
var ErrCrashed = errors.New("the simulated machine has crashed")

// Faulty is a file system in memory that fails on purpose. It keeps apart what
// programs see and what the disk holds: at a crash each piece of 512 bytes and
// each name that was not synced is kept or lost by the seed, a length may be
// anything between the old and the new one, and a failed sync leaves its bytes
// visible, called clean, and perhaps not on the disk. All methods may be called
// from any goroutine; the same calls after the same seed give the same faults.
type Faulty struct {
	mu      sync.Mutex
	rng     *rand.Rand
	seen    map[string]*node // names as programs see them
	kept    map[string]*node // names that a crash leaves
	locks   map[string]bool
	inodes  uint64
	life    int // counts crashes and kills; handles of an earlier life are dead
	down    bool
	space   int64 // bytes that can still be written; below 0 no bound
	syncIn  int   // syncs until one fails; 0 never
	crashIn int   // changes until the machine crashes; 0 never
	changes int
}

// NewFaulty gives an empty file system without faults; "/" exists.
func NewFaulty(seed uint64) *Faulty {
	f := &Faulty{rng: rand.New(rand.NewPCG(seed, 0)), locks: map[string]bool{}, space: -1}
	root := &node{dir: true}
	f.seen = map[string]*node{"/": root}
	f.kept = map[string]*node{"/": root}
	return f
}

// SetSpace lets n more bytes be written; the write that needs more writes what
// fits and fails with ENOSPC. Below 0: no bound.
func (f *Faulty) SetSpace(n int64) { f.mu.Lock(); f.space = n; f.mu.Unlock() }

// FailSync makes the n-th sync from now fail, and only that one.
func (f *Faulty) FailSync(n int) { f.mu.Lock(); f.syncIn = n; f.mu.Unlock() }

// CrashAfter makes the machine crash in the n-th change from now (a write, sync,
// rename, truncation or a new name), in the middle of it.
func (f *Faulty) CrashAfter(n int) { f.mu.Lock(); f.crashIn = n; f.mu.Unlock() }

// Changes counts the changes so far.
func (f *Faulty) Changes() int { f.mu.Lock(); defer f.mu.Unlock(); return f.changes }

// Kill ends the process but not the machine: locks and handles are gone, all
// bytes are still seen. It also clears every fault that was set.
func (f *Faulty) Kill() {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.down, f.space, f.syncIn, f.crashIn = false, -1, 0, 0
	f.locks = map[string]bool{}
	f.life++
}

// Restart cuts the power, if that has not happened, and starts the machine
// again with what the disk held. It also clears every fault that was set.
func (f *Faulty) Restart() {
	f.Kill()
	f.mu.Lock()
	defer f.mu.Unlock()
	names := maps.Clone(f.seen)
	maps.Copy(names, f.kept)
	after := map[string]*node{}
	for _, name := range slices.Sorted(maps.Keys(names)) { // sorted: a folder comes before what is in it
		n := f.kept[name]
		if f.seen[name] != n && f.rng.IntN(2) == 0 {
			n = f.seen[name]
		}
		parent := after[filepath.Dir(name)]
		if n != nil && (name == "/" || parent != nil && parent.dir) {
			after[name] = n
		}
	}
	crashed := map[*node]bool{}
	for _, name := range slices.Sorted(maps.Keys(names)) {
		if n := after[name]; n != nil && !crashed[n] {
			n.crash(f.rng)
			crashed[n] = true
		}
	}
	f.seen, f.kept = after, maps.Clone(after)
}

// change counts a change and tells whether the machine crashes in it.
func (f *Faulty) change() (crash bool) {
	f.changes++
	if f.crashIn > 0 {
		f.crashIn--
		f.down = f.crashIn == 0
	}
	return f.down
}

// syncFails counts a sync and tells whether it fails.
func (f *Faulty) syncFails() bool {
	if f.syncIn == 0 {
		return false
	}
	f.syncIn--
	return f.syncIn == 0
}

// Bytes gives what programs see in a file, or nil.
func (f *Faulty) Bytes(name string) []byte {
	f.mu.Lock()
	defer f.mu.Unlock()
	if n := f.seen[filepath.Clean(name)]; n != nil {
		return slices.Clone(n.seen)
	}
	return nil
}

// SetBytes changes a file behind the back of every program, on the disk too.
func (f *Faulty) SetBytes(name string, b []byte) {
	f.mu.Lock()
	defer f.mu.Unlock()
	n := f.seen[filepath.Clean(name)]
	if n == nil {
		n = f.newNode(false)
		f.seen[filepath.Clean(name)], f.kept[filepath.Clean(name)] = n, n
	}
	n.seen, n.kept, n.dirty, n.lenDirty = slices.Clone(b), slices.Clone(b), nil, false
}

// Names lists every file and folder that programs see.
func (f *Faulty) Names() []string {
	f.mu.Lock()
	defer f.mu.Unlock()
	return slices.Sorted(maps.Keys(f.seen))
}

func (f *Faulty) newNode(dir bool) *node {
	f.inodes++
	return &node{dir: dir, inode: f.inodes}
}

// Lock implements FS.
func (f *Faulty) Lock(name string) (io.Closer, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	switch {
	case f.down:
		return nil, ErrCrashed
	case f.locks[name]:
		return nil, ErrLocked
	}
	f.locks[name] = true
	return faultyLock{f: f, name: name, life: f.life}, nil
}

type faultyLock struct {
	f    *Faulty
	name string
	life int
}

func (l faultyLock) Close() error {
	l.f.mu.Lock()
	defer l.f.mu.Unlock()
	if l.f.life == l.life {
		delete(l.f.locks, l.name)
	}
	return nil
}

// fault words an error as the system does.
func fault(op, name string, err error) error { return &fs.PathError{Op: op, Path: name, Err: err} }

var errNoSpace error = syscall.ENOSPC
