package mesh

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"
)

// framesSeen is one valid frame of each kind.
func framesSeen() map[FrameKind]any {
	return map[FrameKind]any{
		FrameItems:   &Items{Items: []Item{{Bytes: []byte{1, 2}, Signature: make([]byte, 64)}}},
		FrameReceipt: &Receipt{Feed: Feed{1}, Seq: 3, Hash: Hash{4}},
		FrameFar:     &FarReceipt{Receiver: Key{1}, Receipt: Receipt{Seq: 1}},
		FrameVector:  &Vector{Heads: []Head{{Feed: Feed{1}, Seq: 9}}, Answer: true, Stored: true, Taken: 7},
		FrameLadder:  &Ladder{Feed: Feed{2}, Rungs: []Rung{{Seq: 5}}},
		FramePing:    &Ping{N: 1, Wall: 2, OffsetMS: -3, WithinMS: 4},
		FramePong:    &Pong{N: 1, Wall: 2},
		FrameCredit:  &Credit{Taken: 4},
		FrameLinks:   &Links{Keys: []Short{{1}}},
		FrameAddress: &Addresses{Known: []Address{{Key: Key{1}, Hosts: []Label{"host:1"}}}},
	}
}

// Goal: every frame comes back as it went. Method: each kind once, and every
// kind that can be read is tried.
func TestFramesComeBackAsTheyWent(t *testing.T) {
	seen := framesSeen()
	require.Len(t, seen, len(frameBodies))
	for k, body := range seen {
		got, err := DecodeFrame(encodeFrame(k, body))
		require.NoError(t, err, k)
		require.Equal(t, body, got, k)
	}
}

// Goal: what is no frame is refused with ErrFrame. Method: empty, too long, an
// unknown kind, a cut one, one with a byte behind it, a run too long.
func TestWhatIsNoFrameIsRefused(t *testing.T) {
	good := encodeFrame(FrameCredit, &Credit{Taken: 4})
	long := &Items{}
	for range 5 {
		long.Items = append(long.Items, Item{Bytes: make([]byte, 13<<10)})
	}
	encoded, err := encode(long)
	require.NoError(t, err)
	for name, b := range map[string][]byte{
		"empty": {}, "too long": make([]byte, FrameLenMax+1), "unknown": {99, 0x90}, "cut": good[:len(good)-1],
		"more": append(bytes.Clone(good), 0), "kind only": {byte(FrameCredit)}, "long run": append([]byte{byte(FrameItems)}, encoded...),
	} {
		_, err := DecodeFrame(b)
		require.ErrorIs(t, err, ErrFrame, name)
	}
}

// FuzzDecodeFrame: no bytes panic, and whatever decodes has that one form.
func FuzzDecodeFrame(f *testing.F) {
	for k, body := range framesSeen() {
		f.Add(encodeFrame(k, body))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		body, err := DecodeFrame(b)
		if err == nil && !bytes.Equal(encodeFrame(FrameKind(b[0]), body), b) {
			t.Fatalf("%x has a second form", b)
		}
	})
}
