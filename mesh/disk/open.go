package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"time"

	"lintel/mesh"
)

// Errors of Open. Nothing was changed.
var (
	// ErrLocked: a second process must never write the same log.
	ErrLocked = errors.New("the folder is in use: another Lintel is running on it, or one that was just ended has not let go of it yet")
	// ErrFormat: a newer program wrote this log, and an older one must not touch it.
	ErrFormat = errors.New("the log was written by a newer version")
	// ErrOptions: the caller left something out.
	ErrOptions = errors.New("the store's options do not fit")
)

// Options say which log to open, and how.
type Options struct {
	Dir      string           // the data folder; made if it is missing
	Group    mesh.GroupID     // whose log
	Author   mesh.Key         // the device that writes here; zero: any new feed ends what Found.Fresh asks for
	ReadOnly bool             // look, change nothing, take no lock
	FS       FS               // nil: Real
	Machine  string           // the machine's id; "": read it
	Now      func() mesh.Wall // for the mark, which people read; nil: the system's clock
}

// Defaults gives the options of a real device, without Dir, Group and Author.
func Defaults() Options {
	return Options{FS: Real(), Machine: readMachine(), Now: func() mesh.Wall { return mesh.Wall(time.Now().UnixMilli()) }}
}

// checked names what is missing and fills in the rest.
func (o Options) checked() (Options, error) {
	d := Defaults()
	if o.Dir == "" {
		return o, fmt.Errorf("%w: no folder is named", ErrOptions)
	}
	if o.Group == (mesh.GroupID{}) {
		return o, fmt.Errorf("%w: no group is named", ErrOptions)
	}
	if o.FS == nil {
		o.FS = d.FS
	}
	if o.Machine == "" {
		o.Machine = d.Machine
	}
	if o.Now == nil {
		o.Now = d.Now
	}
	return o, nil
}

// Found is what Open read.
type Found struct {
	Records  []mesh.Record   // all that can be read, in log order, without those taken back
	Places   []mesh.VoidMark // where each record stands: what an Append names to take it back
	Verified int             // Records[:Verified] were synced and verified before; the caller verifies the others before its first Append, and takes back in it what is wrong
	Newest   uint64          // number of the newest batch; the next Append is Newest + 1

	Fresh       mesh.Why // 0: the caller may go on in its own feed; else why it must begin a new incarnation
	Torn        *Spot    // an unfinished write at the end, now cut off
	Damage      []Spot   // every damaged place, also those set aside before
	NotWritable error    // the folder can be read but not written; every Append gives this error
}

// Spot is a place in the log that cannot be read.
type Spot struct {
	Segment        uint64
	Offset, Length int64  // in bytes; a length of 0 stands where something is missing
	What           string // a sentence's worth, for people
	New            bool   // it was not known before
}

// String is for people.
func (s Spot) String() string {
	return fmt.Sprintf("segment %d, bytes %d to %d: %s", s.Segment, s.Offset, s.Offset+s.Length, s.What)
}

// Open reads the log of a group and makes it ready for writing: it cuts a torn
// tail, sets damage aside and renews the mark. With ReadOnly it reports both
// and changes nothing. It fails with ErrLocked, ErrFormat or ErrOptions, or
// where the log is there and cannot be read; a log that cannot be *written* is
// no failure, see Found.NotWritable.
func Open(o Options) (*Store, *Found, error) {
	o, err := o.checked()
	if err != nil {
		return nil, nil, err
	}
	dir := groupDir(o.Dir, o.Group)
	if o.ReadOnly {
		return look(o, dir)
	}
	lock, notWritable := takeFolder(o.FS, o.Dir, dir)
	if errors.Is(notWritable, ErrLocked) {
		return nil, nil, notWritable
	}
	s := &Store{options: o, dir: dir, lock: lock}
	found, err := s.load(notWritable)
	if err != nil {
		s.release()
		return nil, nil, err
	}
	return s, found, nil
}

// look is Open for readers.
func look(o Options, dir string) (*Store, *Found, error) {
	r, err := readLog(o.FS, dir, o.Group)
	if err == nil {
		err = r.recall(o.FS, dir)
	}
	if err != nil {
		return nil, nil, err
	}
	found := r.found(0)
	found.Fresh = r.reason()
	return &Store{options: o, dir: dir, refuse: ErrReadOnly}, found, nil
}

// takeFolder makes the group's folder dir in the data folder and locks it. It
// syncs the folders above it each time: whoever made them may have been ended
// before it could.
func takeFolder(fsys FS, above, dir string) (io.Closer, error) {
	if err := makeFolder(fsys, dir); err != nil {
		return nil, err
	}
	lock, err := fsys.Lock(filepath.Join(dir, lockName))
	if err != nil {
		return nil, err
	}
	_ = fsys.SyncDir(filepath.Dir(above)) // not ours, perhaps not readable; ours was synced when made
	if err = fsys.SyncDir(above); err == nil {
		err = fsys.SyncDir(filepath.Dir(dir))
	}
	return lock, err
}

// found words a reading for the caller; batches up to vouched were verified.
func (r *reading) found(vouched uint64) *Found {
	f := &Found{Newest: r.newest, Torn: r.torn}
	f.Records, f.Places = r.recordsFound()
	for f.Verified < len(f.Places) && f.Places[f.Verified].Batch <= vouched {
		f.Verified++
	}
	for _, b := range r.spots {
		f.Damage = append(f.Damage, b.Spot)
	}
	return f
}

// reason is what the log itself says against going on in the same feed.
func (r *reading) reason() mesh.Why {
	switch {
	case r.torn != nil:
		return mesh.WhyTorn
	case r.hasNews():
		return mesh.WhyDamage
	}
	return 0
}

// load reads the log and, if it can, repairs it.
func (s *Store) load(notWritable error) (*Found, error) {
	r, err := readLog(s.options.FS, s.dir, s.options.Group)
	if notWritable != nil && errors.Is(err, fs.ErrNotExist) {
		r, err = &reading{group: s.options.Group}, nil
	}
	if err == nil {
		err = r.recall(s.options.FS, s.dir)
	}
	if err != nil {
		return nil, err
	}
	m, err := readMark(s.options.FS, s.dir)
	first := r.empty() && errors.Is(err, fs.ErrNotExist)
	fresh := s.judge(r, m, first)
	found := r.found(r.checked(s.mark.recheck))
	if found.Fresh = fresh; notWritable == nil {
		notWritable = s.repair(r, m)
	}
	if notWritable != nil {
		found.Fresh, found.NotWritable, s.refuse = mesh.WhyNotWritten, notWritable, notWritable
	}
	return found, nil
}

// judge prepares the mark that goes with r, old being the one that was there or
// nil, and gives the reason for a new incarnation. A log's first opening needs none.
func (s *Store) judge(r *reading, old *mark, first bool) mesh.Why {
	s.mark = mark{machine: hashMachine(s.options.Machine), state: stateOpen, end: r.position()}
	fits := old != nil && old.fits(s.options.FS, s.dir, s.mark.machine, r) || first
	if old != nil {
		s.mark.owed, s.mark.recheck = old.owed, old.recheck
	}
	if !fits {
		s.mark.owed = mesh.WhyMark
	}
	if why := r.reason(); why != 0 {
		s.mark.owed = why
	}
	if !fits || r.hasNews() {
		s.mark.recheck = r.newest
	}
	return s.mark.owed
}

// repair makes what was read durable, then notes in the mark what is about to
// happen, then lets it happen: a crash in between finds the same again.
func (s *Store) repair(r *reading, old *mark) error {
	if old == nil || old.state != stateClosed || old.end != s.mark.end {
		if err := s.rewriteLast(r); err != nil {
			return err
		}
	}
	if err := s.writeMark(stateOpen); err != nil {
		return err
	}
	for _, b := range r.spots {
		if err := s.setAside(b); err != nil {
			return err
		}
	}
	return s.reopen(r)
}

// rewriteLast writes the last batch once more, in place: the sync that should
// have made it durable may have failed. A crash leaves it as it was, or with one
// torn byte behind it.
func (s *Store) rewriteLast(r *reading) error {
	if len(r.batches) == 0 {
		return nil
	}
	b := r.batches[len(r.batches)-1]
	if b.segment != r.segment {
		return nil // it was synced before this segment was begun
	}
	f, err := s.options.FS.Open(s.segmentPath(b.segment), false, 0)
	if err != nil {
		return err
	}
	from := b.from
	if from == segmentHeaderLen {
		from = 0 // the header went with it
	}
	if r.torn == nil { // a length that changes is one that the next sync writes
		err = errors.Join(f.Truncate(b.to+1), f.Truncate(b.to))
	}
	if err == nil {
		_, err = f.WriteAt(r.lastBytes[from:b.to], from)
	}
	if err == nil {
		err = f.Sync()
	}
	if closing := f.Close(); err == nil {
		err = closing
	}
	if err == nil {
		err = s.options.FS.SyncDir(s.dir)
	}
	return err
}

// setAside copies a damaged place, unless that was done before.
func (s *Store) setAside(b badSpot) error {
	if !b.New {
		return nil
	}
	aside := filepath.Join(s.dir, asideName)
	if err := makeFolder(s.options.FS, aside); err != nil {
		return err
	}
	return replace(s.options.FS, filepath.Join(aside, b.asideFile()), 0o600, func(Identity) []byte { return b.bytes })
}

// reopen cuts what is torn and stands ready behind the last batch.
func (s *Store) reopen(r *reading) (err error) {
	s.number, s.end, s.before, s.sum, s.newest, s.full = r.segment, r.end, r.before, r.sum, r.newest, r.foreign
	if s.number == 0 {
		return nil // the first Append begins the first segment
	}
	if s.file, err = s.options.FS.Open(s.segmentPath(s.number), false, 0); err != nil {
		return err
	}
	if r.torn == nil {
		return nil
	}
	if err = s.file.Truncate(r.torn.Offset); err == nil {
		err = s.file.Sync()
	}
	if err == nil {
		err = s.options.FS.SyncDir(s.dir)
	}
	return err
}
