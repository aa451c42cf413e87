package debrief

import (
	"fmt"
	"slices"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// Course is one case in time, on the common clock of the devices.
type Course struct {
	Start    requests.Placed
	End      requests.Placed // the end of the case; while it goes on, the last thing that was recorded
	Over     bool
	Apart    int // devices whose clocks were never compared
	Moments  []Moment
	People   []Stay
	Asked    []Asked
	Openings []requests.OpeningAt
	Harms    []Harm
	Said     []Phrase
	Given    []Phrase // events of an exercise
}

// Moment is a time that was noted.
type Moment struct {
	At      requests.Placed
	Words   string
	Attempt uint32 // 0: it has no number
	Against bool   // out of order
}

// Stay is one person's stay in one zone.
type Stay struct {
	Tag      mesh.Tag
	Zone     string // empty: the innermost
	From, To requests.Placed
	Open     bool
}

// Asked is a request from its asking to its end. A place with a wall of 0 was
// never reached.
type Asked struct {
	Ref                         mesh.Ref
	Count                       int64
	Name, Detail                string
	Drug                        bool
	Urgency                     requests.Urgency
	From, To                    requests.Placed
	Acknowledged, AtDoor, Taken requests.Placed
	Open                        bool // it never ended
	Withdrawn                   bool
	CouldNot                    bool // and nothing went in
	Unanswered                  bool // nobody outside ever answered
	Undelivered                 bool
	Wrong                       bool // a read-back of something else was caught
}

// Harm is a breach.
type Harm struct {
	At    requests.Placed
	Tag   mesh.Tag
	Words string
}

// Phrase is something said, or an event that was given.
type Phrase struct {
	At    requests.Placed
	Words string
}

// course lays out a case.
func course(v station.View, c requests.Case, f requests.Figures) Course {
	t := v.Board.Timeline(c.Ref)
	out := Course{Start: t.Start, End: t.End, Over: c.Over, Apart: len(t.Apart), Openings: slices.Clone(t.Openings)}
	for _, m := range t.Moments {
		out.Moments = append(out.Moments, Moment{m.Placed, wordsOf(v, listTimes, m.What), m.Attempt, len(m.Against) > 0})
	}
	for _, p := range t.People {
		if p.Side != requests.Outside {
			out.People = append(out.People, stay(v, c.Room, p))
		}
	}
	for _, b := range t.Requests {
		out.Asked = append(out.Asked, asked(v, b, f))
	}
	for _, b := range t.Breaches {
		out.Harms = append(out.Harms, Harm{b.Placed, b.Tag, wordsOf(v, listBreaches, b.What)})
	}
	for _, p := range t.Phrases {
		list := listPhraseIn
		if p.Out {
			list = listPhraseOut
		}
		out.Said = append(out.Said, Phrase{p.Placed, wordsOf(v, list, p.Phrase.Phrase)})
	}
	clocks := v.Board.ClocksOf(c.Ref)
	for _, d := range c.Drills {
		for _, x := range d.Injects {
			out.Given = append(out.Given, Phrase{clocks.Place(x.Mark), wordsOf(v, listInjects, x.What)})
		}
	}
	return out
}

// stay names the zone where it is not the room itself.
func stay(v station.View, room mesh.ID, p requests.StayAt) Stay {
	out := Stay{Tag: p.Tag, From: p.From, To: p.To, Open: p.Open}
	if p.Side == requests.Inside {
		return out
	}
	out.Zone = string(p.Zone)
	r, _ := v.Board.Room(room)
	for _, z := range r.Zones {
		if z.ID == p.Zone && z.Name != "" {
			out.Zone = string(z.Name)
		}
	}
	return out
}

func asked(v station.View, b requests.Bar, f requests.Figures) Asked {
	r := b.Request
	item, _ := v.Ledger.Item(r.Thing.Item)
	out := Asked{
		Ref: r.Ref, Count: int64(r.Thing.Count), Name: string(item.Value.Name), Detail: string(r.Thing.Strength), Urgency: r.Urgency,
		From: b.From, To: b.To, Open: b.Open, Withdrawn: len(r.Withdrawn) > 0, CouldNot: len(r.CouldNot) > 0 && !r.TakenIn(),
		Unanswered: slices.Contains(f.Unanswered, r.Ref), Undelivered: slices.Contains(f.Undelivered, r.Ref),
	}
	if d, is := v.Drug(r.Thing.Item); is {
		out.Name, out.Drug = d.Name, true
	}
	if out.Name == "" {
		out.Name = fmt.Sprint(r.Thing.Item)
	}
	if out.Detail == "" {
		out.Detail = string(item.Value.Detail)
	}
	for _, m := range f.WrongCaught {
		of, _ := v.Board.RequestOf(m)
		out.Wrong = out.Wrong || of == r.Ref
	}
	first := func(at *requests.Placed, p requests.Placed) {
		if at.Wall == 0 {
			*at = p
		}
	}
	for _, p := range b.Points {
		switch p.Kind {
		case requests.KindAcknowledged:
			first(&out.Acknowledged, p.Placed)
		case requests.KindAtDoor:
			first(&out.AtDoor, p.Placed)
		case requests.KindTakenIn:
			first(&out.Taken, p.Placed)
		}
	}
	return out
}
