package look

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// KeypadFace is what stands on the keys that are no digits.
type KeypadFace struct {
	Erase     string
	Done      string
	DigitsOff bool // enough was typed
	EraseOff  bool // nothing was typed
	DoneOff   bool // not enough was typed
}

// KeypadKeys are what the keys of a Keypad do.
type KeypadKeys struct {
	Digit func(digit rune) // '0' to '9'
	Erase func()           // the last digit
	Done  func()
}

// Keypad is ten digits as on a telephone, erase and done. It holds nothing of
// what was typed; show that in a BigWord above it. Real keys work while it has
// the focus: digits and Backspace, never Enter, which ends a barcode scan.
type Keypad struct {
	widget.BaseWidget
	look   *Look
	use    Use
	face   KeypadFace
	digits [10]*Tile
	erase  *Tile
	done   *Tile
	keys   KeypadKeys
}

// NewKeypad makes one.
func NewKeypad(l *Look, u Use, keys KeypadKeys) *Keypad {
	k := &Keypad{look: l, use: u, keys: keys, erase: NewTile(l, u, keys.Erase), done: NewTile(l, u, keys.Done)}
	for d := range k.digits {
		k.digits[d] = NewTile(l, u, func() { keys.Digit(rune('0' + d)) })
	}
	k.ExtendBaseWidget(k)
	k.setTiles()
	return k
}

// Set shows other words on erase and done, and what can be tapped.
func (k *Keypad) Set(f KeypadFace) { setFace(&k.face, f, k.setTiles) }

func (k *Keypad) setTiles() {
	for d, t := range k.digits {
		t.Set(TileFace{Word: strconv.Itoa(d), Off: k.face.DigitsOff})
	}
	k.erase.Set(TileFace{Word: k.face.Erase, Off: k.face.EraseOff})
	k.done.Set(TileFace{Word: k.face.Done, Off: k.face.DoneOff})
}

// TypedRune is part of fyne.Focusable.
func (k *Keypad) TypedRune(r rune) {
	if r < '0' || r > '9' {
		k.look.rune(r, nil)
		return
	}
	k.look.rune(r, func() {
		if !k.face.DigitsOff {
			k.keys.Digit(r)
		}
	})
}

// TypedKey is part of fyne.Focusable.
func (k *Keypad) TypedKey(e *fyne.KeyEvent) {
	if e.Name != fyne.KeyBackspace {
		k.look.key(e.Name, nil)
		return
	}
	k.look.key(e.Name, func() {
		if !k.face.EraseOff {
			k.keys.Erase()
		}
	})
}

// FocusGained is part of fyne.Focusable.
func (k *Keypad) FocusGained() {}

// FocusLost is part of fyne.Focusable.
func (k *Keypad) FocusLost() {}

// CreateRenderer is part of fyne.Widget.
func (k *Keypad) CreateRenderer() fyne.WidgetRenderer {
	var objects []fyne.CanvasObject
	for _, t := range k.places() {
		objects = append(objects, t)
	}
	return &painted{owner: k, objects: objects, lay: k.lay, least: func() fyne.Size {
		side, gap := k.look.MM(k.use.Side()), k.look.MM(GapMin)
		return fyne.NewSize(3*side+2*gap, 4*side+3*gap)
	}}
}

// places are the keys row by row.
func (k *Keypad) places() []*Tile {
	d := k.digits
	return []*Tile{d[1], d[2], d[3], d[4], d[5], d[6], d[7], d[8], d[9], k.erase, d[0], k.done}
}

func (k *Keypad) lay(size fyne.Size) {
	gap := k.look.MM(GapMin)
	width, height := (size.Width-2*gap)/3, (size.Height-3*gap)/4
	for i, t := range k.places() {
		place(t, float32(i%3)*(width+gap), float32(i/3)*(height+gap), width, height)
	}
}
