package main

import (
	"slices"

	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/app/words"
)

// frame is what stands around every page: a bar at the bottom with the ways to
// the others, what calls, what to try, and whether there is sound. It makes a
// page when it is opened first. The window's goroutine owns it.
type frame struct {
	look   *look.Look
	words  words.Words
	leaves map[page]*leaf
	acts   frameActs

	say, talk *look.Banner // what hinders or may be tried: beside the ways, or over them
	called    *look.Tile   // who calls; leads to the requests
	sound     *look.Badge
	ways      []*look.Tile // to each of outsideWays
	turns     *look.Tile   // to the ways, and back from them
	turnsIn   *look.Tile   // the same for gloved hands
	homeIn    *look.Tile   // to the board, for gloved hands
	shade     *look.Tile
	ruler     *look.Tile
	keys      *look.Tile
	noise     *look.Tile
	root      *fyne.Container

	at     page // that was opened last
	sight  sight
	failed [2]string // sentence and hint of the last failure of the window itself
}

// leaf is one page.
type leaf struct {
	object fyne.CanvasObject
	paint  func()
	set    func(sight) bool // false: the sight has nothing of it
	opened func()           // it is opened from another page; nil: nothing is to be done
	takes  any              // what takes labels, files or keys; nil: nothing does
	shown  bool             // it has been set: before that it would say that there is nothing
}

// frameActs are what the frame asks of the window. All are needed.
type frameActs struct {
	leaf   func(page) *leaf // makes a page
	opened func(page)       // it is opened: from now on sights are to be of it
	shade  func()           // dark or light
	scale  func(look.Scale)
	noise  func() // try the sound
}

// newFrame puts a frame around pages that are not made yet.
func newFrame(l *look.Look, w words.Words, acts frameActs) *frame {
	f := &frame{look: l, words: w, leaves: map[page]*leaf{}, acts: acts}
	outside := func(tapped func()) *look.Tile { return look.NewTile(l, look.UseOutside, tapped) }
	f.say, f.talk = look.NewBanner(l, look.DeskLine, 2), look.NewBanner(l, look.DeskLine, 3)
	f.sound = look.NewBadge(l, look.DeskLine)
	f.called = outside(func() { f.open(pageRequests) })
	f.turns, f.turnsIn = outside(f.turn), look.NewTile(l, look.UseInside, f.turn)
	f.homeIn = look.NewTile(l, look.UseInside, func() { f.open(pageFirst) })
	f.shade, f.noise = outside(acts.shade), outside(acts.noise)
	f.ruler = outside(func() { f.open(pageMeasure) })
	f.keys = outside(func() { f.open(pageKeys) })
	parts := []fyne.CanvasObject{f.say, f.talk, f.called, f.sound, f.turns, f.turnsIn, f.homeIn, f.shade, f.ruler, f.keys, f.noise}
	for _, p := range outsideWays() {
		t := outside(func() { f.open(p) })
		f.ways = append(f.ways, t)
		parts = append(parts, t)
	}
	f.root = look.NewFree(l, f.lay, parts...)
	f.set(sight{})
	return f
}

// turn goes to the ways to all pages, and from there back to the work.
func (f *frame) turn() {
	if f.now() == pageChoice {
		f.open(pageFirst)
		return
	}
	f.open(pageChoice)
}

func (f *frame) open(p page) {
	if l, made := f.leaves[p]; made && l.opened != nil && p != f.now() {
		l.opened()
	}
	f.at, f.failed = p, [2]string{}
	f.acts.opened(p)
	f.set(f.sight)
}

// fail shows a failure of the window until the next page is opened; two empty
// texts take it away.
func (f *frame) fail(sentence, hint string) {
	f.failed = [2]string{sentence, hint}
	f.set(f.sight)
}

// set shows a newer sight. When somebody else has the device, it begins with
// their page; what was made for other hands is made again.
func (f *frame) set(s sight) {
	if s.Side != f.sight.Side || s.Can != f.sight.Can {
		if f.sight.Side != 0 && f.at != pageDevice {
			f.at = pageFirst
			f.acts.opened(pageFirst)
		}
		f.drop(pageBrief)
	}
	f.sight = s
	p := f.now()
	l := f.leafOf(p)
	l.shown = l.set(s) || l.shown
	r := barRows(f.words, s, p, f.look.Palette().Shade)
	if f.failed[0] != "" {
		r.Say = look.BannerFace{Icon: look.IconUrgent, Sentence: f.failed[0], Hint: f.failed[1], Tone: look.ToneFault}
	}
	f.say.Set(r.Say)
	f.talk.Set(r.Say)
	f.sound.Set(r.Sound)
	f.called.Set(r.Called)
	f.turns.Set(r.Turns)
	f.turnsIn.Set(r.Turns)
	f.homeIn.Set(r.Home)
	f.shade.Set(r.Shade)
	f.ruler.Set(r.Ruler)
	f.keys.Set(r.Keys)
	f.noise.Set(r.Noise)
	for i, t := range f.ways {
		t.Set(r.Ways[i])
	}
	f.root.Refresh()
}

// now is the page that is shown.
func (f *frame) now() page { return f.sight.shown(f.at) }

// leafOf gives a page, and makes it when it is opened first.
func (f *frame) leafOf(p page) *leaf {
	l, made := f.leaves[p]
	if !made {
		switch p {
		case pageChoice:
			l = newChoicePage(f)
		case pageMeasure:
			l = newMeasurePage(f.look, f.words, func(s look.Scale) { f.acts.scale(s); f.open(pageDevice) }).leaf()
		default:
			l = f.acts.leaf(p)
		}
		f.leaves[p] = l
		f.root.Objects = append(f.root.Objects, l.object)
	}
	return l
}

// drop forgets a page, which is made again when it is opened next.
func (f *frame) drop(p page) {
	if l, made := f.leaves[p]; made {
		delete(f.leaves, p)
		f.root.Objects = slices.DeleteFunc(f.root.Objects, func(o fyne.CanvasObject) bool { return o == l.object })
	}
}

// paint paints every page that was made again.
func (f *frame) paint() {
	for _, l := range f.leaves {
		l.paint()
	}
}
