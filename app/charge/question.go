package charge

import (
	"fmt"
	"strconv"
	"strings"

	"lintel/app/look"
	"lintel/app/look/sheet"
	"lintel/app/words"
	"lintel/mesh"
)

// Bounds of what is typed by digits.
const (
	sealDigits = 10
	parDigits  = 4
	itemDigits = 6
	tagsOfRole = 6
)

// number is what was typed; nothing is 0.
func number(typed string) int64 {
	n, _ := strconv.ParseInt(typed, 10, 64)
	return n
}

// question decides what is asked.
func question(w words.Words, s Snapshot, h hand) face {
	switch h.step {
	case stepSecond:
		return secondQuestion(w, s, h)
	case stepRole, stepNumber:
		return tagQuestion(w, s, h)
	case stepTemplate:
		return templateQuestion(w, s)
	case stepSeal, stepBoxSeal:
		f := digits(w, h, sealDigits)
		f.Tell = look.BannerFace{Sentence: w.Say("charge.seal.ask"), Hint: w.Say("charge.seal.tell")}
		return f
	case stepOpen:
		return openQuestion(w, s)
	case stepEnds:
		return endsQuestion(w, s, h)
	case stepPart:
		return partQuestion(w, s, h)
	case stepWhy:
		return whyQuestion(w, s, h)
	case stepClass:
		return classQuestion(w, s)
	case stepLitres:
		return litresQuestion(w)
	case stepBoxRoom:
		return roomQuestion(w, s)
	case stepApart:
		return apartQuestion(w, s)
	case stepRead, stepFile:
		return pathQuestion(w, h)
	case stepField, stepWords:
		return fieldQuestion(w, s, h)
	}
	return numberQuestion(w, s, h)
}

// numberQuestion asks for a number of something.
func numberQuestion(w words.Words, s Snapshot, h hand) face {
	switch h.step {
	case stepPar:
		f := digits(w, h, parDigits)
		f.Tell = look.BannerFace{Sentence: w.Say("charge.par.ask"), Hint: joined(named(s.Item.ItemLine), s.place(h.place))}
		return f
	case stepBuy:
		f := digits(w, h, parDigits)
		f.Tell = look.BannerFace{Sentence: w.Say("charge.buy.ask"), Hint: w.Say("charge.buy.tell")}
		return f
	}
	f := digits(w, h, itemDigits)
	f.Tell = look.BannerFace{Sentence: w.Say("charge.find.ask"), Hint: w.Say("charge.find.tell")}
	return f
}

// digits is a page of keys with what was typed.
func digits(w words.Words, h hand, most int) face {
	k := &look.KeypadFace{
		Erase: w.Say("keys.erase-short"), Done: w.Say("keys.done-short"), DigitsOff: len(h.typed) >= most, DoneOff: h.typed == "",
	}
	return face{Keys: k, Word: look.BigWordFace{Word: h.typed}}
}

// secondQuestion asks who the second person is. Whoever has the device is no
// second one; nobody is one too, and stays to be countersigned.
func secondQuestion(w words.Words, s Snapshot, h hand) face {
	id := map[purpose]words.ID{forKit: "charge.second.kit", forCheck: "charge.second.check", forCount: "charge.second.count", forWitness: "charge.second.saw"}[h.to]
	f := face{Head: w.Say(id), Tell: look.BannerFace{Sentence: w.Say("charge.second.first", s.By.Tag)}}
	for _, t := range s.Tags {
		if t != s.By.Tag {
			f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: string(t)}, pick{what: picksTag, tag: t}))
		}
	}
	f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: w.Say("door.other-tag")}, pick{what: picksStep, step: stepRole}))
	if h.to == forKit || h.to == forCount {
		f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: w.Say("charge.second.nobody"), Detail: w.Say("charge.second.later")}, pick{what: picksNobody}))
	}
	return f
}

// tagQuestion asks for a tag that nobody has named yet: tags are the first
// letter of a role, and a number.
func tagQuestion(w words.Words, s Snapshot, h hand) face {
	f := face{Head: w.Say("door.new-tag")}
	if h.step == stepRole {
		for _, r := range s.Roles {
			f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: r.Words}, pick{what: picksRole, id: r.ID}))
		}
		return f
	}
	for n := 1; h.role != "" && n <= tagsOfRole; n++ {
		t := mesh.Tag(fmt.Sprintf("%s%d", strings.ToUpper(string(h.role[:1])), n))
		if t != s.By.Tag {
			f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: string(t)}, pick{what: picksTag, tag: t}))
		}
	}
	return f
}

func templateQuestion(w words.Words, s Snapshot) face {
	f := face{Head: w.Say("charge.template.ask")}
	for _, t := range s.Templates {
		id := newKit(s, t.ID)
		x := look.TileFace{Word: string(t.Name), Detail: string(id), Icon: look.IconKit}
		f.Choices = append(f.Choices, sheet.Tile(x, pick{what: picksPage, at: Wanted{Page: PagePrepare, ID: id, Template: t.ID}}))
	}
	return f
}

// openQuestion asks how the seal was found.
func openQuestion(w words.Words, s Snapshot) face {
	f := face{Head: w.Say("charge.open.ask", s.Kit.ID), Tell: look.BannerFace{Sentence: w.Say("charge.open.tell")}}
	if s.Kit.Seal != "" {
		f.Tell.Sentence = w.Say("charge.open.seal", s.Kit.Seal)
	}
	f.Choices = append(f.Choices,
		sheet.Tile(look.TileFace{Word: w.Say("charge.open.whole")}, pick{what: picksOpened, yes: true}),
		sheet.Tile(look.TileFace{Word: w.Say("charge.open.broken")}, pick{what: picksOpened}))
	return f
}

// apartQuestion says what taking a kit apart does before it is done.
func apartQuestion(w words.Words, s Snapshot) face {
	return face{
		Head: w.Say("charge.apart.ask", s.Kit.ID), Tell: look.BannerFace{Sentence: w.Say("charge.apart.tell")},
		Choices: []sheet.Choice[pick]{sheet.Tile(look.TileFace{Word: w.Say("charge.kit.apart")}, pick{what: picksApart})},
	}
}

// roomQuestion asks which room a waste container is of.
func roomQuestion(w words.Words, s Snapshot) face {
	f := face{Head: w.Say("charge.box.room")}
	for _, r := range s.Rooms {
		x := look.TileFace{Word: r.Name, Detail: s.Cases[r.Case], Icon: look.IconDoor}
		f.Choices = append(f.Choices, sheet.Tile(x, pick{what: picksRoom, id: r.ID}))
	}
	return f
}

// whyQuestion asks why an issue is closed although it is short.
func whyQuestion(w words.Words, s Snapshot, h hand) face {
	f := face{Head: w.Say("charge.why.ask"), Tell: look.BannerFace{Sentence: w.Say("charge.why.tell"), Tone: look.ToneNow}}
	tile := func(x look.TileFace, text string) {
		f.Choices = append(f.Choices, sheet.Tile(x, pick{what: picksWhy, text: text}))
	}
	if h.typed != "" {
		tile(look.TileFace{Word: h.typed, Detail: w.Say("charge.why.typed")}, h.typed)
	}
	for _, id := range []words.ID{"charge.why.searched", "charge.why.device", "charge.why.spilled"} {
		tile(look.TileFace{Word: w.Say(id)}, w.Say(id))
	}
	tile(look.TileFace{Word: w.Say("charge.why.unsaid"), Detail: w.Say("charge.why.listed")}, "")
	return f
}

func classQuestion(w words.Words, s Snapshot) face {
	f := face{Head: w.Say("charge.box.class")}
	for _, c := range s.Waste.Class {
		f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: c.Words}, pick{what: picksClass, id: c.ID}))
	}
	return f
}

// litresQuestion offers the usual sizes of containers.
func litresQuestion(w words.Words) face {
	f := face{Head: w.Say("charge.box.litres"), Tell: look.BannerFace{Sentence: w.Say("charge.box.fill")}}
	for _, n := range []int{6, 10, 20, 50, 300, 600} { // tenths of a litre
		f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: litres(w, int64(n))}, pick{what: picksLitres, n: n}))
	}
	return f
}

// litres writes tenths of a litre.
func litres(w words.Words, tenths int64) string {
	if tenths%10 == 0 {
		return w.Say("charge.litres", tenths/10)
	}
	return w.Say("charge.litres", fmt.Sprintf("%d.%d", tenths/10, tenths%10))
}
