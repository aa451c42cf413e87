package main

import (
	"slices"

	"lintel/app/inside"
	"lintel/app/join"
	"lintel/app/runner"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/mesh/lan"
	"lintel/requests"
)

// sight is everything that the window shows, copied out of the device.
type sight struct {
	Unit   bool          // the device belongs to one
	Side   requests.Side // of whoever has it; 0: nobody said, or the role is unknown
	Can    requests.Abilities
	Memory bool            // nothing new is saved on this device
	Nearby []lan.Candidate // found on the network, not of the unit
	Inside inside.Snapshot
	Runner runner.Snapshot
	Join   join.Snapshot

	Calls      []mesh.Ref // requests that call whoever has the device
	Flash      bool       // the bright half of a flash
	Sounds     bool       // whoever has the device is called by sounds: never inside
	SoundWorks bool
	SoundKnown bool
	Hint       words.ID // what to try; empty: nothing
	Fault      error    // what ended or hinders the device
}

// sightOf fills what the station knows. It runs in the station's loop.
func sightOf(v station.View, hints bool) sight {
	s := sight{Unit: true, Memory: v.Peer.InMemory(), Inside: inside.Look(v), Runner: runner.Look(v), Join: join.Look(v)}
	h, held := v.Board.Holder(v.Peer.Self())
	if held {
		s.Side, s.Can = h.Side, h.Can
	}
	if s.Can&requests.CanFetch != 0 {
		s.Calls = s.Runner.Calling()
	}
	if hints {
		s.Hint = hint(h, v.Board.Open())
	}
	return s
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
func (s sight) calm() bool {
	return s.Unit && len(s.Inside.Requests) == 0 && len(s.Runner.Requests) == 0 && len(s.Calls) == 0
}

// still is a sight without its clocks, to be compared with another.
func (s sight) still() sight {
	s.Inside.Now, s.Runner.Now, s.Join.Now = 0, 0, 0
	s.Join.Devices = slices.Clone(s.Join.Devices)
	for i := range s.Join.Devices {
		d := &s.Join.Devices[i]
		d.RoundTrip, d.OffsetMS, d.WithinMS = 0, 0, 0
	}
	return s
}
