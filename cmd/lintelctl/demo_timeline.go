package main

import (
	"fmt"
	"strings"
	"time"

	"lintel/app/device"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// moment is one line of the timeline.
type moment struct {
	ref       mesh.Ref
	at        mesh.Wall
	who, said string
}

// timeline words marks one after another, in turn. The loop that made it owns it.
type timeline struct {
	w      words.Words
	v      station.View
	wanted map[mesh.Ref]requests.Thing   // by request: what was wanted when the mark was made, not what is in the end
	stated map[mesh.Ref][]requests.Thing // by mark: what was read back or offered
}

func newTimeline(w words.Words, v station.View) *timeline {
	return &timeline{w: w, v: v, wanted: map[mesh.Ref]requests.Thing{}, stated: map[mesh.Ref][]requests.Thing{}}
}

// printTimeline lists what people recorded in each case, by the time it
// happened on the common clock.
func (d *demo) printTimeline(l device.Log) {
	v := l.Reading.View
	fmt.Fprintf(d.out, "\n%s\n", d.w.Say("demo.timeline"))
	for _, c := range v.Board.Cases() {
		all := timelineOf(d.w, v, c)
		for _, e := range all {
			after := time.Duration(e.At-all[0].At) * time.Millisecond
			said := e.Text
			if e.Late {
				said += d.w.Say("device.and") + d.w.Say("fact.late")
			}
			fmt.Fprintf(d.out, "  +%6.1f s ± %4d ms  %-14s %s\n", after.Seconds(), e.Within, strings.TrimSpace(fmt.Sprintf("%s %s", e.Tag, e.Role)), said)
		}
	}
}

// moments are the marks in one entry.
func (t *timeline) moments(x *mesh.Entry) (out []moment) {
	var by mesh.By
	at := x.Wall
	for i, p := range x.Parts {
		if p.Kind == mesh.KindBy && mesh.Decode(p.Body, &by) == nil && by.Happened != 0 {
			at = by.Happened
		}
		fresh, ours := requests.Kinds()[p.Kind]
		if !ours {
			continue
		}
		body := fresh()
		if mesh.Decode(p.Body, body) != nil {
			continue
		}
		if said := t.say(x.Ref(i), body, by.Way); said != "" {
			out = append(out, moment{ref: x.Ref(i), at: at, who: fmt.Sprintf("%s %s", by.Tag, by.Role), said: said})
		}
	}
	return out
}

// say words a mark; nothing for what is no mark.
func (t *timeline) say(mark mesh.Ref, body any, way mesh.Way) string {
	if j, is := body.(*requests.Joined); is {
		return t.w.Say("mark.joined", requests.Code(j.One), requests.Code(j.Other))
	}
	asked, known := t.v.Board.RequestOf(mark)
	if !known {
		return ""
	}
	said := t.sayMark(asked, body, way)
	if _, held := body.(*requests.InHand); held && mark.Sibling(0) == asked.Sibling(0) {
		said = "" // stated with passing it in unasked: it was read back to nobody
	}
	t.note(asked, mark, body)
	return said
}

// note remembers what later marks are about.
func (t *timeline) note(asked, mark mesh.Ref, body any) {
	switch b := body.(type) {
	case *requests.Asked:
		t.wanted[asked] = b.Thing
	case *requests.Changed:
		t.wanted[asked] = b.Thing
	case *requests.InHand:
		t.stated[mark] = []requests.Thing{b.Thing}
	case *requests.Offered:
		t.stated[mark] = b.Things
	case *requests.Agreed:
		if all := t.stated[b.Names]; b.Which > 0 && int(b.Which) <= len(all) {
			t.wanted[asked] = all[b.Which-1]
		}
	}
}

// sayMark words what somebody did about a request, with how they knew.
func (t *timeline) sayMark(asked mesh.Ref, body any, way mesh.Way) string {
	subject := requests.Code(asked) + " " + nameOf(t.v.Ledger, t.wanted[asked].Item)
	switch b := body.(type) {
	case *requests.Asked:
		return t.sayAsked(asked, b)
	case *requests.TakenIn:
		if way == mesh.WayGlass {
			return t.w.Say("mark.taken-seen", subject, b.Count)
		}
	}
	said := t.sayAnswer(subject, body)
	if way != mesh.WaySelf {
		said = t.w.Say("mark.way", said, t.w.Say("way."+words.WayID(way)))
	}
	return said
}

func (t *timeline) sayAsked(asked mesh.Ref, b *requests.Asked) string {
	id := words.ID("mark.asked")
	switch b.Origin {
	case requests.AskedByVoice:
		id = "mark.voice"
		if b.Tag == "" {
			id = "mark.voice-nobody"
		}
	case requests.PassedIn:
		id = "mark.passed"
	}
	return requests.Code(asked) + " " + t.w.Say(id, t.name(b.Thing), t.w.Say("urgency."+words.UrgencyID(b.Urgency)), b.Tag)
}

// sayAnswer words everything that follows on an Asked.
func (t *timeline) sayAnswer(subject string, body any) string {
	switch b := body.(type) {
	case *requests.Changed:
		return t.w.Say("mark.changed", t.name(b.Thing), t.w.Say("urgency."+words.UrgencyID(b.Urgency)), subject)
	case *requests.Offered:
		return t.w.Say("mark.offered", subject, t.names(b.Things))
	case *requests.Agreed:
		return t.w.Say("mark.agreed", subject, t.answered(b.Names, b.Which))
	case *requests.Refused:
		return t.w.Say("mark.refused", subject, t.answered(b.Names, b.Which), t.why(b.Why))
	case *requests.InHand:
		return t.w.Say("mark.in-hand", subject, t.name(b.Thing))
	case *requests.TakenIn:
		return t.w.Say("mark.taken-in", subject, b.Count)
	case *requests.CouldNot:
		return t.w.Say("mark.could-not", subject, t.why(b.Why))
	case *requests.PassedOn:
		return t.w.Say("mark.passed-on", subject, b.To)
	}
	id, why := plainMark(body)
	return t.w.Say(id, subject, t.why(why))
}

// answered is what an answer is about: the alternative, else the read-back or
// all that was offered.
func (t *timeline) answered(mark mesh.Ref, which uint8) string {
	all := t.stated[mark]
	if which > 0 && int(which) <= len(all) {
		return t.w.Say("mark.alternative", which, t.name(all[which-1]))
	}
	return t.names(all)
}

func (t *timeline) name(thing requests.Thing) string { return shownThing(t.v, thing).say(t.w) }

func (t *timeline) names(all []requests.Thing) string {
	said := make([]string, len(all))
	for i, thing := range all {
		said[i] = t.name(thing)
	}
	return strings.Join(said, " / ")
}

func (t *timeline) why(why mesh.Label) string {
	if why == "" {
		return ""
	}
	return t.w.Say("mark.why", why)
}

// plainMark is the sentence of a mark that says nothing but what it is about
// and, perhaps, why.
func plainMark(body any) (id words.ID, why mesh.Label) {
	switch b := body.(type) {
	case *requests.Acknowledged:
		return "mark.acknowledged", ""
	case *requests.AtDoor:
		return "mark.at-door", ""
	case *requests.TakenBack:
		return "mark.taken-back", b.Why
	case *requests.Withdrawn:
		return "mark.withdrawn", b.Why
	case *requests.Undone:
		return "mark.undone", b.Why
	}
	return "mark.other", ""
}
