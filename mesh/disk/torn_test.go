package disk

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// borders gives where each batch of three ends, after the header.
func borders(t *testing.T, b []byte) []int {
	t.Helper()
	r := &reading{group: groupA}
	require.NoError(t, r.read(segmentText{number: 1, bytes: b, size: int64(len(b)), last: true}))
	ends := []int{segmentHeaderLen}
	for _, batch := range r.batches {
		ends = append(ends, int(batch.to))
	}
	return ends
}

// withLog gives a file system that holds one segment with bytes b, and no mark.
func withLog(t *testing.T, b []byte) *Faulty {
	t.Helper()
	f := NewFaulty(1)
	require.NoError(t, makeFolder(f, groupDir(dataDir, groupA)))
	f.SetBytes(logFile(1), b)
	return f
}

// marked gives withLog a mark that fits b, so that only b itself is judged.
func marked(t *testing.T, b []byte) *Faulty {
	t.Helper()
	f := withLog(t, b)
	m := mark{machine: hashMachine("anvil"), state: stateOpen}
	require.NoError(t, m.write(f, groupDir(dataDir, groupA)))
	return f
}

// Goal: a log that ends in the middle of a write is cut to the last whole batch,
// once, and goes on from there. Method: truncate a log of three batches at
// every length, open, append, open again.
func TestEveryTruncationIsATornTail(t *testing.T) {
	f := NewFaulty(1)
	written := three(t, options(f))
	whole := f.Bytes(logFile(1))
	ends := borders(t, whole)
	require.Len(t, ends, 4)
	for size := range len(whole) {
		f := marked(t, whole[:size])
		batches := 0
		for batches < 3 && ends[batches+1] <= size {
			batches++
		}
		border := ends[batches]
		if size < segmentHeaderLen {
			border = 0
		}
		s, found := open(t, options(f))
		require.Equal(t, written[:batches*(batches+1)/2], append([]mesh.Record{}, found.Records...), "cut at %d", size)
		require.Empty(t, found.Damage, "cut at %d", size)
		require.Len(t, f.Bytes(logFile(1)), border)
		if size == border && size > 0 {
			require.Nil(t, found.Torn)
			require.Zero(t, found.Fresh)
		} else {
			require.Equal(t, mesh.WhyTorn, found.Fresh)
			require.Equal(t, int64(border), found.Torn.Offset)
			require.Equal(t, int64(size-border), found.Torn.Length)
		}
		require.NoError(t, s.Append(mesh.Append{Batch: found.Newest + 1, Records: written[:1]}))
		require.NoError(t, s.Close())
		s, found = open(t, options(f))
		require.Len(t, found.Records, batches*(batches+1)/2+1)
		require.Nil(t, found.Torn)
		require.Empty(t, found.Damage)
		s.Close()
	}
}

// Goal: one wrong bit in a batch that others follow is damage, named where it
// is, set aside once, and costs no other batch; in the last batch it cannot be
// told from a torn write. Method: flip every bit of a log of three batches.
func TestEveryFlippedBitIsNamed(t *testing.T) {
	f := NewFaulty(1)
	written := three(t, options(f))
	whole := f.Bytes(logFile(1))
	ends := borders(t, whole)
	for bit := range 8 * len(whole) {
		b := append([]byte{}, whole...)
		b[bit/8] ^= 1 << (bit % 8)
		f := marked(t, b)
		s, found := open(t, options(f))
		if bit/8 >= ends[2] {
			require.Equal(t, mesh.WhyTorn, found.Fresh, "bit %d", bit)
			require.Equal(t, written[:3], found.Records)
			require.NoError(t, s.Close())
			continue
		}
		checkDamage(t, f, found, bit/8, ends, written)
		require.Equal(t, b, f.Bytes(logFile(1)), "the log itself is not changed")
		require.NoError(t, s.Close())
		if bit%8 != 0 {
			continue
		}
		s, found = open(t, options(f))
		require.False(t, found.Damage[0].New)
		require.Equal(t, mesh.WhyDamage, found.Fresh, "owed until a new incarnation has begun")
		require.NoError(t, s.Close())
	}
}

// checkDamage checks what was found when the byte at was wrong.
func checkDamage(t *testing.T, f *Faulty, found *Found, at int, ends []int, written []mesh.Record) {
	t.Helper()
	require.Equal(t, mesh.WhyDamage, found.Fresh, "byte %d", at)
	require.Zero(t, found.Verified, "everything is verified again")
	require.Nil(t, found.Torn)
	require.Len(t, found.Damage, 1)
	d := found.Damage[0]
	require.True(t, d.New)
	require.LessOrEqual(t, d.Offset, int64(at))
	require.Greater(t, d.Offset+d.Length, int64(at))
	require.Contains(t, d.String(), "segment 1, bytes ")
	aside := f.Bytes(filepath.Join(groupDir(dataDir, groupA), asideName, d.asideFile()))
	require.Equal(t, f.Bytes(logFile(1))[d.Offset:d.Offset+d.Length], aside)
	switch {
	case at < ends[0]: // the segment's header
		require.Equal(t, written, found.Records)
	case at < ends[1]: // the first batch
		require.Equal(t, written[1:], found.Records)
	default: // the second: its first record may have survived
		require.Equal(t, written[0], found.Records[0])
		require.Equal(t, written[3:], found.Records[len(found.Records)-3:])
	}
}

// Goal: reading for an audit changes nothing, whatever it meets. Method: open
// damaged and torn logs read-only, beside a writer, and compare every file.
func TestLookingChangesNothing(t *testing.T) {
	f := NewFaulty(1)
	three(t, options(f))
	whole := f.Bytes(logFile(1))
	flipped := append([]byte{}, whole...)
	flipped[90] ^= 1
	for name, b := range map[string][]byte{"whole": whole, "torn": whole[:len(whole)-9], "damaged": flipped} {
		t.Run(name, func(t *testing.T) {
			f := withLog(t, b)
			before, changes := f.Names(), f.Changes()
			o := options(f)
			o.ReadOnly = true
			s, found := open(t, o)
			require.Equal(t, name == "torn", found.Torn != nil)
			require.Equal(t, name == "damaged", len(found.Damage) == 1)
			require.Equal(t, name == "whole", found.Fresh == 0)
			require.Equal(t, ErrReadOnly, s.Append(mesh.Append{Batch: found.Newest + 1}))
			require.NoError(t, s.Close())
			require.Equal(t, before, f.Names())
			require.Equal(t, changes, f.Changes())
			require.Equal(t, b, f.Bytes(logFile(1)))
		})
	}
	o := options(f)
	open(t, o)
	o.ReadOnly = true
	open(t, o) // beside the writer
}

// Goal: a missing segment, a segment of another log and a segment cut at a batch
// border are damage, and what lies around them is read. Method: a log of three
// segments, each mistreated.
func TestWholeSegmentsAreMissed(t *testing.T) {
	segments := make([][]byte, 3)
	f := NewFaulty(1)
	s, _ := open(t, options(f))
	for n := range 3 {
		s.full = true
		require.NoError(t, s.Append(mesh.Append{Batch: uint64(2*n + 1), Records: longRecords(1)}))
		require.NoError(t, s.Append(mesh.Append{Batch: uint64(2*n + 2), Records: longRecords(1)}))
		segments[n] = f.Bytes(logFile(uint64(n + 1)))
	}
	foreign := segmentHeader{format: Format, group: mesh.GroupID{9}, number: 2}.append(nil)
	for name, c := range map[string]struct {
		second  []byte
		records int
		says    string
	}{
		"missing": {nil, 4, "segments are missing"},
		"emptied": {[]byte{}, 4, "header cannot be read"},
		"foreign": {foreign, 4, "another place or log"},
		"renamed": {segments[0], 4, "another place or log"},
		"cut":     {segments[1][:segmentHeaderLen+(len(segments[1])-segmentHeaderLen)/2], 5, "not as it was"},
	} {
		t.Run(name, func(t *testing.T) {
			f := marked(t, segments[0])
			if c.second != nil {
				f.SetBytes(logFile(2), c.second)
			}
			f.SetBytes(logFile(3), segments[2])
			s, found := open(t, options(f))
			require.Len(t, found.Records, c.records)
			require.Len(t, found.Damage, 1)
			require.Contains(t, found.Damage[0].What, c.says)
			require.Equal(t, mesh.WhyDamage, found.Fresh)
			require.NoError(t, s.Append(mesh.Append{Batch: 7, Records: longRecords(1)}))
			require.NoError(t, s.Close())
			s, found = open(t, options(f))
			require.Len(t, found.Records, c.records+1)
			require.False(t, found.Damage[0].New)
			require.Equal(t, c.records, found.Verified, "a batch written since then vouches for all before it")
			s.Close()
		})
	}
}

// Goal: a last segment that belongs to another log is neither cut nor written
// into. Method: put one there, append, and look at both.
func TestAForeignLastSegmentIsLeftAlone(t *testing.T) {
	f := NewFaulty(1)
	three(t, options(f))
	foreign := append(segmentHeader{format: Format, group: mesh.GroupID{9}, number: 2}.append(nil), strings.Repeat("x", 99)...)
	f.SetBytes(logFile(2), foreign)
	s, found := open(t, options(f))
	require.Len(t, found.Damage, 1)
	require.NoError(t, s.Append(mesh.Append{Batch: 4, Records: longRecords(1)}))
	require.NoError(t, s.Close())
	require.Equal(t, foreign, f.Bytes(logFile(2)))
	require.NotEmpty(t, f.Bytes(logFile(3)))
	_, found = open(t, options(f))
	require.Len(t, found.Records, 7)
	require.Len(t, found.Damage, 1)
}

// Goal: an entry that imitates a batch hides nothing. Method: the second batch
// holds a forged header with a number far ahead; its own header is damaged.
func TestAForgedHeaderHidesNothing(t *testing.T) {
	f := NewFaulty(1)
	s, _ := open(t, options(f))
	forged := make([]byte, batchHeaderLen)
	batchHeader{number: 1 << 40, checked: 1}.put(forged, groupA)
	for n, text := range []string{"one", string(forged), "three", "four"} {
		require.NoError(t, s.Append(mesh.Append{Batch: uint64(n + 1), Records: []mesh.Record{record(text, false)}}))
	}
	require.NoError(t, s.Close())
	b := f.Bytes(logFile(1))
	b[borders(t, b)[1]+5] ^= 1
	f.SetBytes(logFile(1), b)
	_, found := open(t, options(f))
	require.Len(t, found.Records, 3)
	require.Len(t, found.Damage, 1)
	require.EqualValues(t, 4, found.Newest)
}
