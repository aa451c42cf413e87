package door

import (
	"strings"
	"time"

	"lintel/app/look"
	"lintel/app/look/sheet"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Rows is the first page, decided and worded.
type Rows struct {
	Head   look.BannerFace
	Notice bool // Head is something that nobody has heard yet
	Heard  look.TileFace
	Relief look.TileFace
	Undo   look.TileFace // empty word: nothing to take back
	People []sheet.Choice[pick]
	Lines  []look.BannerFace // the same people, where there is less room
	Acts   []sheet.Choice[pick]
	Empty  look.BannerFace // in place of people
}

// rows decides the first page.
func rows(w words.Words, s Snapshot, h hand, now time.Time) Rows {
	r, known := s.room(h.room)
	out := Rows{Head: heading(w, s, r, known), Empty: look.BannerFace{Sentence: w.Say("door.nobody")}}
	if n, told := s.notice(h.room); told {
		out.Notice, out.Head = true, noticeFace(w, s, h.room, n)
		out.Heard = look.TileFace{Word: w.Say("door.heard")}
		out.Relief = look.TileFace{Word: w.Say("door.relief"), Off: len(s.Reliefs) == 0}
	}
	if !h.last.IsZero() && now.Before(h.until) {
		out.Undo = look.TileFace{Word: w.Say("door.undo"), Detail: h.said}
	}
	for _, p := range r.People {
		f := personFace(w, s, p)
		out.People = append(out.People, sheet.Tile(f, pick{what: picksPerson, tag: p.Tag}))
		icon := map[look.Tone]look.Icon{look.ToneNow: look.IconBreach, look.ToneNext: look.IconUrgent}[f.Tone]
		out.Lines = append(out.Lines, look.BannerFace{Icon: icon, Sentence: f.Word, Hint: joined(f.Number, f.Detail)})
	}
	if known {
		out.Acts = acts(w, s, r)
	}
	return out
}

// heading is the door and the case behind it.
func heading(w words.Words, s Snapshot, r Room, known bool) look.BannerFace {
	switch {
	case !known:
		return look.BannerFace{Icon: look.IconDoor, Sentence: w.Say("door.no-room")}
	case s.InMemory:
		return look.BannerFace{Icon: look.IconNotSaved, Sentence: w.Say("door.head", r.ID), Hint: w.Say("door.memory"), Tone: look.ToneFault}
	case !r.Open:
		return look.BannerFace{Icon: look.IconDoor, Sentence: w.Say("door.head", r.ID), Hint: w.Say("door.no-case")}
	}
	return look.BannerFace{Icon: look.IconDoor, Sentence: w.Say("door.head", r.ID), Hint: r.Label}
}

// noticeFace says what was said, at which door if it is another one.
func noticeFace(w words.Words, s Snapshot, room mesh.ID, n Notice) look.BannerFace {
	f := look.BannerFace{Icon: look.IconSpeak, Sentence: n.Words, Hint: age(w, s.Now, n.Since, n.Least), Tone: look.ToneNext}
	if n.Tag != "" {
		f.Sentence = w.Say("door.said", n.Tag, n.Words)
	}
	if n.Room != room {
		f.Sentence = joined(string(n.Room), f.Sentence)
	}
	if n.Harm {
		f.Icon, f.Tone = look.IconBreach, look.ToneNow
	}
	if more := len(s.notices(room)) - 1; more > 0 {
		f.Hint += " · " + w.Say("door.more-said", more)
	}
	return f
}

func age(w words.Words, now, since mesh.Wall, least bool) string {
	return w.Ago(clockFrom(now, since), least)
}

func clockFrom(now, since mesh.Wall) string {
	return look.ClockText(time.Duration(now-since) * time.Millisecond)
}

// personFace is somebody who is in: where, since when, who checked.
func personFace(w words.Words, s Snapshot, p Person) look.TileFace {
	f := look.TileFace{Number: zoneWord(w, p.Zone), Word: w.Say("door.person", p.Tag, clockFrom(s.Now, p.Since)), Detail: checkedBy(w, p.Checker)}
	over := s.Prompt > 0 && time.Duration(s.Now-p.Since)*time.Millisecond >= s.Prompt
	switch {
	case p.Harm != "":
		f.Detail, f.Tone = p.Harm, look.ToneNow
	case over:
		f.Detail, f.Tone = w.Say("door.prompt", look.ClockText(s.Prompt)), look.ToneNext
	case p.Checker == "":
		f.Tone = look.ToneNext
	}
	return f
}

func zoneWord(w words.Words, z Zone) string {
	switch {
	case z.Name != "":
		return z.Name
	case z.ID != "":
		return string(z.ID)
	}
	return w.Say("door.inside")
}

func checkedBy(w words.Words, by mesh.Tag) string {
	if by == "" {
		return w.Say("door.unchecked")
	}
	return w.Say("door.checked", by)
}

// acts are what the observer does, in places that never change. The last is
// there only where the device is for several doors.
func acts(w words.Words, s Snapshot, r Room) []sheet.Choice[pick] {
	tile := func(id words.ID, i look.Icon, p pick) sheet.Choice[pick] {
		return sheet.Choice[pick]{Face: look.TileFace{Word: w.Say("door.act." + id), Icon: i}, Pick: p}
	}
	all := []sheet.Choice[pick]{
		tile("in", look.IconPerson, pick{what: picksWho, to: toGoIn}),
		tile("harm", look.IconBreach, pick{what: picksWho, to: toHarm}),
		tile("doff", look.IconNone, pick{what: picksWho, to: toDoff}),
		doorTile(w, s, r),
		tile("leave", look.IconNone, pick{what: picksStep, step: stepLeaving}),
		tile("spent", look.IconClock, pick{what: picksStep, step: stepSpent}),
		{Face: airFace(w, s.Now, r.Air), Pick: pick{what: picksStep, step: stepAir}},
	}
	if len(s.Rooms) > 1 {
		all = append(all, tile("other", look.IconDoor, pick{what: picksStep, step: stepRoom}))
	}
	return all
}

// doorTile says what the door does next, over how it is now.
func doorTile(w words.Words, s Snapshot, r Room) sheet.Choice[pick] {
	face := look.TileFace{Word: w.Say("door.act.opens")}
	if r.Door.Open {
		face.Word, face.Tone = w.Say("door.act.shuts"), look.ToneNext
	}
	if r.Door.Known {
		state := words.ID("door.is-shut")
		if r.Door.Open {
			state = "door.is-open"
		}
		face.Detail = w.Say(state)
	}
	return sheet.Choice[pick]{Face: face, Pick: pick{what: picksMeasured, yes: !r.Door.Open}}
}

// joined puts the parts that are there side by side.
func joined(parts ...string) string {
	var all []string
	for _, p := range parts {
		if p != "" {
			all = append(all, p)
		}
	}
	return strings.Join(all, " · ")
}

// spentFace is how long somebody was where.
func spentFace(w words.Words, s Snapshot, x Spent) look.BannerFace {
	inside := w.Ago(look.ClockText(x.total(requests.Inside, s.Now)), x.Least)
	f := look.BannerFace{Sentence: w.Say("door.spent", x.Tag, inside, look.ClockText(x.total(requests.Anteroom, s.Now)))}
	f.Hint = joined(append([]string{w.Count("door.times", x.Times)}, x.Harms...)...)
	if len(x.Harms) > 0 {
		f.Icon = look.IconBreach
	}
	return f
}
