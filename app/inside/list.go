package inside

import (
	"fmt"
	"slices"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
)

// List is what stands behind "other item": the catalogue by groups, and a
// number typed.
type List struct {
	Groups []look.TileFace
	Items  []look.TileFace
	Number []mesh.Number // of Items
	Typed  look.BigWordFace
	Tell   look.BannerFace
	Keys   look.KeypadFace
	Found  mesh.Number // what was typed names it; 0: nothing yet
}

// groupNames are the groups in the order of their tiles. The first is what the
// front page of the board had no room for.
func groupNames() []mesh.ID {
	return []mesh.ID{"board", "drug", "airway", "breathing", "fluid", "line", "monitoring", "ppe", "cleaning", "people", "out"}
}

// digitsMax is how many digits a spoken number has at most.
const digitsMax = 6

// list decides what is shown behind "other item".
func list(w words.Words, board station.BoardLayout, s Snapshot, h hand, front int) (l List) {
	for _, g := range groupNames() {
		l.Groups = append(l.Groups, look.TileFace{Word: w.Say("group." + words.ID(g))})
	}
	l.typed(w, s, h.digits)
	if h.group < 0 {
		return l
	}
	for _, t := range listed(board, s, h.group, front) {
		i, known := s.item(t.Item)
		if !known {
			continue
		}
		l.Items = append(l.Items, look.TileFace{Number: fmt.Sprint(t.Item), Word: t.Word, Detail: words.Measured(i.Detail)})
		l.Number = append(l.Number, t.Item)
	}
	return l
}

// listed are the lines of a group, with what stands on them.
func listed(board station.BoardLayout, s Snapshot, group, front int) (out []station.BoardTile) {
	name := groupNames()[min(group, len(groupNames())-1)]
	if name == "board" {
		return board.Tiles[min(front, len(board.Tiles)):]
	}
	for _, i := range s.Items {
		if i.Group == name {
			out = append(out, station.BoardTile{Item: i.Number, Word: i.Name})
		}
	}
	return out
}

// typed says what the digits name.
func (l *List) typed(w words.Words, s Snapshot, digits string) {
	l.Typed = look.BigWordFace{Word: digits}
	if digits == "" {
		l.Typed.Word = "–"
		l.Tell = look.BannerFace{Sentence: w.Say("number.type")}
	}
	l.Keys = look.KeypadFace{
		Erase: w.Say("keys.erase"), Done: w.Say("inside.ask"), EraseOff: digits == "", DigitsOff: len(digits) >= digitsMax, DoneOff: true,
	}
	if digits == "" {
		return
	}
	i := slices.IndexFunc(s.Items, func(i Item) bool { return fmt.Sprint(i.Number) == digits })
	switch {
	case i >= 0:
		l.Found = s.Items[i].Number
		l.Keys.DoneOff = false
		l.Tell = look.BannerFace{Sentence: s.Items[i].Name + " " + words.Measured(s.Items[i].Detail)}
	case len(digits) >= 4 && !slices.ContainsFunc(s.Items, func(i Item) bool { return begins(i.Number, digits) }):
		l.Tell = look.BannerFace{Icon: look.IconUrgent, Sentence: w.Say("number.none"), Tone: look.ToneFault}
	default:
		l.Tell = look.BannerFace{Sentence: w.Say("number.more")}
	}
}

// choices are the groups, or the lines of one, for a screen that shows them in
// rows.
func (l List) choices(group int) (out []Choice) {
	if group < 0 {
		for i, f := range l.Groups {
			out = append(out, Choice{f, pick{does: picksGroup, nth: i}})
		}
		return out
	}
	for i, f := range l.Items {
		out = append(out, Choice{f, pick{does: picksItem, item: l.Number[i]}})
	}
	return out
}

func begins(n mesh.Number, digits string) bool {
	text := fmt.Sprint(n)
	return len(text) > len(digits) && text[:len(digits)] == digits
}

func (s *Screen) newListParts(inside func(func()) *look.Tile) listParts {
	l := s.opt.Look
	p := listParts{
		prev: inside(func() { s.turn(-1) }), next: inside(func() { s.turn(1) }), groupsOf: inside(func() { s.chooseGroup(-1) }),
		typed: look.NewBigWord(l, look.InsideTile), tell: look.NewBanner(l, look.InsideTile, 2),
	}
	p.keys = look.NewKeypad(l, look.UseInside, look.KeypadKeys{
		Digit: func(d rune) { s.unlocked(func() { s.typeDigit(d) })() }, Erase: s.unlocked(s.eraseDigit), Done: s.unlocked(s.askTyped),
	})
	for i := range p.groups {
		p.groups[i] = inside(func() { s.chooseGroup(i) })
	}
	for i := range p.items {
		p.items[i] = inside(func() { s.askListed(i) })
	}
	return p
}

func (p *listParts) set(now List, s *Screen) {
	w := s.opt.Words
	p.now = now
	if s.hand.page == pageOther && s.hand.from >= len(now.Items) {
		s.hand.from = 0 // what was shown there is gone
	}
	for i, f := range now.Groups {
		p.groups[i].Set(f)
	}
	for i := range p.items {
		face := look.TileFace{Off: true}
		if n := s.hand.from + i; n < len(now.Items) {
			face = now.Items[n]
		}
		p.items[i].Set(face)
	}
	p.prev.Set(look.TileFace{Word: w.Say("list.before"), Off: s.hand.from == 0})
	p.next.Set(look.TileFace{Word: w.Say("list.after"), Off: s.hand.from+s.shown >= len(now.Items)})
	p.groupsOf.Set(look.TileFace{Word: w.Say("inside.groups"), Icon: look.IconSearch})
	p.typed.Set(now.Typed)
	p.tell.Set(now.Tell)
	p.keys.Set(now.Keys)
}

func (s *Screen) turn(by int) {
	s.hand.from = max(0, s.hand.from+by*s.shown)
	s.Paint()
}

// chooseGroup shows a group of the catalogue; -1: which groups there are.
func (s *Screen) chooseGroup(n int) {
	if n < len(groupNames()) {
		s.hand.group, s.hand.from = n, 0
		s.Paint()
	}
}

func (s *Screen) askListed(i int) {
	if n := s.hand.from + i; n < len(s.parts.list.now.Number) {
		number := s.parts.list.now.Number[n]
		s.show(pageBoard)
		s.ask(number, s.hand.urgency)
	}
}

func (s *Screen) typeDigit(d rune) {
	if len(s.hand.digits) < digitsMax {
		s.hand.digits += string(d)
		s.Paint()
	}
}

func (s *Screen) eraseDigit() {
	if n := len(s.hand.digits); n > 0 {
		s.hand.digits = s.hand.digits[:n-1]
		s.Paint()
	}
}

func (s *Screen) askTyped() {
	if number := s.parts.list.now.Found; number != 0 {
		s.show(pageBoard)
		s.ask(number, s.hand.urgency)
	}
}
