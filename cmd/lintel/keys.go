package main

import (
	"context"
	"os"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"lintel/app/optic"
	"lintel/app/wedge"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// What a page may take besides taps. Each is called on the window's goroutine
// and tells whether it had a use for it.
type (
	takesLabels interface{ Scanned(text string) bool }
	takesFiles  interface{ Dropped(path string) bool }
	takesPlaces interface{ Press(place int) bool }
	showsAnItem interface{ PictureOf() (mesh.Number, bool) }
	showsAPlace interface{ MapOf() (kits.Place, bool) }
)

// typing takes the keys of a window before anything else does: a scanner's burst
// goes to the open page as a label, a bound key presses its place, and what a
// person typed does what it does. The window's goroutine owns it.
type typing struct {
	reader wedge.Reader
	began  time.Time
	// later runs a function on the window's goroutine after a time.
	later func(time.Duration, func())
	// scanned takes a label. undo takes it out of where it was written, nil: nowhere;
	// again puts it back.
	scanned func(text string, undo func() (again func()))
	bound   func(key string) bool // presses what a key is bound to; false: nothing

	last string // the bound key that was pressed last
	when time.Duration
}

// repeatMax is the longest time between two repeats of a key that is held down: the
// first comes latest, after a second at the most that systems let people choose.
const repeatMax = 1200 * time.Millisecond

// paintMost is how long it takes at most, as a rule, until a window that was busy
// sees the keys that came meanwhile.
const paintMost = 20 * time.Millisecond

// Rune is part of look.Typing.
func (t *typing) Rune(r rune, typed func()) {
	t.take(wedge.Key{Rune: r, Typed: t.orBound(string(r), typed)})
}

// Key is part of look.Typing.
func (t *typing) Key(name fyne.KeyName, typed func()) {
	k := wedge.Key{
		Ends: name == fyne.KeyReturn || name == fyne.KeyEnter || name == fyne.KeyTab,
		Part: len(name) > 1 && name[0] == 'F' && name[1] >= '0' && name[1] <= '9', Typed: t.orBound(string(name), typed),
	}
	if len(name) == 1 || name == fyne.KeySpace || modifies(name) {
		return // it comes as a rune as well, or says nothing by itself
	}
	t.take(k)
}

// Wrote is part of look.Typing.
func (t *typing) Wrote(r rune, undo func() (again func())) { t.take(wedge.Key{Rune: r, Undo: undo}) }

// Separator is part of look.Typing.
func (t *typing) Separator() { t.Rune(wedge.Separator, nil) }

// modifies tells whether a key only changes others: a scanner holds one down for
// every capital.
func modifies(name fyne.KeyName) bool {
	switch name {
	case desktop.KeyShiftLeft, desktop.KeyShiftRight, desktop.KeyControlLeft, desktop.KeyControlRight,
		desktop.KeyAltLeft, desktop.KeyAltRight, desktop.KeySuperLeft, desktop.KeySuperRight, desktop.KeyCapsLock:
		return true
	}
	return false
}

// orBound is what a key does: what it is bound to, else what it does there. One
// that is held down counts once.
func (t *typing) orBound(key string, typed func()) func() {
	at := time.Since(t.began)
	return func() {
		if t.last == key && at-t.when < repeatMax {
			t.when = at // still held: what it is bound to was pressed, and nothing else is
			return
		}
		if t.bound(key) {
			t.last, t.when = key, at
			return
		}
		t.last = ""
		if typed != nil {
			typed()
		}
	}
}

// take gives a key to the reader, and looks again when nothing follows.
func (t *typing) take(k wedge.Key) {
	k.At = time.Since(t.began)
	t.act(t.reader.Key(k))
	if t.reader.Holds() {
		// Twice, so that keys that came while the window was painted are seen first.
		t.later(wedge.GapMax, func() {
			t.later(paintMost, func() { t.act(t.reader.Pause(time.Since(t.began))) })
		})
	}
}

func (t *typing) act(f wedge.Found) {
	if f.Scan != "" {
		t.scanned(f.Scan, f.Undo)
	}
	for _, k := range f.Typed {
		if k.Typed != nil {
			k.Typed()
		}
	}
}

// listen has the keys of a window told to typing, whatever has the focus.
func (x *window) listen(post func(func())) {
	t := &typing{
		began: time.Now(), scanned: x.scanned, bound: x.pressBound,
		later: func(d time.Duration, f func()) { time.AfterFunc(d, func() { post(f) }) },
	}
	x.look.SetTyping(t)
	c := x.win.Canvas()
	c.SetOnTypedRune(func(r rune) { t.Rune(r, nil) })
	c.SetOnTypedKey(func(k *fyne.KeyEvent) {
		var typed func()
		if k.Name == fyne.KeyF1 {
			typed = x.frame.turn
		}
		t.Key(k.Name, typed)
	})
	// A scanner's separator between elements, which keyboards have as Ctrl and ].
	c.AddShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyRightBracket, Modifier: fyne.KeyModifierControl}, func(fyne.Shortcut) { t.Separator() })
	c.AddShortcut(&fyne.ShortcutPaste{}, func(fyne.Shortcut) { x.paste() })
	x.win.SetOnDropped(func(_ fyne.Position, all []fyne.URI) {
		for _, uri := range all {
			x.dropped(uri.Path())
		}
	})
}

// keys is the page that binds keys to places of the board.
func (b *leaves) keys() *leaf {
	x := b.window
	layout := b.starter.Board
	if s := x.frame.sight; s.Board != nil {
		layout = s.Layout
	}
	x.binds = newKeysPage(x.look, x.words, placesOf(x.words, layout), func() map[string]int { return x.kept.Keys }, func(all map[string]int) {
		x.kept.Keys = all
		if err := x.kept.keep(x.opt.dir); err != nil {
			x.frame.fail(x.words.Fault("window-setting"))
		}
	}, x.frame.fail)
	return x.binds.leaf()
}

// pressBound presses what a key is bound to, or binds it where that is asked. A
// key presses a place on the board of a device inside, whichever page is open.
func (x *window) pressBound(key string) bool {
	if x.binds != nil && x.frame.now() == pageKeys && x.binds.pressed(key) {
		return true
	}
	place, is := x.kept.Keys[key]
	if !is || x.frame.sight.Side != requests.Inside {
		return false
	}
	x.frame.open(pageBoard)
	board, is := x.frame.leafOf(pageBoard).takes.(takesPlaces)
	return is && board.Press(place)
}

// here is the page that is open.
func (x *window) here() any { return x.frame.leafOf(x.frame.now()).takes }

// scanned gives a label to the page that is open. In a line that is typed into it
// stays, as a seal's number may, when the page has no use for it as a label.
func (x *window) scanned(text string, undo func() (again func())) {
	var again func()
	if undo != nil {
		again = undo()
	}
	year := time.Now().Year()
	if said, hint, is := misread(x.words, text, year); is {
		x.frame.fail(said, hint)
		return
	}
	if page, is := x.here().(takesLabels); is && page.Scanned(text) {
		return
	}
	if again != nil {
		again()
		return
	}
	x.frame.fail(unused(x.words, text, year))
}

// dropped gives a file to the page that is open; on an item's page a picture
// becomes the item's, on a place's line a file its shelf map; any other picture of a
// label is as if it had been scanned.
func (x *window) dropped(path string) {
	b := x.pages.beside
	if page, is := x.here().(showsAPlace); is {
		if place, shown := page.MapOf(); shown {
			x.picture(func(ctx context.Context) error { return b.worker.shelfMap(ctx, place, path) })
			return
		}
	}
	if page, is := x.here().(takesFiles); is && page.Dropped(path) {
		return
	}
	if page, is := x.here().(showsAnItem); is {
		if item, shown := page.PictureOf(); shown {
			x.picture(func(ctx context.Context) error { return b.worker.picture(ctx, item, path) })
			return
		}
	}
	x.read(func(context.Context) (optic.Code, error) {
		f, err := os.Open(path)
		if err != nil {
			return optic.Code{}, err
		}
		defer f.Close() // it is only read
		return optic.Read(f)
	})
}

// picture has a file become a picture beside the window: its bytes are on the disk
// before anything names them.
func (x *window) picture(keep func(context.Context) error) {
	b := x.pages.beside
	b.papers.errands.take(func(ctx context.Context) {
		err := keep(ctx)
		b.post(func() {
			if err != nil {
				x.frame.fail(x.words.Fault("picture-unused"))
			}
		})
	}, func(error) { x.frame.fail(x.words.Fault("picture-unused")) })
}

// paste takes the picture on the clipboard as a scan.
func (x *window) paste() { x.read(optic.Clipboard) }

// read has a picture read beside the window.
func (x *window) read(read func(context.Context) (optic.Code, error)) {
	p := x.pages.beside.papers
	p.errands.take(func(ctx context.Context) {
		code, err := read(ctx)
		p.post(func() {
			if err != nil {
				x.frame.fail(x.words.Fault("file-unused"))
				return
			}
			x.scanned(code.Text, nil)
		})
	}, func(error) { x.frame.fail(x.words.Fault("file-unused")) })
}
