package look

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"lintel/assets"
)

func newLook(t *testing.T) *Look {
	l, err := New(Defaults())
	require.NoError(t, err)
	return l
}

// said gives the words that a part shows, row by row.
func said(part fyne.Widget) (rows []string) {
	for _, o := range test.LaidOutObjects(part) {
		if text, is := o.(*canvas.Text); is && text.Text != "" {
			rows = append(rows, text.Text)
		}
	}
	return rows
}

// Goal: a stepper holds and chooses no count. Method: tap both ends with a
// count, with none, and at its bounds.
func TestAStepperHoldsNoCount(t *testing.T) {
	var steps []int
	s := NewStepper(newLook(t), UseOutside, func(by int) { steps = append(steps, by) })
	s.Resize(s.MinSize().AddWidthHeight(200, 0))
	require.Contains(t, said(s), "–", "nothing was chosen")
	test.Tap(s.more)
	test.Tap(s.less)
	require.Equal(t, []int{1, -1}, steps)
	require.Contains(t, said(s), "–", "still nothing: nobody set a face")
	s.Set(StepperFace{Value: "1", Measure: "ampoule", NoLess: true})
	require.Subset(t, said(s), []string{"1", "ampoule"})
	test.Tap(s.less)
	require.Len(t, steps, 2)
}

// Goal: every key does its own thing, by finger and by keyboard; Enter does
// nothing. Method: press them all.
func TestAKeypadTypesDigits(t *testing.T) {
	var typed string
	k := NewKeypad(newLook(t), UseInside, KeypadKeys{
		Digit: func(d rune) { typed += string(d) },
		Erase: func() { typed = typed[:len(typed)-1] },
		Done:  func() { typed += "!" },
	})
	k.Set(KeypadFace{Erase: "erase", Done: "done"})
	for _, key := range k.places() {
		test.Tap(key)
	}
	require.Equal(t, "123456780!", typed, "erase stands after the nine")
}

// Goal: real keys type as well, and the end of a scan is not "done". Method:
// type on it with the focus; then with everything off.
func TestAKeypadTakesRealKeysButNotEnter(t *testing.T) {
	var typed string
	done := false
	k := NewKeypad(newLook(t), UseInside, KeypadKeys{
		Digit: func(d rune) { typed += string(d) },
		Erase: func() { typed = typed[:len(typed)-1] },
		Done:  func() { done = true },
	})
	for _, r := range "12a3" {
		k.TypedRune(r)
	}
	k.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	k.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Equal(t, "12", typed)
	require.False(t, done)
	k.Set(KeypadFace{DigitsOff: true, EraseOff: true, DoneOff: true})
	k.TypedRune('4')
	k.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	for _, key := range k.places() {
		test.Tap(key)
	}
	require.Equal(t, "12", typed)
	require.False(t, done)
}

// Goal: a time reads as people say it. Method: a table with its edges.
func TestClockTextReadsAsPeopleSayIt(t *testing.T) {
	for text, d := range map[string]time.Duration{
		"0:00": -time.Second, "0:05": 5*time.Second + 999*time.Millisecond, "12:30": 750 * time.Second, "59:59": 3599 * time.Second,
		"1:02:03": 3723 * time.Second, "26:00:00": 26 * time.Hour,
	} {
		require.Equal(t, text, ClockText(d))
	}
}

// Goal: a face that did not change costs nothing. Method: count the paints.
func TestTheSameFaceIsNotPaintedAgain(t *testing.T) {
	paints := 0
	var held ClockFace
	for _, time := range []string{"0:01", "0:01", "0:02", "0:02"} {
		setFace(&held, ClockFace{Time: time}, func() { paints++ })
	}
	require.Equal(t, 2, paints)
}

// Goal: a fault is a sentence, and its place stays when it is over. Method: say
// one, then nothing.
func TestAFaultSaysItsSentenceAndKeepsItsPlace(t *testing.T) {
	f := NewFault(newLook(t), InsideTile, 2)
	f.Resize(fyne.NewSize(900, 90))
	least := f.MinSize()
	f.Say("There is no request 12345.", "The board lists them.")
	require.Subset(t, said(f), []string{"There is no request 12345.", "The board lists them."})
	f.Say("", "")
	require.Empty(t, said(f))
	require.Equal(t, least, f.MinSize())
}

// Goal: what is most needed is never cut first. Method: a tile that is too low
// for item and strength.
func TestATileKeepsItsStrengthWhole(t *testing.T) {
	l := newLook(t)
	tile := NewTile(l, UseInside, nil)
	tile.Set(TileFace{Word: "Suction catheter with a very long name", Detail: "12 Fr"})
	tile.Resize(fyne.NewSize(l.MM(30), l.MM(20)))
	require.Contains(t, said(tile), "12 Fr")
}

// Goal: every part follows another shade and another scale. Method: paint one
// of each again after both changed.
func TestPartsFollowShadeAndScale(t *testing.T) {
	l := newLook(t)
	tile, strip := NewTile(l, UseInside, nil), NewStrip(l, 1)
	small := tile.MinSize()
	low := strip.MinSize()
	scale, err := NewScale(200)
	require.NoError(t, err)
	l.SetScale(scale)
	l.SetShade(Light)
	tile.Refresh()
	strip.Refresh()
	require.Equal(t, small.Width*2, tile.MinSize().Width)
	require.InDelta(t, low.Height*2, strip.MinSize().Height, 1)
	require.Equal(t, any(PaletteOf(Light).Surface), any(tile.field.FillColor))
}

// icons lists every drawing that has a name in the code.
func icons() []Icon {
	return []Icon{
		IconLinkUp, IconLinkDoubtful, IconLinkLost, IconSaved, IconNotSaved, IconCopies, IconRunner, IconDoor, IconHand, IconLoop,
		IconWithdraw, IconUrgent, IconClock, IconBattery, IconKit, IconDrug, IconPerson, IconUndo, IconSearch, IconSettings,
		IconGlassSign, IconSoundOff, IconSoundOn, IconErase, IconMore, IconLess,
		IconLock, IconPeople, IconBreach, IconSpeak, IconList, IconDrill, IconAir, IconSheet, IconWipe, IconCompare,
	}
}

// Goal: icons are one family, and none is missing. Method: names in the code
// against files; one stroke, one colour, no fill; the colour that was asked for.
func TestIconsAreOneFamily(t *testing.T) {
	var names []string
	l := newLook(t)
	for _, i := range icons() {
		names = append(names, string(i))
		svg, ok := assets.Icon(string(i))
		require.True(t, ok, "%s", i)
		require.Contains(t, string(svg), `fill="none" stroke="#000000" stroke-width="`+fmt.Sprint(strokeWidth)+`"`, "%s", i)
		res := l.IconInk(i, rgb(0xFF6B61))
		require.Contains(t, string(res.Content()), `fill="#FF6B61"`)
		require.Same(t, res, l.IconInk(i, rgb(0xFF6B61)), "made once")
	}
	require.ElementsMatch(t, assets.IconNames(), names)
	require.Nil(t, l.IconInk(IconNone, rgb(0)))
}

// Goal: any part becomes a target of one press. Method: a strip under a Press,
// tapped, switched off, tapped again; its least size is the target's.
func TestAPressMakesATargetOfAStrip(t *testing.T) {
	l, taps := newLook(t), 0
	p := NewPress(l, UseInside, NewStrip(l, 1), func() { taps++ })
	require.GreaterOrEqual(t, p.MinSize().Height, l.MM(SideInside))
	test.Tap(p)
	p.SetOff(true)
	test.Tap(p)
	require.Equal(t, 1, taps)
}

// Goal: a sign is as large as its glass. Method: the same word in two boxes,
// and more words than fit at the least size.
func TestABigWordFillsItsBox(t *testing.T) {
	l := newLook(t)
	b := NewBigWord(l, WallWord)
	b.Set(BigWordFace{Word: "Bougie"})
	size := func(width, height float32) float32 {
		b.Resize(fyne.NewSize(l.MM(width), l.MM(height)))
		test.WidgetRenderer(b).Layout(b.Size())
		return b.word.texts[0].TextSize
	}
	small, large := size(100, 30), size(200, 120)
	require.Greater(t, large, 1.5*small)
	require.GreaterOrEqual(t, small, l.Letters(WallWord, Small))
	b.Set(BigWordFace{Word: "Video laryngoscope blade, size 4, and a bougie, and more of it"})
	require.Equal(t, l.Letters(WallWord, Small), size(60, 30), "never smaller than can be read")
	require.True(t, strings.HasSuffix(strings.Join(said(b), " "), Cut), "and it says that it is cut")
}
