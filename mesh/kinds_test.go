package mesh

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"
)

// bodies has one filled body of every kind of this package.
func bodies() map[Kind]any {
	ref := MakeRef(Key{1}, Tap{2}, PartsMax-1)
	return map[Kind]any{
		KindFounded:       &Founded{Founder: Key{1}, Unit: "Anvil", Nonce: [16]byte{3}},
		KindAdmitted:      &Admitted{Key: Key{1}, Name: "trolley tablet"},
		KindRemoved:       &Removed{Key: Key{1}, Cuts: []Cut{{Incarnation: Incarnation{2}, Seq: SeqMax}}, Why: "stolen"},
		KindFeedBefore:    &FeedBefore{Incarnation: Incarnation{2}, Seq: 7, Hash: Hash{3}, Why: WhyTorn},
		KindClock:         &Clock{Peer: Key{1}, OffsetMS: -86_400_000, WithinMS: 12, Cause: ClockFirst},
		KindCheckpoint:    &Checkpoint{Before: ref, Heads: []Head{{Feed: Feed{1}, Seq: 9, Hash: Short{4}}}, FoldVersion: 1, State: Hash{5}},
		KindEnteredAgain:  &EnteredAgain{Original: ref, Hash: Hash{6}},
		KindPairingClosed: &PairingClosed{Failures: 5, ForSeconds: 600},
		KindDeviceLine:    &DeviceLine{Replaces: []Ref{ref}, Key: Key{1}, Name: "runner's phone"},
		KindArchived:      &Archived{Checkpoint: ref, SHA256: Hash{7}, Length: 1 << 40, Where: "desk"},
		KindBy:            &By{Role: "scribe", Tag: "L1", Happened: WallMax, Way: WayPaper},
	}
}

// TestEveryKindOfTheMeshRoundTrips encodes a filled and an emptied list body of
// every kind and reads both back.
func TestEveryKindOfTheMeshRoundTrips(t *testing.T) {
	examples := bodies()
	require.Len(t, examples, len(MeshKinds()))
	for kind, fresh := range MeshKinds() {
		want := examples[kind]
		require.NotNil(t, want, "kind %#04x has no example", uint16(kind))
		require.Equal(t, reflect.TypeOf(fresh()), reflect.TypeOf(want))
		part, err := MakePart(kind, want)
		require.NoError(t, err)
		got := fresh()
		require.NoError(t, Decode(part.Body, got))
		require.Equal(t, want, got)
	}
}

// TestKindsOfTheMeshKeepTheirRange checks the numbers: mesh has 0x00xx.
func TestKindsOfTheMeshKeepTheirRange(t *testing.T) {
	for kind := range MeshKinds() {
		require.Zero(t, kind>>8, "kind %#04x", uint16(kind))
		require.NotZero(t, kind)
	}
}

// TestBodiesOutOfRangeAreRefused writes one value out of range after another.
func TestBodiesOutOfRangeAreRefused(t *testing.T) {
	refused := map[string]any{
		"reason 0":           &FeedBefore{},
		"reason 7":           &FeedBefore{Why: WhyNotWritten + 1},
		"cause 0":            &Clock{},
		"cause 4":            &Clock{Cause: ClockStepped + 1},
		"way 4":              &By{Way: WayPaper + 1},
		"a part number of 8": &EnteredAgain{Original: MakeRef(Key{}, Tap{}, PartsMax)},
		"a space in an id":   &By{Role: "air way"},
		"a tag too long":     &By{Tag: "12345678901234567"},
		"a negative time":    &By{Happened: -1},
	}
	for name, body := range refused {
		_, err := MakePart(KindBy, body)
		require.Error(t, err, name)
		b, err := encode(body)
		require.NoError(t, err, name)
		fresh := reflect.New(reflect.TypeOf(body).Elem()).Interface()
		require.Error(t, Decode(b, fresh), name)
	}
}

// TestFactHappenedWhenItWasSaid compares both sources of a fact's time.
func TestFactHappenedWhenItWasSaid(t *testing.T) {
	require.Equal(t, Wall(5), Fact{Wall: 5}.When())
	require.Equal(t, Wall(3), Fact{Wall: 5, By: By{Happened: 3}}.When())
}

// bodySeeds are the bodies that the table test and the fuzz target begin with.
func bodySeeds(t testing.TB) map[Kind][]byte {
	seeds := map[Kind][]byte{}
	for kind, body := range bodies() {
		part, err := MakePart(kind, body)
		require.NoError(t, err)
		seeds[kind] = part.Body
	}
	return seeds
}

// decodedBodyHoldsTogether is what must be true of any bytes at all, read as any kind.
func decodedBodyHoldsTogether(t testing.TB, kind Kind, b []byte) {
	fresh := MeshKinds()[kind]
	if fresh == nil {
		return
	}
	body := fresh()
	if Decode(b, body) != nil {
		return
	}
	again, err := Encode(body)
	require.NoError(t, err)
	require.Equal(t, b, again)
}

// TestBodySeedsHoldTogether reads every seed as every kind: the bytes of one
// kind may be readable as another, but never in a second form.
func TestBodySeedsHoldTogether(t *testing.T) {
	for _, b := range bodySeeds(t) {
		for kind := range MeshKinds() {
			decodedBodyHoldsTogether(t, kind, b)
		}
	}
}

// FuzzDecodeBody looks for bytes that decode to a body with another byte form.
func FuzzDecodeBody(f *testing.F) {
	for kind, b := range bodySeeds(f) {
		f.Add(uint16(kind), b)
	}
	for _, form := range refusedForms() {
		f.Add(uint16(KindBy), unhex(f, form))
	}
	f.Fuzz(func(t *testing.T, kind uint16, b []byte) { decodedBodyHoldsTogether(t, Kind(kind), b) })
}
