package mesh

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// write makes a write of turn t, named n, that replaces the named others.
func write(t Turn, n byte, replaces ...byte) Write {
	w := Write{Ref: refNumbered(n), At: Order{Turn: t, Feed: MakeFeed(Key{n}, Incarnation{}), Seq: 1}}
	for _, r := range replaces {
		w.Replaces = append(w.Replaces, refNumbered(r))
	}
	return w
}

func refNumbered(n byte) Ref { return MakeRef(Key{n}, Tap{n}, 0) }

func names(writes []Write) (out []byte) {
	for _, w := range writes {
		out = append(out, w.Ref[0])
	}
	return out
}

// TestStandingKeepsWhatNobodyReplaced names writes 1… and lists which stand,
// the one in use first.
func TestStandingKeepsWhatNobodyReplaced(t *testing.T) {
	tests := map[string]struct {
		writes []Write
		want   []byte
	}{
		"nothing written":              {nil, nil},
		"one":                          {[]Write{write(1, 1)}, []byte{1}},
		"a chain ends in its last":     {[]Write{write(1, 1), write(2, 2, 1), write(3, 3, 2)}, []byte{3}},
		"two that did not know":        {[]Write{write(1, 1), write(2, 2, 1), write(2, 3, 1)}, []byte{3, 2}},
		"a choice ends two values":     {[]Write{write(2, 2), write(2, 3), write(3, 1, 2, 3)}, []byte{1}},
		"replacing beats a later turn": {[]Write{write(9, 1), write(2, 2, 1)}, []byte{2}},
		"replacing the unknown":        {[]Write{write(1, 1, 7)}, []byte{1}},
		"replacing itself":             {[]Write{write(1, 1, 1)}, []byte{1}},
		"a cycle stands whole":         {[]Write{write(1, 1, 2), write(2, 2, 1)}, []byte{2, 1}},
		"a cycle beside a free one":    {[]Write{write(1, 1, 2), write(2, 2, 1), write(1, 3)}, []byte{3}},
		"the same twice":               {[]Write{write(1, 1), write(1, 1)}, []byte{1}},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, test.want, names(Standing(test.writes)))
		})
	}
}

// TestPartsOfOneEntryHaveOneOrder writes a register twice in one entry, whose
// parts share their order, and expects the higher part to be in use either way round.
func TestPartsOfOneEntryHaveOneOrder(t *testing.T) {
	a, b := write(1, 1), write(1, 1)
	b.Ref = a.Ref.Sibling(1)
	require.Equal(t, []Write{b, a}, Standing([]Write{a, b}))
	require.Equal(t, []Write{b, a}, Standing([]Write{b, a}))
}

// TestStandingIgnoresOrderAndRepeats shuffles random writes, repeats some, and
// expects the same writes to stand; the given slice is not touched.
func TestStandingIgnoresOrderAndRepeats(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	for range 500 {
		var writes []Write
		for n := range byte(8) {
			w := write(Turn(1+random.IntN(4)), n+1)
			for range random.IntN(3) {
				w.Replaces = append(w.Replaces, refNumbered(byte(1+random.IntN(9))))
			}
			writes = append(writes, w)
		}
		want := Standing(writes)
		for range 10 {
			mixed := append(slices.Clone(writes), writes[random.IntN(len(writes))])
			random.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
			before := slices.Clone(mixed)
			require.Equal(t, want, Standing(mixed))
			require.Equal(t, before, mixed)
		}
	}
}

// TestRegisterToldApartByKey writes two registers, one of them by two devices
// that did not know of each other, and a repeat.
func TestRegisterToldApartByKey(t *testing.T) {
	var r Register[ID, string]
	_, written, _ := r.Value("a")
	require.False(t, written)

	for range 2 {
		r.Add("a", write(1, 1), "first")
		r.Add("a", write(2, 2, 1), "second")
		r.Add("a", write(2, 3, 1), "third")
		r.Add("b", write(5, 4), "other")
	}
	value, written, two := r.Value("a")
	require.Equal(t, "third", value)
	require.True(t, written)
	require.True(t, two)
	require.Len(t, r.Standing("a"), 2)

	value, _, two = r.Value("b")
	require.Equal(t, "other", value)
	require.False(t, two)
	require.ElementsMatch(t, []ID{"a", "b"}, r.Keys())

	r.Add("a", write(3, 5, 2, 3), "chosen")
	value, _, two = r.Value("a")
	require.Equal(t, "chosen", value)
	require.False(t, two)
}
