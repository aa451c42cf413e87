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

// course is a case of half an hour as a picture.
func course() look.ChartFace {
	at := func(m, s int) time.Duration { return time.Duration(m)*time.Minute + time.Duration(s)*time.Second }
	f := look.ChartFace{To: at(30, 0)}
	for m := 0; m <= 30; m += 5 {
		f.Ticks = append(f.Ticks, look.ChartTick{At: at(m, 0), Word: time.Date(2026, 5, 1, 14, m, 0, 0, time.UTC).Format("15:04")})
	}
	f.Lanes = []look.ChartLane{
		{Word: "people", Bars: []look.ChartBar{{To: at(28, 0), Word: "L1"}, {To: at(29, 0), Word: "D2"}, {From: at(12, 0), To: at(28, 30), Word: "L3"}}},
		{Word: "times", Points: []look.ChartPoint{
			{At: at(1, 0), Word: "Pre-oxygenation"}, {At: at(5, 30), Word: "Induction"}, {At: at(6, 0), Word: "Relaxant given"},
			{At: at(7, 0), Word: "Attempt 1", Tone: look.ToneNext}, {At: at(9, 10), Within: at(1, 20), Word: "CO2 trace seen", Late: true}, {At: at(27, 40), Word: "Left the room"},
		}},
		{Word: "requests", Bars: []look.ChartBar{
			{From: at(3, 0), To: at(6, 40), Steps: []time.Duration{at(3, 20), at(5, 0)}, Word: "1 × Bougie", Tone: look.ToneNow},
			{From: at(8, 0), To: at(12, 0), Steps: []time.Duration{at(8, 50), at(11, 0)}, Word: "2 × Ketamine 50 mg/mL", Tone: look.ToneNext},
			{From: at(9, 0), To: at(30, 0), Word: "1 × Syringe pump, nobody answered", Open: true},
		}},
		{Word: "openings", Points: []look.ChartPoint{{At: at(6, 40)}, {At: at(12, 5)}, {At: at(28, 0)}}},
		{Word: "breaches", Points: []look.ChartPoint{{At: at(20, 0), Word: "Glove torn, L3", Tone: look.ToneFault}}},
	}
	return f
}

// Goal: a picture of a case keeps the design, on a desk and on a phone. Method:
// audit it in both widths, as high as it asks to be.
func TestChartsKeepTheDesign(t *testing.T) {
	for name, width := range map[string]float32{"chart-desk": 256, "chart-phone": 100} {
		measure := look.NewChart(newLook(t, look.Dark, look.DeskLine))
		measure.Set(course())
		high := measure.High(width - 4)
		window := fyne.NewSize(width*5, high*5+20)
		kept(t, name, look.DeskLine, window, func(l *look.Look) fyne.CanvasObject {
			p := newPlaced(l)
			c := look.NewChart(l)
			c.Set(course())
			p.put(c, 2, 2, width-4, high)
			return p.box
		})
	}
}
