package look

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// hands is a board of two tiles and a clock that a test moves.
type hands struct {
	look *Look
	now  time.Time
	taps []string
	a, b *Tile
}

func newHands(t *testing.T) *hands {
	h := &hands{now: time.Unix(0, 0)}
	o := Defaults()
	o.Now = func() time.Time { return h.now }
	l, err := New(o)
	require.NoError(t, err)
	h.look = l
	h.a = NewTile(l, UseInside, func() { h.taps = append(h.taps, "a") })
	h.b = NewTile(l, UseInside, func() { h.taps = append(h.taps, "b") })
	for _, tile := range []*Tile{h.a, h.b} {
		tile.Set(TileFace{Word: "Bougie"})
		tile.Resize(fyne.NewSize(200, 150))
	}
	return h
}

// shows is the colour that a tile's field is painted in.
func (h *hands) shows(t *Tile) any {
	test.WidgetRenderer(t).Refresh()
	return t.field.FillColor
}

// Goal: however a gloved hand presses, it asks once. Method: a tap, a slow tap,
// the other button, a whole touch with a tap and with a slow tap, the space bar.
func TestEveryKindOfPressAsksOnce(t *testing.T) {
	presses := map[string]func(*Tile){
		"tap":          func(a *Tile) { a.Tapped(nil) },
		"other button": func(a *Tile) { a.TappedSecondary(nil) },
		"touch":        func(a *Tile) { a.TouchDown(nil); a.TouchUp(nil); a.Tapped(nil) },
		"slow touch":   func(a *Tile) { a.TouchDown(nil); a.TouchUp(nil); a.TappedSecondary(nil) },
		"space bar":    func(a *Tile) { a.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace}) },
	}
	for name, press := range presses {
		h := newHands(t)
		press(h.a)
		require.Equal(t, []string{"a"}, h.taps, name)
		press(h.a)
		require.Equal(t, []string{"a", "a"}, h.taps, "%s, again at once", name)
	}
}

// Goal: the end of a barcode scan asks for nothing, and nothing waits for a
// second tap. Method: Enter on a tile with the focus; the interface that delays.
func TestEnterDoesNothingAndNoTapIsDelayed(t *testing.T) {
	h := newHands(t)
	h.a.FocusGained()
	h.a.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	h.a.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnter})
	h.a.TypedRune('1')
	require.Empty(t, h.taps)
	for _, part := range []any{h.a, NewPress(h.look, UseInside, h.b, nil)} {
		_, delays := part.(fyne.DoubleTappable)
		require.False(t, delays)
	}
}

// Goal: the pressed look comes at once, and goes with the finger. Method: each
// way a press begins and each way it ends.
func TestThePressedLookFollowsTheFinger(t *testing.T) {
	h := newHands(t)
	plain, pressed := any(h.look.Palette().Surface), any(h.look.Palette().Pressed)
	begin := []func(){func() { h.a.TouchDown(nil) }, func() { h.a.MouseDown(nil) }}
	end := []func(){func() { h.a.TouchCancel(nil) }, func() { h.a.MouseOut() }, func() { h.a.TouchUp(nil) }, func() { h.a.MouseUp(nil) }}
	for i, begins := range begin {
		for j, ends := range end {
			begins()
			require.Equal(t, pressed, h.shows(h.a), "%d, %d", i, j)
			require.Equal(t, plain, h.shows(h.b))
			ends()
			require.Equal(t, plain, h.shows(h.a), "%d, %d", i, j)
			h.a.TouchCancel(nil)
		}
	}
	require.Empty(t, h.taps, "a look asks for nothing")
}

// Goal: a finger that slips from one tile to another asks for neither. Method:
// what the toolkit does then: cancel here, end and tap there.
func TestASlipToAnotherTileAsksForNothing(t *testing.T) {
	h := newHands(t)
	h.a.TouchDown(nil)
	h.a.TouchCancel(nil)
	h.b.TouchUp(nil)
	h.b.Tapped(nil)
	require.Empty(t, h.taps)
	h.b.TouchDown(nil)
	h.b.TouchUp(nil)
	h.b.Tapped(nil)
	require.Equal(t, []string{"b"}, h.taps, "the next touch counts")
}

// Goal: of two fingers the first wins, and a touch whose end got lost does not
// stop the board. Method: two touches at once in both orders of ending; then
// one that never ends, and the clock.
func TestOfTwoFingersTheFirstCounts(t *testing.T) {
	for _, firstEnds := range []bool{true, false} {
		h := newHands(t)
		h.a.TouchDown(nil)
		h.b.TouchDown(nil)
		require.Equal(t, any(h.look.Palette().Surface), h.shows(h.b), "the second shows no press")
		ends := []*Tile{h.b, h.a}
		if firstEnds {
			ends = []*Tile{h.a, h.b}
		}
		for _, tile := range ends {
			tile.TouchUp(nil)
			tile.Tapped(nil)
		}
		require.Equal(t, []string{"a"}, h.taps)
	}
	h := newHands(t)
	h.a.TouchDown(nil)
	h.now = h.now.Add(HeldAtMost)
	h.b.TouchDown(nil)
	h.b.TouchUp(nil)
	h.b.Tapped(nil)
	require.Equal(t, []string{"b"}, h.taps)
}

// Goal: what is off does nothing and shows no press. Method: all presses on one.
func TestATileThatIsOffDoesNothing(t *testing.T) {
	h := newHands(t)
	h.a.Set(TileFace{Word: "Bougie", Off: true})
	h.a.TouchDown(nil)
	require.Equal(t, any(h.look.Palette().Surface), h.shows(h.a))
	h.a.TouchUp(nil)
	h.a.Tapped(nil)
	h.a.MouseDown(nil)
	require.Equal(t, any(h.look.Palette().Surface), h.shows(h.a))
	h.a.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	require.Empty(t, h.taps)
}
