package main

import (
	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/requests"
)

// shown is which page of the window is open.
type shown int

const (
	shownWork    shown = iota // the screen of whoever has the device
	shownDevice               // the device itself: joining, others, who has it
	shownMeasure              // measuring the screen
)

// frame is what stands around every screen: a bar at the bottom with what to
// try, whether there is sound, and the way to the page of the device. The
// window's goroutine owns it.
type frame struct {
	look    *look.Look
	words   words.Words
	inside  fyne.CanvasObject
	outside fyne.CanvasObject // the list of requests
	device  fyne.CanvasObject
	measure *measurePage
	acts    frameActs

	say    *look.Banner // beside the tools
	talk   *look.Banner // above them, where it is narrow
	sound  *look.Badge
	page   *look.Tile // to the page of the device and back
	shade  *look.Tile
	ruler  *look.Tile
	noise  *look.Tile
	root   *fyne.Container
	shown  shown
	sight  sight
	failed [2]string // sentence and hint of the last failure of the window itself
}

// frameActs are what the bar does.
type frameActs struct {
	shade func() // dark or light
	scale func(look.Scale)
	noise func() // try the sound
}

// newFrame puts a frame around the screens.
func newFrame(l *look.Look, w words.Words, inside, outside, device fyne.CanvasObject, acts frameActs) *frame {
	f := &frame{look: l, words: w, inside: inside, outside: outside, device: device, acts: acts}
	f.say, f.talk = look.NewBanner(l, look.DeskLine, 2), look.NewBanner(l, look.DeskLine, 3)
	f.sound = look.NewBadge(l, look.DeskLine)
	f.page = look.NewTile(l, look.UseOutside, f.turn)
	f.shade = look.NewTile(l, look.UseOutside, acts.shade)
	f.ruler = look.NewTile(l, look.UseOutside, func() { f.open(shownMeasure) })
	f.noise = look.NewTile(l, look.UseOutside, acts.noise)
	f.measure = newMeasurePage(l, w, func(s look.Scale) { acts.scale(s); f.open(shownDevice) })
	f.root = look.NewFree(l, f.lay, inside, outside, device, f.measure.root,
		f.say, f.talk, f.sound, f.page, f.shade, f.ruler, f.noise)
	f.set(sight{})
	return f
}

// turn goes to the page of the device, and back from wherever it is.
func (f *frame) turn() {
	if f.shown == shownWork {
		f.open(shownDevice)
		return
	}
	f.open(shownWork)
}

func (f *frame) open(s shown) {
	f.shown, f.failed = s, [2]string{}
	f.set(f.sight)
}

// fail shows a failure of the window until the next page is opened; two empty
// texts take it away.
func (f *frame) fail(sentence, hint string) {
	f.failed = [2]string{sentence, hint}
	f.set(f.sight)
}

// set shows a newer sight.
func (f *frame) set(s sight) {
	f.sight = s
	r := barRows(f.words, s, f.now(), f.look.Palette().Shade)
	if f.failed[0] != "" {
		r.Say = look.BannerFace{Icon: look.IconUrgent, Sentence: f.failed[0], Hint: f.failed[1], Tone: look.ToneFault}
	}
	f.say.Set(r.Say)
	f.talk.Set(r.Say)
	f.sound.Set(r.Sound)
	f.page.Set(r.Page)
	f.shade.Set(r.Shade)
	f.ruler.Set(r.Ruler)
	f.noise.Set(r.Noise)
	f.root.Refresh()
}

// now is the page that is shown: a device without a unit, or that nobody has,
// shows its own page first.
func (f *frame) now() shown {
	if f.shown == shownWork && (!f.sight.Unit || f.sight.Side == 0) {
		return shownDevice
	}
	return f.shown
}

// Measures of the bar, in mm.
const (
	barEdge  = 2.5
	barGap   = 3.0
	barClear = 1.0  // beside what screens leave at their own edges
	sayHigh  = 12.0 // two rows that are read at a desk
	talkHigh = 16.5 // three rows
	toolWide = 32.0
	badgeOf  = 32.0
	wideFrom = 130.0 // what to try stands beside the tools, not above them
)

// lay puts the page and the bar. Inside there are no tools, and the bar is
// there only while it says something: the board comes first. A board without a
// room can ask for nothing, so there the way to the page of the device stays.
func (f *frame) lay(put look.Put, width, height float32) {
	bottom, right := height-barEdge, width-barEdge
	says := f.say.Face().Sentence != ""
	inside := f.sight.Side == requests.Inside && f.sight.Inside.Room != "" && f.now() == shownWork
	switch {
	case inside && !says:
		bottom = height
	case !inside:
		bottom -= look.SideOutside
		right = f.layTools(put, width, bottom) - barGap
	}
	switch {
	case says && width < wideFrom:
		bottom -= talkHigh
		if !inside {
			bottom -= barGap
		}
		put(f.talk, barEdge, bottom, width-2*barEdge, talkHigh)
	case says && inside:
		bottom -= sayHigh
		fallthrough
	case says:
		put(f.say, barEdge, bottom, right-barEdge, sayHigh)
	}
	if bottom < height {
		bottom -= barClear
	}
	put(f.current(), 0, 0, width, bottom)
}

// layTools puts what can be tapped from the right, as far as there is room, and
// gives where it ends.
func (f *frame) layTools(put look.Put, width, top float32) (right float32) {
	right = width - barEdge - toolWide
	put(f.page, right, top, toolWide, look.SideOutside)
	next := func(o fyne.CanvasObject, wide float32) {
		if right-barGap-wide >= barEdge {
			right -= barGap + wide
			put(o, right, top, wide, look.SideOutside)
		}
	}
	if f.now() == shownWork {
		if f.sight.Sounds {
			next(f.sound, badgeOf)
		}
		return right
	}
	next(f.shade, toolWide)
	if width >= measureWide {
		next(f.ruler, toolWide)
	}
	if f.sight.Sounds {
		next(f.noise, toolWide)
	}
	return right
}

// current is the object of the page that is shown.
func (f *frame) current() fyne.CanvasObject {
	switch f.now() {
	case shownDevice:
		return f.device
	case shownMeasure:
		return f.measure.root
	}
	if f.sight.Side == requests.Inside {
		return f.inside
	}
	return f.outside
}
