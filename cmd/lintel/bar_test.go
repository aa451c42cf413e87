package main

import (
	"errors"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"lintel/app/look"
	"lintel/app/look/proof"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// outside is the sight of a runner.
func outside() sight {
	return sight{Unit: true, Side: requests.Outside, Can: requests.CanFetch, Sounds: true, SoundKnown: true}
}

// TestTheBarSaysWhatMattersMost gives it several things at once: what hinders
// comes before who calls, and that before what to try; inside it may be empty.
func TestTheBarSaysWhatMattersMost(t *testing.T) {
	w := words.English()
	s := outside()
	said := func() string { return barRows(w, s, shownWork, look.Dark).Say.Sentence }
	require.Empty(t, said())
	s.Hint = "try.wait"
	require.Equal(t, w.Say("try.wait"), said())
	s.Calls = make([]mesh.Ref, 2)
	require.Equal(t, w.Say("try.wait"), said(), "between two flashes the demonstration says what to try")
	s.Flash = true
	require.Equal(t, "2 requests call", said())
	require.Equal(t, look.ToneNow, barRows(w, s, shownWork, look.Dark).Say.Tone)
	s.Hint, s.Flash = "", false
	require.Equal(t, "2 requests call", said())
	s.Memory = true
	require.Equal(t, w.Say("window.memory"), said())
	s.Fault = errors.New("anything")
	require.Contains(t, said(), "Something failed")
	require.Equal(t, w.Say("window.charge"), barRows(w, sight{Unit: true, Side: requests.Outside, Can: requests.CanCharge}, shownWork, look.Dark).Say.Sentence)
	require.Equal(t, w.Say("window.no-screen"), barRows(w, sight{Unit: true, Side: requests.Anteroom}, shownWork, look.Dark).Say.Sentence)
}

// TestTheBadgeTellsWhetherACallIsHeard gives every state of the sound.
func TestTheBadgeTellsWhetherACallIsHeard(t *testing.T) {
	w := words.English()
	require.Empty(t, sounding(w, sight{}).Word, "before it was tried nothing is said")
	require.Equal(t, look.ToneFault, sounding(w, sight{SoundKnown: true}).Tone)
	require.Equal(t, w.Say("window.sound-on"), sounding(w, sight{SoundKnown: true, SoundWorks: true}).Word)
}

// stand is a frame around empty screens.
func stand(t *testing.T, shade look.Shade, density float32) (*look.Look, *frame) {
	o := look.Defaults()
	o.Shade, o.Density, o.Reads = shade, density, look.RunnerLine
	l, err := look.New(o)
	require.NoError(t, err)
	empty := func() fyne.CanvasObject { return canvas.NewRectangle(nil) }
	return l, newFrame(l, words.English(), empty(), empty(), empty(), frameActs{shade: func() {}, scale: func(look.Scale) {}, noise: func() {}})
}

// TestTheFrameKeepsTheDesign audits the bar on every glass of the gallery, with
// everything it may say, on every page.
func TestTheFrameKeepsTheDesign(t *testing.T) {
	for _, g := range glasses() {
		for _, shade := range []look.Shade{look.Dark, look.Light} {
			l, f := stand(t, shade, g.density)
			window := fyne.NewSize(l.MM(g.width), l.MM(g.height))
			sights := map[string]sight{"calm": outside(), "charge": {Unit: true, Side: requests.Outside, Can: requests.CanCharge}, "new": {}}
			for _, id := range words.English().IDs() {
				if len(id) > 4 && id[:4] == "try." {
					s := outside()
					s.Hint = id
					sights[string(id)] = s
					s.Side, s.Can, s.Sounds, s.Inside.Room = requests.Inside, requests.CanAgree, false, "A1"
					sights["inside "+string(id)] = s
				}
			}
			for name, s := range sights {
				pages := []shown{shownWork}
				if s.Hint == "" {
					pages = append(pages, shownDevice)
				}
				if s.Hint == "" && g.width >= measureWide {
					pages = append(pages, shownMeasure)
				}
				for _, page := range pages {
					f.set(s)
					f.open(page)
					assert.Empty(t, proof.Audit(l, f.root, window), "%s, %s, page %d", g.name, name, page)
				}
			}
		}
	}
}

// TestADeviceThatNobodyHasShowsItsOwnPage walks from no unit to a role, and
// through the pages of the frame.
func TestADeviceThatNobodyHasShowsItsOwnPage(t *testing.T) {
	_, f := stand(t, look.Dark, look.DensityDesktop)
	require.Equal(t, f.device, f.current())
	f.set(sight{Unit: true})
	require.Equal(t, f.device, f.current())
	f.set(outside())
	require.Equal(t, f.outside, f.current())
	f.set(sight{Unit: true, Side: requests.Inside})
	require.Equal(t, f.inside, f.current())
	f.turn()
	require.Equal(t, f.device, f.current())
	f.fail("a", "b")
	f.turn()
	require.Equal(t, f.inside, f.current())
	require.Empty(t, f.failed[0], "the next page takes the failure away")
}
