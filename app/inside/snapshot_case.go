package inside

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// Limits are the unit's own settings for the board. All in time but Battery.
type Limits struct {
	Undo    time.Duration // how long a tap can be undone
	More    time.Duration // how long "one more" stands beside the strip
	Wipe    time.Duration // how long touches are ignored for wiping
	MarkOne time.Duration // of pre-oxygenation
	MarkTwo time.Duration
	Battery int // per cent, from which on it is said
}

// Line is a line of a list: a phrase, a breach.
type Line struct {
	ID    mesh.ID
	Words string
}

// Said is a phrase, in either direction, or a breach.
type Said struct {
	Ref    mesh.Ref
	Words  string
	Out    bool     // from inside to outside
	By     string   // tag of whoever said it, or of whose breach it is
	Heard  []string // tags of those who said so; empty texts: without a tag
	Own    bool     // said on this device: how far it got is known
	Reach  words.Reach
	Since  mesh.Wall
	Least  bool // it may be longer ago
	Breach bool
	order  mesh.Order
}

// Time is a line that a scribe notes, and when it was noted last.
type Time struct {
	Line
	Clock bool      // it starts a clock
	Last  mesh.Wall // by this device's clock; 0: not yet
}

// Drill is the exercise that goes on in the room; zero: none.
type Drill struct {
	Ref    mesh.Ref
	Label  string
	Inject string // what was given in it last, for a while; empty: nothing
}

// State is what a snapshot has of the room's case and of this device.
type State struct {
	Case      bool // one is open in the room
	Limits    Limits
	Phrases   []Line        // said outwards
	Said      []Said        // both directions, newest first
	Breaches  []Line        // what can be reported
	Times     []Time        // those of the front page, by place
	Tags      []mesh.Tag    // of those inside, else of the case's people
	Drill     Drill         // zero: none
	Drugs     []DrugIn      // those inside
	Callees   []mesh.Number // persons called with a rescue set
	Elsewhere []mesh.ID     // other doors that want this room's runner now
	OnlyHere  int           // entries that are not on two clean devices' disks
	MayStay   bool          // everything is
	Leaving   bool          // somebody came out already, or the case goes on elsewhere
	Battery   int           // per cent; -1: not known
	Charging  bool
	Injected  bool // an exercise says how full the battery is
}

// batteryUnknown is the battery of a device that cannot tell.
const batteryUnknown = -1

// stateOf copies what the pages behind the board show.
func stateOf(v station.View, room mesh.ID, tag mesh.Tag) State {
	b := v.Board
	c, on := b.CaseIn(room)
	s := State{Case: on, Limits: limits(b), Phrases: lines(b, "phrase-out"), Breaches: lines(b, "breach"), Battery: batteryUnknown}
	s.Said = said(v, c)
	s.Times = times(v, c)
	s.Tags, s.Drugs = tagsOf(c, tag), drugsIn(v, room)
	if x, on := v.ExerciseIn(room); on {
		s.Drill = Drill{Ref: x.Ref, Label: cmp.Or(string(x.Label), string(room)), Inject: x.Inject}
	}
	s.Elsewhere = elsewhere(b, room)
	stay := v.StayBehind()
	s.OnlyHere, s.MayStay = stay.Here, stay.May()
	s.Leaving = c.MovedTo != "" || slices.ContainsFunc(c.Crossings, func(x requests.Crossing) bool { return !x.In })
	h, _ := b.Holder(v.Peer.Self())
	s.Injected = v.BatteryInject(h)
	if is, known := v.BatteryShown(h); known {
		s.Battery, s.Charging = int(is.Battery), is.Charging
	}
	value, _ := b.Setting("rescue-calls")
	for _, number := range strings.Fields(string(value)) {
		if n, err := strconv.ParseUint(number, 10, 32); err == nil {
			s.Callees = append(s.Callees, mesh.Number(n))
		}
	}
	return s
}

// elsewhere are the other doors that want the only runner for this one now.
func elsewhere(b *requests.Board, room mesh.ID) (out []mesh.ID) {
	for _, c := range b.Contended() {
		if slices.Contains(c.Doors, room) {
			out = append(out, c.Doors...)
		}
	}
	slices.Sort(out)
	return slices.DeleteFunc(slices.Compact(out), func(door mesh.ID) bool { return door == room })
}

func limits(b *requests.Board) Limits {
	return Limits{
		Undo: b.Seconds("undo-for"), More: b.Seconds("more-for"), Wipe: b.Seconds("wipe-for"),
		MarkOne: b.Seconds("preox-mark-1"), MarkTwo: b.Seconds("preox-mark-2"), Battery: int(b.Number("battery-low")),
	}
}

func lines(b *requests.Board, list mesh.ID) (out []Line) {
	for _, l := range b.List(list) {
		out = append(out, Line{l.ID, string(l.Words)})
	}
	return out
}

// said lists phrases and breaches of a case, newest first.
func said(v station.View, c requests.Case) (out []Said) {
	wordsOf := func(list, id mesh.ID) string {
		if l, known := v.Board.ListLine(list, id); known {
			return string(l.Words)
		}
		return string(id)
	}
	for _, p := range c.Said {
		list := mesh.ID("phrase-in")
		if p.Out {
			list = "phrase-out"
		}
		x := saidOf(v, c.Room, p.Mark, p.Heard)
		x.Words, x.Out, x.By = wordsOf(list, p.Phrase), p.Out, string(p.By.Tag)
		out = append(out, x)
	}
	for _, h := range c.Breaches {
		x := saidOf(v, c.Room, h.Mark, h.Heard)
		x.Words, x.Out, x.By, x.Breach = wordsOf("breach", h.What), true, string(h.Tag), true
		out = append(out, x)
	}
	slices.SortStableFunc(out, func(a, b Said) int { return b.order.Compare(a.order) })
	return out
}

func saidOf(v station.View, room mesh.ID, m requests.Mark, heard []requests.Mark) Said {
	x := Said{Ref: m.Ref, Own: m.Device() == v.Peer.Self(), order: m.At}
	x.Since, x.Least = v.Since(m)
	if x.Own {
		x.Reach = reach(v, room, m.At)
	}
	for _, h := range heard {
		if tag := string(h.By.Tag); !slices.Contains(x.Heard, tag) {
			x.Heard = append(x.Heard, tag)
		}
	}
	return x
}

// reach is how far an entry of this device is known to have got.
func reach(v station.View, room mesh.ID, at mesh.Order) words.Reach {
	copies, runners := v.Peer.Copies(at), v.Board.RunnersFor(room)
	return words.Reach{
		Saved: v.Peer.SavedHere(at), Copies: len(copies),
		OnRunner: slices.ContainsFunc(copies, func(k mesh.Key) bool { return slices.Contains(runners, k) }),
	}
}

// times are the front page of what a scribe notes.
func times(v station.View, c requests.Case) (out []Time) {
	for _, l := range v.Board.List("time") {
		if l.Marks&station.TimeFront == 0 {
			continue
		}
		t := Time{Line: Line{l.ID, string(l.Words)}, Clock: l.Marks&station.TimeStarts != 0}
		for _, m := range c.Moments {
			if m.What == l.ID {
				t.Last = max(t.Last, m.Happened-offset(v, m.Mark))
			}
		}
		out = append(out, t)
	}
	return out
}

// offset is how far the clock of a mark's author is ahead of this device's.
func offset(v station.View, m requests.Mark) mesh.Wall {
	for _, p := range v.Peer.Peers() {
		if p.Peer == m.Device() && p.WithinMS != 0 {
			return mesh.Wall(p.OffsetMS)
		}
	}
	return 0
}

// tagsOf are the tags of who is not outside; of whom nobody said where they
// are, those of the case; and whoever has this device.
func tagsOf(c requests.Case, own mesh.Tag) (out []mesh.Tag) {
	for _, p := range c.People {
		if p.Side != requests.Outside && p.Zone != "" {
			out = append(out, p.Tag)
		}
	}
	if len(out) == 0 {
		for _, r := range c.Roles {
			out = append(out, r.Tag)
		}
	}
	out = append(out, own)
	slices.Sort(out)
	return slices.DeleteFunc(slices.Compact(out), func(t mesh.Tag) bool { return t == "" })
}
