package disk

import (
	"fmt"
	"io"
	"io/fs"
	"os"

	"github.com/gofrs/flock"
)

// Real is the machine's own file system.
func Real() FS { return realFS{} }

type realFS struct{}

func (realFS) Mkdir(dir string) error { return os.Mkdir(dir, 0o700) }

func (realFS) ReadDir(dir string) ([]string, error) {
	entries, err := os.ReadDir(dir)
	names := make([]string, 0, len(entries))
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names, err
}

func (realFS) ReadFile(name string, lenMax int64) ([]byte, int64, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, 0, err
	}
	defer f.Close()
	st, err := f.Stat()
	if err != nil {
		return nil, 0, err
	}
	b := make([]byte, min(st.Size(), lenMax))
	if _, err := io.ReadFull(f, b); err != nil {
		return nil, 0, fmt.Errorf("reading %s: %w", name, err)
	}
	return b, st.Size(), nil
}

func (realFS) Open(name string, create bool, perm fs.FileMode) (File, error) {
	flag := os.O_WRONLY
	if create {
		flag |= os.O_CREATE | os.O_TRUNC
	}
	f, err := os.OpenFile(name, flag, perm)
	if err != nil {
		return nil, err // not f: a nil *os.File in a File is not nil
	}
	return f, nil
}

func (realFS) Rename(from, to string) error { return os.Rename(from, to) }

func (realFS) SyncDir(dir string) error { return syncDir(dir) }

func (realFS) Identify(name string) (Identity, error) { return identify(name) }

func (realFS) Lock(name string) (io.Closer, error) {
	l := flock.New(name)
	got, err := l.TryLock()
	switch {
	case err != nil:
		return nil, fmt.Errorf("locking %s: %w", name, err)
	case !got:
		return nil, ErrLocked
	}
	return l, nil
}
