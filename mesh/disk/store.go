package disk

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"sync"

	"lintel/mesh"
)

// Errors of Append.
var (
	// ErrPoisoned: a write or sync failed before. What the disk holds since
	// then is not known, so nothing is ever written again.
	ErrPoisoned = errors.New("the store failed before and takes nothing more")
	// ErrClosed: Close was called.
	ErrClosed = errors.New("the store is closed")
	// ErrReadOnly: the store was opened for looking.
	ErrReadOnly = errors.New("the store is open for reading only")
)

// Store writes one log. The caller's own goroutine waits in Append; the mutex
// lets another one call Close. Everything below it is guarded by it.
type Store struct {
	options Options
	dir     string

	mu     sync.Mutex
	lock   io.Closer
	refuse error // what every Append gives, once something is final
	mark   mark
	file   File   // the last segment; nil before the first one
	number uint64 // of the last segment
	end    int64  // where the next batch goes
	before uint32 // checksum of the segment before
	sum    uint32 // checksum of the last segment up to end
	full   bool   // the next batch begins a segment, whatever its length
	newest uint64 // number of the newest batch
	batch  []byte // the batch being written, used again and again
}

// Append writes a as one batch and returns after the sync: nil means that it is
// on the disk. a.Batch is one more than the batch before (Found.Newest at
// first). That it is called says that all before it is verified, except what
// a.Void takes back. Signatures in a.Checks are the caller's to verify beside
// it. It blocks for as long as the disk does. An error is final: every later
// call gives ErrPoisoned at once.
func (s *Store) Append(a mesh.Append) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.refuse != nil {
		return s.refuse
	}
	if err := s.write(a); err != nil {
		s.refuse = ErrPoisoned
		return fmt.Errorf("batch %d is not saved: %w", a.Batch, err)
	}
	s.newest = a.Batch
	s.mark.end = position{batch: a.Batch, segment: s.number, offset: s.end}
	if s.mark.owed != 0 && s.begins(a.Records) {
		s.mark.owed = 0
		_ = s.writeMark(stateOpen) // if it fails, the next start begins one more incarnation
	}
	return nil
}

func (s *Store) write(a mesh.Append) (err error) {
	if a.Batch != s.newest+1 {
		return fmt.Errorf("%w: it is %d, expected was %d", ErrOutOfTurn, a.Batch, s.newest+1)
	}
	if s.batch, err = appendBatch(s.batch[:0], s.options.Group, a); err != nil {
		return err
	}
	if s.file == nil || s.end == 0 || s.full || s.end+int64(len(s.batch)) > SegmentLenMax {
		return s.begin()
	}
	if _, err = s.file.WriteAt(s.batch, s.end); err != nil {
		return err
	}
	if err = s.file.Sync(); err != nil {
		return err
	}
	s.sum = checksum(s.sum, s.batch)
	s.end += int64(len(s.batch))
	return nil
}

// begin writes s.batch as the first of a new segment.
func (s *Store) begin() error {
	if s.file == nil || s.end > 0 {
		if s.number == SegmentsMax {
			return fmt.Errorf("%w: %d segments", ErrBatchTooLong, s.number)
		}
		s.number, s.before = s.number+1, s.sum
	}
	if s.file != nil {
		if err := s.file.Close(); err != nil {
			return err
		}
	}
	h := segmentHeader{format: Format, group: s.options.Group, number: s.number, before: s.before}
	text := append(h.append(nil), s.batch...)
	var err error
	if s.file, err = s.options.FS.Open(s.segmentPath(s.number), true, 0o600); err != nil {
		return err
	}
	if _, err = s.file.WriteAt(text, 0); err != nil {
		return err
	}
	if err = s.file.Sync(); err != nil {
		return err
	}
	if err = s.options.FS.SyncDir(s.dir); err != nil {
		return err
	}
	s.sum, s.end, s.full = checksum(0, text), int64(len(text)), false
	return nil
}

// begins tells whether these records begin a feed of this device.
func (s *Store) begins(records []mesh.Record) bool {
	for _, r := range records {
		e, err := mesh.DecodeEntry(r.Item.Bytes)
		if err == nil && e.Seq == 1 && (e.Author == s.options.Author || s.options.Author == mesh.Key{}) {
			return true
		}
	}
	return false
}

func (s *Store) segmentPath(number uint64) string {
	return filepath.Join(s.dir, segmentName(number))
}

// writeMark renews the mark. A state of closed says that all of the log up to
// the mark's end was synced.
func (s *Store) writeMark(state string) error {
	s.mark.state, s.mark.at = state, s.options.Now()
	return s.mark.write(s.options.FS, s.dir)
}

// Close notes a clean end, unless the store was poisoned, and gives the folder
// free. It waits for an Append that is under way. A second call does nothing.
func (s *Store) Close() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	var err error
	if s.refuse == nil {
		err = s.writeMark(stateClosed)
	}
	if s.refuse != ErrReadOnly {
		s.refuse = ErrClosed
	}
	if freed := s.release(); err == nil {
		err = freed
	}
	return err
}

// release lets go of file and lock.
func (s *Store) release() (err error) {
	if s.file != nil {
		err = s.file.Close()
		s.file = nil
	}
	if s.lock != nil {
		if freed := s.lock.Close(); err == nil {
			err = freed
		}
		s.lock = nil
	}
	return err
}
