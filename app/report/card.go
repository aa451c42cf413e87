package report

import (
	"fmt"
	"strings"
	"time"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
)

// CardContents is what stands on the card of the board inside.
type CardContents struct {
	Unit  string
	Name  string    // of the layout, with its date
	Dated time.Time // when the layout was accepted; zero: the starter layout
	By    mesh.Tag  // who accepted it
	Tiles []CardTile
	Sets  []CardSet
}

// CardTile is a place of the board.
type CardTile struct {
	Place  int
	Word   string
	Detail string // size or strength
	Number mesh.Number
}

// CardSet is a rescue set.
type CardSet struct {
	Name string
	Lies string // where, in words
}

// CardOf reads the board's layout as it stands, with the rescue sets.
func CardOf(v station.View, starter station.Starter) CardContents {
	board := v.BoardLayout(starter.Board)
	c := CardContents{Unit: string(v.Peer.Unit()), Name: board.Name}
	if accepted, stands := v.Board.Layout(); stands {
		c.Dated, c.By = time.UnixMilli(int64(accepted.When())), accepted.Accepted
	}
	for _, t := range board.Tiles {
		item, _ := v.Ledger.Item(t.Item)
		c.Tiles = append(c.Tiles, CardTile{Place: t.Place, Word: t.Word, Detail: words.Measured(string(item.Value.Detail)), Number: t.Item})
	}
	c.Sets = setsOf(v.Ledger)
	return c
}

// setsOf are the rescue sets in the order in which the board shows them.
func setsOf(l *kits.Ledger) (out []CardSet) {
	for _, letter := range []mesh.ID{"b", "c", "d", "arrest"} {
		for _, b := range l.Bundles() {
			if b.Rescue == letter {
				out = append(out, CardSet{Name: string(b.Name), Lies: string(b.Words)})
			}
		}
	}
	return out
}

// Measures of the card, in mm. Letters of a word are read at an arm's length
// through a fogged visor: 20 minutes of arc at 0.7 m are 4.1 mm of capital.
const (
	cardHead    = 13.0
	cardFoot    = 30.0
	cardColumns = 6
	cardGap     = 2.0
	wordSize    = 7.0
	detailSize  = 4.6
	numberSize  = 4.2
	placeSize   = 8.0
	smallSize   = 3.4
	setsWide    = 62.0
	frameLine   = 0.35
)

// Card draws the numbered, dated card of the board inside: A4, lying. Places have
// the numbers and the order of the board. It is for a pouch in the room and for
// whoever stands outside: one points, the other reads.
func Card(w words.Words, c CardContents) ([]byte, error) {
	s := newSheet(w.Say("card.title", c.Name), true, c.dated())
	inner := s.wide - 2*margin
	s.line(margin, margin, inner*0.6, 7, strong, c.Name)
	s.atEnd(margin+inner*0.6, margin+1, inner*0.4, 4.5, plain, c.accepted(w))
	s.line(margin, margin+8, inner, smallSize, plain, w.Say("card.how"))
	top := margin + cardHead
	s.tiles(c, margin, top, inner-setsWide-cardGap, s.high-margin-cardFoot-top)
	s.sets(w, c, margin+inner-setsWide, top, setsWide, s.high-margin-cardFoot-top)
	s.foot(w, s.high-margin-cardFoot+cardGap, inner)
	return s.bytes()
}

// dated is the only date of the card; a starter layout carries none of its own
// but in its name.
func (c CardContents) dated() time.Time {
	if c.Dated.IsZero() {
		return time.Unix(0, 0)
	}
	return c.Dated
}

func (c CardContents) accepted(w words.Words) string {
	said := w.Say("card.starter")
	if c.By != "" {
		said = w.Say("card.accepted", c.By, c.Dated.UTC().Format(time.DateOnly))
	}
	if c.Unit == "" {
		return said
	}
	return c.Unit + " · " + said
}

// tiles draws the places in rows from the left.
func (s *sheet) tiles(c CardContents, x, y, wide, high float64) {
	rows := max(1, (len(c.Tiles)+cardColumns-1)/cardColumns)
	w := (wide - cardGap*(cardColumns-1)) / cardColumns
	h := (high - cardGap*float64(rows-1)) / float64(rows)
	for i, t := range c.Tiles {
		left := x + float64(i%cardColumns)*(w+cardGap)
		top := y + float64(i/cardColumns)*(h+cardGap)
		s.box(left, top, w, h, frameLine)
		s.line(left+1.5, top+1.5, w/2, placeSize, strong, fmt.Sprint(t.Place))
		s.atEnd(left+w/2, top+1.8, w/2-1.5, numberSize, plain, fmt.Sprint(t.Number))
		s.line(left+1.5, top+h*0.42, w-3, wordSize, strong, t.Word)
		detail, rest, _ := strings.Cut(t.Detail, ", ")
		s.line(left+1.5, top+h*0.42+wordSize*1.25, w-3, detailSize, plain, detail)
		s.line(left+1.5, top+h*0.42+wordSize*1.25+detailSize*1.25, w-3, detailSize, plain, rest)
	}
}

// sets draws where the rescue sets lie.
func (s *sheet) sets(w words.Words, c CardContents, x, y, wide, high float64) {
	if len(c.Sets) == 0 {
		return
	}
	h := (high - cardGap*float64(len(c.Sets)-1)) / float64(len(c.Sets))
	for i, set := range c.Sets {
		top := y + float64(i)*(h+cardGap)
		s.box(x, top, wide, h, 1)
		s.line(x+2, top+2, wide-4, wordSize, strong, set.Name)
		s.block(x+2, top+2+wordSize*1.4, wide-4, detailSize, plain, w.Say("card.lies", set.Lies))
	}
}

// foot draws what can be pointed at besides: how many, how soon, yes and no;
// then the joining code and the caution.
func (s *sheet) foot(w words.Words, y, inner float64) {
	const high = 14.0
	cells := []string{"1", "2", "3", "4", "5"}
	for _, id := range []words.ID{"urgency.now", "urgency.next", "urgency.before", "card.yes", "card.no", "card.again"} {
		cells = append(cells, w.Say(id))
	}
	const narrow, numbers = 14.0, 5
	wide := (inner - numbers*(narrow+cardGap) - cardGap*float64(len(cells)-numbers-1)) / float64(len(cells)-numbers)
	x := margin
	for i, text := range cells {
		cell := wide
		if i < numbers {
			cell = narrow
		}
		s.box(x, y, cell, high, frameLine)
		s.centred(x+1, y+(high-wordSize)/2, cell-2, wordSize, strong, text)
		x += cell + cardGap
	}
	y = s.block(margin, y+high+1.5, inner, smallSize, plain, w.Say("card.code"))
	s.block(margin, y, inner, smallSize, plain, w.Say("card.caution"))
}
