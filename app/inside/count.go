package inside

import (
	"cmp"
	"fmt"
	"time"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// more is what was asked for last, while one more of it is a tap away.
type more struct {
	ref   mesh.Ref
	until time.Time
}

// counting is the question how many; the zero value asks nothing.
type counting struct {
	item    mesh.Number // to be asked for
	urgency requests.Urgency
	change  mesh.Ref // or wanted of this request
	taken   mesh.Ref // or fewer were taken in of this one than lay there
	from    requests.Count
}

// about is the request that is counted for; zero: a new one.
func (c counting) about() mesh.Ref {
	if c.taken.IsZero() {
		return c.change
	}
	return c.taken
}

// countsAtOnce is how many counts stand on a panel beside the way back.
const countsAtOnce = 4

// counts tells whether how many is asked before the item is: a controlled drug
// is never counted up by another tap.
func (s Snapshot) counts(n mesh.Number) bool {
	i, known := s.item(n)
	return known && i.Drug != nil && i.Drug.Counted
}

// oneMore words the target that stands beside the strip after a tap.
func (r *Rows) oneMore(w words.Words, board station.BoardLayout, s Snapshot, h hand, now time.Time) {
	r.More.Off = true
	x, there := s.request(h.more.ref)
	if !there || !now.Before(h.more.until) || !x.can(requests.ActChange) || s.counts(x.Thing.Item) {
		return
	}
	r.More = look.TileFace{Word: w.Say("inside.one-more"), Detail: w.Say("inside.more-of", x.Thing.Count+1)}
	if x.Ref != r.First {
		r.More.Detail = cmp.Or(wordOn(board, x.Thing.Item), words.ShortName(x.Thing.Name, false))
	}
	first, _ := s.request(r.First)
	name := cmp.Or(wordOn(board, first.Thing.Item), words.ShortName(first.Thing.Name, false))
	r.Strip.Word, r.Strip.State, r.Strip.Age = w.Counted(int64(first.Thing.Count), name), shortState(w, first), ""
	r.Now = look.BannerFace{Sentence: name, Hint: r.Strip.State, Tone: r.Now.Tone}
}

// countPanel asks how many, of an item that is asked for or that came.
func countPanel(w words.Words, s Snapshot, c counting) *Panel {
	p := &Panel{Head: look.BannerFace{Sentence: w.Say("inside.count.ask"), Icon: look.IconHand}, Buttons: []Button{closing(w)}}
	most := requests.Count(requests.CountMax)
	if i, known := s.item(c.item); known {
		p.drug(w, i, 0)
		p.Word = i.Name + " " + words.Measured(i.Detail)
	}
	if r, there := s.request(c.taken); there {
		p.Head.Sentence = w.Say("inside.count.take")
		p.Word = w.Thing(int64(r.AtDoor), r.Thing.Name, words.Measured(string(r.Thing.Strength)))
		most = r.AtDoor - 1
	}
	for n := c.from + 1; n <= min(c.from+countsAtOnce, most); n++ {
		p.Buttons = append(p.Buttons, Button{Face: look.TileFace{Word: fmt.Sprint(n)}, Does: doesCount, Count: n})
	}
	if c.from+countsAtOnce < most {
		p.Buttons = append(p.Buttons, Button{Face: look.TileFace{Word: w.Say("inside.count.more")}, Does: doesCountOn})
	}
	return p
}

// counted carries out what the count was asked for.
func (s *Screen) counted(n requests.Count) {
	c := s.hand.count
	s.hand.count = counting{}
	r, there := s.snap.request(c.change)
	switch {
	case !c.taken.IsZero():
		s.answer(station.TakeIn{Request: c.taken, Count: n})
	case there:
		thing := r.Thing.Thing
		thing.Count = n
		s.answer(station.Change{Request: r.Ref, Thing: thing, Urgency: r.Urgency})
	case c.change.IsZero():
		s.askFor(c.item, n, c.urgency)
	}
}

// tapMore asks for one more of what was asked for last.
func (s *Screen) tapMore() {
	r, there := s.snap.request(s.hand.more.ref)
	if !there || !s.opt.Now().Before(s.hand.more.until) {
		return
	}
	s.oneMoreOf(r)
}

// oneMoreOf changes a request by one. The next one is a tap away again.
func (s *Screen) oneMoreOf(r Request) {
	thing := r.Thing.Thing
	thing.Count++
	s.do(station.Change{Request: r.Ref, Thing: thing, Urgency: r.Urgency}, func(x station.Result) {
		s.undoable(s.markOf(x))
		s.hand.more = more{r.Ref, s.opt.Now().Add(s.snap.Limits.More)}
	})
}
