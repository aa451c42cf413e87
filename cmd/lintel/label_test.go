package main

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
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

// Goal: whatever a label is, the layouts show in it, whichever side has which.
// Method: labels of three sorts are typed as each layout types the other's keys.
func TestLayoutsAreSeenInEverySortOfLabel(t *testing.T) {
	w := words.English()
	want, _ := w.Fault("label-layout")
	for _, label := range []string{"010950600013435210B7", "+A99912345/$$52001510X3/16D20111212/S77DEFG457", "https://id.gs1.org/01/09506000134352/10/B7"} {
		_, _, is := misread(w, label, 2026)
		require.False(t, is, label)
		for _, layout := range [][2]string{german(), french()} {
			require.Len(t, []rune(layout[1]), len([]rune(layout[0])))
			for i := range layout {
				typed := retyped(label, layout[i], layout[1-i])
				if typed == label {
					continue // its characters are the same on both
				}
				said, _, _ := misread(w, typed, 2026)
				require.Equal(t, want, said, "%q as %q", label, typed)
			}
		}
	}
	said, _, _ := misread(w, "À99912345-$$52001510X3-16D20111212-S77DEFG457", 2026)
	require.Equal(t, want, said, "an accent took the plus away")
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

// Goal: a scanner's function key between two elements separates them, and presses
// nothing. Method: a burst with F8 in it.
func TestAScannersFunctionKeyIsASeparator(t *testing.T) {
	var scans []string
	k := &typing{
		began: time.Now(), later: func(time.Duration, func()) {},
		scanned: func(s string, _ func() func()) { scans = append(scans, s) },
		bound:   func(string) bool { require.Fail(t, "a key was pressed"); return false },
	}
	for _, r := range "010950600013435210B7" {
		k.Rune(r, nil)
	}
	k.Key(fyne.KeyF8, nil)
	for _, r := range "21S7" {
		k.Rune(r, nil)
	}
	k.Key(fyne.KeyReturn, nil)
	require.Equal(t, []string{"010950600013435210B7\x1d21S7"}, scans)
}
