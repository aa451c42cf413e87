package mesh

import (
	"bytes"
	"encoding/hex"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// sample has one field of every sort that a body may have.
type sample struct {
	Small  uint16
	Signed int64
	Words  Label
	Flag   bool
	Life   Incarnation
	Cuts   []Cut
	Bytes  []byte
}

// The pieces of an encoded sample; a case replaces one of them.
var samplePieces = [...]string{"05", "ff", "a161", "c3", "c4080102030405060708", "90", "c400"}

// sampleWith gives an encoded sample with one piece replaced.
func sampleWith(piece int, by string) string {
	pieces := samplePieces
	pieces[piece] = by
	return "97" + strings.Join(pieces[:], "")
}

// refusedForms are bytes that Decode must refuse for a sample, with the reason.
func refusedForms() map[string]string {
	return map[string]string{
		"nothing":                           "",
		"a nil":                             "c0",
		"a number":                          "05",
		"an empty array":                    "90",
		"one field too few":                 "96" + strings.Join(samplePieces[:6], ""),
		"one field too many":                "98" + strings.Join(samplePieces[:], "") + "05",
		"bytes behind the value":            sampleWith(0, "05") + "00",
		"a second value":                    sampleWith(0, "05") + sampleWith(0, "05"),
		"an array of 16-bit count":          "dc0007" + strings.Join(samplePieces[:], ""),
		"an array of 32-bit count":          "dd00000007" + strings.Join(samplePieces[:], ""),
		"an array that claims 2³²-1":        "ddffffffff",
		"an inner array that claims 2³²-1":  sampleWith(5, "ddffffffff"),
		"an inner array that claims 65535":  sampleWith(5, "dcffff"),
		"an array longer than the bytes":    sampleWith(5, "9f"),
		"a map for the struct":              "87" + strings.Repeat("a15305", 7),
		"an empty map":                      "80",
		"a 16-bit map":                      "de0000",
		"a 32-bit map":                      "dfffffffff",
		"a small number in two bytes":       sampleWith(0, "cc05"),
		"a small number in three bytes":     sampleWith(0, "cd0005"),
		"a small number in nine bytes":      sampleWith(0, "cf0000000000000005"),
		"a small number, signed form":       sampleWith(0, "d005"),
		"65541 in a field of 16 bits":       sampleWith(0, "ce00010005"),
		"-1 in an unsigned field":           sampleWith(0, "ff"),
		"2⁶⁴-1 in a signed field":           sampleWith(1, "cfffffffffffffffff"),
		"-1 in two bytes":                   sampleWith(1, "d0ff"),
		"-1 in nine bytes":                  sampleWith(1, "d3ffffffffffffffff"),
		"a half-written number":             "97cd00",
		"a float":                           sampleWith(1, "ca00000000"),
		"a double":                          sampleWith(1, "cb0000000000000000"),
		"a nil for a number":                sampleWith(0, "c0"),
		"a nil for a text":                  sampleWith(2, "c0"),
		"a nil for a list":                  sampleWith(5, "c0"),
		"a nil for bytes":                   sampleWith(6, "c0"),
		"a boolean for a number":            sampleWith(0, "c2"),
		"a number for a boolean":            sampleWith(3, "01"),
		"the byte that is never used":       sampleWith(0, "c1"),
		"a fixed extension":                 sampleWith(1, "d4ff00"),
		"a time extension":                  sampleWith(1, "d6ff00000000"),
		"an extension of any length":        sampleWith(1, "c70100ff"),
		"an extension that claims 2³²-1":    sampleWith(1, "c9ffffffff00"),
		"a short text with a long head":     sampleWith(2, "d90161"),
		"a short text with a longer head":   sampleWith(2, "da000161"),
		"a text that claims 2³²-1":          sampleWith(2, "dbffffffff61"),
		"bytes for a text":                  sampleWith(2, "c40161"),
		"a text for bytes":                  sampleWith(6, "a0"),
		"a list for bytes":                  sampleWith(6, "90"),
		"bytes longer than what is there":   sampleWith(6, "c4ff"),
		"bytes that claim 65535":            sampleWith(6, "c5ffff"),
		"bytes that claim 2³²-1":            sampleWith(6, "c6ffffffff"),
		"a fixed value too short":           sampleWith(4, "c40701020304050607"),
		"a fixed value too long":            sampleWith(4, "c409010203040506070809"),
		"a fixed value as a list":           sampleWith(4, "980102030405060708"),
		"arrays nested without an end":      strings.Repeat("91", 60_000),
		"arrays nested one deeper than may": strings.Repeat("91", DepthMax) + "90",
		"a text that is not UTF-8":          sampleWith(2, "a1ff"),
		"a text that is not NFC":            sampleWith(2, "a365cc81"),
		"a control character":               sampleWith(2, "a10a"),
		"a C1 control character":            sampleWith(2, "a2c285"),
		"a line of more than it may hold":   sampleWith(2, "d9a1"+strings.Repeat("61", LabelLenMax+1)),
		"a sequence over 2⁵³":               sampleWith(5, "9192c4080102030405060708cf0020000000000001"),
		"more bytes than a frame":           sampleWith(6, "c5ffff"+strings.Repeat("00", FrameLenMax)),
	}
}

// TestDecodeRefusesEverySecondForm tries one wrong form after another: each
// must be refused, whatever the library below makes of it.
func TestDecodeRefusesEverySecondForm(t *testing.T) {
	good := unhex(t, sampleWith(0, "05"))
	require.NoError(t, Decode(good, new(sample)), "the form that the cases are made from")
	for name, form := range refusedForms() {
		t.Run(name, func(t *testing.T) {
			err := Decode(unhex(t, form), new(sample))
			require.Error(t, err)
		})
	}
}

// TestDecodeRefusesEveryCut cuts a good form after every byte: no beginning of
// a value is a value.
func TestDecodeRefusesEveryCut(t *testing.T) {
	good := unhex(t, sampleWith(5, "9192c408010203040506070805"))
	require.NoError(t, Decode(good, new(sample)))
	for n := range good {
		require.Error(t, Decode(good[:n], new(sample)), "%d bytes", n)
	}
}

// TestRefusingAllocatesLittle measures what is allocated while forms that claim
// gigabytes or nest without end are refused: never more than a few times the
// longest frame.
func TestRefusingAllocatesLittle(t *testing.T) {
	const bytesMax = 4 * FrameLenMax
	for name, form := range refusedForms() {
		b := unhex(t, form)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		require.Error(t, Decode(b, new(sample)), name)
		runtime.ReadMemStats(&after)
		require.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(bytesMax), name)
	}
}

// TestLongestListOfEmptyElementsAllocatesLittle decodes the worst that scan lets
// through, a list of ListLenMax elements of one byte: it may cost the elements'
// own size twice, and is refused.
func TestLongestListOfEmptyElementsAllocatesLittle(t *testing.T) {
	const bytesMax = 1 << 20
	b := unhex(t, sampleWith(5, "dc1000"+strings.Repeat("90", ListLenMax)))
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	require.ErrorIs(t, Decode(b, new(sample)), ErrNotCanonical)
	runtime.ReadMemStats(&after)
	require.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(bytesMax))
}

// TestEncodeOfValueAndPointerAreEqual encodes the same struct both ways, with
// nil and with empty lists: "nothing" has one form.
func TestEncodeOfValueAndPointerAreEqual(t *testing.T) {
	forms := []any{
		sample{}, &sample{}, sample{Cuts: []Cut{}, Bytes: []byte{}}, &sample{Cuts: []Cut{}, Bytes: []byte{}},
	}
	want, err := Encode(forms[0])
	require.NoError(t, err)
	require.NoError(t, Decode(want, new(sample)))
	for _, v := range forms {
		got, err := Encode(v)
		require.NoError(t, err)
		require.Equal(t, hex.EncodeToString(want), hex.EncodeToString(got), "%T", v)
	}
}

// TestEncodeRefusesWhatDecodeWould writes values out of range or too long: what
// cannot be read again is never written.
func TestEncodeRefusesWhatDecodeWould(t *testing.T) {
	cases := map[string]struct {
		value sample
		want  error
	}{
		"a text too long":     {sample{Words: Label(strings.Repeat("a", LabelLenMax+1))}, ErrText},
		"a text not in NFC":   {sample{Words: "e\u0301"}, ErrText},
		"a sequence too high": {sample{Cuts: []Cut{{Seq: SeqMax + 1}}}, ErrRange},
		"a list too long":     {sample{Cuts: make([]Cut, ListLenMax+1)}, ErrRange},
		"too many bytes":      {sample{Bytes: make([]byte, FrameLenMax)}, ErrTooLong},
	}
	for name, c := range cases {
		_, err := Encode(&c.value)
		require.ErrorIs(t, err, c.want, name)
	}
}

// TestByteStringsAreNotLists writes and reads bytes longer than the longest
// list: only the frame bounds them.
func TestByteStringsAreNotLists(t *testing.T) {
	in := sample{Bytes: bytes.Repeat([]byte{7}, FrameLenMax-64)}
	b, err := Encode(&in)
	require.NoError(t, err)
	out := new(sample)
	require.NoError(t, Decode(b, out))
	require.Equal(t, in.Bytes, out.Bytes)
}

// TestDeepestValueIsRead nests exactly DepthMax arrays: the bound is what it
// says, not one less.
func TestDeepestValueIsRead(t *testing.T) {
	deep := bytes.Repeat([]byte{0x91}, DepthMax-1)
	require.NoError(t, scan(append(deep, 0x90)))
	require.ErrorIs(t, scan(append(deep, 0x91, 0x90)), ErrNotCanonical)
}

// TestCheckNamesTheField looks at the sentence: a person must find the value.
func TestCheckNamesTheField(t *testing.T) {
	err := Check(&sample{Cuts: []Cut{{}, {Seq: SeqMax + 1}}})
	require.ErrorContains(t, err, "Seq:")
}

func unhex(t testing.TB, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(s)
	require.NoError(t, err)
	return b
}

// BenchmarkScan measures the walk that every decode begins with.
func BenchmarkScan(b *testing.B) {
	bytes := goldenEntry(b)
	b.SetBytes(int64(len(bytes)))
	b.ReportAllocs()
	for b.Loop() {
		if err := scan(bytes); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkDecodeEntry measures the whole: scan, decode, encode again, compare, check.
func BenchmarkDecodeEntry(b *testing.B) {
	bytes := goldenEntry(b)
	b.SetBytes(int64(len(bytes)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := DecodeEntry(bytes); err != nil {
			b.Fatal(err)
		}
	}
}
