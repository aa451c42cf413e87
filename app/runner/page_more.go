package runner

import (
	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// soonPage asks how soon a thing is needed that was asked by voice.
func soonPage(w words.Words) Page {
	var all []Choice
	for _, u := range []requests.Urgency{requests.RightNow, requests.NextOpening, requests.BeforeWeLeave} {
		face := look.TileFace{Word: w.Say("urgency." + words.UrgencyID(u)), Tone: tone(Request{Urgency: u})}
		all = append(all, choice(face, pick{what: picksSoon, soon: u}))
	}
	return choosing(w, w.Say("runner.how-soon"), "", all)
}

// passPage asks to whom one request, or all of them, is passed on.
func passPage(w words.Words, s Snapshot, h hand) Page {
	var all []Choice
	for _, tag := range s.Others {
		all = append(all, choice(look.TileFace{Word: string(tag), Icon: look.IconPerson}, pick{what: picksTag, tag: tag}))
	}
	if !h.whole && len(s.Carrying.All()) > 1 {
		all = append(all, choice(look.TileFace{Word: w.Say("runner.pass-all")}, pick{what: picksPassAll}))
	}
	p := choosing(w, w.Say("runner.to-whom"), "", all)
	p.Tell.Sentence, p.TellIn.Sentence = w.Say("runner.pass-tell"), w.Say("runner.pass-short")
	if len(s.Others) == 0 {
		p.Tell.Sentence, p.TellIn.Sentence = w.Say("runner.pass-nobody"), w.Say("runner.pass-nobody")
	}
	return p
}

// minePage lists what would be passed on: in hand, promised, at a door.
func minePage(w words.Words, s Snapshot) Page {
	var all []Choice
	list := func(refs []mesh.Ref, id words.ID) {
		for _, ref := range refs {
			if r, known := s.request(ref); known {
				all = append(all, choice(carriedFace(w, r, w.Say(id, string(r.Room))), pick{what: picksOpen, ref: ref}))
			}
		}
	}
	list(s.Carrying.InHand, "runner.mine.hand")
	list(s.Carrying.Promised, "runner.mine.promised")
	list(s.Carrying.AtDoor, "runner.mine.door")
	p := listing(w.Say("runner.pass-all"), all)
	p.Lead = &Choice{Face: look.TileFace{Word: w.Count("runner.pass-these", len(s.Carrying.All()))}, Pick: pick{what: picksMine}}
	return p
}

// wherePage asks at which door a thing was put: as read on the door, so every
// door of the unit is there, also where there is one, and none is marked.
func wherePage(w words.Words, s Snapshot) Page {
	ids := s.Doors
	if len(ids) == 0 {
		for _, r := range s.Rooms {
			ids = append(ids, r.ID)
		}
	}
	var all []Choice
	for _, id := range ids {
		all = append(all, choice(look.TileFace{Word: string(id), Icon: look.IconDoor}, pick{what: picksWhere, room: id}))
	}
	return choosing(w, w.Say("runner.where"), "", all)
}

// wrongPage says for which door it is. To leave it here all the same stands
// apart from the way back.
func wrongPage(w words.Words, r Request, h hand) Page {
	p := Page{Head: w.Say("runner.wrong-door"), Word: w.Say("runner.wrong-tell", string(r.Room)), Tone: look.ToneFault}
	p.Choices = []Choice{choice(look.TileFace{Word: w.Say("inside.back")}, pick{what: picksBack})}
	p.Apart = &Choice{Face: look.TileFace{Word: w.Say("runner.anyway", string(h.room))}, Pick: pick{what: picksAnyway}}
	return p
}

// noticePage is the gravest notice by itself.
func noticePage(w words.Words, s Snapshot, h hand) Page {
	all := noticeRows(w, s, h)
	if len(all) == 0 {
		return choosing(w, "", "", nil)
	}
	n := all[0]
	head := w.Say("runner.notice.one")
	if len(all) > 1 {
		head = w.Say("runner.notice.of", 1, len(all))
	}
	p := choosing(w, head, n.Alert, n.Answers)
	p.tell(look.BannerFace{Sentence: n.Thing, Hint: n.Face.Hint, Tone: n.Face.Tone})
	return p
}
