package disk

import (
	"io"
	"io/fs"
)

// FS is the seam to the file system. Real gives the machine's own, NewFaulty a
// simulated one. All calls may block; a Store calls from one goroutine at a
// time. Errors satisfy errors.Is for fs.ErrNotExist and fs.ErrExist.
type FS interface {
	// Mkdir makes one folder, mode 0700.
	Mkdir(dir string) error
	// ReadDir gives the names in dir, sorted.
	ReadDir(dir string) ([]string, error)
	// ReadFile gives at most lenMax bytes of a file and how long it is.
	ReadFile(name string, lenMax int64) (b []byte, size int64, err error)
	// Open opens a file for writing; with create it is made, or emptied.
	Open(name string, create bool, perm fs.FileMode) (File, error)
	// Rename puts a file in the place of another, at once.
	Rename(from, to string) error
	// SyncDir returns when the names in dir are on the disk.
	SyncDir(dir string) error
	// Identify gives what tells this file or folder from a copy of it.
	Identify(name string) (Identity, error)
	// Lock takes a lock that ends with Close or with the process, or fails at
	// once with ErrLocked.
	Lock(name string) (io.Closer, error)
}

// File is a file open for writing.
type File interface {
	io.WriterAt
	io.Closer
	// Truncate sets the length.
	Truncate(size int64) error
	// Sync returns when bytes and length are on the disk. After an error
	// nothing is known about any write since the Sync before.
	Sync() error
}

// Identity tells a file or folder from a copy of it. The zero value means that
// the system tells nothing of the kind.
type Identity struct {
	Device, Inode uint64 // on Windows volume and file index
	Born          int64  // nanoseconds since 1970, where the system tells; inodes are used again, births are not
}
