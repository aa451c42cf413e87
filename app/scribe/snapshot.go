package scribe

import (
	"slices"
	"time"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// listTime is the unit's list of times.
const listTime mesh.ID = "time"

// preOxygenation is the time whose clock has marks, by its id in that list.
const preOxygenation mesh.ID = "pre-oxygenation"

// Snapshot is what the screen shows, copied out of the station.
type Snapshot struct {
	Now      mesh.Wall
	By       mesh.By
	InMemory bool             // nothing new is saved on this device
	UndoFor  time.Duration    // how long a tap can be taken back here
	Marks    [2]time.Duration // of the clock of pre-oxygenation; 0: none
	Times    []Time           // those of the front page first
	Rooms    []Room           // that this device is for
}

// Time is a line of the list of times.
type Time struct {
	ID      mesh.ID
	Words   string
	Aerosol bool
	Counts  bool // attempts are counted
	Starts  bool // it starts a clock
}

// Room is one door with the case behind it.
type Room struct {
	ID    mesh.ID
	Case  mesh.Ref // the open one, else the last; zero: none yet
	Open  bool
	Label string
	Tied  bool     // to the patient monitor's clock
	Noted []Moment // by when it happened, the newest first
}

// Moment is a time that was noted.
type Moment struct {
	Ref     mesh.Ref
	What    mesh.ID
	Words   string // with the number of the attempt
	Attempt uint32
	Aerosol bool
	Late    bool // entered or corrected afterwards
	By      mesh.Tag
	On      requests.Placed  // on the common clock
	Here    mesh.Wall        // by this device's clock
	Least   bool             // it may be longer ago
	Monitor *requests.Placed // as the patient monitor would say it, as if UTC; nil: not tied
	Against []string         // what should have come before, in words
	First   mesh.Wall        // as first noted, where it was corrected, by its author's clock; 0: it was not
}

// Look copies what the screen shows. It runs in the station's loop.
func Look(v station.View) Snapshot {
	h, _ := v.Board.Holder(v.Peer.Self())
	s := Snapshot{
		Now: v.Now.Wall, By: mesh.By{Role: h.Role, Tag: h.Tag}, InMemory: v.Peer.InMemory(), UndoFor: v.Board.Seconds("undo-for"),
		Marks: [2]time.Duration{v.Board.Seconds("preox-mark-1"), v.Board.Seconds("preox-mark-2")}, Times: times(v),
	}
	clocks := v.Board.Clocks()
	for _, id := range v.Doors() {
		s.Rooms = append(s.Rooms, room(v, clocks, id))
	}
	return s
}

// times is the list, those of the front page first.
func times(v station.View) []Time {
	var front, rest []Time
	for _, l := range v.Board.List(listTime) {
		t := Time{
			ID: l.ID, Words: string(l.Words), Aerosol: l.Marks&station.TimeAerosol != 0,
			Counts: l.Marks&station.TimeAttempt != 0, Starts: l.Marks&station.TimeStarts != 0,
		}
		if l.Marks&station.TimeFront != 0 {
			front = append(front, t)
		} else {
			rest = append(rest, t)
		}
	}
	return append(front, rest...)
}

func room(v station.View, clocks requests.Clocks, id mesh.ID) Room {
	out := Room{ID: id}
	c, open := v.CaseAt(id)
	out.Case, out.Open, out.Label, out.Tied = c.Ref, open, string(c.Label), len(c.Charts) > 0
	for _, m := range c.Moments {
		out.Noted = append(out.Noted, moment(v, clocks, c, m))
	}
	slices.SortStableFunc(out.Noted, func(a, b Moment) int { return int(min(max(b.On.Wall-a.On.Wall, -1), 1)) })
	return out
}

func moment(v station.View, clocks requests.Clocks, c requests.Case, m requests.Moment) Moment {
	out := Moment{
		Ref: m.Ref, What: m.What, Words: timeWords(v, m.What), Attempt: m.Attempt, Aerosol: m.Aerosol, Late: m.Late, By: m.By.Tag,
		On: clocks.Place(m.Mark),
	}
	out.Here, out.Least = v.Happened(m)
	if p, tied := clocks.Monitor(c.Charts, m.Mark); tied {
		out.Monitor = &p
	}
	for _, id := range m.Against {
		out.Against = append(out.Against, timeWords(v, id))
	}
	if len(m.Fixes) > 0 {
		first := m.Mark
		first.Corrected = 0
		out.First = first.When()
	}
	return out
}

func timeWords(v station.View, id mesh.ID) string {
	if line, known := v.Board.ListLine(listTime, id); known {
		return string(line.Words)
	}
	return string(id)
}

// room finds a door; false: it is not this device's.
func (s Snapshot) room(id mesh.ID) (Room, bool) {
	i := slices.IndexFunc(s.Rooms, func(r Room) bool { return r.ID == id })
	if i < 0 {
		return Room{}, false
	}
	return s.Rooms[i], true
}

// first is the door that is shown until another is chosen.
func (s Snapshot) first() mesh.ID {
	for _, r := range s.Rooms {
		if r.Open {
			return r.ID
		}
	}
	if len(s.Rooms) > 0 {
		return s.Rooms[0].ID
	}
	return ""
}

// attempt is the number of the next attempt.
func (r Room) attempt(what mesh.ID) (n uint32) {
	for _, m := range r.Noted {
		if m.What == what {
			n = max(n, m.Attempt)
		}
	}
	return n + 1
}

// last is when something was noted last; false: not yet.
func (r Room) last(what mesh.ID) (Moment, bool) {
	i := slices.IndexFunc(r.Noted, func(m Moment) bool { return m.What == what })
	if i < 0 {
		return Moment{}, false
	}
	return r.Noted[i], true
}

func (r Room) moment(ref mesh.Ref) (Moment, bool) {
	i := slices.IndexFunc(r.Noted, func(m Moment) bool { return m.Ref == ref })
	if i < 0 {
		return Moment{}, false
	}
	return r.Noted[i], true
}

// running are the clocks that run, the newest first: each from the last time
// of its kind.
func (s Snapshot) running(r Room) (out []Moment) {
	for _, m := range r.Noted {
		i := slices.IndexFunc(s.Times, func(t Time) bool { return t.ID == m.What })
		same := func(x Moment) bool { return x.What == m.What }
		if i >= 0 && s.Times[i].Starts && !slices.ContainsFunc(out, same) {
			out = append(out, m)
		}
	}
	return out
}
