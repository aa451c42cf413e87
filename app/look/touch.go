package look

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/driver/mobile"
)

// HeldAtMost is how long a finger that is down keeps other fingers from
// counting: the end of a touch can get lost when a screen changes under it.
const HeldAtMost = 3 * time.Second

// touch is the hands' part of whatever is tapped. Mouse, finger and key come
// in through it; it decides whether one press counts, and how the part looks.
//
// On a phone the toolkit gives the end of a touch, and then the tap, to
// whatever is under the finger at that moment: only what saw the finger come
// down believes them.
type touch struct {
	look    *Look
	tapped  func()
	repaint func()
	off     bool      // shown, but does nothing
	pressed bool      // a finger or a button is down on it
	hovered bool      // a mouse is over it
	focused bool      // the keyboard is on it
	down    bool      // the finger came down here and is still here
	ignore  bool      // the tap that follows belongs to another part or finger
	since   time.Time // when it came down
}

func (t *touch) fire() {
	if t.ignore {
		t.ignore = false
		return
	}
	if !t.off && t.tapped != nil {
		t.tapped()
	}
}

func (t *touch) press(on bool) {
	if t.pressed != on {
		t.pressed = on
		t.repaint()
	}
}

// Tapped is part of fyne.Tappable.
func (t *touch) Tapped(*fyne.PointEvent) { t.fire() }

// TappedSecondary is part of fyne.SecondaryTappable: a slow press, or the other
// button, does the same.
func (t *touch) TappedSecondary(*fyne.PointEvent) { t.fire() }

// MouseDown is part of desktop.Mouseable.
func (t *touch) MouseDown(*desktop.MouseEvent) { t.press(!t.off) }

// MouseUp is part of desktop.Mouseable.
func (t *touch) MouseUp(*desktop.MouseEvent) { t.press(false) }

// MouseIn is part of desktop.Hoverable.
func (t *touch) MouseIn(*desktop.MouseEvent) { t.hovered = true; t.repaint() }

// MouseMoved is part of desktop.Hoverable.
func (t *touch) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is part of desktop.Hoverable.
func (t *touch) MouseOut() { t.hovered, t.pressed = false, false; t.repaint() }

// TouchDown is part of mobile.Touchable. Of two fingers the first counts.
func (t *touch) TouchDown(*mobile.TouchEvent) {
	now := t.look.now()
	if first := t.look.held; first != nil && first != t && first.down && now.Sub(first.since) < HeldAtMost {
		t.down = false
		return
	}
	t.look.held = t
	t.down, t.since, t.ignore = true, now, false
	t.press(!t.off)
}

// TouchUp is part of mobile.Touchable. The tap follows it at once.
func (t *touch) TouchUp(*mobile.TouchEvent) {
	t.ignore = !t.down
	t.letGo()
}

// TouchCancel is part of mobile.Touchable: the finger left.
func (t *touch) TouchCancel(*mobile.TouchEvent) { t.letGo() }

func (t *touch) letGo() {
	t.down = false
	if t.look.held == t {
		t.look.held = nil
	}
	t.press(false)
}

// FocusGained is part of fyne.Focusable.
func (t *touch) FocusGained() { t.focused = true; t.repaint() }

// FocusLost is part of fyne.Focusable.
func (t *touch) FocusLost() { t.focused = false; t.repaint() }

// TypedRune is part of fyne.Focusable. Only the space bar taps: Enter ends a
// barcode scan, and a scan must not tap whatever has the focus.
func (t *touch) TypedRune(r rune) {
	if r == ' ' && t.look.typing != nil {
		t.look.rune(r, t.space)
		return
	}
	t.look.rune(r, nil)
}

// TypedKey is part of fyne.Focusable. The space bar comes as a rune as well:
// whoever takes the keys first takes that, as a label may hold a space.
func (t *touch) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name != fyne.KeySpace:
		t.look.key(k.Name, nil)
	case t.look.typing == nil:
		t.space()
	}
}

func (t *touch) space() {
	t.ignore = false
	t.fire()
}

// field is how a target looks at this moment.
func (t *touch) field(l *Look, f Fill) (Fill, float32) {
	p := l.palette
	if t.pressed && !t.off {
		f = Fill{Ground: p.Pressed, Ink: p.Ink, Edge: p.Ink}
	}
	switch {
	case t.focused:
		f.Edge = p.Focus
		return f, l.MM(focusMM)
	case t.pressed || t.hovered && !t.off:
		return f, l.MM(focusMM)
	}
	return f, l.MM(edgeMM)
}
