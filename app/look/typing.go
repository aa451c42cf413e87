package look

import "fyne.io/fyne/v2"

// Typing takes the keys of a keyboard, whichever part has the focus: a scanner,
// a foot switch or a large button is a keyboard too. typed does what the key does
// on that part; nil: nothing. It is called later, on the UI goroutine, once it is
// known that a person pressed the key.
type Typing interface {
	Rune(r rune, typed func())
	Key(name fyne.KeyName, typed func())
	// Wrote tells of a rune that is written at once. undo takes it out again, with
	// all that was written behind it; again puts it back.
	Wrote(r rune, undo func() (again func()))
	// Separator is a scanner's separator between two elements.
	Separator()
}

// SetTyping has keys told to t before they do anything. Nil: they act at once.
func (l *Look) SetTyping(t Typing) { l.typing = t }

// rune and key are a key that a part with the focus got.
func (l *Look) rune(r rune, typed func()) {
	switch {
	case l.typing != nil:
		l.typing.Rune(r, typed)
	case typed != nil:
		typed()
	}
}

func (l *Look) key(name fyne.KeyName, typed func()) {
	switch {
	case l.typing != nil:
		l.typing.Key(name, typed)
	case typed != nil:
		typed()
	}
}
