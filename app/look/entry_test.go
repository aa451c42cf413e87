package look

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// keysHeard notes what typing is told.
type keysHeard struct {
	undo      []func() func()
	keys      []fyne.KeyName
	separated int
}

func (h *keysHeard) Rune(_ rune, typed func())        { typed() }
func (h *keysHeard) Key(n fyne.KeyName, typed func()) { h.keys = append(h.keys, n); typed() }
func (h *keysHeard) Wrote(_ rune, undo func() func()) { h.undo = append(h.undo, undo) }
func (h *keysHeard) Separator()                       { h.separated++ }

// Goal: what is typed into a line stands there at once, and a label that came in
// between is taken out of it, and put back, without what stood before it. Method:
// type into the middle of a text, undo from the label's first key, and do it again.
func TestALabelIsTakenOutOfALineThatIsTypedInto(t *testing.T) {
	test.NewTempApp(t)
	l, err := New(Options{Density: 100, Reads: DeskLine, Now: time.Now})
	require.NoError(t, err)
	heard := &keysHeard{}
	l.SetTyping(heard)
	e := NewEntry(l)
	e.SetText("ab")
	e.CursorColumn = 1
	for _, r := range "x0109" {
		e.TypedRune(r)
	}
	require.Equal(t, "ax0109b", e.Text)
	again := heard.undo[1]()
	require.Equal(t, "axb", e.Text)
	require.Equal(t, 2, e.CursorColumn)
	again()
	require.Equal(t, "ax0109b", e.Text)
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	require.Equal(t, []fyne.KeyName{fyne.KeyBackspace}, heard.keys)
	require.Equal(t, "ax010b", e.Text)
	e.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyRightBracket, Modifier: fyne.KeyModifierControl})
	require.Equal(t, 1, heard.separated)
	l.SetTyping(nil)
	e.TypedRune('z')
	require.Equal(t, "ax010zb", e.Text)
}
