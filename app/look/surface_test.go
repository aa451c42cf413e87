package look

import (
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// Goal: a clock shows whole seconds, fills towards its last mark, and says when
// that is passed. Method: three times, with the width of the bar.
func TestABigClockFillsTowardsItsLastMark(t *testing.T) {
	l := newLook(t)
	c := NewBigClock(l)
	c.Resize(fyne.NewSize(l.MM(150), l.MM(70)))
	face := BigClockFace{Word: "Pre-oxygenation", Marks: [2]time.Duration{3 * time.Minute, 5 * time.Minute}, Done: "5 minutes are over"}
	full := float32(0)
	for _, x := range []struct {
		after time.Duration
		says  string
		share float32
	}{{0, "0:00", 0}, {150*time.Second + 999*time.Millisecond, "2:30", 0.5}, {6 * time.Minute, "6:00", 1}} {
		face.Elapsed = x.after
		c.Set(face)
		require.Subset(t, said(c), []string{x.says, "3:00", "5:00"})
		full = c.track.Size().Width
		require.InDelta(t, x.share*full, c.fill.Size().Width, 1)
	}
	require.Contains(t, said(c), "5 minutes are over", "there is no room for both")
	c.Resize(fyne.NewSize(l.MM(250), l.MM(70)))
	require.Contains(t, said(c), "Pre-oxygenation · 5 minutes are over")
	require.Greater(t, c.ticks[1].Position().X-c.ticks[0].Position().X, full/3)
}

// Goal: the digits of a clock are as large as its box, and never too small to
// be read from 2 m. Method: two boxes, with marks and without.
func TestABigClockFillsItsBox(t *testing.T) {
	l := newLook(t)
	c := NewBigClock(l)
	digits := func(width, height float32) float32 {
		c.Resize(fyne.NewSize(l.MM(width), l.MM(height)))
		test.WidgetRenderer(c).Layout(c.Size())
		return c.time.texts[0].TextSize
	}
	c.Set(BigClockFace{Elapsed: 12*time.Minute + 34*time.Second})
	require.Greater(t, digits(250, 120), 2*digits(100, 40))
	require.GreaterOrEqual(t, digits(60, 20), l.Letters(WallWord, Small))
	without := digits(200, 60)
	c.Set(BigClockFace{Elapsed: 12*time.Minute + 34*time.Second, Marks: [2]time.Duration{time.Minute, 0}})
	require.Less(t, digits(200, 60), without)
}

// Goal: no line of a sign is too small to be read from 2 m, and the strength is
// never cut before the item. Method: faces with much and with little to say, on a
// tablet and on a phone.
func TestASignIsReadThroughTheGlass(t *testing.T) {
	l := newLook(t)
	s := NewSign(l)
	for _, f := range []SignFace{
		{Word: "Bougie"}, {Word: "Ketamine", Detail: "50\u00a0mg/mL, 10\u00a0mL", Count: "2 ×", Code: "412 7"},
		{Head: "not reached: use voice", Word: "Tracheal tube, cuffed", Detail: "7.0", Count: "1 ×", Code: "123 456"},
		{Word: "14:35", Foot: "estimate; local policy decides", Tone: ToneNext},
	} {
		for _, size := range []fyne.Size{fyne.NewSize(l.MM(250), l.MM(150)), fyne.NewSize(l.MM(70), l.MM(140))} {
			s.Set(f)
			s.Resize(size)
			test.WidgetRenderer(s).Layout(size)
			rows := said(s)
			for _, o := range test.LaidOutObjects(s) {
				if text, is := o.(*canvas.Text); is && text.Text != "" {
					role, _ := s.RoleOf(text)
					require.GreaterOrEqual(t, text.TextSize, l.Letters(role, Small), text.Text)
					require.Equal(t, role == WallWord, !strings.Contains(f.Foot, strings.Trim(text.Text, "-")), text.Text)
				}
			}
			require.Contains(t, strings.ReplaceAll(strings.Join(rows, " "), "- ", ""), f.Code)
			require.NotContains(t, strings.Join(rows, " "), Cut, "%v in %v", f, size)
		}
	}
}

// Goal: nothing under a lock can be reached. Method: a board of tiles under
// one; two minutes of strokes at random places (one every 20 ms) through the
// canvas, by finger, by wheel, by key; then without it.
func TestNothingUnderALockIsTapped(t *testing.T) {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	l, taps := newLook(t), 0
	grid := container.NewGridWithColumns(5)
	for range 20 {
		grid.Add(NewTile(l, UseInside, func() { taps++ }))
	}
	lock := NewLock(l, InsideTile)
	lock.Set(LockFace{Sentence: "Wiping: touches do nothing", Left: "0:42"})
	w := test.NewWindow(container.NewStack(grid, lock))
	defer w.Close()
	w.Resize(fyne.NewSize(1280, 800))
	lock.Grab(w.Canvas())
	require.Equal(t, any(lock), any(w.Canvas().Focused()))
	at := func() fyne.Position { return fyne.NewPos(r.Float32()*1280, r.Float32()*800) }
	for range 2 * 60 * 50 {
		switch r.IntN(5) {
		case 0:
			test.Drag(w.Canvas(), at(), r.Float32()*300, r.Float32()*300)
		case 1:
			test.Scroll(w.Canvas(), at(), r.Float32()*30, r.Float32()*30)
		case 2:
			if f, is := w.Canvas().Focused().(desktop.Keyable); is {
				f.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
			}
			w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
		default:
			test.TapCanvas(w.Canvas(), at())
		}
	}
	require.Zero(t, taps)
	lock.Hide()
	test.TapCanvas(w.Canvas(), fyne.NewPos(100, 100))
	require.Equal(t, 1, taps)
}
