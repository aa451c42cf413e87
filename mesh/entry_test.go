package mesh

import (
	"bytes"
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var writeGolden = flag.Bool("golden", false, "write a missing testdata/entry-1.hex; one that exists is never changed")

// goldenName holds an entry of version 1: its bytes, then its hash, in hexadecimal.
var goldenName = filepath.Join("testdata", "entry-1.hex")

// exampleEntry is the entry that the golden file holds: every number takes a
// different length, and one part is of a kind that nobody knows.
func exampleEntry(t testing.TB) *Entry {
	t.Helper()
	by, err := MakePart(KindBy, &By{Role: "runner", Tag: "R1", Happened: 1_790_000_000_000, Way: WayGlass})
	require.NoError(t, err)
	line, err := MakePart(KindDeviceLine, &DeviceLine{
		Replaces: []Ref{MakeRef(Key{1}, Tap{2}, 3)}, Key: Key{9}, Name: "Tür A1 · Läufer",
	})
	require.NoError(t, err)
	e := &Entry{
		Version: Version, Seq: 300, Turn: 70_000, Wall: 1_790_000_012_345,
		Parts: []Part{by, line, {Kind: 0x7fff, Body: []byte{0xc3}}},
	}
	for i := range e.Author {
		e.Author[i], e.Before[i], e.Group[i] = byte(i), byte(0x40+i), byte(0x80+i)
	}
	copy(e.Incarnation[:], "incarnat")
	copy(e.Tap[:], "tap-tap-")
	return e
}

// goldenEntry reads the golden file's bytes.
func goldenEntry(t testing.TB) []byte {
	t.Helper()
	return goldenLines(t)[0]
}

func goldenLines(t testing.TB) (lines [2][]byte) {
	t.Helper()
	file, err := os.ReadFile(goldenName)
	require.NoError(t, err)
	fields := strings.Fields(string(file))
	require.Len(t, fields, len(lines), goldenName)
	for i := range lines {
		lines[i] = unhex(t, fields[i])
	}
	return lines
}

// TestEntryOfVersion1IsReadForEver decodes the golden file: its bytes give the
// same entry, the same bytes and the same hash as on the day it was written.
func TestEntryOfVersion1IsReadForEver(t *testing.T) {
	want := exampleEntry(t)
	if _, err := os.Stat(goldenName); *writeGolden && os.IsNotExist(err) {
		b, err := EncodeEntry(want)
		require.NoError(t, err)
		text := hex.EncodeToString(b) + "\n" + HashEntry(b).Hex() + "\n"
		require.NoError(t, os.MkdirAll(filepath.Dir(goldenName), 0o755))
		require.NoError(t, os.WriteFile(goldenName, []byte(text), 0o644))
	}
	lines := goldenLines(t)
	got, err := DecodeEntry(lines[0])
	require.NoError(t, err)
	require.Equal(t, want, got)
	again, err := EncodeEntry(got)
	require.NoError(t, err)
	require.Equal(t, lines[0], again)
	require.Equal(t, hex.EncodeToString(lines[1]), HashEntry(lines[0]).Hex())
}

// TestEntryHashCoversLabelAndBytes computes the hash a second way.
func TestEntryHashCoversLabelAndBytes(t *testing.T) {
	b := goldenEntry(t)
	want := sha256.Sum256(append([]byte("lintel entry 1"), b...))
	require.Equal(t, Hash(want), HashEntry(b))
}

// TestSignedTextsAreLaidOutAsDrawn cuts the signed texts at their fixed places:
// label, group, (receiver,) feed, 8 bytes of sequence, hash.
func TestSignedTextsAreLaidOutAsDrawn(t *testing.T) {
	e := exampleEntry(t)
	h := HashEntry(goldenEntry(t))
	sequence := binary.BigEndian.AppendUint64(nil, uint64(e.Seq))
	tail := bytes.Join([][]byte{e.Author[:], e.Incarnation[:], sequence, h[:]}, nil)

	signed := SignedText(e.Group, e.Feed(), e.Seq, h)
	require.Equal(t, bytes.Join([][]byte{[]byte("lintel signature 1"), e.Group[:], tail}, nil), signed)

	receiver := Key{0xee}
	receipt := ReceiptText(e.Group, receiver, e.Feed(), e.Seq, h)
	require.Equal(t, bytes.Join([][]byte{[]byte("lintel receipt 1"), e.Group[:], receiver[:], tail}, nil), receipt)
}

// TestSignatureOfAnotherPlaceDoesNotFit signs one place of one feed and tries
// the signature at others: it vouches for that place only.
func TestSignatureOfAnotherPlaceDoesNotFit(t *testing.T) {
	private := ed25519.NewKeyFromSeed(bytes.Repeat([]byte{5}, ed25519.SeedSize))
	public := private.Public().(ed25519.PublicKey)
	e, h := exampleEntry(t), HashEntry(goldenEntry(t))
	signature := ed25519.Sign(private, SignedText(e.Group, e.Feed(), e.Seq, h))
	require.True(t, ed25519.Verify(public, SignedText(e.Group, e.Feed(), e.Seq, h), signature))
	others := [][]byte{
		SignedText(GroupID{1}, e.Feed(), e.Seq, h),
		SignedText(e.Group, MakeFeed(e.Author, Incarnation{1}), e.Seq, h),
		SignedText(e.Group, e.Feed(), e.Seq+1, h),
		SignedText(e.Group, e.Feed(), e.Seq, Hash{1}),
		ReceiptText(e.Group, e.Author, e.Feed(), e.Seq, h),
	}
	for i, text := range others {
		require.False(t, ed25519.Verify(public, text, signature), "text %d", i)
	}
}

// malformedEntries changes one thing of a good entry that must not be written or read.
func malformedEntries() map[string]func(*Entry) {
	return map[string]func(*Entry){
		"another version":               func(e *Entry) { e.Version = Version + 1 },
		"version 0":                     func(e *Entry) { e.Version = 0 },
		"sequence 0":                    func(e *Entry) { e.Seq = 0 },
		"sequence over 2⁵³":             func(e *Entry) { e.Seq = SeqMax + 1 },
		"turn 0":                        func(e *Entry) { e.Turn = 0 },
		"turn over 2⁵³":                 func(e *Entry) { e.Turn = TurnMax + 1 },
		"a wall clock before 1970":      func(e *Entry) { e.Wall = -1 },
		"a wall clock after 9999":       func(e *Entry) { e.Wall = WallMax + 1 },
		"no part":                       func(e *Entry) { e.Parts = nil },
		"nine parts":                    func(e *Entry) { e.Parts = make([]Part, PartsMax+1) },
		"sequence 1 with a before":      func(e *Entry) { e.Seq = 1 },
		"sequence 300 without a before": func(e *Entry) { e.Before = Hash{} },
		"no group":                      func(e *Entry) { e.Group = GroupID{} },
		"a founding entry with a group": func(e *Entry) { e.Seq, e.Before, e.Parts[0].Kind = 1, Hash{}, KindFounded },
		"a body that is too long":       func(e *Entry) { e.Parts[0].Body = make([]byte, EntryLenMax) },
	}
}

// TestMalformedEntriesAreNeitherWrittenNorRead tries each malformed entry both
// ways; for reading it is encoded without the check.
func TestMalformedEntriesAreNeitherWrittenNorRead(t *testing.T) {
	for name, change := range malformedEntries() {
		e := exampleEntry(t)
		change(e)
		_, err := EncodeEntry(e)
		require.Error(t, err, name)
		b, err := encode(e)
		require.NoError(t, err, name)
		_, err = DecodeEntry(b)
		require.Error(t, err, name)
	}
}

// TestLongestEntryIsWrittenAndRead fills an entry to the byte: EntryLenMax is
// reached, one byte more is refused.
func TestLongestEntryIsWrittenAndRead(t *testing.T) {
	e := exampleEntry(t)
	e.Parts = []Part{{Kind: 1, Body: make([]byte, EntryLenMax/2)}}
	b, err := EncodeEntry(e)
	require.NoError(t, err)
	e.Parts[0].Body = make([]byte, EntryLenMax/2+EntryLenMax-len(b))
	b, err = EncodeEntry(e)
	require.NoError(t, err)
	require.Len(t, b, EntryLenMax)
	got, err := DecodeEntry(b)
	require.NoError(t, err)
	require.Equal(t, e, got)

	e.Parts[0].Body = append(e.Parts[0].Body, 0)
	_, err = EncodeEntry(e)
	require.ErrorIs(t, err, ErrTooLong)
}

// TestUnknownKindsKeepTheirBytes reads an entry whose parts nobody knows and
// whose bodies are no msgpack at all: it is stored and forwarded unchanged.
func TestUnknownKindsKeepTheirBytes(t *testing.T) {
	e := exampleEntry(t)
	e.Parts = []Part{{Kind: 0xffff, Body: []byte{0xc1, 0xff, 0x00}}, {Kind: 0, Body: []byte{}}}
	b, err := EncodeEntry(e)
	require.NoError(t, err)
	got, err := DecodeEntry(b)
	require.NoError(t, err)
	require.Equal(t, e.Parts, got.Parts)
}

// entrySeeds are the bytes that the table test and the fuzz target begin with.
func entrySeeds(t testing.TB) [][]byte {
	seeds := [][]byte{goldenEntry(t)}
	for _, change := range malformedEntries() {
		e := exampleEntry(t)
		change(e)
		b, err := encode(e)
		require.NoError(t, err)
		seeds = append(seeds, b)
	}
	for _, form := range refusedForms() {
		seeds = append(seeds, unhex(t, form))
	}
	return seeds
}

// decodedEntryHoldsTogether is what must be true of any bytes at all: what
// decodes is valid, encodes to the same bytes and is not longer than allowed.
func decodedEntryHoldsTogether(t testing.TB, b []byte) {
	e, err := DecodeEntry(b)
	if err != nil {
		return
	}
	require.LessOrEqual(t, len(b), EntryLenMax)
	again, err := EncodeEntry(e)
	require.NoError(t, err)
	require.Equal(t, b, again)
}

// TestEntrySeedsHoldTogether runs the fuzz target's property over its seeds and
// over every single-bit change of the golden entry.
func TestEntrySeedsHoldTogether(t *testing.T) {
	for _, b := range entrySeeds(t) {
		decodedEntryHoldsTogether(t, b)
	}
	golden := goldenEntry(t)
	for bit := range 8 * len(golden) {
		b := bytes.Clone(golden)
		b[bit/8] ^= 1 << (bit % 8)
		require.NotEqual(t, HashEntry(golden), HashEntry(b))
		decodedEntryHoldsTogether(t, b)
	}
}

// FuzzDecodeEntry looks for bytes that decode to an entry with another byte form.
func FuzzDecodeEntry(f *testing.F) {
	for _, b := range entrySeeds(f) {
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, b []byte) { decodedEntryHoldsTogether(t, b) })
}
