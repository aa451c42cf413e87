package look

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Entry is a line that a person types into. What is typed stands there at once; a
// scanner's burst is taken out of it again when a page has a use for the label.
type Entry struct {
	widget.Entry
	look *Look
}

// NewEntry makes one.
func NewEntry(l *Look) *Entry {
	e := &Entry{look: l}
	e.ExtendBaseWidget(e)
	return e
}

// TypedRune is part of fyne.Focusable.
func (e *Entry) TypedRune(r rune) {
	if e.look.typing == nil {
		e.Entry.TypedRune(r)
		return
	}
	var before string
	var row, column int
	e.look.typing.Wrote(r, func() func() {
		all, allRow, allColumn := e.Text, e.CursorRow, e.CursorColumn
		e.put(before, row, column)
		return func() { e.put(all, allRow, allColumn) }
	})
	before, row, column = e.Text, e.CursorRow, e.CursorColumn // Wrote may have taken an earlier label out
	e.Entry.TypedRune(r)
}

// put has a text stand there, and the cursor in it.
func (e *Entry) put(text string, row, column int) {
	e.SetText(text)
	e.CursorRow, e.CursorColumn = row, column
}

// TypedKey is part of fyne.Focusable.
func (e *Entry) TypedKey(k *fyne.KeyEvent) {
	e.look.key(k.Name, func() { e.Entry.TypedKey(k) })
}

// TypedShortcut is part of fyne.Shortcutable. Ctrl and ] is how keyboards have a
// scanner's separator: the window takes it, wherever the focus is.
func (e *Entry) TypedShortcut(s fyne.Shortcut) {
	c, is := s.(*desktop.CustomShortcut)
	if is && c.KeyName == fyne.KeyRightBracket && c.Modifier == fyne.KeyModifierControl && e.look.typing != nil {
		e.look.typing.Separator()
		return
	}
	e.Entry.TypedShortcut(s)
}
