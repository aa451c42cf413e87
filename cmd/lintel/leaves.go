package main

import (
	"reflect"
	"time"

	"fyne.io/fyne/v2"

	"lintel/app/brief"
	"lintel/app/charge"
	"lintel/app/debrief"
	"lintel/app/door"
	"lintel/app/inside"
	"lintel/app/join"
	"lintel/app/runner"
	"lintel/app/scribe"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// leaves makes the pages of a window. The window's goroutine owns it.
type leaves struct {
	window  *window
	starter station.Starter
	beside  *beside
	health  brief.Health // as the newest sight of the brief told
}

// screen is what all screens have in common.
type screen interface {
	Object() fyne.CanvasObject
	Paint()
}

// leafOf is the page of a screen, which is set from the part of a sight that
// is there when its page was looked at.
func leafOf[S any](s screen, set func(S), part func(sight) *S) *leaf {
	return &leaf{object: s.Object(), paint: s.Paint, takes: s, set: func(x sight) bool {
		snap := part(x)
		if snap != nil {
			set(*snap)
		}
		return snap != nil
	}}
}

// leaf makes a page.
func (b *leaves) leaf(p page) *leaf {
	x, zone := b.window, time.Local
	w, l, taps := x.words, x.look, b.beside.taps
	say := func(err error) (string, string) { return explainHere(w, err) }
	switch p {
	case pageBoard:
		return b.board()
	case pageBrief:
		return b.brief()
	case pageDoor:
		s := door.New(door.Options{Look: l, Words: w, Taps: taps, Explain: say, Now: time.Now, Zone: zone, Paper: b.beside.papers.exposure})
		return leafOf(s, s.Set, func(s sight) *door.Snapshot { return s.Door })
	case pageTimes:
		s := scribe.New(scribe.Options{Look: l, Words: w, Taps: taps, Explain: say, Now: time.Now, Zone: zone})
		return leafOf(s, s.Set, func(s sight) *scribe.Snapshot { return s.Times })
	case pageDebrief:
		return b.debrief()
	case pageStock:
		s := charge.New(charge.Options{
			Look: l, Words: w, Taps: taps, Explain: say, Now: time.Now, Zone: zone, Want: b.beside.worker.wants, Lists: lists{b.beside.papers}, Pictures: b.beside.worker.dev, Typing: !fyne.CurrentDevice().IsMobile(),
		})
		return leafOf(s, s.Set, func(s sight) *charge.Snapshot { return s.Stock })
	case pageDevice:
		return b.device()
	case pageKeys:
		return b.keys()
	}
	s := runner.New(runner.Options{Look: l, Words: w, Taps: taps, Explain: say, Now: time.Now, Silence: b.beside.worker.calls.quiet.set, Pictures: b.beside.worker.dev})
	return leafOf(s, s.Set, func(s sight) *runner.Snapshot { return s.Requests })
}

// board is the board inside. A layout that was accepted takes its place when
// no case is open: never during one.
func (b *leaves) board() *leaf {
	x := b.window
	s := inside.New(inside.Options{
		Look: x.look, Words: x.words, Taps: b.beside.taps, Board: b.starter.Board, Now: time.Now,
		Explain: func(err error) (string, string) { return explainHere(x.words, err) }, Pages: func() { x.frame.open(pageChoice) },
	})
	shown, first := b.starter.Board, true
	return leafOf(s, s.Set, func(s2 sight) *inside.Snapshot {
		if s2.Board != nil && (first || !s2.Case) && !reflect.DeepEqual(shown, s2.Layout) {
			shown = s2.Layout
			s.SetBoard(shown)
		}
		first = first && s2.Board == nil
		return s2.Board
	})
}

// brief is what happens before the door closes.
func (b *leaves) brief() *leaf {
	x := b.window
	s := brief.New(brief.Options{
		Look: x.look, Words: x.words, Taps: b.beside.taps, Layout: b.starter.Board, Inside: x.frame.sight.Side == requests.Inside,
		Explain: func(err error) (string, string) { return explainHere(x.words, err) },
		Board:   func(room mesh.ID) { x.frame.open(x.frame.sight.boardOf(room)) },
		Health:  func() brief.Health { return b.health },
	})
	return leafOf(s, s.Set, func(s sight) *brief.Snapshot {
		if s.Brief != nil {
			b.health = s.Health
		}
		return s.Brief
	})
}

// stayFor is how long the debrief stays with a case while other pages are open:
// somebody who goes to a call and comes back finds it as it was.
const stayFor = 10 * time.Minute

// debrief is a case afterwards.
func (b *leaves) debrief() *leaf {
	x := b.window
	s := debrief.New(debrief.Options{
		Look: x.look, Words: x.words, Taps: b.beside.taps, Now: time.Now, Zone: time.Local, Choose: b.beside.worker.choose, Paper: b.beside.papers.record,
		Explain: func(err error) (string, string) { return explainHere(x.words, err) }, Typing: !fyne.CurrentDevice().IsMobile(),
	})
	var seen time.Time
	l := leafOf(s, s.Set, func(v sight) *debrief.Snapshot {
		if v.Debrief != nil {
			seen = time.Now()
		}
		return v.Debrief
	})
	l.opened = func() {
		if time.Since(seen) > stayFor {
			s.AskNewest()
		}
	}
	return l
}

// device is the device itself.
func (b *leaves) device() *leaf {
	x := b.window
	s := join.New(join.Options{
		Look: x.look, Words: x.words, Unit: b.beside.units, Taps: b.beside.taps, Held: func() { x.frame.open(pageFirst) },
		Explain: func(err error) (string, string) { return explainHere(x.words, err) },
	})
	b.beside.units.joined = s.Joined
	return leafOf(s, s.Set, func(v sight) *join.Snapshot {
		if v.Join != nil {
			v.Join.Near = near(x.words, v.Nearby)
		}
		return v.Join
	})
}
