package runner

import (
	"fmt"
	"strings"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// DoorRow is what stands over the requests of a door.
type DoorRow struct {
	Room  mesh.ID
	Word  look.BigWordFace
	Icon  look.Icon
	Tone  look.Tone
	Words []string // the gravest first; those that find no room stand on the door's page
	Say   look.TileFace
}

// doorRow words a door's head.
func doorRow(w words.Words, s Snapshot, r Room) DoorRow {
	d := DoorRow{Room: r.ID, Word: look.BigWordFace{Word: string(r.ID)}, Icon: look.IconLinkUp, Say: look.TileFace{Word: w.Say("runner.say")}}
	if !r.InReach {
		d.Icon, d.Tone = look.IconLinkLost, look.ToneFault
		d.Words = append(d.Words, w.Say("runner.head.no-link"))
	}
	if r.InReach && len(r.Low) > 0 {
		d.Icon = look.IconBattery
	}
	if len(r.Runners) == 0 {
		d.Words = append(d.Words, w.Say("runner.head.nobody"))
	}
	d.Words = append(d.Words, troubles(w, r)...)
	if r.Said.Phrase != "" && len(r.Said.Heard) == 0 {
		d.Words = append(d.Words, saidWords(w, r.Said))
	}
	for _, x := range r.Runners {
		d.Words = append(d.Words, runnerWords(w, r.ID, x))
	}
	if n := len(r.Bag); n > 0 {
		d.Words = append(d.Words, w.Say("runner.head.serves", n))
	}
	if r.Said.Phrase != "" && len(r.Said.Heard) > 0 {
		d.Words = append(d.Words, saidWords(w, r.Said))
	}
	return d
}

// runnerWords says where a runner is, as one door sees it.
func runnerWords(w words.Words, door mesh.ID, x Runner) string {
	tag := string(x.Tag)
	if tag == "" {
		tag = w.Say("runner.head.untagged")
	}
	switch {
	case x.Doing == requests.Away:
		return w.Say("runner.head.away", tag)
	case x.Doing == requests.AtADoor && x.At == door:
		return w.Say("runner.head.at-this", tag)
	case x.Doing == requests.AtADoor && x.Next:
		return w.Say("runner.head.at-next", tag, x.At)
	case x.Doing == requests.AtADoor:
		return w.Say("runner.head.at", tag, x.At)
	case x.Doing == requests.Fetching && x.At == door:
		return w.Say("runner.head.fetches-here", tag)
	case x.Doing == requests.Fetching && x.Next:
		return w.Say("runner.head.fetches-next", tag, x.At)
	case x.Doing == requests.Fetching:
		return w.Say("runner.head.fetches", tag, x.At)
	}
	return w.Say("runner.head.here", tag)
}

// troubles are low batteries and failed comms tests of the devices inside.
func troubles(w words.Words, r Room) (out []string) {
	for _, x := range r.Low {
		id := words.ID("runner.head.battery")
		switch {
		case x.Drill:
			id = "runner.head.battery-drill"
		case x.Charging:
			id = "runner.head.charging"
		}
		out = append(out, w.Say(id, named(w, x.Tag, x.Name), x.Battery))
	}
	for _, x := range r.Failed {
		who := named(w, x.Tag, x.Name)
		if x.Sound {
			out = append(out, w.Say("runner.head.no-sound", who))
		}
		if x.Door {
			out = append(out, w.Say("runner.head.other-door", who))
		}
		if x.Lock {
			out = append(out, w.Say("runner.head.lock", who))
		}
	}
	return out
}

// named is who has a device, else what it is called.
func named(w words.Words, tag mesh.Tag, device string) string {
	switch {
	case tag != "":
		return string(tag)
	case device != "":
		return device
	}
	return w.Say("runner.head.device")
}

// saidWords says a phrase that was said inwards, and who heard it.
func saidWords(w words.Words, s Said) string {
	if len(s.Heard) == 0 {
		return w.Say("runner.said.unheard", s.Phrase)
	}
	tag := string(s.Heard[0])
	if tag == "" {
		return w.Say("runner.said.heard-by-one", s.Phrase)
	}
	return w.Say("runner.said.heard", s.Phrase, tag)
}

// about is those of a head's words that fit into some rows of a width in mm.
func (d DoorRow) about(width float32, rows int) look.BannerFace {
	face := look.BannerFace{Icon: d.Icon, Tone: d.Tone}
	for _, x := range d.Words {
		next := strings.TrimPrefix(face.Sentence+" · "+x, " · ")
		if rowsOf(next, width) <= rows {
			face.Sentence = next
		}
	}
	return face
}

// all is everything that is to be said about a door.
func (d DoorRow) all() string { return strings.Join(d.Words, " · ") }

// doorPage is one door: what is said about it, and what can be done there.
func doorPage(w words.Words, s Snapshot, h hand) Page {
	d := doorRow(w, s, s.room(h.room))
	room := s.room(h.room)
	var all []Choice
	if n := len(room.Bag); n > 0 {
		all = append(all, choice(look.TileFace{Word: w.Count("runner.bag", n), Icon: look.IconKit}, pick{what: picksBag}))
	}
	all = append(all,
		choice(look.TileFace{Word: w.Say("runner.say-to", string(h.room))}, pick{what: picksSayTo, room: h.room}),
		choice(look.TileFace{Word: w.Say("runner.voice")}, pick{what: picksIntent, to: toVoice, room: h.room}),
		choice(look.TileFace{Word: w.Say("runner.passed")}, pick{what: picksIntent, to: toPassIn, room: h.room}))
	if len(s.Carrying.All()) > 0 {
		all = append(all, choice(look.TileFace{Word: w.Say("runner.pass-all")}, pick{what: picksPassAll}))
	}
	if s.Silence > 0 {
		all = append(all, choice(silenceFace(w, h), pick{what: picksSilence}))
	}
	p := choosing(w, string(h.room), "", all)
	p.Tell = look.BannerFace{Icon: d.Icon, Sentence: d.all(), Tone: d.Tone}
	p.TellIn = d.about(phoneText-headIcon, 4)
	return p
}

// bagPage is what to take along for the next opening of a door, in the order
// of the places where it is kept.
func bagPage(w words.Words, s Snapshot, h hand) Page {
	room := s.room(h.room)
	var all []Choice
	for _, ref := range room.Bag {
		r, known := s.request(ref)
		if !known {
			continue
		}
		all = append(all, Choice{Face: bagFace(w, r), Pick: pick{what: picksOpen, ref: ref}, Kept: true})
	}
	p := listing(w.Say("runner.bag-head", string(h.room), len(room.Bag)), all)
	p.Whole = w.Say("runner.bag-whole", string(h.room), len(room.Bag))
	return p
}

// bagFace is one thing to take along: what, and where it is kept.
func bagFace(w words.Words, r Request) look.TileFace {
	name := words.ShortName(r.Thing.Name, r.Thing.Drug.Is)
	return look.TileFace{
		Number: w.Say("runner.count", int64(r.Thing.Count)), Word: strings.TrimSpace(name + " " + words.FirstPart(words.Measured(string(r.Thing.Strength)))),
		Detail: place(w, r), Tone: tone(r),
	}
}

// carriedFace is one request on a page that lists several.
func carriedFace(w words.Words, r Request, note string) look.TileFace {
	return look.TileFace{
		Number: w.Say("runner.count", int64(r.Thing.Count)), Word: r.Thing.Name, Note: note,
		Detail: words.Measured(string(r.Thing.Strength)), Tone: tone(r),
	}
}

// sayPage is the phrases that can be said into a room.
func sayPage(w words.Words, s Snapshot, h hand) Page {
	var all []Choice
	for _, x := range s.Phrases {
		all = append(all, choice(look.TileFace{Word: x.Words}, pick{what: picksPhrase, list: x.ID}))
	}
	head, whole := w.Say("runner.say-to", string(h.room)), ""
	if said := s.room(h.room).Said; said.Phrase != "" {
		whole = fmt.Sprintf("%s: %s", string(h.room), saidWords(w, said))
	}
	p := listing(head, all)
	p.Whole = whole
	return p
}
