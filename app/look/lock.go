package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/driver/mobile"
	"fyne.io/fyne/v2/widget"
)

// LockFace is what a Lock says while it takes every touch.
type LockFace struct {
	Sentence string // why: "Wiping: touches do nothing"
	Left     string // the time that is left, "0:42"
}

// Lock covers a screen while its glass is wiped: every touch, tap, drag, turn
// of a wheel and key ends in it and does nothing. Nothing is painted but a
// banner at its upper edge, so that states behind it go on to be read. Put it
// over everything, last of the objects; take the focus with Grab.
type Lock struct {
	widget.BaseWidget
	writing
	role     Role
	face     LockFace
	field    *canvas.Rectangle
	image    *canvas.Image
	sentence *lines
	left     *lines
}

// NewLock makes one whose banner is read from where a role reads.
func NewLock(l *Look, r Role) *Lock {
	w := newWriting(l)
	k := &Lock{
		writing: w, role: r, field: canvas.NewRectangle(color.Transparent), image: newIconImage(),
		sentence: w.lines(r, true, 2), left: w.lines(r, true, 1),
	}
	k.ExtendBaseWidget(k)
	return k
}

// Set says another thing.
func (k *Lock) Set(f LockFace) { setFace(&k.face, f, k.Refresh) }

// Face is what it says.
func (k *Lock) Face() LockFace { return k.face }

// Sinks tells whoever looks for targets that this one does nothing, and that
// nothing under it can be reached.
func (k *Lock) Sinks() bool { return true }

// Grab takes the keyboard, so that a key that is wiped over taps nothing.
func (k *Lock) Grab(c fyne.Canvas) { c.Focus(k) }

// BannerHigh is how high the banner is, in mm.
func (k *Lock) BannerHigh() float32 {
	return k.look.scale.Millimetres(lineHeight(k.look.Letters(k.role, Large), 2)) + 2*paddingMM
}

// CreateRenderer is part of fyne.Widget.
func (k *Lock) CreateRenderer() fyne.WidgetRenderer {
	objects := []fyne.CanvasObject{k.field, k.image}
	objects = append(objects, k.sentence.objects()...)
	objects = append(objects, k.left.objects()...)
	return &painted{owner: k, objects: objects, lay: k.lay, least: func() fyne.Size {
		return fyne.NewSize(k.look.MM(SideInside), k.look.MM(k.BannerHigh()))
	}}
}

func (k *Lock) lay(size fyne.Size) {
	l, pad := k.look, k.look.MM(paddingMM)
	fill := Fill{Ground: l.palette.Ink, Ink: l.palette.Ground, Edge: l.palette.Ink} // no tone: it is not a matter of urgency
	high := l.MM(k.BannerHigh())
	l.paintPanel(k.field, fill, fyne.NewSize(size.Width, high))
	large, small := l.Letters(k.role, Large), l.Letters(k.role, Small)
	left := k.left.measure(large)(k.face.Left) + 1
	k.left.write(k.face.Left, ink{large, fill.Ink, fyne.TextAlignTrailing}, size.Width-pad-left, (high-lineHeight(large, 1))/2, left)
	l.paintIcon(k.image, IconLock, fill.Ink)
	side := lineHeight(large, 1)
	place(k.image, pad, (high-side)/2, side, side)
	x := 2*pad + side
	width := size.Width - x - left - 2*pad
	letter := large
	if !k.sentence.whole(k.face.Sentence, large, width) {
		letter = small
	}
	rows := wrappedHeight(k.sentence, k.face.Sentence, letter, width)
	k.sentence.write(k.face.Sentence, ink{size: letter, color: fill.Ink}, x, (high-rows)/2, width)
}

// Tapped is part of fyne.Tappable.
func (k *Lock) Tapped(*fyne.PointEvent) {}

// TappedSecondary is part of fyne.SecondaryTappable.
func (k *Lock) TappedSecondary(*fyne.PointEvent) {}

// MouseDown is part of desktop.Mouseable.
func (k *Lock) MouseDown(*desktop.MouseEvent) {}

// MouseUp is part of desktop.Mouseable.
func (k *Lock) MouseUp(*desktop.MouseEvent) {}

// MouseIn is part of desktop.Hoverable.
func (k *Lock) MouseIn(*desktop.MouseEvent) {}

// MouseMoved is part of desktop.Hoverable.
func (k *Lock) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is part of desktop.Hoverable.
func (k *Lock) MouseOut() {}

// TouchDown is part of mobile.Touchable.
func (k *Lock) TouchDown(*mobile.TouchEvent) {}

// TouchUp is part of mobile.Touchable.
func (k *Lock) TouchUp(*mobile.TouchEvent) {}

// TouchCancel is part of mobile.Touchable.
func (k *Lock) TouchCancel(*mobile.TouchEvent) {}

// Dragged is part of fyne.Draggable.
func (k *Lock) Dragged(*fyne.DragEvent) {}

// DragEnd is part of fyne.Draggable.
func (k *Lock) DragEnd() {}

// Scrolled is part of fyne.Scrollable.
func (k *Lock) Scrolled(*fyne.ScrollEvent) {}

// FocusGained is part of fyne.Focusable.
func (k *Lock) FocusGained() {}

// FocusLost is part of fyne.Focusable.
func (k *Lock) FocusLost() {}

// TypedRune is part of fyne.Focusable.
func (k *Lock) TypedRune(rune) {}

// TypedKey is part of fyne.Focusable.
func (k *Lock) TypedKey(*fyne.KeyEvent) {}

// AcceptsTab is part of fyne.Tabbable: the focus does not leave by a key.
func (k *Lock) AcceptsTab() bool { return true }
