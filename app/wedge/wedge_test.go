package wedge

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// press presses the runes of a text with a gap between them, then perhaps Enter,
// and waits. Enter is a key without a rune in what is typed.
func press(r *Reader, at time.Duration, text string, gap time.Duration, enter bool) (typed string, scans []string, end time.Duration) {
	take := func(f Found) {
		for _, k := range f.Typed {
			if k.Rune == 0 {
				typed += "\n"
				continue
			}
			typed += string(k.Rune)
		}
		if f.Scan != "" {
			scans = append(scans, f.Scan)
		}
	}
	for _, c := range text {
		at += gap
		take(r.Key(Key{Rune: c, At: at}))
	}
	if enter {
		at += gap
		take(r.Key(Key{Ends: true, At: at}))
	}
	at += GapMax + time.Millisecond
	take(r.Pause(at))
	return typed, scans, at
}

// Goal: a burst is a scan, a person's keys are typing. Method: labels, digits and
// words, fast and slow, with Enter and without; a key that is held down.
func TestABurstIsAScanAndSlowKeysAreTyping(t *testing.T) {
	const label = "]d2010950600013435217271231\x1d10AB-1"
	for _, c := range []struct {
		text  string
		gap   time.Duration
		enter bool
		typed string
		scan  string
	}{
		{label, 3 * time.Millisecond, true, "", label},
		{label, 3 * time.Millisecond, false, "", label},
		{label, EachMax, true, "", label},
		{label, EachMax + 1, true, label + "\n", ""},
		{"5720434", 110 * time.Millisecond, true, "5720434\n", ""},
		{"1108", 2 * time.Millisecond, true, "1108\n", ""},
		{"1108", 120 * time.Millisecond, true, "1108\n", ""},
		{"000000000000", 33 * time.Millisecond, false, "000000000000", ""},
		{"", time.Millisecond, true, "\n", ""},
	} {
		typed, scans, _ := press(&Reader{}, 0, c.text, c.gap, c.enter)
		require.Equal(t, c.typed, typed, "%q", c.text)
		if c.scan == "" {
			require.Empty(t, scans)
			continue
		}
		require.Equal(t, []string{c.scan}, scans)
	}
}

// Goal: nothing is lost and nothing comes twice, whatever is pressed. Method: keys
// at random, fast and slow, with other keys between; what comes out is what went
// in. The seed is printed.
func TestEveryKeyComesOutOnce(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 3))
	for range 300 {
		var r Reader
		var in, out string
		take := func(f Found) {
			for _, k := range f.Typed {
				if k.Rune != 0 {
					out += string(k.Rune)
				}
			}
			out += f.Scan
		}
		at := time.Duration(0)
		for range random.IntN(900) {
			at += time.Duration(random.IntN(240)) * time.Millisecond
			if random.IntN(40) == 0 {
				take(r.Key(Key{Ends: random.IntN(2) == 0, At: at}))
				continue
			}
			c := rune('0' + random.IntN(10))
			in += string(c)
			take(r.Key(Key{Rune: c, At: at}))
			if random.IntN(10) == 0 {
				take(r.Pause(at + time.Duration(random.IntN(60))*time.Millisecond))
			}
		}
		take(r.Pause(at + time.Hour))
		require.Equal(t, in, out)
		require.False(t, r.Holds())
	}
}

// Goal: a label is whole though a window was painted while it came. Method: a
// burst with a gap as long as two frames in its middle.
func TestAPauseOfTheWindowSplitsNoLabel(t *testing.T) {
	var r Reader
	at := time.Duration(0)
	for i, c := range "010950600013435217271231" {
		at += 3 * time.Millisecond
		if i == 4 || i == 11 {
			at += 160 * time.Millisecond
		}
		require.Empty(t, r.Key(Key{Rune: c, At: at}))
	}
	require.Equal(t, "010950600013435217271231", r.Key(Key{Ends: true, At: at}).Scan)
}

// Goal: a scanner may end a label with any key; one that does something does it
// besides. Method: a burst ended by such a key.
func TestAnyKeyWithoutARuneEndsABurst(t *testing.T) {
	var r Reader
	for i, c := range "4006381333931" {
		require.Empty(t, r.Key(Key{Rune: c, At: time.Duration(i)}))
	}
	f := r.Key(Key{At: 20})
	require.Equal(t, "4006381333931", f.Scan)
	require.Len(t, f.Typed, 1)
}

// Goal: a function key inside a burst separates two elements, behind one it is a
// key, and alone it is a key at once. Method: each.
func TestAFunctionKeySeparatesElementsInsideABurstOnly(t *testing.T) {
	var r Reader
	at := time.Duration(0)
	burst := func(text string) {
		for _, c := range text {
			at++
			require.Empty(t, r.Key(Key{Rune: c, At: at}))
		}
	}
	require.Len(t, r.Key(Key{Part: true}).Typed, 1)
	burst("10AB-12")
	require.Empty(t, r.Key(Key{Part: true, At: at}))
	burst("21S7")
	f := r.Key(Key{Ends: true, At: at})
	require.Equal(t, "10AB-12\x1d21S7", f.Scan)
	require.Empty(t, f.Typed)
	burst("4006381333931")
	require.Empty(t, r.Key(Key{Part: true, At: at}))
	f = r.Pause(at + GapMax + 1)
	require.Equal(t, "4006381333931", f.Scan)
	require.Len(t, f.Typed, 1)
}

// FuzzEveryRuneComesOutOnce gives any text at any pace: it comes out whole, as a
// scan or as typing, and nothing stays held.
func FuzzEveryRuneComesOutOnce(f *testing.F) {
	for _, text := range []string{"", "1108", "]d2010950600013435217271231\x1d10AB-1", "+A99912345/$$52001510X3", "aaaaaaaaaa"} {
		f.Add(text, uint16(3))
		f.Add(text, uint16(120))
		f.Add(text, uint16(300))
	}
	f.Fuzz(func(t *testing.T, text string, gap uint16) {
		var want []rune
		for _, c := range text {
			if c != 0 {
				want = append(want, c)
			}
		}
		var r Reader
		typed, scans, _ := press(&r, 0, string(want), time.Duration(gap)*time.Millisecond, false)
		require.False(t, r.Holds())
		require.LessOrEqual(t, len(scans), 1)
		if len(scans) == 1 {
			require.Empty(t, typed)
			typed = scans[0]
		}
		require.Equal(t, string(want), typed)
	})
}

// Goal: a flood ends as typing, and a scan behind it is still one. Method: more
// than a label's length at once, then a label.
func TestAFloodIsNoLabel(t *testing.T) {
	var r Reader
	flood := make([]rune, LenMax+1)
	for i := range flood {
		flood[i] = rune('a' + i%26)
	}
	typed, scans, at := press(&r, 0, string(flood), time.Millisecond, false)
	require.Equal(t, string(flood), typed)
	require.Empty(t, scans)
	_, scans, _ = press(&r, at, "4006381333931", time.Millisecond, true)
	require.Equal(t, []string{"4006381333931"}, scans)
}

// Goal: what a burst wrote where a person types can be taken out from its first
// key on, and what a person typed stays. Method: a burst and slow keys that write.
func TestABurstKnowsHowItIsTakenBack(t *testing.T) {
	var r Reader
	text := ""
	key := func(c rune, at time.Duration) Found {
		before := text
		f := r.Key(Key{Rune: c, At: at, Undo: func() func() { text = before; return nil }})
		text += string(c)
		return f
	}
	require.Empty(t, key('s', 0))
	at := time.Second
	for i, c := range "4006381333931" {
		f := key(c, at+time.Duration(i))
		require.Nil(t, f.Undo, "a person typed")
	}
	f := r.Key(Key{Ends: true, At: at + time.Millisecond})
	require.Equal(t, "4006381333931", f.Scan)
	require.Equal(t, "s4006381333931", text)
	f.Undo()
	require.Equal(t, "s", text)
}
