package inside

import (
	"math/rand/v2"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/station"
	"lintel/requests"
)

// wipeFor is how long the glass is wiped in these tests.
const wipeFor = 2 * time.Minute

// Goal: nothing that touches the glass while it is wiped is a tap, and what
// arrives is shown meanwhile. Method: two minutes of taps and strokes at random
// places through a canvas, and of taps on every target that could be found; the
// seed is printed.
func TestWhileWipingNothingIsTapped(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	window := windows()["tablet"]
	s := newScene(t, look.Dark, window)
	snap := calm(t)
	snap.Limits.Wipe = wipeFor
	s.screen.Set(snap)
	w := test.NewWindow(s.screen.Object())
	w.SetPadded(false)
	w.Resize(window)
	place := func() fyne.Position {
		return fyne.NewPos(random.Float32()*window.Width, random.Float32()*window.Height)
	}
	s.screen.pick(pick{does: picksLock})
	for end := s.now.Add(wipeFor); s.now.Before(end); s.now = s.now.Add(time.Second) {
		test.TapCanvas(w.Canvas(), place())
		test.Drag(w.Canvas(), place(), random.Float32()*200, random.Float32()*200)
		snap.Requests = []Request{open(snap, 1, 3009, 1, requests.ShownAcknowledged, asking()...)}
		snap.Requests[0].Going = []string{"R1"}
		s.screen.Set(snap)
	}
	s.now = s.now.Add(-time.Second)
	s.screen.Paint()
	require.Empty(t, proof.Hands(s.look, s.screen.Object(), window), "a target can be reached")
	s.now = s.now.Add(time.Second)
	require.Empty(t, s.taps.acts)
	require.Contains(t, s.text(), "R1 is going")
	s.screen.Paint()
	s.tap("Arrest")
	require.Len(t, s.taps.acts, 1, "afterwards taps count again")
	w.Close()
}

// Goal: the lock says how long it lasts yet, ends by itself, and a target that
// was found under it does nothing either. Method: look at its words while the
// time passes; tap targets that were found before.
func TestTheLockCountsDownAndEnds(t *testing.T) {
	s := newScene(t, look.Dark, windows()["tablet"])
	hands := proof.Hands(s.look, s.screen.Object(), s.window)
	s.screen.lockFor(90 * time.Second)
	require.Equal(t, look.LockFace{Sentence: "Wipe now: touches do nothing", Left: "1:30"}, s.screen.rows.Lock)
	s.now = s.now.Add(90*time.Second - time.Millisecond)
	s.screen.Paint()
	require.Equal(t, "0:01", s.screen.rows.Lock.Left)
	for _, h := range hands {
		h.On.Tapped(nil)
	}
	require.Empty(t, s.taps.acts)
	s.now = s.now.Add(time.Millisecond)
	s.screen.Paint()
	require.Equal(t, look.LockFace{}, s.screen.rows.Lock)
	require.IsType(t, station.Ask{}, s.through("3 Bougie")[0])
}
