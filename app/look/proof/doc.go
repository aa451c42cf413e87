// Package proof looks at a screen before anybody does: Audit measures every
// target, gap, letter, contrast and character of what is laid out, Picture
// draws it without a display. Tests of screens use it, and the program draws
// its gallery with it; no screen imports it.
//
//	require.Empty(t, proof.Audit(l, screen, fyne.NewSize(1280, 800)))
//
// Both need an application; the toolkit's test package, which this one brings
// along, is one as long as no other was made.
package proof
