package disk

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

const dataDir = "/lintel"

var groupA = mesh.GroupID{0xa1, 0xb2, 0xc3}

// options opens group A's log on f.
func options(f *Faulty) Options {
	return Options{Dir: dataDir, Group: groupA, FS: f, Machine: "anvil", Now: func() mesh.Wall { return 1_764_000_000_000 }}
}

// logFile is where segment n of group A's log lies.
func logFile(n uint64) string { return groupDir(dataDir, groupA) + "/" + segmentName(n) }

// open opens the log and closes it at the end of the test.
func open(t *testing.T, o Options) (*Store, *Found) {
	t.Helper()
	s, found, err := Open(o)
	require.NoError(t, err)
	t.Cleanup(func() { s.Close() })
	return s, found
}

// record is a record that says text; signed tells whether it carries a signature.
func record(text string, signed bool) mesh.Record {
	r := mesh.Record{Received: mesh.Wall(1000 + len(text)), Item: mesh.Item{Bytes: []byte(text)}}
	if signed {
		r.Item.Signature = []byte(strings.Repeat("s", signatureLen))
	}
	return r
}

// three writes three batches of one, two and three records.
func three(t *testing.T, o Options) (written []mesh.Record) {
	t.Helper()
	s, found, err := Open(o)
	require.NoError(t, err)
	for n := range 3 {
		a := mesh.Append{Batch: found.Newest + uint64(n) + 1}
		for i := range n + 1 {
			a.Records = append(a.Records, record(fmt.Sprintf("batch %d, record %d", n+1, i), i == n))
		}
		require.NoError(t, s.Append(a))
		written = append(written, a.Records...)
	}
	require.NoError(t, s.Close())
	return written
}

// Goal: what was appended is found again, in order, with its signature and
// receive time. Method: three batches, a clean close, and an opening.
func TestWhatWasAppendedIsFound(t *testing.T) {
	f := NewFaulty(1)
	written := three(t, options(f))
	s, found := open(t, options(f))
	require.Equal(t, written, found.Records)
	require.EqualValues(t, 3, found.Newest)
	require.Zero(t, found.Fresh)
	require.Nil(t, found.Torn)
	require.Empty(t, found.Damage)
	require.NoError(t, found.NotWritable)
	require.Equal(t, 3, found.Verified, "the last batch has no later one that vouches for it")
	require.Equal(t, mesh.VoidMark{Batch: 3, Index: 2}, found.Places[5])
	require.NoError(t, s.Append(mesh.Append{Batch: 4}))
}

// Goal: an empty batch, the one before it being verified, moves the mark. Method:
// an append without records, and another opening.
func TestALaterBatchVouchesForTheOnesBefore(t *testing.T) {
	f := NewFaulty(1)
	three(t, options(f))
	s, _ := open(t, options(f))
	require.NoError(t, s.Append(mesh.Append{Batch: 4}))
	require.NoError(t, s.Close())
	_, found := open(t, options(f))
	require.Equal(t, 6, found.Verified)
	require.Len(t, found.Records, 6)
}

// Goal: a void mark takes back exactly the record it names. Method: void one of
// six, and open.
func TestAVoidMarkTakesBackOneRecord(t *testing.T) {
	f := NewFaulty(1)
	written := three(t, options(f))
	s, _ := open(t, options(f))
	require.NoError(t, s.Append(mesh.Append{Batch: 4, Void: []mesh.VoidMark{{Batch: 3, Index: 1}}}))
	require.NoError(t, s.Close())
	_, found := open(t, options(f))
	require.Equal(t, append(written[:4:4], written[5]), found.Records)
	require.Equal(t, mesh.VoidMark{Batch: 3, Index: 2}, found.Places[4])
}

// Goal: a void mark reaches back only. Method: a batch, read from a log that no
// writer of ours made, which takes back its own record and one to come.
func TestAVoidMarkTakesBackNothingToCome(t *testing.T) {
	r := reading{batches: []batch{
		{number: 1, records: []mesh.Record{record("own", true)}, voids: []mesh.VoidMark{{Batch: 1}, {Batch: 2}}},
		{number: 2, records: []mesh.Record{record("to come", true)}},
	}}
	records, _ := r.recordsFound()
	require.Len(t, records, 2)
}

// Goal: a log longer than a segment is spread over several, none too long, and
// found whole. Method: 45 batches of 512 KiB.
func TestSegmentsAreBegunInTime(t *testing.T) {
	f := NewFaulty(1)
	s, _ := open(t, options(f))
	full := mesh.Record{Item: mesh.Item{Bytes: make([]byte, mesh.EntryLenMax)}}
	a := mesh.Append{}
	for range 32 {
		a.Records = append(a.Records, full)
	}
	for n := range 45 {
		a.Batch = uint64(n + 1)
		require.NoError(t, s.Append(a))
	}
	require.NoError(t, s.Close())
	for n := uint64(1); n <= 3; n++ {
		require.NotEmpty(t, f.Bytes(logFile(n)))
		require.LessOrEqual(t, len(f.Bytes(logFile(n))), SegmentLenMax)
	}
	_, found := open(t, options(f))
	require.Len(t, found.Records, 45*32)
	require.Zero(t, found.Fresh)
	require.Empty(t, found.Damage)
}

// Goal: after any failure nothing is written again, and the first error says
// why. Method: a table of failures, each followed by a good append.
func TestAFailureIsFinal(t *testing.T) {
	good := mesh.Append{Batch: 4, Records: []mesh.Record{record("good", false)}}
	for name, c := range map[string]struct {
		fail func(f *Faulty)
		a    mesh.Append
		says string
	}{
		"sync fails":      {func(f *Faulty) { f.FailSync(1) }, good, "input/output"},
		"disk full":       {func(f *Faulty) { f.SetSpace(7) }, good, "no space"},
		"number repeated": {func(*Faulty) {}, mesh.Append{Batch: 3}, "not the next"},
		"number skipped":  {func(*Faulty) {}, mesh.Append{Batch: 5}, "not the next"},
		"void of itself":  {func(*Faulty) {}, mesh.Append{Batch: 4, Void: []mesh.VoidMark{{Batch: 4}}}, "takes back"},
		"odd signature":   {func(*Faulty) {}, mesh.Append{Batch: 4, Records: []mesh.Record{{Item: mesh.Item{Signature: []byte{1}}}}}, "signature of 1"},
		"batch too long":  {func(*Faulty) {}, mesh.Append{Batch: 4, Records: longRecords(513)}, "longer than a segment"},
	} {
		t.Run(name, func(t *testing.T) {
			f := NewFaulty(1)
			written := three(t, options(f))
			s, _ := open(t, options(f))
			c.fail(f)
			require.ErrorContains(t, s.Append(c.a), c.says)
			f.SetSpace(-1)
			changes := f.Changes()
			for range 3 {
				require.Equal(t, ErrPoisoned, s.Append(good))
			}
			require.NoError(t, s.Close())
			require.Equal(t, changes, f.Changes(), "nothing was written after the failure")
			require.Equal(t, ErrClosed, s.Append(good))
			_, found := open(t, options(f))
			require.Equal(t, written, found.Records[:6])
		})
	}
}

func longRecords(n int) []mesh.Record {
	all := make([]mesh.Record, n)
	for i := range all {
		all[i].Item.Bytes = make([]byte, mesh.EntryLenMax)
	}
	return all
}

// Goal: two stores never write one log. Method: open twice; then once the first is closed.
func TestASecondStoreIsRefused(t *testing.T) {
	f := NewFaulty(1)
	s, _ := open(t, options(f))
	_, _, err := Open(options(f))
	require.ErrorIs(t, err, ErrLocked)
	require.NoError(t, s.Close())
	open(t, options(f))
}

// Goal: a folder that cannot be written is read all the same, and every append
// says why it is refused. Method: a full disk before the opening.
func TestAFullDiskIsReadAllTheSame(t *testing.T) {
	f := NewFaulty(1)
	written := three(t, options(f))
	f.SetSpace(0)
	s, found := open(t, options(f))
	require.Equal(t, written, found.Records)
	require.Equal(t, mesh.WhyNotWritten, found.Fresh)
	require.ErrorIs(t, found.NotWritable, errNoSpace)
	require.Equal(t, found.NotWritable, s.Append(mesh.Append{Batch: 4}))
	require.NoError(t, s.Close())
	f.SetSpace(-1)
	_, found = open(t, options(f))
	require.Zero(t, found.Fresh, "nothing was sent in the stored feed meanwhile")

	empty := NewFaulty(1)
	empty.SetSpace(0)
	_, found = open(t, options(empty))
	require.Error(t, found.NotWritable)
	require.Empty(t, found.Records)
}

// Goal: options that do not fit are named. Method: leave each out.
func TestOptionsAreChecked(t *testing.T) {
	_, _, err := Open(Options{Group: groupA})
	require.ErrorIs(t, err, ErrOptions)
	_, _, err = Open(Options{Dir: t.TempDir()})
	require.ErrorIs(t, err, ErrOptions)
}

// Goal: a log of a newer format is refused and not touched. Method: write a
// header with another format number and a checksum that fits.
func TestANewerFormatIsLeftAlone(t *testing.T) {
	f := NewFaulty(1)
	three(t, options(f))
	b := segmentHeader{format: Format + 1, group: groupA, number: 1}.append(nil)
	f.SetBytes(logFile(1), b)
	_, _, err := Open(options(f))
	require.ErrorIs(t, err, ErrFormat)
	require.Equal(t, b, f.Bytes(logFile(1)))
	_, _, err = Open(options(f))
	require.ErrorIs(t, err, ErrFormat, "the lock was given back")
}
