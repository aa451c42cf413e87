package proof

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
)

// shades are both, by name.
func shades() map[string]look.Shade {
	return map[string]look.Shade{"dark": look.Dark, "light": look.Light}
}

// kept audits a screen in both shades and, with LINTEL_PICTURES set to a
// folder, draws it there.
func kept(t *testing.T, name string, reads look.Role, window fyne.Size, build func(*look.Look) fyne.CanvasObject) {
	t.Helper()
	for said, shade := range shades() {
		l := newLook(t, shade, reads)
		require.Empty(t, Audit(l, build(l), window), "%s, %s", name, said)
		if folder := os.Getenv("LINTEL_PICTURES"); folder != "" {
			draw(t, filepath.Join(folder, name+"-"+said+".png"), l, build(l), window)
		}
	}
}

// rowsOf is a list of brief lines over a whole screen.
func rowsOf(u look.Use, high, width, height float32) func(*look.Look) fyne.CanvasObject {
	return func(l *look.Look) fyne.CanvasObject {
		p := newPlaced(l)
		r := look.NewRows(l, look.RowsOptions{
			Use: u, High: high, Before: "before", After: "after",
			Page: func(_, _, _ int) string { return "1 to 5 of 9" },
		})
		r.Set([]look.RowFace{
			{Word: "Plans A to D said aloud", Detail: "one tap for each plan", State: "said", Icon: look.IconSpeak},
			{Word: "Voice link heard inside and outside", State: "not yet", Icon: look.IconLinkUp},
			{Word: "Paper card and pen inside", Detail: "often left outside", State: "skipped", Tone: look.ToneNext},
			{Word: "R2", Detail: "inside, checked by B1", State: "41:07", Icon: look.IconPerson, Tone: look.ToneNow, Chosen: true},
			{Word: "Rescue set B", State: "said", Off: true},
			{Word: "Monitor on", State: "said"}, {Word: "Suction works", State: "said"}, {Word: "Help named", State: "said"}, {Word: "Doffing area", State: "said"},
		})
		p.put(r, 2, 2, width-4, height-4)
		return p.box
	}
}

// Goal: lists of lines keep the design for clean and for gloved hands, on a
// tablet and on a phone. Method: audit the same lines on each.
func TestListsOfLinesKeepTheDesign(t *testing.T) {
	kept(t, "rows-tablet", look.RunnerLine, fyne.NewSize(1280, 800), rowsOf(look.UseOutside, 20, 256, 160))
	kept(t, "rows-inside", look.InsideTile, fyne.NewSize(1280, 800), rowsOf(look.UseInside, 20, 256, 160))
	kept(t, "rows-phone", look.InsideTile, fyne.NewSize(350, 740), rowsOf(look.UseInside, 31, 70, 148))
}

// Goal: what is read from 2 m keeps the design. Method: a clock with its marks
// beside one without, and signs for the glass and for the door.
func TestClocksAndSignsAreReadFromTwoMetres(t *testing.T) {
	window := fyne.NewSize(1280, 800)
	kept(t, "clocks", look.StripLine, window, func(l *look.Look) fyne.CanvasObject {
		p := newPlaced(l)
		one, two := look.NewBigClock(l), look.NewBigClock(l)
		one.Set(look.BigClockFace{Word: "Pre-oxygenation", Elapsed: 200 * time.Second, Marks: [2]time.Duration{3 * time.Minute, 5 * time.Minute}})
		two.Set(look.BigClockFace{Word: "since relaxant given", Elapsed: 754 * time.Second, Tone: look.ToneNow})
		p.put(one, 4, 4, 248, 90)
		p.put(two, 4, 98, 248, 58)
		return p.box
	})
	for name, face := range map[string]look.SignFace{
		"sign-glass": {Head: "not reached: use voice", Word: "Ketamine", Detail: "50\u00a0mg/mL, 10\u00a0mL", Count: "2 ×", Code: "412 7"},
		"sign-door":  {Head: "A1: do not enter unprotected before", Word: "14:35", Foot: "99.9 %, 12 air changes an hour. Estimate; local policy decides.", Tone: look.ToneNext},
	} {
		kept(t, name, look.WallWord, window, func(l *look.Look) fyne.CanvasObject {
			p := newPlaced(l)
			s := look.NewSign(l)
			s.Set(face)
			p.put(s, 0, 0, 256, 160)
			return p.box
		})
	}
}

// Goal: a lock says why and how long, and the states behind it can be read.
// Method: a board under one, audited; nothing under it counts as a target.
func TestALockLetsStatesBeRead(t *testing.T) {
	window := fyne.NewSize(1280, 800)
	locked := func(l *look.Look) fyne.CanvasObject {
		p := newPlaced(l)
		p.box.Add(inside(l))
		k := look.NewLock(l, look.StripLine)
		k.Set(look.LockFace{Sentence: "Wiping: touches do nothing.", Left: "0:42"})
		p.put(k, 0, 0, 256, 160)
		return p.box
	}
	kept(t, "lock", look.InsideTile, window, locked)
	l := newLook(t, look.Dark, look.InsideTile)
	require.Empty(t, Hands(l, locked(l), window))
	require.NotEmpty(t, Hands(l, inside(l), window))
}
