package runner

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// Snapshot is what the list shows, copied out of the station.
type Snapshot struct {
	Now       mesh.Wall
	By        mesh.By
	Rooms     []Room        // that this device is for
	Doors     []mesh.ID     // every door of the unit
	Others    []mesh.Tag    // other runners, to pass on to
	Elsewhere int           // open requests at doors that this device is not for
	InMemory  bool          // nothing new is saved on this device
	Items     []Item        // the catalogue, by number
	Requests  []Request     // in the order of the list
	Calls     []Call        // that concern this device, the gravest first
	Notices   []Notice      // what is said above everything, the gravest first
	Carrying  Carrying      // what whoever has this device would pass on
	Phrases   []Phrase      // that can be said inwards
	Silence   time.Duration // for how long a tap silences the calls
}

// Phrase is one of the fixed phrases.
type Phrase struct {
	ID    mesh.ID
	Words string
}

// Carrying is what a runner has to pass on, the most urgent first.
type Carrying struct{ InHand, Promised, AtDoor []mesh.Ref }

// All lists everything that is carried.
func (c Carrying) All() []mesh.Ref { return slices.Concat(c.InHand, c.Promised, c.AtDoor) }

// Item is a line of the catalogue.
type Item struct {
	Number mesh.Number
	Name   string
	Detail string
	Kept   string // where it is kept, in words
	Drug   Drug
	Codes  []mesh.Label // barcodes that it is known by
}

// Drug is how a drug is shown; the zero value is no drug.
type Drug struct {
	station.Drug
	Is bool
}

// Thing is so many of an item.
type Thing struct {
	requests.Thing
	Name string // of a drug in tall-man letters
	Drug Drug
}

// Request is one request that somebody outside may have to do something about.
type Request struct {
	Looks     mesh.Hash // a picture of it; zeros: none
	Map       mesh.Hash // of the shelves where it is kept; zeros: none
	Drawer    string    // that is marked there
	Ref       mesh.Ref
	Room      mesh.ID
	Thing     Thing
	Kept      string
	Rescue    bool
	Bring     []Thing // of a set: what does not lie in the room
	Out       bool    // it comes out of the room
	Urgency   requests.Urgency
	Shown     requests.Shown
	Loop      requests.Loop
	Unlike    bool // what was agreed differs from what was asked
	Origin    requests.Origin
	Acts      []requests.Act
	Going     []string // tags of whoever is going
	Mine      bool     // this device said that it is going, or holds it
	Asked     bool     // an answer to an offer is awaited
	Back      bool     // withdrawn while it was in hand: bring it back
	Ringing   bool
	Choices   []mesh.Number // the asked item and what may be taken for it, by number
	Same      mesh.Ref      // what is likely the same need, noted outside; zero: nothing
	GivenBack mesh.Tag      // who gave it back, after it was passed on here
	Inject    string        // what an exercise says about it; empty: nothing
	Late      bool          // going, and it takes longer than usual
	Usual     time.Duration // from going to the door, while somebody goes
	Level     uint8         // of its call, as requests counts them; 0: none
	Since     mesh.Wall
	Least     bool // it may be longer
	order     mesh.Order
}

// Look copies what the list shows. It runs in the station's loop.
func Look(v station.View) Snapshot {
	h, _ := v.Board.Holder(v.Peer.Self())
	s := Snapshot{Now: v.Now.Wall, By: mesh.By{Role: h.Role, Tag: h.Tag}, InMemory: v.Peer.InMemory()}
	s.Rooms = rooms(v, h)
	for _, o := range v.Board.Holders() {
		if o.Device != v.Peer.Self() && o.Can&requests.CanFetch != 0 && o.Tag != "" && !slices.Contains(s.Others, o.Tag) {
			s.Others = append(s.Others, o.Tag)
		}
	}
	for _, i := range v.Ledger.Items() {
		t := thing(v, requests.Thing{Item: i.Number})
		s.Items = append(s.Items, Item{Number: i.Number, Name: t.Name, Detail: string(i.Detail), Kept: kept(v, i), Drug: t.Drug, Codes: slices.Clone(i.Codes)})
	}
	for _, r := range v.Board.Open() {
		if !h.For(r.Room) {
			s.Elsewhere++
			continue
		}
		s.Requests = append(s.Requests, request(v, h, r))
	}
	s.Calls = calls(v)
	s.Requests = append(s.Requests, toPutBack(v, h, s.Calls)...)
	for i := range s.Requests {
		s.Requests[i].Level = s.levelOf(s.Requests[i].Ref)
	}
	s.Requests = inGroups(s.Requests)
	s.Doors, s.Carrying, s.Phrases = doors(v), carrying(v), phrases(v)
	s.Silence = v.Board.Seconds("silence-for")
	s.Notices = notices(v, s)
	return s
}

// inGroups puts requests in the order of what to do first, those of a door
// together: the door comes first whose first request does.
func inGroups(all []Request) []Request {
	slices.SortStableFunc(all, inOrder)
	var order []mesh.ID
	for _, r := range all {
		if !slices.Contains(order, r.Room) {
			order = append(order, r.Room)
		}
	}
	slices.SortStableFunc(all, func(a, b Request) int {
		return cmp.Compare(slices.Index(order, a.Room), slices.Index(order, b.Room))
	})
	return all
}

// carrying is what the holder of this device has to pass on.
func carrying(v station.View) (out Carrying) {
	refs := func(all []requests.Request) (out []mesh.Ref) {
		for _, r := range all {
			out = append(out, r.Ref)
		}
		return out
	}
	c := v.Board.Carrying(v.Peer.Self())
	return Carrying{InHand: refs(c.InHand), Promised: refs(c.Promised), AtDoor: refs(c.AtDoor)}
}

// phrases are those that can be said inwards, in their order.
func phrases(v station.View) (out []Phrase) {
	for _, line := range v.Board.List(listSaidIn) {
		out = append(out, Phrase{ID: line.ID, Words: string(line.Words)})
	}
	return out
}

// toPutBack are the requests that were withdrawn while this device held what was
// asked for, until it says that it was put back.
func toPutBack(v station.View, h requests.Holding, all []Call) (out []Request) {
	for _, c := range all {
		r, known := v.Board.Request(c.Ref)
		if !known || !c.Mine || c.Why != requests.CallPutBack {
			continue
		}
		x := request(v, h, r)
		x.Back = true
		out = append(out, x)
	}
	return out
}

// inOrder is what to do first.
func inOrder(a, b Request) int {
	return cmp.Or(cmp.Compare(rank(b), rank(a)), cmp.Compare(b.Urgency, a.Urgency), a.order.Compare(b.order))
}

func rank(r Request) int {
	switch {
	case r.Back || r.Shown == requests.ShownTakeBack:
		return 2
	case r.Rescue:
		return 1
	}
	return 0
}

// kept is where an item is kept: the place, then where in it.
func kept(v station.View, i kits.ItemLine) string {
	place, _ := v.Ledger.Place(i.KeptAt)
	return joined(string(place.Value.Name), string(i.KeptWords))
}

func joined(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), ", ")
}

func request(v station.View, h requests.Holding, r requests.Request) Request {
	out := Request{
		Ref: r.Ref, Room: r.Room, Thing: thing(v, r.Thing), Out: r.Direction == requests.Out, Urgency: r.Urgency, Shown: r.Shown,
		Loop: r.Loop, Unlike: words.AgreedUnlike(r), Origin: r.Origin, Acts: requests.Buttons(r, h.Standpoint(r)), Ringing: v.Board.Ringing(r), order: r.Asked.At,
	}
	item, _ := v.Ledger.Item(r.Thing.Item)
	out.Kept = kept(v, item.Value)
	at, _ := v.Ledger.Place(item.Value.KeptAt)
	out.Looks, out.Map, out.Drawer = item.Value.Picture, at.Value.Map, string(item.Value.KeptWords)
	if b, set := v.Ledger.Bundle(r.Thing.Item); set {
		out.Rescue, out.Kept = b.Value.Rescue != "", string(b.Value.Words)
		for _, x := range b.Value.Lines {
			if x.Where != kits.WhereInside {
				out.Bring = append(out.Bring, thing(v, requests.Thing{Item: x.Item, Count: requests.Count(x.Count)}))
			}
		}
	}
	self := v.Peer.Self()
	for _, g := range r.Acknowledged {
		if tag := string(g.By.Tag); g.Still {
			out.Mine = out.Mine || g.Device() == self
			if !slices.Contains(out.Going, tag) {
				out.Going = append(out.Going, tag)
			}
		}
	}
	for _, x := range r.InHand {
		out.Mine = out.Mine || x.Live && x.Device() == self
	}
	for _, o := range r.Offers {
		out.Asked = out.Asked || o.Open()
	}
	out.Choices = choices(v.Ledger, r.Thing.Item)
	out.Since, out.Least = v.Since(lastMark(r))
	out.Same, out.GivenBack, out.Inject = same(v, r), givenBack(v, r), v.InjectOn(r)
	if x := v.Board.Escalated(r, v.Elapsed); x.Acknowledged && r.Shown == requests.ShownAcknowledged {
		out.Late, out.Usual = x.Overdue, x.Usual
	}
	return out
}

// choices are an item, those of the same name, and those that may be taken for
// either, in the order of their numbers: the asked one has no place of its own.
func choices(l *kits.Ledger, asked mesh.Number) []mesh.Number {
	out := []mesh.Number{asked}
	item, known := l.Item(asked)
	if !known {
		return out
	}
	out = append(out, item.Value.Alternatives...)
	for _, i := range l.Items() {
		if i.Name == item.Value.Name {
			out = append(append(out, i.Number), i.Alternatives...)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// lastMark is the mark that the shown state began with: its age is shown.
func lastMark(r requests.Request) requests.Mark {
	last := r.Asked
	for _, m := range r.Marks {
		if !m.Undone && m.Kind != requests.KindJoined && m.Kind != requests.KindJoinedCode && m.At.Compare(last.At) > 0 {
			last = m
		}
	}
	return last
}

func thing(v station.View, t requests.Thing) Thing {
	item, _ := v.Ledger.Item(t.Item)
	if t.Strength == "" {
		t.Strength = item.Value.Detail
	}
	out := Thing{Thing: t, Name: string(item.Value.Name)}
	if out.Drug.Drug, out.Drug.Is = v.Drug(t.Item); out.Drug.Is {
		out.Name = out.Drug.Name
	}
	return out
}

func (s Snapshot) item(n mesh.Number) (Item, bool) {
	i, found := slices.BinarySearchFunc(s.Items, n, func(i Item, n mesh.Number) int { return cmp.Compare(i.Number, n) })
	if !found {
		return Item{}, false
	}
	return s.Items[i], true
}

func (s Snapshot) request(ref mesh.Ref) (Request, bool) {
	i := slices.IndexFunc(s.Requests, func(r Request) bool { return r.Ref == ref })
	if i < 0 {
		return Request{}, false
	}
	return s.Requests[i], true
}

func (r Request) can(a requests.Act) bool { return slices.Contains(r.Acts, a) }
