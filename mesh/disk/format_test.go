package disk

import (
	"bytes"
	"encoding/hex"
	"hash/crc32"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// formatAppends are the appends that the files under testdata were written by.
func formatAppends() []mesh.Append {
	return []mesh.Append{
		{Batch: 1, Records: []mesh.Record{record("the first entry", true)}},
		{Batch: 2, Records: []mesh.Record{record("a run begins", false), record("and ends", true), record("wrong", true)}},
		{Batch: 3, Void: []mesh.VoidMark{{Batch: 2, Index: 2}}},
		{Batch: 4, Records: []mesh.Record{record("", false), record("in the second segment", true)}},
	}
}

// Goal: logs of format 1 open for ever. Method: open a kept folder of two
// segments read-only and compare with what was written. With the variable
// LINTEL_KEEP=1 the files are written first, for a new format only.
func TestFormat1OpensForEver(t *testing.T) {
	kept := filepath.Join("testdata", "format1")
	dir := t.TempDir()
	s, _ := open(t, realOptions(dir))
	for _, a := range formatAppends() {
		s.full = a.Batch == 4
		require.NoError(t, s.Append(a))
	}
	require.NoError(t, s.Close())
	names, err := filepath.Glob(filepath.Join(groupDir(dir, groupA), "*"+segmentExt))
	require.NoError(t, err)
	require.Len(t, names, 2)
	for _, name := range names {
		today, err := os.ReadFile(name)
		require.NoError(t, err)
		path := filepath.Join(groupDir(kept, groupA), filepath.Base(name))
		if os.Getenv("LINTEL_KEEP") != "" {
			require.NoError(t, makeFolder(Real(), filepath.Dir(path)))
			require.NoError(t, ReplaceFile(path, today, 0o644))
		}
		old, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, hex.Dump(old), hex.Dump(today), "today's writer writes the same")
	}
	o := realOptions(kept)
	o.ReadOnly = true
	_, found := open(t, o)
	require.Empty(t, found.Damage)
	require.Nil(t, found.Torn)
	require.EqualValues(t, 4, found.Newest)
	want := []string{"the first entry", "a run begins", "and ends", "", "in the second segment"}
	require.Len(t, found.Records, len(want))
	for i, r := range found.Records {
		require.Equal(t, want[i], string(r.Item.Bytes))
		require.EqualValues(t, 1000+len(want[i]), r.Received)
		require.Equal(t, i != 1 && i != 3, len(r.Item.Signature) == signatureLen)
	}
}

// Goal: the checksum is the published one. Method: the check value of CRC-32C
// for "123456789", from the catalogue of parametrised CRC algorithms
// (CRC-32/ISCSI), and the 32 bytes of zeros of RFC 3720 appendix B.4.
func TestTheChecksumIsCRC32C(t *testing.T) {
	require.Equal(t, uint32(0xe3069283), checksum(0, []byte("123456789")))
	require.Equal(t, uint32(0x8a9136aa), checksum(0, make([]byte, 32)))
	require.Equal(t, crc32.Checksum([]byte("x"), table()), checksum(0, []byte("x")))
}

// segmentSeeds are shared by the table test and the fuzz target.
func segmentSeeds(t testing.TB) map[string][]byte {
	t.Helper()
	whole := segmentHeader{format: Format, group: groupA, number: 1}.append(nil)
	for _, a := range formatAppends() {
		var err error
		whole, err = appendBatch(whole, groupA, a)
		require.NoError(t, err)
	}
	change := func(f func([]byte) []byte) []byte { return f(slices.Clone(whole)) }
	return map[string][]byte{
		"nothing":         {},
		"whole":           whole,
		"header only":     whole[:segmentHeaderLen],
		"short header":    whole[:segmentHeaderLen-1],
		"no header":       whole[segmentHeaderLen:],
		"torn":            whole[:len(whole)-1],
		"zeros behind":    append(slices.Clone(whole), make([]byte, 99)...),
		"twice":           append(slices.Clone(whole), whole[segmentHeaderLen:]...),
		"length flipped":  change(func(b []byte) []byte { b[segmentHeaderLen+30] ^= 0x40; return b }),
		"record flipped":  change(func(b []byte) []byte { b[segmentHeaderLen+batchHeaderLen+3] ^= 1; return b }),
		"only magic":      bytes.Repeat([]byte(batchMagic), 40),
		"hole of zeros":   change(func(b []byte) []byte { clear(b[70:200]); return b }),
		"segment magic":   []byte(segmentMagic),
		"garbage in half": change(func(b []byte) []byte { return append(append(b[:len(b)/2], "garbage"...), b[len(b)/2:]...) }),
	}
}

// checkReading reads b as a last and as an earlier segment, and checks what must
// hold for any bytes: batches ascend, nothing overlaps, every byte is accounted
// for, and each whole batch encodes to the bytes that it was read from.
func checkReading(t *testing.T, b []byte) {
	for _, last := range []bool{true, false} {
		r := &reading{group: groupA}
		if r.read(segmentText{number: 1, bytes: b, size: int64(len(b)), last: last}) != nil {
			return // a newer format
		}
		require.False(t, !last && r.torn != nil, "only the last segment has a torn tail")
		covered := make([]bool, len(b))
		cover := func(from, to int64) {
			for i := from; i < to; i++ {
				covered[i] = true
			}
		}
		cover(0, min(segmentHeaderLen, int64(len(b))))
		newest, end := uint64(0), int64(0)
		for _, batch := range r.batches {
			require.Greater(t, batch.number, newest)
			require.GreaterOrEqual(t, batch.from, end)
			newest, end = batch.number, batch.to
			cover(batch.from, batch.to)
			checkBatch(t, r, batch, b)
		}
		for _, spot := range r.spots {
			cover(spot.Offset, spot.Offset+spot.Length)
		}
		if r.torn != nil {
			require.GreaterOrEqual(t, r.torn.Offset, end)
			require.EqualValues(t, len(b), r.torn.Offset+r.torn.Length)
			cover(r.torn.Offset, int64(len(b)))
		}
		require.NotContains(t, covered, false)
	}
}

func checkBatch(t *testing.T, r *reading, batch batch, b []byte) {
	for _, spot := range r.spots {
		if spot.Length > 0 && spot.Offset >= batch.from && spot.Offset < batch.to {
			return // part of it is damaged
		}
	}
	a := mesh.Append{Batch: batch.number, Records: batch.records, Void: batch.voids}
	again, err := appendBatch(nil, r.group, a)
	if err != nil || batch.checked != batch.number-1 {
		return // a void of a later batch, say: written by nobody, and without effect
	}
	require.Equal(t, b[batch.from:batch.to], again)
}

// Goal and method: checkReading over the seeds; and each gives something or names it.
func TestAnyBytesAreReadOrNamed(t *testing.T) {
	for name, b := range segmentSeeds(t) {
		t.Run(name, func(t *testing.T) { checkReading(t, b) })
	}
}

// FuzzSegment feeds any bytes to the segment reader.
func FuzzSegment(f *testing.F) {
	for _, b := range segmentSeeds(f) {
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		if len(b) <= 64<<10 {
			checkReading(t, b)
		}
	})
}

// FuzzMark feeds any bytes to the mark's reader: one value has one byte form.
func FuzzMark(f *testing.F) {
	f.Add((&mark{machine: hashMachine("anvil"), state: stateOpen}).encode())
	f.Add([]byte("lintel mark 1\n"))
	f.Fuzz(func(t *testing.T, b []byte) {
		if m, err := decodeMark(b); err == nil {
			require.Equal(t, b, m.encode())
		}
	})
}
