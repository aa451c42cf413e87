package mesh

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// readSample reads a sample with a Reader, as a fold reads a body.
func readSample(b []byte) (v sample, ok bool) {
	r := Read(b)
	r.Struct(7)
	v.Small = uint16(r.Uint(0xffff))
	v.Signed = int64(r.Uint(1<<63 - 1)) // a Reader has no negative numbers
	v.Words = Label(r.Text(LabelLenMax))
	v.Flag = r.Bool()
	r.Fixed(v.Life[:])
	v.Cuts = make([]Cut, r.List(12))
	for i := range v.Cuts {
		r.Struct(2)
		r.Fixed(v.Cuts[i].Incarnation[:])
		v.Cuts[i].Seq = Seq(r.Uint(uint64(SeqMax)))
	}
	v.Bytes = append([]byte{}, r.Bytes()...)
	return v, r.Done()
}

// sameBothWays holds the Reader's reading of any bytes against Decode's, for
// a sample, an entry and a By: both take it, with equal values, or neither does.
func sameBothWays(t testing.TB, b []byte) {
	t.Helper()
	var v sample
	slow := Decode(b, &v) == nil && v.Signed >= 0
	got, fast := readSample(b)
	require.Equal(t, slow, fast, "a sample: %x", b)
	if slow {
		require.Equal(t, v, got)
	}
	var by By
	slow = Decode(b, &by) == nil
	gotBy, fast := readBy(b)
	require.Equal(t, slow, fast, "a By: %x", b)
	if slow {
		require.Equal(t, by, gotBy)
	}
	var e, gotEntry Entry
	slow = Decode(b, &e) == nil
	fast = readEntry(b, &gotEntry)
	require.Equal(t, slow, fast, "an entry: %x", b)
	if slow {
		require.Equal(t, e, gotEntry)
	}
}

// readerSeeds are forms right and wrong, of a sample, an entry and every kind.
func readerSeeds(t testing.TB) [][]byte {
	seeds := entrySeeds(t)
	for _, b := range bodySeeds(t) {
		seeds = append(seeds, b)
	}
	many := strings.Repeat
	for piece, forms := range map[int][]string{
		0: {"00", "7f", "cc80", "ccff", "cd0100", "cdffff", "ccc8"},
		1: {"05", "ce00010000", "ceffffffff", "cf0000000100000000", "cf7fffffffffffffff", "cf8000000000000000", "cfffffffffffffffff", "cd00ff", "ce0000ffff", "cf00000000ffffffff"},
		2: {"a0", "a3c3a961", "bf" + many("62", 31), "d920" + many("62", 32), "d91f" + many("62", 31), "da0020" + many("62", 32), "d9a0" + many("62", 160)},
		3: {"c2"},
		5: {"91" + cutHex, "dc0010" + many(cutHex, 16), "dc000f" + many(cutHex, 15), "9f" + many(cutHex, 15)},
		6: {"c4ff" + many("01", 255), "c50100" + many("01", 256), "c500ff" + many("01", 255)},
	} {
		for _, form := range forms {
			seeds = append(seeds, unhex(t, sampleWith(piece, form)), unhex(t, sampleRead(piece, form)))
		}
	}
	return append(seeds, unhex(t, sampleRead(0, "05")))
}

// cutHex is an encoded Cut.
const cutHex = "92c408010203040506070805"

// sampleRead is sampleWith with a number that a Reader can read for the signed one.
func sampleRead(piece int, by string) string {
	pieces := samplePieces
	pieces[1] = "07"
	pieces[piece] = by
	return "97" + strings.Join(pieces[:], "")
}

// Goal: what is read without reflection is what Decode reads, no more and no
// less. Method: every seed, every cut of it, and every change of one of its
// bits, read in both ways.
func TestReaderTakesWhatDecodeTakes(t *testing.T) {
	seeds := readerSeeds(t)
	for _, b := range seeds {
		sameBothWays(t, b)
	}
	for _, b := range [][]byte{unhex(t, sampleRead(5, "91"+cutHex)), goldenEntry(t), bodySeeds(t)[KindBy]} {
		for n := range b {
			sameBothWays(t, b[:n])
		}
		for bit := range 8 * len(b) {
			c := bytes.Clone(b)
			c[bit/8] ^= 1 << (bit % 8)
			sameBothWays(t, c)
		}
	}
}

// FuzzReader looks for bytes that one of the two ways of reading takes and the
// other does not, or that they read differently.
func FuzzReader(f *testing.F) {
	for _, b := range readerSeeds(f) {
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, b []byte) { sameBothWays(t, b) })
}

// Goal: a list cannot make anybody allocate more than its bytes allow. Method:
// lists that claim as many elements as the bytes behind them allow, or one more.
func TestReaderBoundsListsByTheBytesThere(t *testing.T) {
	list := func(elements, bytesThere, leastLen int) (int, bool) {
		r := Read(append([]byte{0xdc, byte(elements >> 8), byte(elements)}, make([]byte, bytesThere)...))
		return r.List(leastLen), !r.failed
	}
	for _, c := range []struct{ elements, bytesThere, leastLen int }{{20, 20, 1}, {20, 860, 43}, {ListLenMax, ListLenMax, 1}} {
		n, ok := list(c.elements, c.bytesThere, c.leastLen)
		require.True(t, ok)
		require.Equal(t, c.elements, n)
		n, ok = list(c.elements+1, c.bytesThere, c.leastLen)
		require.False(t, ok)
		require.Zero(t, n)
	}
}

// Goal: a reader that failed stays failed and gives nothing. Method: each read
// after a wrong first one, on bytes that it would take.
func TestReaderThatFailedGivesNothing(t *testing.T) {
	for name, read := range map[string]func(*Reader) any{
		"a number":      func(r *Reader) any { return int(r.Uint(9)) },
		"a length":      func(r *Reader) any { return r.List(1) },
		"a text":        func(r *Reader) any { return len(r.Text(9)) },
		"an id":         func(r *Reader) any { return len(r.ID()) },
		"a byte string": func(r *Reader) any { return len(r.Bytes()) },
	} {
		r := Read([]byte{0x91, 0xa1, 'a', 0x01})
		r.Struct(2)
		require.Zero(t, read(&r), name)
		require.False(t, r.Done(), name)
	}
}
