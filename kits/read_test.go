package kits

import (
	"bytes"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// often are the kinds that are read without reflection.
func often() []mesh.Kind {
	return []mesh.Kind{KindMoved, KindReversed, KindEnded, KindDrawnUp, KindLeftWith, KindWitnessed, KindCounted}
}

// readBothWays holds the quick reading of a body against mesh.Decode's: both
// take it, with equal values, or neither does; except for negative volumes,
// which are left to mesh.Decode.
func readBothWays(t testing.TB, kind mesh.Kind, b []byte) {
	t.Helper()
	fresh := KitsKinds()[kind]
	want, got := fresh(), fresh()
	slow := mesh.Decode(b, want) == nil
	r := reader{texts: texts{}}
	fast := r.read(b, got)
	if d, ok := want.(*DrawnUp); ok && slow && d.VolumeUL < 0 {
		require.False(t, fast)
	} else {
		require.Equal(t, slow, fast, "kind %#04x: %x", uint16(kind), b)
	}
	if fast {
		require.Equal(t, want, got)
	}
	if body := r.body(b, fresh); slow {
		require.Equal(t, want, body)
	} else {
		require.Nil(t, body)
	}
}

// Goal: what is read without reflection is what mesh.Decode reads, no more and
// no less. Method: the example of each such kind, every cut of it and every
// change of one of its bits, and the bodies of random histories, each read as
// every kind.
func TestQuickReadingTakesWhatDecodeTakes(t *testing.T) {
	examples := golden(t)
	for _, kind := range often() {
		b := examples[kind]
		require.True(t, (&reader{texts: texts{}}).read(b, KitsKinds()[kind]()), "kind %#04x", uint16(kind))
		for _, other := range examples {
			readBothWays(t, kind, other)
		}
		for n := range b {
			readBothWays(t, kind, b[:n])
		}
		for bit := range 8 * len(b) {
			c := bytes.Clone(b)
			c[bit/8] ^= 1 << (bit % 8)
			readBothWays(t, kind, c)
		}
	}
	for seed := range uint64(20) {
		for _, f := range randomFacts(t, rand.New(rand.NewPCG(seed, 2)), 40) {
			for _, kind := range often() {
				readBothWays(t, kind, f.Body)
			}
		}
	}
}

// Goal: no number of any size is read in a second form or beyond its bound.
// Method: an end whose only count is each form of each number at a bound.
func TestQuickReadingKeepsTheBoundsOfNumbers(t *testing.T) {
	good, err := mesh.Encode(body(TakenIn(mesh.MakeRef(mesh.Key{1}, mesh.Tap{2}, 3), []int64{5})))
	require.NoError(t, err)
	before, after := good[:len(good)-2], good[len(good)-1:]
	for _, n := range []uint64{0, 127, 128, 255, 256, 65535, 65536, 1<<32 - 1, 1 << 32, 1 << 42, 1<<42 + 1, 1 << 63, 1<<64 - 1} {
		big := []byte{byte(n >> 56), byte(n >> 48), byte(n >> 40), byte(n >> 32), byte(n >> 24), byte(n >> 16), byte(n >> 8), byte(n)}
		for _, form := range [][]byte{big[7:], {0xcc, big[7]}, {0xcd, big[6], big[7]}, append([]byte{0xce}, big[4:]...), append([]byte{0xcf}, big...),
			{0xd0, big[7]}, {0xd1, big[6], big[7]}, append([]byte{0xd2}, big[4:]...), append([]byte{0xd3}, big...)} {
			readBothWays(t, KindEnded, slices.Concat(before, form, after))
		}
	}
}

// FuzzQuickReading looks for a body that one of the two ways of reading takes
// and the other does not, or that they read differently.
func FuzzQuickReading(f *testing.F) {
	examples := golden(f)
	for i, kind := range often() {
		f.Add(byte(i), examples[kind])
	}
	for _, fact := range randomFacts(f, rand.New(rand.NewPCG(1, 2)), 60) {
		if i := slices.Index(often(), fact.Kind); i >= 0 {
			f.Add(byte(i), fact.Body)
		}
	}
	f.Fuzz(func(t *testing.T, i byte, b []byte) { readBothWays(t, often()[int(i)%len(often())], b) })
}

// Goal: a body that could not be read leaves nothing in the room for lines that
// the next one gets. Method: a movement whose last field is wrong, then another
// one of as many lines, in one ledger.
func TestLinesOfABadBodyAreForgotten(t *testing.T) {
	p := pens(t, 1)[0]
	bad := p.write(&Moved{From: store, To: trolley, Lines: []Line{Containers(tube, 7), Containers(saline, 8)}})
	bad.Body = append(bytes.Clone(bad.Body[:len(bad.Body)-1]), 0xc1)
	first := p.write(stock(store, tube, 2))
	second := p.write(stock(store, saline, 3))
	l := fold(t, first, bad, second)
	require.Len(t, l.Unreadable(), 1)
	require.Equal(t, []Balance{
		{each(Place{Sort: Supplier}, tube), -2}, {each(Place{Sort: Supplier}, saline), -3},
		{each(store, tube), 2}, {each(store, saline), 3}}, l.Balances())
}
