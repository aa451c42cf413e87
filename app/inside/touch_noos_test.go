//go:build noos

package inside

import (
	"image"
	"math/rand/v2"
	"sync/atomic"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/driver/embedded"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
)

// glassDriver is a screen that is touched by a test; what is painted is counted.
type glassDriver struct {
	size   fyne.Size
	events chan embedded.Event
	frames atomic.Int64
}

func (g *glassDriver) Render(image.Image)         { g.frames.Add(1) }
func (g *glassDriver) Run(run func())             { run() }
func (g *glassDriver) ScreenSize() fyne.Size      { return g.size }
func (g *glassDriver) Queue() chan embedded.Event { return g.events }
func (g *glassDriver) send(e embedded.Event)      { g.events <- e }
func (g *glassDriver) at(r *rand.Rand) fyne.Position {
	return fyne.NewPos(r.Float32()*g.size.Width, r.Float32()*g.size.Height)
}

// stroke puts one finger or two on the glass, moves them or does not, and lifts them.
func (g *glassDriver) stroke(r *rand.Rand) {
	var at [2]fyne.Position
	fingers := 1 + r.IntN(2)
	for f := range fingers {
		at[f] = g.at(r)
		g.send(&embedded.TouchDownEvent{Position: at[f], ID: f})
	}
	for range r.IntN(3) {
		f := r.IntN(fingers)
		at[f] = g.at(r)
		g.send(&embedded.TouchMoveEvent{Position: at[f], ID: f})
	}
	for f := range fingers {
		g.send(&embedded.TouchUpEvent{Position: at[f], ID: f})
	}
}

// Goal: two minutes of strokes over the glass while it is wiped ask for nothing;
// the same strokes afterwards do. Method: real touch events, of one finger and
// of two, through the toolkit's driver for bare screens, while the clock of the
// board goes on; the seed is printed. Run it with -tags noos.
func TestStrokesWhileWipingAskForNothing(t *testing.T) {
	seed := uint64(time.Now().UnixNano())
	t.Log("seed", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	a := app.NewWithID("")
	t.Cleanup(func() { test.NewApp() })
	var clock atomic.Int64
	clock.Store(1_800_000_000_000)
	now := func() time.Time { return time.UnixMilli(clock.Load()) }
	l, err := look.New(look.Options{Density: look.DensityMin, Reads: look.InsideTile, Now: now})
	require.NoError(t, err)
	glass := &glassDriver{size: fyne.NewSize(l.MM(256), l.MM(160)), events: make(chan embedded.Event)}
	app.SetDriverDetails(a, glass)
	a.Settings().SetTheme(l.Theme())
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	taps := &fakeTaps{}
	s := New(Options{Look: l, Words: words.English(), Taps: taps, Board: starter.Board, Now: now, Explain: func(error) (string, string) { return "", "" }})
	snap := calm(t)
	snap.Limits.Wipe = wipeFor
	s.Set(snap)
	w := a.NewWindow("")
	w.SetPadded(false)
	w.SetContent(s.Object())
	w.Show()
	s.lockFor(wipeFor)
	whileWiping := -1
	go func() { // joined by Run, which ends when it sends nil
		for range wipeFor / time.Second {
			glass.stroke(random)
			clock.Add(999)
			fyne.DoAndWait(s.Paint)
		}
		fyne.DoAndWait(func() { whileWiping = len(taps.acts) })
		clock.Add(1000)
		fyne.DoAndWait(s.Paint)
		for range 60 {
			glass.stroke(random)
		}
		glass.send(nil)
	}()
	w.ShowAndRun()
	require.Zero(t, whileWiping)
	require.NotEmpty(t, taps.acts, "afterwards strokes ask")
	require.Greater(t, glass.frames.Load(), int64(100))
}
