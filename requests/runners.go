package requests

import (
	"cmp"
	"maps"
	"slices"

	"lintel/mesh"
)

// Doing is where a runner is, as far as that runner's own marks tell.
type Doing uint8

// What a runner does.
const (
	NoRunner Doing = 0 // nobody fetches for this door
	Here     Doing = 1 // has this door, and nothing promised
	AtADoor  Doing = 2 // put something at the door of Room last, and something lies there
	Fetching Doing = 3 // is fetching for Room
	Away     Doing = 4 // a drill calls this runner away: calls go to the others
)

// RunnerState is one runner as seen from one door.
type RunnerState struct {
	Holding
	Doing Doing
	Room  mesh.ID // of AtADoor and Fetching: which; of several promised this door, else the most urgent
	Next  bool    // elsewhere now, and this door is next
	Open  int     // requests that this runner holds or goes for
}

// RunnerAt says what each runner who has this room does, by device; nobody:
// there is no runner.
func (b *Board) RunnerAt(room mesh.ID) []RunnerState {
	var out []RunnerState
	for _, device := range b.RunnersFor(room) {
		out = append(out, b.runnerState(device, room))
	}
	return out
}

func (b *Board) runnerState(device mesh.Key, room mesh.ID) RunnerState {
	h, _ := b.Holder(device)
	s := RunnerState{Holding: h, Doing: Here}
	carrying := b.Carrying(device)
	busy := slices.Concat(carrying.InHand, carrying.Promised)
	slices.SortFunc(busy, byAge)
	s.Open = len(busy)
	at := slices.IndexFunc(busy, func(r Request) bool { return r.Room == room })
	away, is := b.away(room)
	switch door, waits := b.atDoorOf(device, carrying.AtDoor); {
	case is && away == device:
		s.Doing = Away
		return s
	case waits:
		s.Doing, s.Room = AtADoor, door
	case at >= 0:
		s.Doing, s.Room = Fetching, room
	case len(busy) > 0:
		s.Doing, s.Room = Fetching, busy[0].Room
	}
	s.Next = s.Doing != Here && s.Room != room && b.next(h, s.Room, busy) == room
	return s
}

// atDoorOf is the door at which a device's last mark put something, if anything
// of it lies there still.
func (b *Board) atDoorOf(device mesh.Key, waiting []Request) (mesh.ID, bool) {
	last := b.runners.last(b, device)
	if last == nil || last.Kind != KindAtDoor || last.root == nil {
		return "", false
	}
	door := doorOf(last.body.(*AtDoor), last.root.body.(*Asked).Room)
	there := slices.ContainsFunc(waiting, func(r Request) bool {
		return slices.ContainsFunc(r.Deliveries, func(d Delivery) bool {
			return d.Open && d.Device() == device && cmp.Or(d.Door, r.Room) == door
		})
	})
	return door, there
}

// doorOf is the door that a runner read, else that of the room that asked.
func doorOf(body *AtDoor, room mesh.ID) mesh.ID { return cmp.Or(body.Door, room) }

// next is the door to which a runner goes after the one in hand: of what was
// promised the most urgent, else of what nobody has answered yet.
func (b *Board) next(h Holding, now mesh.ID, busy []Request) mesh.ID {
	for _, r := range busy {
		if r.Room != now {
			return r.Room
		}
	}
	for _, r := range b.Open() {
		if r.Room != now && h.For(r.Room) && b.Ringing(r) {
			return r.Room
		}
	}
	return ""
}

// Carrying is what a runner has to pass on.
type Carrying struct {
	InHand   []Request // held, and not at the door
	Promised []Request // going for, and not in hand
	AtDoor   []Request // put at a door, and lying there
}

// Carrying lists what the holder of a device has to pass on, most urgent first.
// A request of which one part lies at the door and another is in hand is in both.
func (b *Board) Carrying(device mesh.Key) Carrying {
	var c Carrying
	for _, r := range b.Open() {
		lies := slices.ContainsFunc(r.Deliveries, func(d Delivery) bool { return d.Open && d.Device() == device })
		switch {
		case r.holds(device):
			c.InHand = append(c.InHand, r)
		case r.goes(device):
			c.Promised = append(c.Promised, r)
		}
		if lies {
			c.AtDoor = append(c.AtDoor, r)
		}
	}
	return c
}

// holds tells whether a device's holder has it in hand, and not at the door.
func (r Request) holds(device mesh.Key) bool {
	return slices.ContainsFunc(r.InHand, func(h ReadBack) bool {
		return h.Live && h.Device() == device && !slices.ContainsFunc(r.Deliveries, func(d Delivery) bool { return d.Names == h.Ref })
	})
}

// goes tells whether a device's holder goes for it: said so, did not give it up,
// it is wanted, and nobody brought it.
func (r Request) goes(device mesh.Key) bool {
	if r.Shown != ShownAcknowledged && r.Shown != ShownInHand {
		return false
	}
	return slices.ContainsFunc(r.Acknowledged, func(g Going) bool { return g.Still && g.Device() == device })
}

// BothWent lists who goes for a request, or holds it, if several devices do:
// the first "going" of each.
func BothWent(r Request) []Going {
	if r.Shown != ShownAcknowledged && r.Shown != ShownInHand {
		return nil
	}
	var out []Going
	for _, g := range r.Acknowledged {
		if g.Still && !slices.ContainsFunc(out, func(o Going) bool { return o.Device() == g.Device() }) {
			out = append(out, g)
		}
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

// goers lists the devices that go for a request or hold it, by key.
func (r Request) goers() []mesh.Key {
	keys := map[mesh.Key]bool{}
	for _, g := range r.Acknowledged {
		if g.Still {
			keys[g.Device()] = true
		}
	}
	for _, h := range r.InHand {
		if h.Live {
			keys[h.Device()] = true
		}
	}
	return slices.SortedFunc(maps.Keys(keys), mesh.Key.Compare)
}

// Contention is one runner who is wanted at several doors now.
type Contention struct {
	Runner   mesh.Key
	Doors    []mesh.ID  // by id
	Requests []mesh.Ref // wanted now, first asked first
}

// Contended lists the runners of whom several doors want something now: each
// thing is either only theirs to bring, because nobody else goes for it, or
// nobody goes for it and they are the only one who has that room.
func (b *Board) Contended() []Contention {
	wanted := map[mesh.Key][]Request{}
	for _, r := range b.Open() {
		if r.Urgency != RightNow || r.Direction != In || !r.waits() {
			continue
		}
		who := r.goers()
		if len(who) == 0 {
			who = b.RunnersFor(r.Room)
		}
		if len(who) == 1 {
			wanted[who[0]] = append(wanted[who[0]], r)
		}
	}
	var out []Contention
	for _, runner := range slices.SortedFunc(maps.Keys(wanted), mesh.Key.Compare) {
		c := Contention{Runner: runner}
		for _, r := range wanted[runner] { // by age, as Open gives them
			c.Doors = append(c.Doors, r.Room)
			c.Requests = append(c.Requests, r.Ref)
		}
		slices.Sort(c.Doors)
		if c.Doors = slices.Compact(c.Doors); len(c.Doors) > 1 {
			out = append(out, c)
		}
	}
	return out
}

// runnerIndex finds what a device said last about any request. It belongs to the Board.
type runnerIndex struct{ byDevice map[mesh.Key]*run }

// add takes a mark.
func (x *runnerIndex) add(n *fact) {
	switch n.Kind {
	case KindAcknowledged, KindCouldNot, KindPassedOn, KindInHand, KindAtDoor, KindTakenBack:
		if x.byDevice == nil {
			x.byDevice = map[mesh.Key]*run{}
		}
		runOf(x.byDevice, n.Ref.Author()).add(n)
	}
}

// reorder notes that a fact's place in the order changed.
func (x *runnerIndex) reorder() {
	for _, r := range x.byDevice {
		r.mixed = true
	}
}

// last is a device's last mark that counts; nil: none.
func (x *runnerIndex) last(b *Board, device mesh.Key) *fact {
	for _, n := range slices.Backward(x.byDevice[device].all()) {
		if !b.undone(n) {
			return n
		}
	}
	return nil
}
