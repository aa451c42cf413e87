package runner

import (
	"cmp"
	"slices"
	"time"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// Room is a door that this device is for.
type Room struct {
	ID      mesh.ID
	InReach bool       // a device inside is connected
	Runners []Runner   // who fetches for it, this device first
	Bag     []mesh.Ref // what travels together at its next opening, by the place where it is kept
	Low     []Low      // inside devices whose battery is low
	Failed  []Failed   // inside devices whose newest comms test went wrong
	Drill   string     // the exercise that goes on there; empty: none
	Inject  string     // what was given in it last, for a while; empty: nothing
	Given   mesh.Ref   // that inject
	Said    Said       // the newest phrase that was said inwards
}

// Runner is a runner as one door sees it.
type Runner struct {
	Tag   mesh.Tag
	Self  bool
	Doing requests.Doing
	At    mesh.ID
	Next  bool // the door is next after At
}

// Low is an inside device whose battery is low.
type Low struct {
	Tag      mesh.Tag
	Name     string // of the device, where nobody with a tag has it
	Battery  int32  // per cent
	Charging bool
	Drill    bool // an exercise says so
}

// Failed is an inside device whose newest comms test went wrong.
type Failed struct {
	Tag   mesh.Tag
	Name  string
	Sound bool // nobody heard the call
	Door  bool // the room on its screen is not the room on the door
	Lock  bool // its screen lock is on
}

// Said is a phrase that was said inwards.
type Said struct {
	Ref    mesh.Ref
	Phrase string // in words; empty: none
	Heard  []mesh.Tag
	Since  mesh.Wall
}

// saidFor is how long a phrase that was said inwards is shown, in ms.
const saidFor = 5 * 60 * 1000

// rooms are the doors that the device is for, or all of the unit.
func rooms(v station.View, h requests.Holding) (out []Room) {
	ids := slices.Clone(h.Rooms)
	if len(ids) == 0 {
		ids = doors(v)
	}
	near := map[mesh.Key]bool{}
	for _, p := range v.Peer.Peers() {
		near[p.Peer] = p.Health != mesh.NotConnected
	}
	for _, id := range ids {
		r := Room{ID: id, Runners: runnersAt(v, id), Bag: bag(v, id), Said: said(v, id)}
		for _, o := range v.Board.Holders() {
			if o.Side != requests.Inside || !o.For(id) {
				continue
			}
			r.InReach = r.InReach || near[o.Device]
			if low, is := lowAt(v, o); is {
				r.Low = append(r.Low, low)
			}
		}
		r.Failed = failedAt(v, id)
		if x, on := v.ExerciseIn(id); on {
			r.Drill, r.Inject, r.Given = cmp.Or(string(x.Label), string(id)), x.Inject, x.Given
		}
		out = append(out, r)
	}
	return out
}

// doors are all doors of the unit, in the order of their names: those it named,
// and those that somebody has a device for, or wants something at.
func doors(v station.View) (out []mesh.ID) {
	for _, r := range v.Board.Rooms() {
		out = append(out, r.ID)
	}
	for _, h := range v.Board.Holders() {
		out = append(out, h.Rooms...)
	}
	for _, c := range v.Board.Cases() {
		if !c.Over {
			out = append(out, c.Room)
		}
	}
	for _, r := range v.Board.Open() {
		out = append(out, r.Room)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// runnersAt says of each runner for a room where it is; this device comes first.
func runnersAt(v station.View, room mesh.ID) (out []Runner) {
	for _, x := range v.Board.RunnerAt(room) {
		r := Runner{Tag: x.Tag, Self: x.Device == v.Peer.Self(), Doing: x.Doing, At: x.Room, Next: x.Next}
		if x.Doing != requests.NoRunner {
			out = append(out, r)
		}
	}
	slices.SortStableFunc(out, func(a, b Runner) int {
		switch {
		case a.Self == b.Self:
			return 0
		case a.Self:
			return -1
		}
		return 1
	})
	return out
}

// bag is what travels together at the next opening of a door, in the order of
// the places where it is kept, so that one round fetches it all.
func bag(v station.View, room mesh.ID) (out []mesh.Ref) {
	all := v.Board.Bag(room)
	where := func(r requests.Request) string {
		item, _ := v.Ledger.Item(r.Thing.Item)
		return kept(v, item.Value)
	}
	slices.SortStableFunc(all, func(a, b requests.Request) int {
		return cmp.Or(cmp.Compare(where(a), where(b)), cmp.Compare(a.Thing.Item, b.Thing.Item))
	})
	for _, r := range all {
		out = append(out, r.Ref)
	}
	return out
}

// lowAt tells whether the battery of an inside device is low, by what it said last.
func lowAt(v station.View, o requests.Holding) (Low, bool) {
	c, known := v.BatteryShown(o)
	if !known || c.Battery < 0 || int64(c.Battery) > v.Board.Number("battery-low") {
		return Low{}, false
	}
	return Low{Tag: o.Tag, Name: deviceName(v, o.Device), Battery: c.Battery, Charging: c.Charging, Drill: v.BatteryInject(o)}, true
}

// failedAt lists the inside devices whose newest comms test of the open case
// went wrong. One that nobody answered yet is no failure.
func failedAt(v station.View, room mesh.ID) (out []Failed) {
	c, open := v.Board.CaseIn(room)
	if !open {
		return nil
	}
	newest := map[mesh.Key]requests.CommsTest{}
	var order []mesh.Key
	for _, t := range c.Tests {
		if _, known := newest[t.Device()]; !known {
			order = append(order, t.Device())
		}
		newest[t.Device()] = t
	}
	for _, device := range order {
		t := newest[device]
		f := Failed{Tag: t.By.Tag, Name: deviceName(v, device), Door: !t.DoorOK, Lock: !t.ScreenOn}
		f.Sound = len(t.Heard) > 0 && !slices.ContainsFunc(t.Heard, func(h requests.Hearing) bool { return h.Sound })
		if f.Sound || f.Door || f.Lock {
			out = append(out, f)
		}
	}
	return out
}

// deviceName is what a device is called.
func deviceName(v station.View, device mesh.Key) string {
	for _, d := range v.Peer.Devices() {
		if d.Key == device {
			return string(d.Name)
		}
	}
	return ""
}

// said is the newest phrase that was said into a room, with who heard it.
func said(v station.View, room mesh.ID) (out Said) {
	c, open := v.Board.CaseIn(room)
	if !open {
		return out
	}
	for _, p := range c.Said {
		if p.Out || v.Elapsed(p.Mark) > saidFor*time.Millisecond {
			continue
		}
		out = Said{Ref: p.Ref, Phrase: lineWords(v, listSaidIn, p.Phrase)}
		out.Since, _ = v.Since(p.Mark)
		for _, m := range p.Heard {
			out.Heard = append(out.Heard, m.By.Tag)
		}
	}
	return out
}
