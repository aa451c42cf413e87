package door

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lintel/app/look"
	"lintel/app/look/sheet"
	"lintel/app/words"
	"lintel/mesh"
)

// step is the question that stands on the screen.
type step int

const (
	stepHome    step = iota
	stepActs         // what the observer does, where there is no room on the first page
	stepRoom         // which door
	stepWho          // whose tag
	stepRole         // a tag that nobody has named: of which role
	stepNumber       // and which number
	stepHow          // into which zone, and who checked
	stepChecker      // who else checked
	stepPerson       // what somebody who is in does
	stepHarm         // what went wrong
	stepSend         // which person is called
	stepDoff         // one step of doffing
	stepDoffed       // how each went
	stepLeaving      // which list
	stepList         // its lines
	stepSpent        // who was inside for how long
	stepAir          // the sign for the air
)

// intent is what a tag is chosen for.
type intent int

const (
	toGoIn intent = iota
	toHarm
	toDoff
	toCheck
)

// hand is what the person at this device is doing. The UI goroutine owns it.
type hand struct {
	room   mesh.ID
	step   step
	to     intent
	tag    mesh.Tag
	by     mesh.Tag // who else checked; empty: nobody was named
	role   mesh.ID
	list   mesh.ID
	at     int    // which step of doffing
	front  int    // how many acts the first page has, before the way to the others
	notice Notice // for which relief is sent
	fault  [2]string
	paper  string // where the paper is
	last   mesh.Ref
	said   string
	until  time.Time
}

// what a tap means.
type what int

const (
	picksStep what = iota
	picksWho
	picksRoom
	picksTag
	picksRole
	picksIn
	picksOut
	picksPerson
	picksHarm
	picksCall
	picksDoffed
	picksDoffBack
	picksList
	picksTick
	picksMeasured
	picksPaper
)

// pick is one choice, as data.
type pick struct {
	what what
	step step
	to   intent
	tag  mesh.Tag // who
	by   mesh.Tag // who checked
	id   mesh.ID  // room, role, zone, list line, kind of harm
	item mesh.Number
	yes  bool
	said string // for taking it back
}

type (
	choice = sheet.Choice[pick]
	line   = sheet.Line[pick]
	face   = sheet.Face[pick]
)

// page decides what is asked; the first page and the sign are none.
func page(w words.Words, s Snapshot, h hand) face {
	r, _ := s.room(h.room)
	switch h.step {
	case stepActs:
		return face{Head: w.Say("door.head", r.ID), Choices: acts(w, s, r)[h.front:]}
	case stepRoom:
		return roomPage(w, s)
	case stepWho, stepChecker:
		return whoPage(w, s, r, h)
	case stepRole, stepNumber:
		return newTagPage(w, s, h)
	case stepHow:
		return howPage(w, s, r, h)
	case stepPerson:
		return personPage(w, s, r, h)
	case stepHarm:
		f := face{Head: w.Say("door.what-harm", h.tag)}
		for _, x := range s.Harms {
			f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: x.Words}, pick{what: picksHarm, id: x.ID, said: w.Say("door.said", h.tag, w.Say("door.act.harm"))}))
		}
		return f
	case stepSend:
		f := face{Head: w.Say("door.whom")}
		for _, x := range s.Reliefs {
			f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: x.Name}, pick{what: picksCall, item: x.Number}))
		}
		return f
	case stepDoff:
		return doffPage(w, s, h)
	case stepDoffed:
		return doffedPage(w, s, r, h)
	case stepLeaving, stepList:
		return leavingPage(w, s, r, h)
	}
	return spentPage(w, s, r, h)
}

func roomPage(w words.Words, s Snapshot) face {
	f := face{Head: w.Say("door.which")}
	for _, r := range s.Rooms {
		x := look.TileFace{Word: string(r.ID), Icon: look.IconDoor}
		if len(r.Notices) > 0 {
			x.Detail, x.Tone = r.Notices[0].Words, look.ToneNow
		} else if len(r.People) > 0 {
			x.Detail = w.Count("door.people", len(r.People))
		}
		f.Choices = append(f.Choices, sheet.Tile(x, pick{what: picksRoom, id: r.ID}))
	}
	return f
}

// whoPage lists tags: of the case, then of whoever has a device.
func whoPage(w words.Words, s Snapshot, r Room, h hand) face {
	f := face{Head: w.Say(map[intent]words.ID{toGoIn: "door.who-in", toHarm: "door.who-harm", toDoff: "door.who-doff", toCheck: "door.who-checked"}[h.to])}
	var tags []mesh.Tag
	if h.to != toGoIn && h.to != toCheck {
		for _, p := range r.People {
			tags = addTag(tags, p.Tag)
		}
	}
	for _, t := range slices.Concat(r.Tags, s.Tags) {
		_, in := r.person(t)
		if h.to == toGoIn && in || h.to == toCheck && t == h.tag {
			continue
		}
		tags = addTag(tags, t)
	}
	for _, t := range tags {
		f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: string(t)}, pick{what: picksTag, tag: t}))
	}
	other := sheet.Tile(look.TileFace{Word: w.Say("door.other-tag")}, pick{what: picksStep, step: stepRole})
	f.Choices = append(f.Choices, other)
	return f
}

// tagsOfRole is how many tags of a role are offered.
const tagsOfRole = 6

// newTagPage asks for a tag that nobody has named yet: tags are the first
// letter of a role, and a number.
func newTagPage(w words.Words, s Snapshot, h hand) face {
	f := face{Head: w.Say("door.new-tag")}
	for _, x := range s.Roles {
		if h.step == stepRole {
			f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: x.Words}, pick{what: picksRole, id: x.ID}))
		}
	}
	for n := 1; h.step == stepNumber && h.role != "" && n <= tagsOfRole; n++ {
		t := mesh.Tag(fmt.Sprintf("%s%d", strings.ToUpper(string(h.role[:1])), n))
		f.Choices = append(f.Choices, sheet.Tile(look.TileFace{Word: string(t)}, pick{what: picksTag, tag: t}))
	}
	return f
}

// howPage offers each zone with each person who may have checked, and none.
func howPage(w words.Words, s Snapshot, r Room, h hand) face {
	f := face{Head: w.Say("door.goes-in", h.tag)}
	var checkers []mesh.Tag
	for _, t := range []mesh.Tag{h.by, r.Checked[h.tag], s.By.Tag} {
		if t != h.tag {
			checkers = addTag(checkers, t)
		}
	}
	for _, by := range append(checkers, "") {
		for _, z := range r.Zones {
			x := look.TileFace{Word: zoneWord(w, z), Detail: checkedBy(w, by)}
			f.Choices = append(f.Choices, sheet.Tile(x, pick{what: picksIn, id: z.ID, tag: h.tag, by: by, said: w.Say("door.goes-in", h.tag)}))
		}
	}
	other := look.TileFace{Word: w.Say("door.checked-other")}
	f.Choices = append(f.Choices, sheet.Tile(other, pick{what: picksWho, to: toCheck}))
	return f
}

// personPage is what somebody who is in does.
func personPage(w words.Words, s Snapshot, r Room, h hand) face {
	p, _ := r.person(h.tag)
	f := face{Head: joined(string(p.Tag), zoneWord(w, p.Zone), age(w, s.Now, p.Since, p.Least)), Choices: outChoices(w, s, p)}
	for _, z := range r.Zones {
		if z.ID != p.Zone.ID {
			x := look.TileFace{Word: w.Say("door.goes-to", zoneWord(w, z)), Detail: checkedBy(w, p.Checker)}
			f.Choices = append(f.Choices, sheet.Tile(x, pick{what: picksIn, id: z.ID, tag: p.Tag, by: p.Checker, said: w.Say("door.goes-in", p.Tag)}))
		}
	}
	f.Choices = append(f.Choices,
		sheet.Tile(look.TileFace{Word: w.Say("door.act.doff")}, pick{what: picksTag, to: toDoff, tag: p.Tag}),
		sheet.Tile(look.TileFace{Word: w.Say("door.act.harm"), Icon: look.IconBreach}, pick{what: picksTag, to: toHarm, tag: p.Tag}))
	return f
}

// outChoices are coming out, with or without somebody who saw the doffing.
func outChoices(w words.Words, s Snapshot, p Person) (out []choice) {
	for _, by := range addTag(nil, s.By.Tag) {
		if by != p.Tag {
			x := look.TileFace{Word: w.Say("door.comes-out"), Detail: w.Say("door.doffing-seen", by)}
			out = append(out, sheet.Tile(x, pick{what: picksOut, id: p.Zone.ID, tag: p.Tag, by: by, said: w.Say("door.came-out", p.Tag)}))
		}
	}
	x := look.TileFace{Word: w.Say("door.comes-out"), Detail: w.Say("door.doffing-unseen")}
	return append(out, sheet.Tile(x, pick{what: picksOut, id: p.Zone.ID, tag: p.Tag, said: w.Say("door.came-out", p.Tag)}))
}

// leavingPage offers the lists, or one list with its lines.
func leavingPage(w words.Words, s Snapshot, r Room, h hand) face {
	if h.step == stepLeaving {
		f := face{Head: w.Say("door.leaving")}
		for _, list := range []mesh.ID{listTransfer, listExtubation} {
			lines := s.leaving(list)
			x := look.TileFace{Word: w.Say("door.list." + words.ID(list)), Detail: w.Say("door.done-of", r.done(list, lines), len(lines))}
			f.Choices = append(f.Choices, sheet.Tile(x, pick{what: picksList, id: list}))
		}
		return f
	}
	lines := s.leaving(h.list)
	f := face{Head: joined(w.Say("door.list."+words.ID(h.list)), w.Say("door.done-of", r.done(h.list, lines), len(lines)))}
	for _, l := range lines {
		tick, done := r.Ticks[Ticked{h.list, l.ID}]
		x := look.BannerFace{Sentence: l.Words}
		if done {
			x.Sentence = w.Say("door.ticked", l.Words)
			x.Hint = joined(w.Say("door.done", clockFrom(s.Now, tick.Since)), string(tick.By))
		}
		f.Lines = append(f.Lines, line{Face: x, Pick: pick{what: picksTick, id: l.ID, yes: !done}})
	}
	return f
}

func (s Snapshot) leaving(list mesh.ID) []Named {
	if list == listTransfer {
		return s.Transfer
	}
	return s.Extubate
}

// done is how many lines of a list are ticked.
func (r Room) done(list mesh.ID, lines []Named) (n int) {
	for _, l := range lines {
		if _, ticked := r.Ticks[Ticked{list, l.ID}]; ticked {
			n++
		}
	}
	return n
}

func spentPage(w words.Words, s Snapshot, r Room, h hand) face {
	f := face{Head: joined(string(r.ID), w.Say("door.act.spent"))}
	for _, x := range r.Spent {
		f.Lines = append(f.Lines, line{Face: spentFace(w, s, x), Still: true})
	}
	switch {
	case h.paper != "":
		f.Tell = look.BannerFace{Icon: look.IconSaved, Sentence: h.paper}
	case len(r.Spent) == 0:
		f.Tell = look.BannerFace{Sentence: w.Say("door.nobody-was")}
	}
	return f
}
