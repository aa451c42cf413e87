package inside

import (
	"time"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Page takes the place of the board: choices, ways to other pages, and what is
// known already. Empty parts take no room.
type Page struct {
	Tell    look.BannerFace
	Clock   *look.BigClockFace // that runs
	Choices []Choice
	Ways    []Choice          // to other pages, below
	Log     []look.BannerFace // newest first, beside
	Real    *Choice           // ends an exercise: far from everything else
	First   int               // so many of Ways come first where all stand in one list
	Tight   bool              // many narrow keys on one page
}

// Choice is one tile with what it means.
type Choice struct {
	Face look.TileFace
	Pick pick
}

// picks is what a choice does.
type picks int

const (
	picksPage picks = iota
	picksPhrase
	picksPerson
	picksWho
	picksBreach
	picksTime
	picksItem
	picksLock
	picksReal
	picksGroup
	picksOut
	picksWays
	picksDrug
	picksKey
	picksUnit
	picksPageKept // what was typed stays
	picksSeen
	picksEnd
)

// pick is one choice, as data.
type pick struct {
	does picks
	page page
	id   mesh.ID
	item mesh.Number
	tag  mesh.Tag
	nth  int
	mark mesh.Ref // a syringe
}

// openPage is the page that is open; nil: the board, or a page of its own kind.
func openPage(w words.Words, s Snapshot, h hand, now time.Time) *Page {
	switch h.page {
	case pageSay:
		return sayPage(w, s, h.ways)
	case pagePeople:
		return itemsPage(w, s, func(i Item) bool { return i.Person }, picksPerson)
	case pageOut:
		return itemsPage(w, s, func(i Item) bool { return i.Out }, picksOut)
	case pageBreach:
		return breachPage(w, s, h)
	case pageTimes:
		return timesPage(w, s, now)
	case pageDrugs:
		return drugsPage(w, s)
	case pageEnd:
		return endPage(w, s, h)
	case pageSeen:
		return seenPage(w, s)
	}
	return nil
}

// flat are all choices in one list, for screens without room for two.
func (p *Page) flat() (out []Choice) {
	out = append(out, p.Ways[:min(p.First, len(p.Ways))]...)
	out = append(out, p.Choices...)
	return append(out, p.Ways[len(out)-len(p.Choices):]...)
}

// itemsPage lists the items of one sort; a tap asks for one.
func itemsPage(w words.Words, s Snapshot, is func(Item) bool, does picks) *Page {
	p := &Page{}
	for _, i := range s.Items {
		if !is(i) {
			continue
		}
		face := look.TileFace{Word: i.Name, Detail: words.Measured(i.Detail)}
		for _, r := range s.Requests {
			if r.Thing.Item == i.Number {
				face.Note = noteOf(w, r)
			}
		}
		p.Choices = append(p.Choices, Choice{face, pick{does: does, item: i.Number}})
	}
	return p
}

// breachPage asks whose protective equipment failed, then how.
func breachPage(w words.Words, s Snapshot, h hand) *Page {
	p := &Page{Tell: look.BannerFace{Icon: look.IconPerson, Sentence: w.Say("inside.who")}}
	if h.who == nil {
		for _, t := range s.Tags {
			p.Choices = append(p.Choices, Choice{look.TileFace{Word: string(t), Icon: look.IconPerson}, pick{does: picksWho, tag: t}})
		}
		p.Choices = append(p.Choices, Choice{look.TileFace{Word: w.Say("inside.no-tag"), Icon: look.IconPerson}, pick{does: picksWho}})
		return p
	}
	who := string(*h.who)
	if who == "" {
		who = w.Say("inside.no-tag")
	}
	p.Tell.Sentence = w.Say("inside.what-of", who)
	for _, b := range s.Breaches {
		p.Choices = append(p.Choices, Choice{look.TileFace{Word: b.Words}, pick{does: picksBreach, id: b.ID}})
	}
	return p
}

// pickNth carries out the choice on a tile of the page.
func (s *Screen) pickNth(all []Choice, n int) {
	if n >= 0 && n < len(all) {
		s.pick(all[n].Pick)
	}
}

func (s *Screen) pick(p pick) {
	switch p.does {
	case picksPage:
		s.show(p.page)
	case picksPhrase:
		s.say(p.id)
	case picksPerson, picksItem, picksOut:
		s.show(pageBoard)
		s.ask(p.item, s.urgencyOf(p))
	case picksWho:
		s.hand.who = &p.tag
		s.Paint()
	case picksBreach:
		who := s.hand.who
		s.show(pageSay) // where it is said how far it got
		if who != nil {
			s.record(station.ReportBreach{Tag: *who, What: p.id})
		}
	case picksTime:
		s.record(station.NoteTime{What: p.id})
	case picksLock:
		s.lockFor(s.snap.Limits.Wipe)
	case picksGroup:
		s.chooseGroup(p.nth)
	case picksWays:
		s.show(pageBoard)
		s.opt.Pages()
	case picksReal:
		s.show(pageBoard)
		s.record(station.EndDrill{Drill: s.snap.Drill.Ref})
	default:
		s.pickDrug(p)
	}
}

// urgencyOf is how soon: what comes out waits for an opening unless somebody
// chose otherwise on the board.
func (s *Screen) urgencyOf(p pick) requests.Urgency {
	if p.does == picksOut && s.hand.urgency == requests.RightNow {
		return requests.NextOpening
	}
	return s.hand.urgency
}

// record writes a fact of the case, which can be undone.
func (s *Screen) record(act station.Act) {
	s.do(act, func(r station.Result) { s.undoable(r.Ref) })
}

// answer writes a mark of a request, which can be undone.
func (s *Screen) answer(act station.Act) {
	s.do(act, func(r station.Result) { s.undoable(s.markOf(r)) })
}

// markOf is the mark that an act on a request wrote first.
func (s *Screen) markOf(r station.Result) mesh.Ref { return mesh.MakeRef(s.snap.Self, r.Tap, 1) }

// undoable notes what the next tap on undo takes back.
func (s *Screen) undoable(mark mesh.Ref) {
	s.hand.undo, s.hand.until, s.hand.moved = mark, s.opt.Now().Add(s.snap.Limits.Undo), false
}
