package inside

import (
	"slices"
	"time"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Snapshot is what the board shows, copied out of the station.
type Snapshot struct {
	Now      mesh.Wall
	Self     mesh.Key
	Held     bool // somebody said who has this device
	By       mesh.By
	Room     mesh.ID // empty: the device is for no room yet
	RoomName string
	Runners  []Runner // devices held in a role that fetches for the room
	InMemory bool     // nothing new is saved on this device
	Items    []Item   // the catalogue, by number
	Sets     []Set    // the rescue sets, B, C, D, arrest
	Requests []Request
	State
}

// Runner is a device that a runner holds, and what that runner's marks tell.
type Runner struct {
	Tag    mesh.Tag
	Health mesh.Health
	Doing  requests.Doing
	Room   mesh.ID // of requests.AtADoor and requests.Fetching
	Next   bool    // this room comes next
}

// Item is a line of the catalogue.
type Item struct {
	Number mesh.Number
	Name   string
	Detail string
	Group  mesh.ID
	Drug   *station.Drug // how it is shown; nil: no drug
	Out    bool          // it comes out of the room
	Person bool          // asking is calling a person
	Codes  []mesh.Label  // on its labels
}

// Set is a rescue set.
type Set struct {
	Letter mesh.ID
	Number mesh.Number
	Name   string
	Lies   string // where, in words
}

// Thing is so many of an item.
type Thing struct {
	requests.Thing
	Name string
}

// Request is one open request of the room.
type Request struct {
	Ref     mesh.Ref
	Code    string // joining code, for the glass
	Thing   Thing
	Urgency requests.Urgency
	Shown   requests.Shown
	Loop    requests.Loop
	Unlike  bool // what was agreed differs from what was asked
	Acts    []requests.Act
	Going   []string // tags of whoever is going
	Held    *ReadBack
	Offer   []Thing  // alternatives that wait for an answer
	Offered mesh.Ref // the offer
	Own     bool     // asked on this device: how far it got is known
	Reach   words.Reach
	Why     string // could not, because
	Since   mesh.Wall
	Least   bool // it may be longer
	Out     bool // it comes out of the room
	Origin  requests.Origin
	AtDoor  requests.Count // so many lie at the door
	Joined  []mesh.Ref     // the same need

	Unreached bool          // on no runner's device for too long
	Took      time.Duration // since somebody is going
	Usual     time.Duration // how long that usually takes
	Late      bool          // it takes longer than usual
	order     mesh.Order
}

// ReadBack is what a runner says to hold.
type ReadBack struct {
	Ref     mesh.Ref
	Thing   Thing
	By      string
	Matches bool
	Closed  bool
}

// Look copies what the board shows. It runs in the station's loop.
func Look(v station.View) Snapshot {
	s := Snapshot{Now: v.Now.Wall, Self: v.Peer.Self(), InMemory: v.Peer.InMemory()}
	h, held := v.Board.Holder(v.Peer.Self())
	s.Held, s.By = held, mesh.By{Role: h.Role, Tag: h.Tag}
	if len(h.Rooms) > 0 {
		s.Room = h.Rooms[0]
		s.RoomName = string(s.Room)
	}
	s.Runners = runners(v, s.Room)
	s.Items, s.Sets = items(v), sets(v.Ledger)
	s.State = stateOf(v, s.Room, h.Tag)
	for _, r := range v.Board.Open() {
		if s.Room != "" && r.Room == s.Room {
			s.Requests = append(s.Requests, request(v, h, r))
		}
	}
	return s
}

func items(v station.View) (out []Item) {
	for _, i := range v.Ledger.Items() {
		x := Item{Number: i.Number, Name: string(i.Name), Detail: string(i.Detail), Group: i.Group, Out: i.Has(kits.ComesOut), Person: i.Has(kits.IsPerson), Codes: i.Codes}
		if d, is := v.Drug(i.Number); is {
			x.Name, x.Drug = d.Name, &d
		}
		out = append(out, x)
	}
	return out
}

func runners(v station.View, room mesh.ID) (out []Runner) {
	health := map[mesh.Key]mesh.Health{}
	for _, p := range v.Peer.Peers() {
		health[p.Peer] = p.Health
	}
	doing := map[mesh.Key]requests.RunnerState{}
	for _, x := range v.Board.RunnerAt(room) {
		doing[x.Device] = x
	}
	for _, h := range v.Board.Holders() {
		if h.Device != v.Peer.Self() && h.Can&requests.CanFetch != 0 && h.For(room) && v.Peer.IsMember(h.Device) {
			x := doing[h.Device]
			out = append(out, Runner{Tag: h.Tag, Health: health[h.Device], Doing: x.Doing, Room: x.Room, Next: x.Next})
		}
	}
	return out
}

// setOrder is how rescue sets are always shown.
func setOrder() []mesh.ID { return []mesh.ID{"b", "c", "d", "arrest"} }

func sets(l *kits.Ledger) (out []Set) {
	all := l.Bundles()
	for _, letter := range setOrder() {
		for _, b := range all {
			if b.Rescue == letter {
				out = append(out, Set{Letter: letter, Number: b.Number, Name: string(b.Name), Lies: string(b.Words)})
			}
		}
	}
	return out
}

func request(v station.View, h requests.Holding, r requests.Request) Request {
	out := Request{
		Ref: r.Ref, Code: requests.Code(r.Ref), Thing: thing(v, r.Thing), Urgency: r.Urgency, Shown: r.Shown, Loop: r.Loop, Unlike: words.AgreedUnlike(r),
		Acts: requests.Buttons(r, h.Standpoint(r)), Own: r.Asked.Device() == v.Peer.Self(), order: r.Asked.At,
		Out: r.Direction == requests.Out, Origin: r.Origin, Joined: r.JoinedWith,
	}
	for _, g := range r.Acknowledged {
		if tag := string(g.By.Tag); g.Still && !slices.Contains(out.Going, tag) {
			out.Going = append(out.Going, tag)
		}
	}
	out.Held = readBack(v, r)
	for _, o := range r.Offers {
		if o.Open() {
			out.Offer, out.Offered = nil, o.Ref
			for _, t := range o.Things {
				out.Offer = append(out.Offer, thing(v, t))
			}
		}
	}
	for _, c := range r.CouldNot {
		out.Why = string(c.Why)
	}
	for _, d := range r.Deliveries {
		if d.Open {
			out.AtDoor += d.Thing.Count
		}
	}
	if out.Own {
		out.Reach = reach(v, r.Room, r.Asked.At)
		out.Unreached = r.Shown == requests.ShownAsked && !out.Reach.OnRunner && v.Elapsed(r.Asked) >= v.Board.Seconds("unreached-after")
	}
	if r.Shown == requests.ShownAcknowledged || r.Shown == requests.ShownInHand {
		e := v.Board.Escalated(r, v.Elapsed)
		out.Took, out.Usual, out.Late = e.Elapsed, e.Usual, e.Overdue
	}
	out.Since, out.Least = v.Since(lastMark(r))
	return out
}

// readBack is the newest one that stands, first one that nobody answered.
func readBack(v station.View, r requests.Request) (out *ReadBack) {
	for _, x := range r.InHand {
		if x.Live && (out == nil || !x.Closed || out.Closed) {
			out = &ReadBack{Ref: x.Ref, Thing: thing(v, x.Thing), By: string(x.By.Tag), Matches: x.Matches, Closed: x.Closed}
		}
	}
	return out
}

// lastMark is the mark that the shown state began with: its age is shown.
func lastMark(r requests.Request) requests.Mark {
	last := r.Asked
	for _, m := range r.Marks {
		if !m.Undone && stepping(m.Kind) && m.At.Compare(last.At) > 0 {
			last = m
		}
	}
	return last
}

func stepping(k mesh.Kind) bool {
	switch k {
	case requests.KindJoined, requests.KindJoinedCode, requests.KindReminded, requests.KindUndone:
		return false
	}
	return true
}

func thing(v station.View, t requests.Thing) Thing {
	item, _ := v.Ledger.Item(t.Item)
	name := string(item.Value.Name)
	if d, is := v.Drug(t.Item); is {
		name = d.Name
	}
	return Thing{Thing: t, Name: name}
}
