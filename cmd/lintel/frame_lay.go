package main

import (
	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/requests"
)

// Measures of the bar, in mm.
const (
	barEdge   = 2.5
	barGap    = 3.0
	barClear  = 1.5  // beside what screens leave at their own edges
	sayHigh   = 12.0 // two rows that are read at a desk
	talkHigh  = 16.5 // three rows
	failHigh  = 33.0 // six, of what went wrong and what to do
	callHigh  = 14.0 // a row that is read on the way
	callTall  = 33.0 // three rows, where it is narrow
	toolWide  = 32.0
	toolLeast = 27.0
	turnsWide = 29.0 // beside a longer word, where it is narrow
	badgeOf   = 32.0
	sayLeast  = 100.0 // of what is said beside the ways
	wideFrom  = 130.0 // rows of what is said get shorter
	allFrom   = 265.0 // the ways to all pages stand in the bar
)

// lay puts the page and the bar. On the board there are no ways, and the bar is
// there only while it says something: the board comes first. A board without a
// room can ask for nothing, so there the way to the other pages stays.
func (f *frame) lay(put look.Put, width, height float32) {
	bottom, left := height, width-barEdge
	says := f.say.Face().Sentence != ""
	bare := f.now() == pageBoard && len(f.sight.Rooms) > 0
	if !bare {
		bottom, left = f.layWays(put, width, height)
	}
	room := left - barGap - barEdge
	switch {
	case says && bare:
		bottom -= barEdge + f.sayHigh(width)
		put(f.sayer(width), barEdge, bottom, width-2*barEdge, f.sayHigh(width))
	case says && width >= wideFrom && room >= sayLeast:
		put(f.say, barEdge, bottom, room, sayHigh)
	case says:
		bottom -= barGap + f.sayHigh(width)
		put(f.sayer(width), barEdge, bottom, width-2*barEdge, f.sayHigh(width))
	}
	if high := f.callHigh(width); high > 0 {
		bottom -= barGap + high
		put(f.called, barEdge, bottom, width-2*barEdge, high)
	}
	if bottom < height {
		bottom -= barClear
	}
	if l := f.leafOf(f.now()); l.shown {
		put(l.object, 0, 0, width, bottom)
	}
}

// sayer is the part that says what hinders or may be tried, for a width.
func (f *frame) sayer(width float32) fyne.CanvasObject {
	if width < wideFrom {
		return f.talk
	}
	return f.say
}

func (f *frame) sayHigh(width float32) float32 {
	if face := f.say.Face(); width < wideFrom && face.Tone == look.ToneFault && face.Hint != "" {
		return failHigh
	}
	if width < wideFrom {
		return talkHigh
	}
	return sayHigh
}

// callHigh is how much room a call takes; the list of requests says itself what
// calls, and inside nothing does.
func (f *frame) callHigh(width float32) float32 {
	switch {
	case f.called.Face().Word == "":
		return 0
	case width < wideFrom:
		return callTall
	}
	return callHigh
}

// slot is a part of the bar with its width.
type slot struct {
	part fyne.CanvasObject
	wide float32
}

// layWays puts the ways to other pages from the right, and before them, or over
// them, the tools of the page. It gives where the bar begins, and its lowest
// free row.
func (f *frame) layWays(put look.Put, width, height float32) (top, left float32) {
	high := float32(look.SideOutside)
	if f.sight.Side == requests.Inside {
		high = look.SideInside
	}
	top = height - barEdge - high
	ways, tools := f.slots(width)
	left = row(put, ways, width-barEdge, top, high)
	need := float32(0)
	for _, s := range tools {
		need += s.wide + barGap
	}
	if len(tools) == 0 {
		return top, left
	}
	if left-need < barEdge {
		top -= barGap + look.SideOutside
		left = width - barEdge + barGap
	}
	return top, row(put, tools, left-barGap, top, look.SideOutside)
}

// row puts parts from the right, as far as there is room, and gives where they end.
func row(put look.Put, all []slot, right, top, high float32) (left float32) {
	left = right + barGap
	for _, s := range all {
		if left-barGap-s.wide < barEdge-0.1 {
			continue
		}
		left -= barGap + s.wide
		put(s.part, left, top, s.wide, high)
	}
	return left
}

// slots are what stands in the bar of a width, from the right: the ways, and
// what the page is used with.
func (f *frame) slots(width float32) (ways, tools []slot) {
	p := f.now()
	half := min(toolWide, (width-2*barEdge-barGap)/2)
	all := f.sight.Unit && f.sight.Side != 0
	switch {
	case !all && p == pageMeasure:
		ways = []slot{{f.ways[len(f.ways)-1], half}} // back to the device
	case !all:
	case f.sight.Side == requests.Inside:
		ways = []slot{{f.turnsIn, half}}
		if p != f.sight.home() && p != pageChoice {
			ways = append(ways, slot{f.homeIn, half})
		}
	case width >= allFrom:
		n := float32(len(f.ways))
		wide := max(toolLeast, min(toolWide, (width-2*barEdge-badgeOf-n*barGap)/n))
		for i := range f.ways {
			ways = append(ways, slot{f.ways[len(f.ways)-1-i], wide})
		}
	default:
		ways = []slot{{f.turns, turnsWide}}
		for i, x := range outsideWays() {
			if x == f.sight.home() && p != x && p != pageChoice {
				ways = append(ways, slot{f.ways[i], min(toolWide+turnsWide, width-2*barEdge-barGap-turnsWide)})
			}
		}
	}
	switch {
	case p == pageDevice || p == pageMeasure || p == pageKeys:
		tools = append(tools, slot{f.shade, half})
		if width >= measureWide {
			tools = append(tools, slot{f.ruler, half})
		}
		if f.sight.Side == requests.Inside {
			tools = append(tools, slot{f.keys, half})
		}
		if f.sight.Sounds {
			tools = append(tools, slot{f.noise, half})
		}
	case f.sight.Sounds && (width >= wideFrom || len(ways) == 1): // where it is narrow, on the first page only
		tools = append(tools, slot{f.sound, min(badgeOf, half)})
	}
	return ways, tools
}
