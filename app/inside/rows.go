package inside

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// hand is what the person at this device is doing. The UI goroutine owns it.
type hand struct {
	urgency requests.Urgency
	page    page
	open    mesh.Ref // the request whose panel is open; zero: none
	lies    mesh.ID  // the rescue set that was tapped last, while it says where it lies
	asked   mesh.Ref // what can be undone
	until   time.Time
	fault   [2]string // sentence, hint
	group   int       // behind "other item": which group of the catalogue
	from    int       // its first item shown
	digits  string    // what was typed
}

// page is what takes the place of the board.
type page int

const (
	pageBoard page = iota
	pageOther      // other items
	pageSign       // the sign for the glass
	pageSmall      // on a phone: the second six tiles
)

// UndoFor is how long a tap can be undone on the board.
const UndoFor = 5 * time.Second

// Rows is everything that the board shows, decided and worded.
type Rows struct {
	Room    look.BigWordFace
	Link    look.BannerFace // in words, for where there is room
	LinkIn  look.BannerFace // in a word or two
	Urgency [3]look.TileFace
	Other   look.TileFace
	Undo    look.TileFace
	Sets    []look.TileFace
	Tiles   []look.TileFace // all places of the board, in their order
	Strip   look.StripFace
	StripIn look.StripFace // for a small screen
	Open    look.TileFace  // opens the panel of what the strip shows
	Fault   [2]string
	First   mesh.Ref // what the strip shows; zero: nothing is open
	Panel   *Panel   // nil: closed
}

// urgencies is the order in which they always stand.
func urgencies() [3]requests.Urgency {
	return [3]requests.Urgency{requests.RightNow, requests.NextOpening, requests.BeforeWeLeave}
}

func tone(u requests.Urgency) look.Tone {
	switch u {
	case requests.RightNow:
		return look.ToneNow
	case requests.NextOpening:
		return look.ToneNext
	}
	return look.ToneBefore
}

// rows decides what is shown.
func rows(w words.Words, board station.BoardLayout, s Snapshot, h hand, now time.Time) Rows {
	r := Rows{Room: look.BigWordFace{Word: s.RoomName}, Fault: h.fault}
	if s.Room == "" {
		r.Room.Word = w.Say("inside.no-room")
	}
	r.Link, r.LinkIn = link(w, s)
	for i, u := range urgencies() {
		r.Urgency[i] = look.TileFace{Word: w.Say("urgency." + words.UrgencyID(u)), Tone: tone(u)}
		r.Urgency[i].Chosen = u == h.urgency
	}
	r.Other = look.TileFace{Word: w.Say("inside.other")}
	if h.page == pageOther {
		r.Other = look.TileFace{Word: w.Say("inside.back")}
	}
	r.Undo = look.TileFace{Word: w.Say("inside.undo"), Icon: look.IconUndo, Off: true}
	if !h.asked.IsZero() && now.Before(h.until) {
		r.Undo.Off = false
	}
	for _, set := range s.Sets {
		face := look.TileFace{Word: w.Say("inside.set." + words.ID(set.Letter)), Tone: look.ToneRescue}
		if set.Letter != "arrest" {
			face.Detail = w.Say("inside.set.detail")
		}
		r.Sets = append(r.Sets, face)
	}
	for _, t := range board.Tiles {
		r.Tiles = append(r.Tiles, tile(w, s, t))
	}
	r.strip(w, board, s)
	if h.page == pageBoard {
		r.Panel = panel(w, s, h)
	}
	return r
}

// tile is one place of the board. Its note is the state of what was asked there
// last; the tile itself never changes.
func tile(w words.Words, s Snapshot, t station.BoardTile) look.TileFace {
	face := look.TileFace{Number: fmt.Sprint(t.Place), Word: t.Word}
	if i, known := s.item(t.Item); known {
		face.Detail = words.Measured(i.Detail)
	} else {
		face.Off = true
	}
	var last *Request
	for i, r := range s.Requests {
		if r.Thing.Item == t.Item && (last == nil || last.order.Compare(r.order) < 0) {
			last = &s.Requests[i]
		}
	}
	if last != nil {
		face.Note = noteOf(w, *last)
	}
	return face
}

// noteOf is a state in the few letters that a tile has for it.
func noteOf(w words.Words, r Request) string {
	if r.Shown == requests.ShownAcknowledged && len(r.Going) == 1 {
		return w.Say("going.one", r.Going[0])
	}
	return w.Say("tile." + words.ShownID(r.Shown))
}

// wordOn is what stands on the board for an item; empty: it has no place there.
func wordOn(board station.BoardLayout, n mesh.Number) string {
	for _, t := range board.Tiles {
		if t.Item == n {
			return t.Word
		}
	}
	return ""
}

func (s Snapshot) item(n mesh.Number) (Item, bool) {
	i, found := slices.BinarySearchFunc(s.Items, n, func(i Item, n mesh.Number) int { return cmp.Compare(i.Number, n) })
	if !found {
		return Item{}, false
	}
	return s.Items[i], true
}

func (s Snapshot) request(ref mesh.Ref) (Request, bool) {
	for _, r := range s.Requests {
		if r.Ref == ref {
			return r, true
		}
	}
	return Request{}, false
}

// link says which runners are in reach, in a sentence and in short.
func link(w words.Words, s Snapshot) (long, short look.BannerFace) {
	var near, doubtful []string
	for _, r := range s.Runners {
		tag := cmp.Or(string(r.Tag), w.Say("inside.runner"))
		switch r.Health {
		case mesh.Connected:
			near = append(near, tag)
		case mesh.Doubtful:
			doubtful = append(doubtful, tag)
		}
	}
	switch {
	case len(near) > 0:
		who := strings.Join(near, ", ")
		return look.BannerFace{Icon: look.IconLinkUp, Sentence: w.Say("inside.link.up", who)}, look.BannerFace{Icon: look.IconLinkUp, Sentence: who}
	case len(doubtful) > 0:
		who := strings.Join(doubtful, ", ")
		return look.BannerFace{Icon: look.IconLinkDoubtful, Sentence: w.Say("inside.link.doubtful", who), Tone: look.ToneNext},
			look.BannerFace{Icon: look.IconLinkDoubtful, Sentence: w.Say("inside.link.doubtful-short", who), Tone: look.ToneNext}
	}
	return look.BannerFace{Icon: look.IconLinkLost, Sentence: w.Say("inside.link.none"), Tone: look.ToneFault},
		look.BannerFace{Icon: look.IconLinkLost, Sentence: w.Say("inside.link.none-short"), Tone: look.ToneFault}
}

// inReach tells whether a runner's device is connected.
func (s Snapshot) inReach() bool {
	return slices.ContainsFunc(s.Runners, func(r Runner) bool { return r.Health == mesh.Connected || r.Health == mesh.Doubtful })
}

// ordered lists the open requests: those that wait for somebody inside, then
// those that changed last.
func (s Snapshot) ordered() []Request {
	out := slices.Clone(s.Requests)
	slices.SortStableFunc(out, func(a, b Request) int {
		return cmp.Or(cmp.Compare(waits(b), waits(a)), cmp.Compare(b.Since, a.Since), a.order.Compare(b.order))
	})
	return out
}

// waits tells how much a request waits for somebody inside.
func waits(r Request) int {
	switch {
	case r.can(requests.ActAgree):
		return 2
	case r.can(requests.ActTakeIn):
		return 1
	}
	return 0
}

func (r Request) can(a requests.Act) bool { return slices.Contains(r.Acts, a) }

// strip fills the strip with the first of the open requests.
func (r *Rows) strip(w words.Words, board station.BoardLayout, s Snapshot) {
	all := s.ordered()
	if len(all) == 0 {
		r.Strip = look.StripFace{Word: w.Say("inside.nothing-open")}
		if s.Room == "" {
			r.Strip.Word = w.Say("inside.say-room")
		}
		r.StripIn = look.StripFace{State: w.Say("short.nothing-open")}
		r.Open = look.TileFace{Word: w.Say("inside.open"), Off: true}
		return
	}
	first := all[0]
	state, icon, t := state(w, first)
	item, _ := s.item(first.Thing.Item)
	name := words.ShortName(first.Thing.Name, item.Drug)
	r.First = first.Ref
	r.Strip = look.StripFace{
		Word:  w.Thing(int64(first.Thing.Count), name, words.FirstPart(words.Measured(string(first.Thing.Strength)))),
		State: state, Icon: icon, Tone: t, Age: age(w, s, first),
	}
	r.Open = look.TileFace{Word: w.Say("inside.open"), Detail: w.Say("inside.open-of", 1, len(all))}
	switch {
	case !s.inReach():
		r.Open.Word, r.Open.Icon = w.Say("inside.sign"), look.IconGlassSign
	case first.can(requests.ActAgree):
		r.Open.Word = w.Say("inside.answer")
	}
	short := wordOn(board, first.Thing.Item)
	if short == "" {
		short = name
	}
	r.StripIn = look.StripFace{Word: short, State: shortState(w, first), Tone: t}
}

// shortState is a state for the strip of a small screen, of which it shows no
// more than a word or two.
func shortState(w words.Words, r Request) string {
	switch {
	case r.Shown == requests.ShownInHand:
		return w.Say("short." + words.LoopWord(r.Loop, r.Unlike))
	case r.Shown == requests.ShownCouldNot, r.Shown == requests.ShownTakeBack:
		return w.Say("tile." + words.ShownID(r.Shown))
	case len(r.Offer) > 0:
		return w.Say("short.offer")
	case r.Shown == requests.ShownAsked && r.Own && r.Reach.Delivery() == words.NotSaved:
		return w.Say("short.not-saved")
	case r.Shown == requests.ShownAsked && r.Own && r.Reach.Delivery() == words.OnRunner:
		return w.Say("short.runner")
	}
	said, _, _ := state(w, r)
	return said
}

func age(w words.Words, s Snapshot, r Request) string {
	return w.Ago(look.ClockText(time.Duration(s.Now-r.Since)*time.Millisecond), r.Least)
}

// state is the honest state of a request in a word or two, with how it is
// drawn. Of what is known of its way here only the furthest is said, never more.
func state(w words.Words, r Request) (string, look.Icon, look.Tone) {
	t := tone(r.Urgency)
	switch {
	case r.Shown == requests.ShownTakeBack:
		return w.Say("strip.take-back"), look.IconWithdraw, t
	case r.Shown == requests.ShownAtDoor:
		return w.Say("shown.at-door"), look.IconDoor, t
	case r.Shown == requests.ShownTakenIn:
		return w.Say("shown.taken-in"), look.IconDoor, t
	case r.Shown == requests.ShownInHand:
		return w.Say("loop." + words.LoopWord(r.Loop, r.Unlike)), loopIcon(r), t
	case len(r.Offer) > 0:
		return w.Say("strip.offer"), look.IconHand, t
	case r.Shown == requests.ShownAcknowledged:
		return going(w, r), look.IconRunner, t
	case r.Shown == requests.ShownCouldNot:
		return w.Say("shown.could-not"), look.IconUrgent, t
	}
	if !r.Own {
		return w.Say("shown.asked"), look.IconNone, t
	}
	switch r.Reach.Delivery() {
	case words.NotSaved:
		return w.Count("strip.not-saved", r.Reach.Copies), look.IconNotSaved, look.ToneFault
	case words.OnRunner:
		return w.Say("step.runner"), look.IconCopies, t
	case words.Copies:
		return w.Count("step.copies", r.Reach.Copies), look.IconCopies, t
	}
	return w.Say("step.saved"), look.IconSaved, t
}

func loopIcon(r Request) look.Icon {
	if r.Loop == requests.LoopClosed && !r.Unlike {
		return look.IconLoop
	}
	return look.IconHand
}

func going(w words.Words, r Request) string {
	switch tags := slices.DeleteFunc(slices.Clone(r.Going), func(t string) bool { return t == "" }); {
	case len(tags) == 1:
		return w.Say("going.one", tags[0])
	case len(tags) > 1:
		return w.Say("going.many", strings.Join(tags, ", "))
	}
	return w.Say("going.one", w.Say("going.tag"))
}
