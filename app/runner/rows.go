package runner

import (
	"strings"
	"time"

	"lintel/app/look"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Rows is the list, decided and worded.
type Rows struct {
	Link    look.BannerFace
	Voice   look.TileFace
	Passed  look.TileFace
	Entries []Entry
	Empty   look.BannerFace // what is said when there is none
}

// Entry is one request of the list.
type Entry struct {
	Ref     mesh.Ref
	Card    look.CardFace
	Door    look.BigWordFace // on a phone, over Tile
	Tile    look.TileFace    // on a phone, in place of the card
	Primary look.TileFace
	Does    pick
}

// rows decides the list.
func rows(w words.Words, s Snapshot, h hand) Rows {
	r := Rows{
		Link:   link(w, s),
		Voice:  look.TileFace{Word: w.Say("runner.voice")},
		Passed: look.TileFace{Word: w.Say("runner.passed")},
		Empty:  look.BannerFace{Sentence: w.Say("runner.nothing"), Hint: elsewhere(w, s)},
	}
	for _, x := range s.Requests {
		if !h.seen[x.Ref] {
			r.Entries = append(r.Entries, entry(w, s, x))
		}
	}
	return r
}

// link says which doors are in reach, and what is open at others.
func link(w words.Words, s Snapshot) look.BannerFace {
	var near, far []string
	for _, r := range s.Rooms {
		if r.InReach {
			near = append(near, string(r.ID))
		} else {
			far = append(far, string(r.ID))
		}
	}
	switch {
	case s.InMemory:
		return look.BannerFace{Icon: look.IconNotSaved, Sentence: w.Say("runner.memory"), Tone: look.ToneFault}
	case len(s.Rooms) == 0:
		return look.BannerFace{Icon: look.IconDoor, Sentence: w.Say("runner.no-room"), Hint: elsewhere(w, s)}
	case len(near) == 0:
		return look.BannerFace{Icon: look.IconLinkLost, Sentence: w.Say("runner.link.none", strings.Join(far, ", ")), Tone: look.ToneFault}
	}
	if len(far) > 0 {
		return look.BannerFace{Icon: look.IconLinkDoubtful, Sentence: w.Say("runner.link.some", strings.Join(far, ", ")), Hint: elsewhere(w, s), Tone: look.ToneNext}
	}
	return look.BannerFace{Icon: look.IconLinkUp, Sentence: w.Say("runner.link.up", strings.Join(near, ", ")), Hint: elsewhere(w, s)}
}

func elsewhere(w words.Words, s Snapshot) string {
	if s.Elsewhere == 0 {
		return ""
	}
	return w.Count("runner.elsewhere", s.Elsewhere)
}

func tone(r Request) look.Tone {
	switch {
	case r.Back || r.Shown == requests.ShownTakeBack:
		return look.ToneFault
	case r.Rescue:
		return look.ToneRescue
	case r.Urgency == requests.RightNow:
		return look.ToneNow
	case r.Urgency == requests.NextOpening:
		return look.ToneNext
	}
	return look.ToneBefore
}

func entry(w words.Words, s Snapshot, r Request) Entry {
	age := w.Ago(look.ClockText(time.Duration(s.Now-r.Since)*time.Millisecond), r.Least)
	detail := words.Measured(string(r.Thing.Strength))
	if r.Out {
		detail = joined(detail, w.Say("runner.out"))
	}
	said := shortState(w, r)
	if r.Urgency == requests.BeforeWeLeave && waiting(r) {
		age = "" // its word needs the room
	}
	e := Entry{Ref: r.Ref}
	count := w.Say("runner.count", int64(r.Thing.Count))
	e.Card = look.CardFace{
		Door: string(r.Room), Count: count, Word: r.Thing.Name, Detail: detail, Place: place(w, r), State: said, Age: age, Tone: tone(r),
	}
	e.Door = look.BigWordFace{Word: string(r.Room)}
	e.Tile = look.TileFace{Number: count, Word: r.Thing.Name, Detail: detail, Note: noteOf(w, r), Tone: tone(r)}
	e.Primary, e.Does = primary(w, r)
	if tone(r) == look.ToneFault {
		e.Door.Tone = look.ToneFault
		e.Card.State, e.Card.Place = w.Say("tile.withdrawn"), said
		e.Primary.Tone, e.Primary.Chosen = look.ToneFault, true
	}
	return e
}

// waiting tells whether nobody has done anything yet: then how soon it is
// needed is what has to be said.
func waiting(r Request) bool { return r.Shown == requests.ShownAsked && !r.Asked && !r.Back }

// shortState is how soon a request is needed while it waits, then how far it is.
func shortState(w words.Words, r Request) string {
	switch {
	case waiting(r):
		return w.Say("urgency." + words.UrgencyID(r.Urgency))
	case r.Shown == requests.ShownInHand:
		return w.Say("short." + words.LoopWord(r.Loop, r.Unlike))
	case r.Shown == requests.ShownCouldNot:
		return w.Say("tile.could-not")
	}
	said, _ := state(w, r)
	return said
}

// noteOf is shortState in the few letters that a phone's tile has for it.
func noteOf(w words.Words, r Request) string {
	switch {
	case r.Shown == requests.ShownTakeBack:
		return w.Say("runner.note.take-back")
	case r.Back:
		return w.Say("runner.note.put-back")
	case waiting(r):
		return w.Say("runner.note." + words.UrgencyID(r.Urgency))
	case r.Shown == requests.ShownAtDoor:
		return w.Say("runner.note.at-door")
	case r.Shown == requests.ShownInHand && r.Loop == requests.LoopClosed && r.Unlike:
		return w.Say("loop.agreed-unlike")
	case r.Shown == requests.ShownInHand && r.Loop == requests.LoopClosed:
		return w.Say("runner.note.closed")
	case r.Shown == requests.ShownAcknowledged:
		return w.Say("tile.acknowledged")
	}
	return shortState(w, r)
}

// place is where a thing is kept; of a set, what has to be brought besides.
func place(w words.Words, r Request) string {
	if !r.Rescue {
		return r.Kept
	}
	if len(r.Bring) == 0 {
		return w.Say("runner.set.inside", r.Kept)
	}
	return w.Say("runner.set.bring", r.Kept)
}

// state is how far it is, from where a runner stands.
func state(w words.Words, r Request) (string, look.Icon) {
	switch {
	case r.Shown == requests.ShownTakeBack:
		return w.Say("runner.take-back"), look.IconUrgent
	case r.Back:
		return w.Say("runner.put-back"), look.IconUrgent
	case r.Shown == requests.ShownAtDoor, r.Shown == requests.ShownTakenIn:
		return w.Say("shown." + words.ShownID(r.Shown)), look.IconDoor
	case r.Shown == requests.ShownInHand:
		return w.Say("loop." + words.LoopWord(r.Loop, r.Unlike)), look.IconHand
	case r.Asked:
		return w.Say("runner.offered"), look.IconClock
	case r.Shown == requests.ShownAcknowledged:
		return going(w, r), look.IconRunner
	case r.Origin == requests.AskedByVoice:
		return w.Say("origin.voice"), look.IconPerson
	}
	return w.Say("shown."+words.ShownID(r.Shown), w.Say("going.tag")), look.IconNone
}

func going(w words.Words, r Request) string {
	var tags []string
	for _, tag := range r.Going {
		if tag != "" {
			tags = append(tags, tag)
		}
	}
	switch len(tags) {
	case 0:
		return w.Say("step.acknowledged")
	case 1:
		return w.Say("going.one", tags[0])
	}
	return w.Say("runner.going-many", strings.Join(tags, ", "))
}

// primary is the act that comes next, or the way to see it all.
func primary(w words.Words, r Request) (look.TileFace, pick) {
	for _, a := range []requests.Act{requests.ActTakeBack, requests.ActTakeInSeen, requests.ActTakeIn, requests.ActPutAtDoor, requests.ActReadBack, requests.ActAcknowledge} {
		if !r.can(a) || a == requests.ActReadBack && !r.Mine || a == requests.ActTakeBack && r.Shown != requests.ShownTakeBack {
			continue
		}
		return actFace(w, a), pick{what: picksAct, act: a, ref: r.Ref}
	}
	if r.Back {
		return look.TileFace{Word: w.Say("runner.seen")}, pick{what: picksSeen, ref: r.Ref}
	}
	return look.TileFace{Word: w.Say("runner.open")}, pick{what: picksOpen, ref: r.Ref}
}

func actFace(w words.Words, a requests.Act) look.TileFace {
	icons := map[requests.Act]look.Icon{
		requests.ActAcknowledge: look.IconRunner, requests.ActReadBack: look.IconHand, requests.ActPutAtDoor: look.IconDoor,
	}
	return look.TileFace{Word: w.Say("runner.act." + words.ActID(a)), Icon: icons[a]}
}
