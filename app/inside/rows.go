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
	undo    mesh.Ref // what can be undone
	until   time.Time
	moved   bool      // it is a movement
	more    more      // what was asked for last, while one more of it is a tap away
	count   counting  // how many is being asked
	who     *mesh.Tag // whose breach it is, once somebody said
	locked  time.Time // until when touches are ignored
	fault   [2]string // sentence, hint
	group   int       // behind "other item": which group of the catalogue
	from    int       // its first item shown
	shelf   int       // which one is open
	digits  string    // what was typed
	using   using     // of which drug somebody says what became of it
	ways    bool      // there are other pages of the device
}

// page is what takes the place of the board.
type page int

const (
	pageBoard  page = iota
	pageOther       // other items
	pageSign        // the sign for the glass
	pageSmall       // on a phone: the second six tiles
	pageSay         // phrases, and the way to the pages below
	pagePeople      // calling a person
	pageBreach      // whose, then what
	pageTimes       // the scribe's times
	pageOut         // what comes out of the room
	pageShelf       // the items of a shelf
	pageDrugs       // the drugs inside
	pageEnd         // what became of one
	pageSeen        // who saw that
)

// Rows is everything that the board shows, decided and worded.
type Rows struct {
	Room     look.BigWordFace
	Link     look.TileFace   // in words, for where there is room; leads to what can be said
	LinkIn   look.BannerFace // in a word or two
	Say      look.TileFace   // leads there too
	More     look.TileFace   // one more of what was asked for last; Off: no more
	Urgency  [3]look.TileFace
	Other    look.TileFace
	Undo     look.TileFace
	Sets     []look.TileFace
	Tiles    []look.TileFace // all places of the board, in their order
	Strip    look.StripFace
	Now      look.BannerFace // what the strip says, for a phone held in the hand
	StripIn  look.StripFace  // for a small screen
	Open     look.TileFace   // opens the panel of what the strip shows
	Fault    [2]string
	First    mesh.Ref      // what the strip shows; zero: nothing is open
	Panel    *Panel        // nil: closed
	Page     *Page         // nil: none of the pages behind the board is open
	Called   look.TileFace // what was said inwards and nobody answered; Off: nothing
	CalledBy mesh.Ref      // that phrase
	Lock     look.LockFace // while touches are ignored; empty: they are not
	Drill    bool
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
	if s.Drill.Label != "" {
		r.Drill, r.Room = true, look.BigWordFace{Word: w.Say("inside.drill", r.Room.Word), Tone: look.ToneDrill}
	}
	long, short := link(w, s)
	r.Link, r.LinkIn = linkTile(w, s, long, short), short
	r.Say = look.TileFace{Word: w.Say("inside.say")}
	r.Say.Detail, _ = hindrance(w, s)
	for i, u := range urgencies() {
		r.Urgency[i] = look.TileFace{Word: w.Say("urgency." + words.UrgencyID(u)), Tone: tone(u)}
		r.Urgency[i].Chosen = u == h.urgency
	}
	r.Other = look.TileFace{Word: w.Say("inside.other")}
	if h.page != pageBoard && h.page != pageSmall {
		r.Other = look.TileFace{Word: w.Say("inside.back")}
	}
	r.Undo = look.TileFace{Word: w.Say("inside.undo"), Icon: look.IconUndo, Off: true}
	if !h.undo.IsZero() && now.Before(h.until) {
		r.Undo.Off = false
	}
	r.sets(w, s)
	for _, t := range board.Tiles {
		r.Tiles = append(r.Tiles, tile(w, s, t))
	}
	r.strip(w, board, s)
	r.oneMore(w, board, s, h, now)
	if h.page == pageBoard {
		r.Panel = panel(w, s, h)
	}
	r.Page = openPage(w, s, h, now)
	r.called(w, s)
	r.lock(w, h, now)
	return r
}

// sets words the rescue sets.
func (r *Rows) sets(w words.Words, s Snapshot) {
	for _, set := range s.Sets {
		face := look.TileFace{Word: w.Say("inside.set." + words.ID(set.Letter)), Tone: look.ToneRescue}
		if set.Letter != "arrest" {
			face.Detail = w.Say("inside.set.detail")
		}
		r.Sets = append(r.Sets, face)
	}
}

// tile is one place of the board. Its note is the state of what was asked there
// last; the tile itself never changes.
func tile(w words.Words, s Snapshot, t station.BoardTile) look.TileFace {
	face := look.TileFace{Number: fmt.Sprint(t.Place), Word: t.Word}
	i, known := s.item(t.Item)
	switch {
	case !known:
		face.Off = true
	case i.Drug == nil:
		face.Detail = words.FirstPart(words.Measured(i.Detail))
	default:
		face.Detail, face.Band = words.Measured(i.Detail), band(w.DrugClassShort(string(i.Drug.Class)), i)
		if strings.EqualFold(t.Word, i.Name) {
			face.Word = i.Name // in the unit's spelling
		}
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

// band is the colour of a drug's class, with its word.
func band(word string, i Item) look.Band {
	return look.Band{Word: word, Colour: i.Drug.Colour, Striped: i.Drug.Striped}
}

// noteOf is a state in the few letters that a tile has for it.
func noteOf(w words.Words, r Request) string {
	if r.Shown == requests.ShownAcknowledged && len(r.Going) == 1 && !r.Late {
		return w.Say("going.one", r.Going[0])
	}
	switch {
	case r.Unreached:
		return w.Say("tile.unreached")
	case r.Late && r.Shown != requests.ShownAtDoor:
		return w.Say("tile.late")
	case r.Out && r.Shown == requests.ShownTakenIn:
		return w.Say("tile.taken-out")
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
