package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/app/words"
)

// Goal: caps lock and another keyboard layout are said where a label's own checks
// show them, and nowhere else. Method: labels as such keyboards spoil them, labels
// as they are, and what is no label.
func TestAKeyboardThatSpoilsLabelsIsSaid(t *testing.T) {
	w := words.English()
	caps, _ := w.Fault("label-caps")
	layout, _ := w.Fault("label-layout")
	for text, want := range map[string]string{
		"]d2010950600013435210B7":      "",
		"]D2010950600013435210b7":      caps,
		"+d2010950600013435210B7":      layout,
		"$dé&à&à(":                     "",
		"$déà&àç(à-àààè&'\"(é&àBè":     "",
		"$déà&àç(à-ààà&\"'\"(é&àBè":    layout,
		"à&àç(à-ààà&\"'\"(é&àBè":       layout,
		"4006381333931":                "",
		"4006381333930":                "",
		"a person's name, for example": "",
	} {
		said, hint, is := misread(w, text, 2026)
		require.Equal(t, want, said, "%q", text)
		require.Equal(t, want != "", is && hint != "", "%q", text)
	}
}

// Goal: where no page takes a label, what it says is said all the same. Method: a
// label with everything, one with an item only, and no label.
func TestALabelThatNoPageTakesIsSaidInWords(t *testing.T) {
	w := words.English()
	said, hint := unused(w, "]d201095060001343521727123110B7", 2026)
	require.Equal(t, "Nothing on this page takes a label. It says: item 09506000134352, lot B7, last day 2027-12-31.", said)
	require.NotEmpty(t, hint)
	said, _ = unused(w, "]d20109506000134352", 2026)
	require.Equal(t, "Nothing on this page takes a label. It says: item 09506000134352.", said)
	plain, _ := w.Fault("label-unused")
	said, _ = unused(w, "hello", 2026)
	require.Equal(t, plain, said)
}
