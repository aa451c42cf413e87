package lan

import (
	"bytes"
	"crypto/hmac"
	"crypto/sha256"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

func sampleBeacon() beacon {
	b := beacon{kind: beaconCall, port: PortDefault, nonce: [nonceLen]byte{1, 2, 3, 4, 5, 6, 7, 8}}
	b.tag = groupTag(mesh.GroupID{9}, b.nonce)
	return b
}

// beaconSeeds gives a good beacon first; the others cannot be read.
func beaconSeeds() [][]byte {
	good := encodeBeacon(sampleBeacon())
	with := func(at int, value byte) []byte {
		b := bytes.Clone(good)
		b[at] = value
		return b
	}
	portless := bytes.Clone(good)
	portless[8], portless[9] = 0, 0
	return [][]byte{good, nil, good[:len(good)-1], append(bytes.Clone(good), 0), with(0, 0), with(0, 3), with(0, 0x41),
		with(1, 'L'), with(7, beaconVersion+1), portless, bytes.Repeat([]byte{1}, beaconLen)}
}

// Goal: of the seeds only the good beacon is read, and it cannot be taken for
// QUIC. Method: the table that also seeds the fuzzing.
func TestBeaconHasOneForm(t *testing.T) {
	for i, in := range beaconSeeds() {
		b, err := decodeBeacon(in)
		if i > 0 {
			require.ErrorIs(t, err, errBeacon, "%x", in)
			continue
		}
		require.NoError(t, err)
		require.Equal(t, sampleBeacon(), b)
		require.Len(t, in, 26)
		require.Zero(t, in[0]&0xc0, "the two top bits say that it is not QUIC")
	}
}

// FuzzBeacon: what is read has one byte form.
func FuzzBeacon(f *testing.F) {
	for _, b := range beaconSeeds() {
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, in []byte) {
		if b, err := decodeBeacon(in); err == nil {
			require.Equal(t, in, encodeBeacon(b))
		}
	})
}

// Goal: a tag is recognised by who knows the group, and by nobody else. Method:
// HMAC computed again here, another group, another nonce, no group.
func TestOnlyTheGroupKnowsItsTag(t *testing.T) {
	b := sampleBeacon()
	g := mesh.GroupID{9}
	h := hmac.New(sha256.New, g[:])
	h.Write([]byte{1, 2, 3, 4, 5, 6, 7, 8})
	require.Equal(t, h.Sum(nil)[:8], b.tag[:])
	require.True(t, b.matches(g, true))
	require.False(t, b.matches(mesh.GroupID{8}, true))
	require.False(t, b.matches(g, false), "this device belongs to no unit")
	b.nonce[0]++
	require.False(t, b.matches(g, true))
	require.True(t, b.inUnit())
	require.False(t, beacon{port: 1}.inUnit())
}

// txtSeeds gives good texts first, then good ones with something unknown; the
// others cannot be read.
func txtSeeds() []string {
	good := strings.Join(txtOf(sampleBeacon()), "|")
	return []string{good, good + "|x=y|z", "", "v=1", strings.Replace(good, "v=1", "v=2", 1),
		strings.Replace(good, "p=29460", "p=0", 1), strings.Replace(good, "p=29460", "p=65536", 1),
		strings.Replace(good, "p=29460", "p=+1", 1), strings.Replace(good, "p=29460", "p=029460", 1),
		good + "|p=29461", strings.Replace(good, "n=01", "n=", 1), strings.Replace(good, "n=01", "n=0g", 1), strings.ToUpper(good)}
}

// Goal: what mDNS carries reads as what the beacon carries, and nothing else
// does. Method: the table that also seeds the fuzzing.
func TestTextsOfMDNSHaveOneForm(t *testing.T) {
	for i, in := range txtSeeds() {
		b, ok := readTXT(strings.Split(in, "|"))
		require.Equal(t, i < 2, ok, in)
		if ok {
			require.Equal(t, sampleBeacon(), b)
		}
	}
}

// FuzzTXT: what is read is written with the same four texts.
func FuzzTXT(f *testing.F) {
	for _, s := range txtSeeds() {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, in string) {
		fields := strings.Split(in, "|")
		if b, ok := readTXT(fields); ok {
			require.Subset(t, fields, txtOf(b))
		}
	})
}
