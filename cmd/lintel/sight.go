package main

import (
	"slices"

	"lintel/app/brief"
	"lintel/app/charge"
	"lintel/app/debrief"
	"lintel/app/door"
	"lintel/app/inside"
	"lintel/app/join"
	"lintel/app/runner"
	"lintel/app/scribe"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/mesh/lan"
	"lintel/requests"
)

// sight is what the window shows, copied out of the device: what stands on
// every page, and what the page that is open needs. The others are nil.
type sight struct {
	Page   page          // that was looked at
	Unit   bool          // the device belongs to one
	Side   requests.Side // of whoever has it; 0: nobody said, or the role is unknown
	Can    requests.Abilities
	Rooms  []mesh.ID       // that it is for; the board is that of the first
	Memory bool            // nothing new is saved on this device
	Nearby []lan.Candidate // found on the network, not of the unit

	Board    *inside.Snapshot
	Layout   station.BoardLayout // of the board, as it stands
	Case     bool                // one is open in the board's room
	Requests *runner.Snapshot
	Brief    *brief.Snapshot
	Health   brief.Health // of this device, for the brief
	Door     *door.Snapshot
	Times    *scribe.Snapshot
	Debrief  *debrief.Snapshot
	Stock    *charge.Snapshot
	Join     *join.Snapshot

	Drills []station.Exercise // that go on

	Live       bool     // something on the page grows older before people's eyes
	Calls      []caller // that call whoever has the device, the gravest first
	Flash      bool     // the bright half of a flash
	Sounds     bool     // whoever has the device is called by sounds: never inside
	SoundWorks bool
	SoundKnown bool
	Hint       words.ID // what to try; empty: nothing
	Fault      error    // what ended or hinders the device

	waiting []requests.Call // what Calls are made of
}

// glance is what a look needs to know beside the view.
type glance struct {
	at     page // that is open
	hints  bool
	layout station.BoardLayout // that the unit began with
	after  *glimpse[mesh.Ref, debrief.Snapshot]
	stock  *glimpse[charge.Wanted, charge.Snapshot]
}

// sightOf fills what the station knows. It runs in the station's loop.
func sightOf(v station.View, g glance) sight {
	s := sight{Unit: true, Memory: v.Peer.InMemory()}
	h, held := v.Board.Holder(v.Peer.Self())
	if held {
		s.Side, s.Can, s.Rooms = h.Side, h.Can, slices.Clone(h.Rooms)
	}
	s.Page, s.Drills = s.shown(g.at), v.Exercises()
	if s.waiting = waiting(v); s.Side != requests.Inside {
		for _, c := range s.waiting {
			s.Calls = append(s.Calls, callerOf(v, c))
		}
	}
	if g.hints {
		s.Hint = hint(h, v.Board.Open())
	}
	s.fill(v, g)
	return s
}

// fill copies what the page that is open needs.
func (s *sight) fill(v station.View, g glance) {
	going := slices.ContainsFunc(v.Board.Cases(), func(c requests.Case) bool { return !c.Over })
	switch s.Page {
	case pageBoard:
		x := inside.Look(v)
		s.Board, s.Layout, s.Case, s.Live = &x, v.BoardLayout(g.layout), x.Case, len(x.Requests) > 0 || x.Case
	case pageRequests:
		x := runner.Look(v)
		s.Requests, s.Live = &x, len(x.Requests) > 0 || len(s.Calls) > 0
	case pageBrief:
		x := brief.Look(v)
		s.Brief, s.Live = &x, going
	case pageDoor:
		x := door.Look(v)
		s.Door, s.Live = &x, len(v.Board.Cases()) > 0 // of the air too
	case pageTimes:
		x := scribe.Look(v)
		s.Times, s.Live = &x, true // a clock on the wall
	case pageDebrief:
		s.Debrief = g.after.look(v, debrief.Look)
	case pageStock:
		s.Stock = g.stock.look(v, charge.Look)
	case pageDevice:
		x := join.Look(v)
		s.Join, s.Live = &x, true // of links
	}
}

// glimpse is the newest look at what takes long to work out: whole cases, or
// all stock. It looks again only when something was recorded since, when
// something else is wanted, or after glimpseEvery. The worker's loop owns it.
type glimpse[W comparable, S any] struct {
	of    W // that is wanted
	heads []mesh.Head
	seen  *S
	was   W // that was wanted then
	at    mesh.Wall
}

// glimpseEvery is how old a look may be in which nothing changed but the time, in ms.
const glimpseEvery = 30_000

// look gives a look that is new enough.
func (a *glimpse[W, S]) look(v station.View, look func(station.View, W) S) *S {
	heads := v.Peer.Heads()
	if age := v.Now.Wall - a.at; a.seen == nil || a.was != a.of || age < 0 || age >= glimpseEvery || !slices.Equal(heads, a.heads) {
		x := look(v, a.of)
		a.seen, a.was, a.heads, a.at = &x, a.of, heads, v.Now.Wall
	}
	return a.seen
}

// hint is what somebody who sees the program for the first time may try next:
// the step after what the newest open request has reached.
func hint(h requests.Holding, open []requests.Request) words.ID {
	inside, fetches := h.Side == requests.Inside, h.Can&requests.CanFetch != 0
	if !inside && !fetches {
		return "try.watch"
	}
	pick := func(here, there words.ID) words.ID {
		if inside {
			return here
		}
		return there
	}
	if len(open) == 0 {
		return pick("try.tap", "try.wait")
	}
	r := open[0]
	for _, o := range open {
		if o.Asked.At.Compare(r.Asked.At) > 0 {
			r = o
		}
	}
	switch {
	case r.Shown == requests.ShownAtDoor || r.Shown == requests.ShownTakeBack:
		return pick("try.take", "try.inside")
	case r.Shown == requests.ShownInHand && r.Loop == requests.LoopClosed:
		return pick("try.door", "try.put")
	case r.Shown == requests.ShownInHand:
		return pick("try.answer", "try.agree")
	case r.Shown == requests.ShownAcknowledged:
		return pick("try.read", "try.readback")
	}
	return pick("try.going", "try.go")
}

// calm tells whether nothing on it grows older before people's eyes.
func (s sight) calm() bool { return s.Unit && !s.Live && len(s.Calls) == 0 }

// still is a sight without its clocks, to be compared with another.
func (s sight) still() sight {
	s.waiting = nil // their age is not shown
	if s.Board != nil {
		x := *s.Board
		x.Now, s.Board = 0, &x
	}
	if s.Requests != nil {
		x := *s.Requests
		x.Now, s.Requests = 0, &x
	}
	if s.Brief != nil {
		x := *s.Brief
		x.Now, s.Brief = 0, &x
	}
	return s
}
