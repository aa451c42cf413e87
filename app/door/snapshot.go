package door

import (
	"slices"
	"time"

	"lintel/app/station"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Lists of the unit that this screen reads.
const (
	listDoff       mesh.ID = "doff"
	listBreach     mesh.ID = "breach"
	listTransfer   mesh.ID = "transfer"
	listExtubation mesh.ID = "extubation"
	listTime       mesh.ID = "time"
	listPhraseOut  mesh.ID = "phrase-out"
)

// Snapshot is what the screen shows, copied out of the station.
type Snapshot struct {
	Now      mesh.Wall
	By       mesh.By
	InMemory bool          // nothing new is saved on this device
	UndoFor  time.Duration // how long a tap can be taken back here
	Prompt   time.Duration // after which protective equipment is to be looked at; 0: the unit set none
	Rooms    []Room        // that this device is for
	Tags     []mesh.Tag    // of whoever has a device
	Roles    []Named       // for tags that nobody has named yet
	Reliefs  []Relief      // persons that can be called
	Doff     []Named       // the steps of doffing
	Harms    []Named       // what can go wrong with protective equipment
	Transfer []Named
	Extubate []Named
}

// Named is a line of a list.
type Named struct {
	ID    mesh.ID
	Words string
}

// Relief is a person who can be called, by the spoken number.
type Relief struct {
	Number mesh.Number
	Name   string
}

// Room is one door with the case behind it.
type Room struct {
	ID      mesh.ID
	Case    mesh.Ref // the open one, else the last; zero: none yet
	Open    bool
	Label   string
	Zones   []Zone // that people go into, the innermost first
	Tags    []mesh.Tag
	Checked map[mesh.Tag]mesh.Tag // by whom somebody's protective equipment was found good
	People  []Person
	Notices []Notice
	Doffed  map[mesh.Tag][]Step
	Ticks   map[Ticked]Tick
	Spent   []Spent
	Air     Air
	Door    Seen
}

// Seen is how the door was when somebody, or a contact, last measured it.
type Seen struct {
	Known bool
	Open  bool
	Since mesh.Wall
}

// Zone is a part of a room's surroundings.
type Zone struct {
	ID   mesh.ID
	Name string
	Side requests.Side
}

// Person is somebody who is in.
type Person struct {
	Tag     mesh.Tag
	Zone    Zone
	Since   mesh.Wall
	Least   bool // it may be longer ago
	Checker mesh.Tag
	Harm    string // the newest thing that went wrong; empty: nothing
}

// Notice is something that was said inside and that nobody outside has heard.
type Notice struct {
	Ref   mesh.Ref
	Room  mesh.ID
	Tag   mesh.Tag
	Words string
	Harm  bool // protective equipment failed, or somebody must get out
	Since mesh.Wall
	Least bool
}

// Step is a step of doffing as it was last read aloud.
type Step struct {
	Step mesh.ID
	Good bool
	By   mesh.Tag
}

// Ticked names a line of a list.
type Ticked struct{ List, Line mesh.ID }

// Tick is a line that was done.
type Tick struct {
	By    mesh.Tag
	Since mesh.Wall
}

// Air is since when the air of a room clears.
type Air struct {
	Event string // the last aerosol event; empty: none was noted
	Since mesh.Wall
	Least bool
	Milli uint32 // air changes an hour, in thousandths; 0: not known
}

// Look copies what the screen shows. It runs in the station's loop.
func Look(v station.View) Snapshot {
	h, _ := v.Board.Holder(v.Peer.Self())
	s := Snapshot{
		Now: v.Now.Wall, By: mesh.By{Role: h.Role, Tag: h.Tag}, InMemory: v.Peer.InMemory(),
		UndoFor: v.Board.Seconds("undo-for"), Prompt: v.Board.Seconds("ppe-prompt"),
		Doff: named(v, listDoff), Harms: named(v, listBreach), Transfer: named(v, listTransfer), Extubate: named(v, listExtubation),
	}
	for _, o := range v.Board.Holders() {
		s.Tags = addTag(s.Tags, o.Tag)
	}
	for _, r := range v.Board.Roles() {
		s.Roles = append(s.Roles, Named{r.ID, string(r.Name)})
	}
	for _, i := range v.Ledger.Items() {
		if i.Has(kits.IsPerson) && !i.Gone {
			s.Reliefs = append(s.Reliefs, Relief{i.Number, string(i.Name)})
		}
	}
	for _, id := range v.Doors() {
		r, _ := v.Board.Room(id)
		r.ID = id // also of a door that nobody has described
		s.Rooms = append(s.Rooms, room(v, r))
	}
	return s
}

func named(v station.View, list mesh.ID) (out []Named) {
	for _, l := range v.Board.List(list) {
		out = append(out, Named{l.ID, string(l.Words)})
	}
	return out
}

// addTag adds a tag that is not among them.
func addTag(tags []mesh.Tag, tag mesh.Tag) []mesh.Tag {
	if tag == "" || slices.Contains(tags, tag) {
		return tags
	}
	return append(tags, tag)
}

// room is one door: with the open case, else with the one before.
func room(v station.View, r requests.Room) Room {
	out := Room{ID: r.ID, Air: Air{Milli: r.MilliAirChanges}, Checked: map[mesh.Tag]mesh.Tag{}, Doffed: map[mesh.Tag][]Step{}, Ticks: map[Ticked]Tick{}}
	for _, z := range r.Zones {
		if z.Side != requests.Outside {
			out.Zones = append(out.Zones, Zone{z.ID, string(z.Name), z.Side})
		}
	}
	slices.SortStableFunc(out.Zones, func(a, b Zone) int { return int(b.Side) - int(a.Side) })
	if len(out.Zones) == 0 {
		out.Zones = []Zone{{ID: "inside", Side: requests.Inside}}
	}
	for _, x := range v.Board.Cases() {
		if x.Room == r.ID {
			out.Air.noteEvents(v, x)
		}
	}
	c, open := v.CaseAt(r.ID)
	if c.Ref.IsZero() {
		return out
	}
	out.Case, out.Open, out.Label = c.Ref, open, string(c.Label)
	out.tags(c)
	out.people(v, c)
	out.notices(v, c)
	out.doffed(c)
	for _, t := range c.Ticks {
		if t.Done {
			since, _ := v.Since(t.Mark)
			out.Ticks[Ticked{t.List, t.Line}] = Tick{t.By.Tag, since}
		}
	}
	for _, d := range c.Doors {
		if d.Room == r.ID {
			since, _ := v.Since(d.Mark)
			out.Door = Seen{true, d.Open, since}
		}
	}
	out.Spent = spent(v, c)
	return out
}

// noteEvents takes the newest aerosol event of a case.
func (a *Air) noteEvents(v station.View, c requests.Case) {
	for _, m := range c.Moments {
		if !m.Aerosol {
			continue
		}
		if at, least := v.Happened(m); at >= a.Since {
			line, _ := v.Board.ListLine(listTime, m.What)
			a.Event, a.Since, a.Least = string(line.Words), at, least
			if a.Event == "" {
				a.Event = string(m.What)
			}
		}
	}
}

// tags are the people of the case, and who found whose equipment good last.
func (r *Room) tags(c requests.Case) {
	for _, x := range c.Roles {
		r.Tags = addTag(r.Tags, x.Tag)
	}
	for _, x := range c.PPE {
		r.Tags = addTag(r.Tags, x.Wearer)
		if !x.Off && !x.Self {
			delete(r.Checked, x.Wearer)
			if x.Good {
				r.Checked[x.Wearer] = x.Checker
			}
		}
	}
	for _, x := range c.Crossings {
		r.Tags = addTag(r.Tags, x.Tag)
	}
}

func (r *Room) people(v station.View, c requests.Case) {
	for _, p := range c.People {
		if p.Zone == "" || p.Side == requests.Outside {
			continue
		}
		x := Person{Tag: p.Tag, Zone: Zone{ID: p.Zone, Side: p.Side}, Checker: p.Checker}
		for _, z := range r.Zones {
			if z.ID == p.Zone {
				x.Zone = z
			}
		}
		x.Since, x.Least = v.Since(p.Since)
		for _, b := range c.Breaches {
			if b.Tag == p.Tag {
				x.Harm = harmWords(v, b)
			}
		}
		r.People = append(r.People, x)
	}
}

func harmWords(v station.View, b requests.Harm) string {
	line, known := v.Board.ListLine(listBreach, b.What)
	if !known {
		return string(b.What)
	}
	return string(line.Words)
}

// notices are breaches, then phrases, that nobody outside has heard.
func (r *Room) notices(v station.View, c requests.Case) {
	for _, b := range c.Breaches {
		if len(b.Heard) == 0 {
			at, least := v.Since(b.Mark)
			r.Notices = append(r.Notices, Notice{Ref: b.Ref, Room: r.ID, Tag: b.Tag, Words: harmWords(v, b), Harm: true, Since: at, Least: least})
		}
	}
	for _, p := range c.Said {
		if p.Out && len(p.Heard) == 0 {
			at, least := v.Since(p.Mark)
			line, _ := v.Board.ListLine(listPhraseOut, p.Phrase)
			r.Notices = append(r.Notices, Notice{Ref: p.Ref, Room: r.ID, Tag: p.By.Tag, Words: string(line.Words), Since: at, Least: least})
		}
	}
}

// doffed are the steps that were read to each person since the last going in:
// whoever goes in again begins again.
func (r *Room) doffed(c requests.Case) {
	last := map[mesh.Tag]mesh.Order{}
	for _, x := range c.Crossings {
		if x.In && x.At.Compare(last[x.Tag]) > 0 {
			last[x.Tag] = x.At
		}
	}
	for _, d := range c.Doffing {
		if d.At.Compare(last[d.Tag]) < 0 {
			continue
		}
		step := Step{d.Step, d.Good, d.Checker}
		i := slices.IndexFunc(r.Doffed[d.Tag], func(s Step) bool { return s.Step == d.Step })
		if i < 0 {
			r.Doffed[d.Tag] = append(r.Doffed[d.Tag], step)
		} else {
			r.Doffed[d.Tag][i] = step
		}
	}
}

// notices are what nobody outside has heard, in the order in which it has to
// be: breaches before phrases, of each this door's before the others'.
func (s Snapshot) notices(room mesh.ID) (all []Notice) {
	for _, harm := range []bool{true, false} {
		for _, here := range []bool{true, false} {
			for _, r := range s.Rooms {
				for _, n := range r.Notices {
					if n.Harm == harm && (r.ID == room) == here {
						all = append(all, n)
					}
				}
			}
		}
	}
	return all
}

// notice is what has to be heard first.
func (s Snapshot) notice(room mesh.ID) (Notice, bool) {
	all := s.notices(room)
	if len(all) == 0 {
		return Notice{}, false
	}
	return all[0], true
}

// Calling are the breaches that should call with a tone: nobody outside knows yet.
func (s Snapshot) Calling() (out []mesh.Ref) {
	for _, n := range s.notices("") {
		if n.Harm {
			out = append(out, n.Ref)
		}
	}
	return out
}

// room finds a door; false: it is not this device's.
func (s Snapshot) room(id mesh.ID) (Room, bool) {
	i := slices.IndexFunc(s.Rooms, func(r Room) bool { return r.ID == id })
	if i < 0 {
		return Room{}, false
	}
	return s.Rooms[i], true
}

func (r Room) person(tag mesh.Tag) (Person, bool) {
	i := slices.IndexFunc(r.People, func(p Person) bool { return p.Tag == tag })
	if i < 0 {
		return Person{}, false
	}
	return r.People[i], true
}
