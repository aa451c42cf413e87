package disk

import (
	"io/fs"
	"path/filepath"
	"slices"
)

// Mkdir implements FS.
func (f *Faulty) Mkdir(dir string) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	dir = filepath.Clean(dir)
	parent := f.seen[filepath.Dir(dir)]
	switch {
	case f.down:
		return ErrCrashed
	case f.seen[dir] != nil:
		return fault("mkdir", dir, fs.ErrExist)
	case parent == nil || !parent.dir:
		return fault("mkdir", dir, fs.ErrNotExist)
	case f.space == 0:
		return fault("mkdir", dir, errNoSpace)
	}
	crash := f.change()
	f.seen[dir] = f.newNode(true)
	if crash {
		return ErrCrashed
	}
	return nil
}

// ReadDir implements FS.
func (f *Faulty) ReadDir(dir string) ([]string, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	dir = filepath.Clean(dir)
	if f.down {
		return nil, ErrCrashed
	}
	if n := f.seen[dir]; n == nil || !n.dir {
		return nil, fault("readdir", dir, fs.ErrNotExist)
	}
	var names []string
	for name := range f.seen {
		if name != dir && filepath.Dir(name) == dir {
			names = append(names, filepath.Base(name))
		}
	}
	slices.Sort(names)
	return names, nil
}

// ReadFile implements FS.
func (f *Faulty) ReadFile(name string, lenMax int64) ([]byte, int64, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	n := f.seen[filepath.Clean(name)]
	switch {
	case f.down:
		return nil, 0, ErrCrashed
	case n == nil || n.dir:
		return nil, 0, fault("open", name, fs.ErrNotExist)
	}
	size := int64(len(n.seen))
	return slices.Clone(n.seen[:min(size, lenMax)]), size, nil
}

// Open implements FS.
func (f *Faulty) Open(name string, create bool, _ fs.FileMode) (File, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	name = filepath.Clean(name)
	n, parent := f.seen[name], f.seen[filepath.Dir(name)]
	switch {
	case f.down:
		return nil, ErrCrashed
	case n != nil && n.dir, n == nil && !create, parent == nil:
		return nil, fault("open", name, fs.ErrNotExist)
	case create && f.space == 0:
		return nil, fault("open", name, errNoSpace)
	case create:
		crash := f.change()
		if n == nil {
			n = f.newNode(false)
			f.seen[name] = n
		} else {
			n.truncate(0)
		}
		if crash {
			return nil, ErrCrashed
		}
	}
	return &faultyFile{f: f, n: n, name: name, life: f.life}, nil
}

// Rename implements FS.
func (f *Faulty) Rename(from, to string) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	from, to = filepath.Clean(from), filepath.Clean(to)
	switch {
	case f.down:
		return ErrCrashed
	case f.seen[from] == nil:
		return fault("rename", from, fs.ErrNotExist)
	}
	crash := f.change()
	f.seen[to] = f.seen[from]
	delete(f.seen, from)
	if crash {
		return ErrCrashed
	}
	return nil
}

// SyncDir implements FS.
func (f *Faulty) SyncDir(dir string) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	dir = filepath.Clean(dir)
	switch n := f.seen[dir]; {
	case f.down || f.change():
		return ErrCrashed
	case n == nil || !n.dir:
		return fault("sync", dir, fs.ErrNotExist)
	case f.syncFails():
		return fault("sync", dir, errSimulated)
	}
	for name := range f.kept {
		if name != dir && filepath.Dir(name) == dir && f.seen[name] == nil {
			delete(f.kept, name)
		}
	}
	for name, n := range f.seen {
		if name != dir && filepath.Dir(name) == dir {
			f.kept[name] = n
		}
	}
	return nil
}

// Identify implements FS.
func (f *Faulty) Identify(name string) (Identity, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	n := f.seen[filepath.Clean(name)]
	switch {
	case f.down:
		return Identity{}, ErrCrashed
	case n == nil:
		return Identity{}, fault("stat", name, fs.ErrNotExist)
	}
	return Identity{Device: 1, Inode: n.inode}, nil
}
