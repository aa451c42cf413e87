package runner

import (
	"slices"
	"strings"
	"time"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Rows is the list, decided and worded.
type Rows struct {
	Line    look.BannerFace // over everything; empty: nothing to say
	Doors   []DoorRow       // in the order of the list
	Entries []Entry         // those of a door together
	Notices []NoticeRow     // the gravest first
	Voice   look.TileFace
	Passed  look.TileFace
	Silence look.TileFace
	Empty   look.BannerFace // what is said when there is no request
	Away    look.BannerFace // what is open at other doors
}

// Entry is one request of the list.
type Entry struct {
	Ref     mesh.Ref
	Door    int                // index into Doors
	Card    look.CardFace      // without the door, which stands over it
	Tile    look.TileFace      // on a phone
	Short   look.TileFace      // where there is room for three rows
	Lines   Lines              // under the tile of a phone: what is usual, where it is kept
	Drug    look.DrugLabelFace // of a drug, in place of card or tile where there is room
	Brief   Lines              // beside the label: how far it is, where it is kept
	Word    look.BigWordFace   // on a phone: the door
	Primary look.TileFace
	Does    pick
}

// Lines is a sentence with where a thing is kept after it.
type Lines look.BannerFace

// within is as much of it as fits into some rows of a width in mm: of a place its
// first part, then nothing.
func (l Lines) within(width float32, rows int) look.BannerFace {
	if l.Sentence != "" {
		rows -= rowsOf(l.Sentence, width)
	}
	face := look.BannerFace(l)
	if rowsOf(face.Hint, width) > rows {
		face.Hint = words.FirstPart(face.Hint)
	}
	if rowsOf(face.Hint, width) > rows {
		face.Hint = ""
	}
	return face
}

// rows decides the list.
func rows(w words.Words, s Snapshot, h hand) Rows {
	r := Rows{
		Line:    lineOf(w, s, h),
		Voice:   look.TileFace{Word: w.Say("runner.voice")},
		Passed:  look.TileFace{Word: w.Say("runner.passed")},
		Silence: silenceFace(w, h),
		Empty:   look.BannerFace{Sentence: w.Say("runner.nothing")},
		Notices: noticeRows(w, s, h),
	}
	if s.Elsewhere > 0 {
		r.Empty.Hint = elsewhere(w, s)
		r.Away = look.BannerFace{Sentence: elsewhere(w, s)}
	}
	for _, x := range s.Requests {
		e := entry(w, s, x)
		e.Door = r.door(w, s, x.Room)
		e.Word = r.Doors[e.Door].Word
		if tone(x) == look.ToneFault {
			e.Word.Tone = look.ToneFault
		}
		r.Entries = append(r.Entries, e)
	}
	for _, room := range s.Rooms {
		r.door(w, s, room.ID)
	}
	return r
}

// door is the place of a door among those of the list, which has it at the end
// when it was not there.
func (r *Rows) door(w words.Words, s Snapshot, id mesh.ID) int {
	if i := slices.IndexFunc(r.Doors, func(d DoorRow) bool { return d.Room == id }); i >= 0 {
		return i
	}
	r.Doors = append(r.Doors, doorRow(w, s, s.room(id)))
	return len(r.Doors) - 1
}

func (s Snapshot) room(id mesh.ID) Room {
	if i := slices.IndexFunc(s.Rooms, func(r Room) bool { return r.ID == id }); i >= 0 {
		return s.Rooms[i]
	}
	return Room{ID: id}
}

// lineOf is what stands over every page: an exercise, a disk that failed, a
// silence with what is left of it. Nothing of it can be turned away.
func lineOf(w words.Words, s Snapshot, h hand) look.BannerFace {
	var said []string
	face := look.BannerFace{}
	if left := h.silence(); left > 0 {
		said = append(said, w.Say("runner.silent", look.ClockText(left)))
		face = look.BannerFace{Icon: look.IconSoundOff, Tone: look.ToneNext}
	}
	var drills []string
	for _, r := range s.Rooms {
		if r.Drill != "" {
			drills = append(drills, string(r.ID))
		}
	}
	if len(drills) > 0 {
		said = append([]string{w.Say("runner.drill", strings.Join(drills, ", "))}, said...)
		face = look.BannerFace{Icon: look.IconUrgent, Tone: look.ToneDrill}
	}
	if s.InMemory {
		said = append([]string{w.Say("runner.memory")}, said...)
		face = look.BannerFace{Icon: look.IconNotSaved, Tone: look.ToneFault}
	}
	if len(said) == 0 && len(s.Rooms) == 0 {
		return look.BannerFace{Icon: look.IconDoor, Sentence: w.Say("runner.no-room")}
	}
	face.Sentence = strings.Join(said, " · ")
	return face
}

func elsewhere(w words.Words, s Snapshot) string {
	if s.Elsewhere == 0 {
		return ""
	}
	return w.Count("runner.elsewhere", s.Elsewhere)
}

// silenceFace is the tile that silences the calls, or ends that.
func silenceFace(w words.Words, h hand) look.TileFace {
	if h.silence() > 0 {
		return look.TileFace{Word: w.Say("runner.sound-on")}
	}
	return look.TileFace{Word: w.Say("runner.silence"), Icon: look.IconSoundOff}
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
	clock := look.ClockText(time.Duration(s.Now-r.Since) * time.Millisecond)
	age := w.Ago(clock, r.Least)
	detail := words.Measured(string(r.Thing.Strength))
	if r.Out {
		detail = joined(detail, w.Say("runner.out"))
	}
	said := shortState(w, r)
	if waiting(r) && (r.Urgency == requests.BeforeWeLeave || r.Level > requests.LevelFirst) {
		age = clock // its words need the room
	}
	e := Entry{Ref: r.Ref}
	count := w.Say("runner.count", int64(r.Thing.Count))
	e.Drug = labelFace(w, r.Thing.Drug, count)
	e.Card = look.CardFace{Count: count, Word: r.Thing.Name, Detail: detail, Place: place(w, r), State: said, Age: age, Tone: tone(r)}
	e.Tile = look.TileFace{Number: count, Word: r.Thing.Name, Detail: detail, Note: noteOf(w, r, clock), Tone: tone(r)}
	e.Short = short(e.Tile, noteOf(w, r, ""), r.Thing.Drug.Is)
	e.Lines = Lines{Hint: place(w, r)}
	if r.Late {
		e.Card.State = w.Say("runner.usually", look.ClockText(r.Usual))
		e.Lines.Sentence = e.Card.State
	}
	e.Brief = Lines{Sentence: e.Tile.Note, Hint: place(w, r)}
	if r.Late {
		e.Brief.Sentence = w.Say("runner.notice.usually", clock, look.ClockText(r.Usual))
	}
	e.Brief.Sentence = joined(e.Brief.Sentence, first(warnings(w, r.Thing.Drug.Drug)))
	if waiting(r) || tone(r) == look.ToneFault {
		e.Brief.Tone = tone(r)
	}
	e.Primary, e.Does = primary(w, r)
	if tone(r) == look.ToneFault {
		e.Card.State, e.Card.Place = w.Say("tile.withdrawn"), said
		e.Primary.Tone, e.Primary.Chosen = look.ToneFault, true
	}
	return e
}

// shortText is the room for words on a short tile, in mm.
const shortText = cardWide - actWide - gap - tileEdges

// short is a tile's face in three rows: a long name takes two of them, and its
// size stands beside the count. bare is its note without an age.
func short(f look.TileFace, bare string, drug bool) look.TileFace {
	f.Word, f.Detail = words.ShortName(f.Word, drug), words.FirstPart(f.Detail)
	if rowsOf(f.Word, shortText) == 1 {
		return f
	}
	f.Number, f.Detail = strings.TrimSpace(f.Number+" "+f.Detail), ""
	if wide(f.Number+" "+f.Note) > shortText {
		f.Note = bare
	}
	return f
}

// waiting tells whether nobody has done anything yet: then how soon it is
// needed is what has to be said.
func waiting(r Request) bool { return r.Shown == requests.ShownAsked && !r.Asked && !r.Back }

// shortState is how soon a request is needed while it waits, then how far it is.
func shortState(w words.Words, r Request) string {
	switch {
	case waiting(r) && r.Level >= requests.LevelEverybody:
		return w.Say("runner.level.everybody", w.Say("runner.note."+words.UrgencyID(r.Urgency)))
	case waiting(r) && r.Level == requests.LevelAgain:
		return w.Say("runner.level.again", w.Say("runner.note."+words.UrgencyID(r.Urgency)))
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
func noteOf(w words.Words, r Request, clock string) string {
	switch {
	case r.Shown == requests.ShownTakeBack:
		return w.Say("runner.note.take-back")
	case r.Back:
		return w.Say("runner.note.put-back")
	case waiting(r) && r.Urgency == requests.BeforeWeLeave:
		return w.Say("runner.note.before")
	case waiting(r):
		return strings.TrimSpace(w.Say("runner.note."+words.UrgencyID(r.Urgency)) + " " + clock)
	case r.Shown == requests.ShownAtDoor:
		return w.Say("runner.note.at-door")
	case r.Shown == requests.ShownInHand && r.Loop == requests.LoopClosed && r.Unlike:
		return w.Say("loop.agreed-unlike")
	case r.Shown == requests.ShownInHand && r.Loop == requests.LoopClosed:
		return w.Say("runner.note.closed")
	case r.Shown == requests.ShownAcknowledged && len(r.Going) > 1:
		return w.Say("runner.note.both")
	case r.Shown == requests.ShownAcknowledged:
		return strings.TrimSpace(w.Say("tile.acknowledged") + " " + clock)
	}
	return shortState(w, r)
}

// place is where a thing is kept; of a set, what has to be brought besides. An
// exercise may say otherwise.
func place(w words.Words, r Request) string {
	if r.Inject != "" {
		return w.Say("runner.inject", r.Inject)
	}
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
	case r.Out && r.Shown == requests.ShownAtDoor:
		return w.Say("runner.out-at-door"), look.IconDoor
	case r.Out && r.Shown == requests.ShownTakenIn:
		return w.Say("runner.out-taken"), look.IconDoor
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

// going says who is going. Two who went know of each other at once by it.
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
	case 2:
		return w.Say("runner.both-went", tags[0], tags[1])
	}
	return w.Say("runner.going-many", strings.Join(tags, ", "))
}

// primary is the act that comes next, or the way to see it all.
func primary(w words.Words, r Request) (look.TileFace, pick) {
	for _, a := range []requests.Act{requests.ActTakeBack, requests.ActTakeInSeen, requests.ActTakeIn, requests.ActPutAtDoor, requests.ActReadBack, requests.ActAcknowledge} {
		if !r.can(a) || a == requests.ActReadBack && !r.Mine || a == requests.ActTakeBack && r.Shown != requests.ShownTakeBack {
			continue
		}
		return actFace(w, r, a), pick{what: picksAct, act: a, ref: r.Ref}
	}
	if r.Back {
		return look.TileFace{Word: w.Say("runner.seen")}, putBack(w, r)
	}
	return look.TileFace{Word: w.Say("runner.open")}, pick{what: picksOpen, ref: r.Ref}
}

// putBack says that what was withdrawn is where it was kept: this device could
// not bring it, and that ends its call.
func putBack(w words.Words, r Request) pick {
	return doing(station.CouldNot{Request: r.Ref, Why: mesh.Label(w.Say("runner.was-put-back"))})
}

// actFace says an act; of what comes out, in words of the other direction.
func actFace(w words.Words, r Request, a requests.Act) look.TileFace {
	icons := map[requests.Act]look.Icon{
		requests.ActAcknowledge: look.IconRunner, requests.ActReadBack: look.IconHand, requests.ActPutAtDoor: look.IconDoor,
	}
	id := words.ID("runner.act.") + words.ActID(a)
	if r.Out && a == requests.ActTakeIn {
		id = "runner.act.take-out"
	}
	return look.TileFace{Word: w.Say(id), Icon: icons[a]}
}
