package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"lintel/app/inside"
	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
)

// keysPage binds keys to places of the board: tap a place, then press the foot
// switch or button once. The window's goroutine owns it.
type keysPage struct {
	words  words.Words
	look   *look.Look
	places []boundPlace
	keys   func() map[string]int // those that are bound
	bind   func(map[string]int)  // keeps them
	fail   func(sentence, hint string)
	wait   int // the place that waits for a key; 0: none
	from   int // the first place that is seen
	shown  int
	say    *look.Banner
	tiles  []*look.Tile
	turn   *look.Tile
	root   *fyne.Container
}

// boundPlace is a place as it is called.
type boundPlace struct {
	place int
	name  string
}

// placesOf are the rescue sets and the places of a board.
func placesOf(w words.Words, b station.BoardLayout) (out []boundPlace) {
	for i, set := range []words.ID{"b", "c", "d", "arrest"} {
		name := w.Say("inside.set." + set)
		if set != "arrest" {
			name += " " + w.Say("inside.set.detail")
		}
		out = append(out, boundPlace{inside.PlaceOfSets + i, name})
	}
	for _, t := range b.Tiles {
		out = append(out, boundPlace{int(t.Place), fmt.Sprint(t.Place, " ", t.Word)})
	}
	return out
}

func newKeysPage(l *look.Look, w words.Words, places []boundPlace, keys func() map[string]int, bind func(map[string]int), fail func(string, string)) *keysPage {
	p := &keysPage{words: w, look: l, places: places, keys: keys, bind: bind, fail: fail, say: look.NewBanner(l, look.DeskLine, 3)}
	parts := []fyne.CanvasObject{p.say}
	for i := range places {
		t := look.NewTile(l, look.UseOutside, func() { p.tap(i) })
		p.tiles, parts = append(p.tiles, t), append(parts, t)
	}
	p.turn = look.NewTile(l, look.UseOutside, p.next)
	p.turn.Set(look.TileFace{Word: w.Say("list.after")})
	p.root = look.NewFree(l, p.lay, append(parts, p.turn)...)
	p.paint()
	return p
}

// leaf is the page in its frame. Left, it waits for nothing.
func (p *keysPage) leaf() *leaf {
	return &leaf{object: p.root, paint: p.paint, set: func(sight) bool { return true }, opened: func() { p.wait = 0; p.paint() }}
}

// tap has a place wait for its key; a second tap takes its keys away.
func (p *keysPage) tap(i int) {
	place := p.places[i].place
	if p.wait == place {
		all := maps.Clone(p.keys())
		maps.DeleteFunc(all, func(_ string, at int) bool { return at == place })
		p.bind(all)
		place = 0
	}
	p.wait = place
	p.paint()
}

func (p *keysPage) next() {
	if p.from += p.shown; p.from >= len(p.tiles) {
		p.from = 0
	}
	p.paint()
}

// pressed binds a key to the place that waits. False: none does.
func (p *keysPage) pressed(key string) bool {
	if p.wait == 0 {
		return false
	}
	if at, is := p.keys()[key]; is && at != p.wait {
		p.fail(p.words.Fault("key-bound", p.nameOf(at)))
		return true
	}
	if !mayBind(key) {
		p.fail(p.words.Fault("key-types"))
		return true
	}
	all := maps.Clone(p.keys())
	if all == nil {
		all = map[string]int{}
	}
	all[key] = p.wait
	p.bind(all)
	p.wait = 0
	p.paint()
	return true
}

// mayBind tells whether a key is not needed for typing numbers and for finding
// one's way.
func mayBind(key string) bool {
	return !strings.Contains("0123456789", key) && !slices.Contains([]string{string(fyne.KeyBackspace), string(fyne.KeyF1), string(fyne.KeyEscape)}, key)
}

func (p *keysPage) nameOf(place int) string {
	for _, x := range p.places {
		if x.place == place {
			return x.name
		}
	}
	return fmt.Sprint(place)
}

func (p *keysPage) paint() {
	face := look.BannerFace{Sentence: p.words.Say("window.keys-say")}
	if p.wait != 0 {
		face = look.BannerFace{Sentence: p.words.Say("window.keys-press", p.nameOf(p.wait)), Tone: look.ToneNext}
	}
	p.say.Set(face)
	for i, x := range p.places {
		var keys []string
		for key, at := range p.keys() {
			if at == x.place {
				keys = append(keys, keyName(key))
			}
		}
		slices.Sort(keys)
		p.tiles[i].Set(look.TileFace{Word: x.name, Note: strings.Join(keys, ", "), Chosen: p.wait == x.place})
	}
	look.Arrange(p.root)
}

// keyName is a key as it is called on keyboards.
func keyName(key string) string {
	switch fyne.KeyName(key) {
	case " ":
		return string(fyne.KeySpace)
	case fyne.KeyPageUp:
		return "PageUp"
	case fyne.KeyPageDown:
		return "PageDown"
	}
	return key
}

func (p *keysPage) lay(put look.Put, width, height float32) {
	const wide, high, sayHigh = 62.0, 21.0, 25.0
	put(p.say, barEdge, barEdge, width-2*barEdge, sayHigh)
	area := look.At(barEdge, barEdge+sayHigh+barGap, width-2*barEdge, height-2*barEdge-sayHigh-barGap)
	columns, rows := max(1, look.Fitting(area.W, wide)), max(1, look.Fitting(area.H, high))
	rows = min(rows, (len(p.tiles)+columns-1)/columns)
	area.H = min(area.H, float32(rows)*(high+5+barGap)-barGap)
	cells := area.Cells(columns, rows)
	if p.shown = len(cells); p.shown < len(p.tiles) {
		p.shown--
		cells[p.shown].Put(put, p.turn)
	}
	for i := range min(p.shown, len(p.tiles)-p.from) {
		cells[i].Put(put, p.tiles[p.from+i])
	}
}
