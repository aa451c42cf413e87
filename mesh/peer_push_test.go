package mesh_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: however full the window of a link is, a tap is sent after the ones
// before it, never instead of them, and while those are under way on one stream
// not on the other. Method: many taps of which none is delivered, now and then
// a credit for two frames; all entries sent, in order of sending, must follow each
// other, and without a credit for everything the stream must not change.
func TestATapNeverOvertakesThoseThatWaitForTheWindow(t *testing.T) {
	a, _ := pair(t)
	const taps = 120
	next, frames, taken := mesh.Seq(0), uint64(0), uint64(0)
	stream := mesh.StreamTap
	note := func(effects []mesh.Effect) {
		for _, s := range pick[mesh.Send](effects) {
			body, err := mesh.DecodeFrame(s.Frame)
			require.NoError(t, err)
			items, ok := body.(*mesh.Items)
			if !ok {
				continue
			}
			if frames > taken {
				require.Equal(t, stream, s.Stream, "a stream is left only when nothing is under way on it")
			}
			frames++
			stream = s.Stream
			for _, it := range items.Items {
				e, err := mesh.DecodeEntry(it.Bytes)
				require.NoError(t, err)
				if next != 0 {
					require.Equal(t, next, e.Seq)
				}
				next = e.Seq + 1
			}
		}
	}
	credit := func() {
		taken = min(frames, taken+2)
		note(a.written(a.step(mesh.Arrived{Link: 1, Frame: frame(t, mesh.FrameCredit, &mesh.Credit{Taken: taken})})))
	}
	for n := range byte(taps) {
		note(a.tap(n+2, byPart(t, "L1")))
		if n%3 == 0 {
			credit()
		}
	}
	for taken < frames {
		credit()
	}
	at, ok := a.peer.Entered(mesh.Tap{taps + 1})
	require.True(t, ok)
	require.Equal(t, at.Seq+1, next, "everything was sent")
}
