package brief

import (
	"strconv"
	"strings"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
)

// lines are those of a page of the brief.
func (c Case) lines(of step) (out []Line) {
	if of == stepPlans {
		return c.Plans
	}
	for _, l := range c.Lines {
		at := stepLines
		switch {
		case strings.HasPrefix(string(l.ID), rescuePrefix):
			at = stepSets
		case l.Singly:
			at = stepSingly
		}
		if at == of {
			out = append(out, l)
		}
	}
	return out
}

// listOf is the list that a page of lines belongs to.
func listOf(s step) mesh.ID {
	if s == stepPlans {
		return listPlans
	}
	return listBrief
}

// partID names the words of a page of lines.
func partID(s step) words.ID {
	switch s {
	case stepPlans:
		return "plans"
	case stepSets:
		return "sets"
	case stepSingly:
		return "singly"
	}
	return "lines"
}

// linesPage shows lines to be said aloud, with one tap for all of them unless
// they are said singly.
func linesPage(w words.Words, s Snapshot, h hand, r Room) Page {
	part := partID(h.step)
	all := r.Case.lines(h.step)
	n, of := doneOf(all)
	p := Page{Head: look.BannerFace{Icon: look.IconDoor, Sentence: joined(r.Name, w.Say("brief.part."+part)), Hint: joined(w.Say("brief.of", n, of), w.Say("brief.tell."+part))}}
	for _, l := range all {
		p.row(lineFace(w, s, l), pick{what: picksTick, list: listOf(h.step), id: l.ID, done: !l.Done}, l.Done)
	}
	if h.step != stepSingly && n < of {
		p.button(w.Say("brief.all."+part), pick{what: picksAll})
	}
	p.next(w)
	return p
}

// next leads on in the brief.
func (p *Page) next(w words.Words) { p.button(w.Say("brief.next"), pick{what: picksNext}) }

// lineFace is a line with where it lies, and who said it when.
func lineFace(w words.Words, s Snapshot, l Line) look.RowFace {
	f := look.RowFace{Word: l.Words, Detail: l.Said}
	if l.Lies != "" {
		f.Detail = joined(w.Say("brief.lies", l.Lies), l.Said)
	}
	if l.Done {
		f.Icon, f.State = look.IconSpeak, said(w, s, l)
	}
	return f
}

// said is by whom, and how long ago.
func said(w words.Words, s Snapshot, l Line) string {
	return strings.TrimSpace(string(l.Tag) + " " + age(w, s, l.Since, l.Least))
}

// rolesPage says who does what: a role that nobody has yet is taken with one
// tap by the tag that is proposed on it.
func rolesPage(w words.Words, s Snapshot, r Room) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconPerson, Sentence: joined(r.Name, w.Say("brief.part.roles")), Hint: w.Say("brief.tell.roles")}}
	for _, role := range s.Roles {
		var tags []string
		for _, x := range r.Case.People {
			if x.RoleID == role.ID {
				tags = append(tags, string(x.Tag))
			}
		}
		face, k := look.RowFace{Word: role.Name}, pick{what: picksOther, id: role.ID}
		if len(tags) > 0 {
			face.Icon, face.State = look.IconPerson, strings.Join(tags, ", ")
		} else {
			tag := proposed(s, r.Case, role)
			face.Detail = w.Say("brief.as", string(tag))
			k = pick{what: picksRole, id: role.ID, tag: tag}
		}
		row := p.row(face, k, len(tags) > 0)
		row.Side, row.Does = look.BannerFace{Sentence: w.Say("brief.other-tag")}, pick{what: picksOther, id: role.ID}
	}
	p.next(w)
	return p
}

// proposed is the tag that is offered for a role: the first free one.
func proposed(s Snapshot, c Case, role Role) mesh.Tag {
	for _, tag := range offeredTags(s, role.ID) {
		if !c.has(tag) {
			return tag
		}
	}
	return mesh.Tag(station.TagLetter(role.ID) + "1")
}

func (c Case) has(tag mesh.Tag) bool {
	for _, p := range c.People {
		if p.Tag == tag {
			return true
		}
	}
	return false
}

// tagsMax is how many tags of a role are offered.
const tagsMax = 6

// offeredTags are those of a role's letter: first of devices, then by number.
func offeredTags(s Snapshot, role mesh.ID) (out []mesh.Tag) {
	letter := station.TagLetter(role)
	for _, t := range s.Tags {
		if strings.HasPrefix(string(t), letter) {
			out = append(out, t)
		}
	}
	for n := 1; n <= tagsMax; n++ {
		tag := mesh.Tag(letter + strconv.Itoa(n))
		known := false
		for _, t := range out {
			known = known || t == tag
		}
		if !known {
			out = append(out, tag)
		}
	}
	return out
}

// tagPage asks for a tag: of whoever takes a role, or of whoever checks.
func tagPage(w words.Words, s Snapshot, h hand, r Room) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconPerson, Sentence: w.Say("brief.tag-of", s.role(h.role).Name)}}
	tags := offeredTags(s, h.role)
	if h.role == "" {
		p.Head.Sentence, tags = w.Say("brief.who-checks"), nil
		for _, x := range r.Case.People {
			tags = append(tags, x.Tag)
		}
		for _, t := range s.Tags {
			if !r.Case.has(t) {
				tags = append(tags, t)
			}
		}
	}
	for _, t := range tags {
		p.tile(string(t), pick{what: picksTag, tag: t})
	}
	p.button(w.Say("brief.type-tag"), pick{what: picksGo, to: stepKeys})
	return p
}

// Letters and digits of a typed tag.
const (
	tagLetters = "RLDSOCAP"
	tagDigits  = "1234567890"
	tagLenMax  = 3 // a letter and up to two digits
)

// keysPage types a tag: a letter, then digits. While nothing was typed the
// erasing key goes back.
func keysPage(w words.Words, h hand) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconPerson, Sentence: w.Say("brief.type-tell")}, Word: h.typed, Typing: true}
	keys := tagDigits
	if h.typed == "" {
		keys, p.Word = tagLetters, "–"
	}
	for _, k := range keys {
		p.Tiles = append(p.Tiles, Button{Face: look.BannerFace{Sentence: string(k)}, Pick: pick{what: picksKey, text: string(k)}, Off: len(h.typed) >= tagLenMax})
	}
	p.Tiles = append(p.Tiles, Button{Face: look.BannerFace{Sentence: w.Say("keys.erase-short")}, Pick: pick{what: picksErase}})
	p.Tiles = append(p.Tiles, Button{Face: look.BannerFace{Sentence: w.Say("keys.done-short")}, Pick: pick{what: picksTyped}, Off: len(h.typed) < 2})
	return p
}

// ppePage has each other's equipment: the checker is chosen once, then each
// wearer with one tap.
func ppePage(w words.Words, s Snapshot, h hand, r Room) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconPerson, Sentence: joined(r.Name, w.Say("brief.part.ppe")), Hint: w.Say("brief.tell.ppe")}}
	switch {
	case h.checker == "":
		p.Tell = look.BannerFace{Sentence: w.Say("brief.checker-first")}
	case h.bad:
		p.Tell = look.BannerFace{Icon: look.IconUrgent, Sentence: w.Say("brief.checks-bad", string(h.checker)), Tone: look.ToneNext}
	default:
		p.Tell = look.BannerFace{Sentence: w.Say("brief.checks", string(h.checker))}
	}
	for _, x := range r.Case.People {
		if !x.Needs && !x.Checked {
			continue
		}
		k := pick{what: picksWearer, tag: x.Tag}
		if h.checker == "" {
			k = pick{}
		}
		p.row(personFace(w, s, x), k, x.Checked && x.Good && !x.Self)
	}
	if len(p.Rows) == 0 {
		p.Tell = look.BannerFace{Sentence: w.Say("brief.nobody-in")}
	}
	p.button(w.Say("brief.checker"), pick{what: picksOther})
	if h.checker != "" {
		word := w.Say("brief.not-good")
		if h.bad {
			word = w.Say("brief.good")
		}
		p.button(word, pick{what: picksBad})
	}
	p.next(w)
	return p
}

// personFace is a wearer with the newest check, and how long ago it was.
func personFace(w words.Words, s Snapshot, x Person) look.RowFace {
	f := look.RowFace{Word: strings.TrimSpace(string(x.Tag) + " " + x.Role), Detail: w.Say("brief.unchecked")}
	if !x.Checked {
		return f
	}
	f.State = age(w, s, x.Since, x.Least)
	switch {
	case !x.Good:
		f.Icon, f.Tone, f.Detail = look.IconUrgent, look.ToneNext, w.Say("brief.checked-bad", string(x.Checker))
	case x.Self:
		f.Icon, f.Tone, f.Detail = look.IconUrgent, look.ToneNext, w.Say("brief.checked-self")
	default:
		f.Icon, f.Detail = look.IconPerson, w.Say("brief.checked", string(x.Checker))
	}
	if s.PPEPrompt > 0 && x.Good && ago(s, x.Since) > s.PPEPrompt {
		f.Icon, f.Tone, f.Detail = look.IconClock, look.ToneNext, joined(f.Detail, w.Say("brief.prompt", look.ClockText(s.PPEPrompt)))
	}
	return f
}

// kitsPage has one tap for a kit that is sealed, in date and unbroken.
func kitsPage(w words.Words, s Snapshot, r Room) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconKit, Sentence: joined(r.Name, w.Say("brief.part.kit")), Hint: w.Say("brief.tell.kit")}}
	for _, k := range r.Case.Kits {
		p.kitRow(w, s, k)
	}
	if len(p.Rows) == 0 {
		p.Tell = look.BannerFace{Sentence: w.Say("brief.no-kit")}
	}
	p.next(w)
	return p
}

// kitRow is one kit, with the way to its lines.
func (p *Page) kitRow(w words.Words, s Snapshot, k Kit) {
	face, lacks := look.RowFace{Icon: look.IconKit, Word: kitName(w, k)}, ""
	if len(k.Lacks) > 0 {
		lacks = w.Count("brief.lacks", len(k.Lacks))
	}
	found := ""
	if n := k.ticked(); n > 0 {
		found = w.Say("brief.kit-lines", n, len(k.Lines))
	}
	face.Detail = joined(k.Said, found, lacks, k.Lies)
	if k.Done && k.Since != 0 {
		face.State = said(w, s, k.Line)
	}
	row := p.row(face, pick{what: picksWhole, id: k.ID, done: !k.Done}, k.Done)
	if len(k.Lines)+len(k.Lacks) > 0 {
		row.Side, row.Does = look.BannerFace{Sentence: w.Say("brief.kit-open")}, pick{what: picksKit, id: k.ID}
	}
}

func kitName(w words.Words, k Kit) string {
	if k.ID == roomKitID {
		return w.Say("brief.kit-room", k.Words)
	}
	return k.Words
}

// kitPage is an open kit, line by line.
func kitPage(w words.Words, s Snapshot, h hand, r Room) Page {
	var k Kit
	for _, x := range r.Case.Kits {
		if x.ID == h.kit {
			k = x
		}
	}
	p := Page{Head: look.BannerFace{Icon: look.IconKit, Sentence: kitName(w, k)}}
	if len(k.Lines) > 0 {
		p.Head.Hint = joined(w.Say("brief.kit-lines", k.ticked(), len(k.Lines)), k.Lies)
	}
	for _, lack := range k.Lacks {
		p.row(look.RowFace{Icon: look.IconLess, Word: lack, Detail: w.Say("brief.lack"), Off: true}, pick{}, true)
	}
	for _, l := range k.Lines {
		face := look.RowFace{Word: w.Thing(l.Count, l.Words, words.Measured(l.Detail))}
		if l.Done {
			face.Icon, face.State = look.IconKit, said(w, s, l.Line)
		}
		p.row(face, pick{what: picksTick, list: listKit, id: l.ID, done: !l.Done}, l.Done)
	}
	return p
}
