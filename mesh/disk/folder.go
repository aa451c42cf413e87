package disk

import (
	"errors"
	"io"
	"io/fs"
	"path/filepath"
)

// newExt ends the name of a file that is still being written.
const newExt = ".new"

// Lock holds a data folder for one process.
type Lock struct{ held io.Closer }

// LockFolder makes the data folder if it is missing and takes it for this
// process, until Close or the process's end. It fails at once with ErrLocked.
func LockFolder(dir string) (*Lock, error) { return lockFolder(Real(), dir) }

func lockFolder(fsys FS, dir string) (*Lock, error) {
	if err := makeFolder(fsys, dir); err != nil {
		return nil, err
	}
	held, err := fsys.Lock(filepath.Join(dir, lockName))
	if err != nil {
		return nil, err
	}
	return &Lock{held: held}, nil
}

// Close gives the folder free. A nil Lock is free already.
func (l *Lock) Close() error {
	if l == nil {
		return nil
	}
	return l.held.Close()
}

// ReplaceFile puts a file with these bytes in the place of the one at path. A
// reader, or a crash, meets the old bytes or the new ones, never a mixture;
// when it returns nil, the new ones are on the disk. One caller at a time for
// each path.
func ReplaceFile(path string, b []byte, perm fs.FileMode) error {
	return replace(Real(), path, perm, func(Identity) []byte { return b })
}

// replace is ReplaceFile for bytes that name the file they stand in.
func replace(fsys FS, path string, perm fs.FileMode, make func(Identity) []byte) error {
	name := path + newExt
	f, err := fsys.Open(name, true, perm)
	if err != nil {
		return err
	}
	id, err := fsys.Identify(name)
	if err == nil {
		_, err = f.WriteAt(make(id), 0)
	}
	if err == nil {
		err = f.Sync()
	}
	if closing := f.Close(); err == nil {
		err = closing
	}
	if err == nil {
		err = fsys.Rename(name, path)
	}
	if err == nil {
		err = fsys.SyncDir(filepath.Dir(path))
	}
	return err
}

// MakeFolder makes dir and the folders above it where they are missing; when it
// returns nil, they are there after a power cut too.
func MakeFolder(dir string) error { return makeFolder(Real(), dir) }

// makeFolder makes dir and the folders above it where they are missing, and
// sees to it that they are there after a power cut.
func makeFolder(fsys FS, dir string) error {
	err := fsys.Mkdir(dir)
	if errors.Is(err, fs.ErrNotExist) && filepath.Dir(dir) != dir {
		if err = makeFolder(fsys, filepath.Dir(dir)); err == nil {
			err = fsys.Mkdir(dir)
		}
	}
	if errors.Is(err, fs.ErrExist) {
		return nil
	}
	if err != nil {
		return err
	}
	return fsys.SyncDir(filepath.Dir(dir))
}
