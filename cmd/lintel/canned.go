package main

import (
	"errors"
	"time"

	"lintel/app/join"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// canned is an invented unit, folded without a device: what the pictures of the
// gallery show. The device that looks is number 0.
type canned struct {
	view  station.View
	n     uint16        // facts so far
	now   time.Duration // since cannedAt
	gap   time.Duration // between two facts
	first mesh.Ref      // the case that goes on
	of    mesh.Ref      // the case that the debrief is of; zero: the newest
	err   error
}

// cannedAt is when the invented cases are.
const cannedAt mesh.Wall = 1_790_000_000_000

// cannedGap is how much later each fact is, unless something else is said.
const cannedGap = 7 * time.Second

func newCanned() (*canned, error) {
	starter, err := station.ReadStarter()
	if err != nil {
		return nil, err
	}
	return &canned{view: station.Read(mesh.GroupID{}, nil, nil, starter).View, gap: cannedGap}, nil
}

// do records an act of a device; the first failure ends the case.
func (c *canned) do(device byte, role mesh.ID, tag mesh.Tag, act station.Act) mesh.Ref {
	if c.err != nil {
		return mesh.Ref{}
	}
	ref, err := c.try(device, mesh.By{Role: role, Tag: tag}, act)
	c.err = err
	return ref
}

// try records an act, or says why it cannot be.
func (c *canned) try(device byte, by mesh.By, act station.Act) (mesh.Ref, error) {
	c.n++
	key, tap := mesh.Key{device}, mesh.Tap{byte(c.n >> 8), byte(c.n)}
	parts, err := station.Compose(c.view, key, tap, by, act)
	if err != nil {
		return mesh.Ref{}, err
	}
	c.later(c.gap)
	c.add(key, tap, by, parts)
	return mesh.MakeRef(key, tap, 1), nil
}

// add folds what a device wrote.
func (c *canned) add(key mesh.Key, tap mesh.Tap, by mesh.By, parts []mesh.Part) {
	order := mesh.Order{Turn: mesh.Turn(c.n), Feed: mesh.MakeFeed(key, mesh.Incarnation{1}), Seq: mesh.Seq(c.n)}
	for i, p := range parts {
		f := mesh.Fact{Ref: mesh.MakeRef(key, tap, i), At: order, Wall: c.view.Now.Wall, By: by, Kind: p.Kind, Body: p.Body}
		c.view.Board.Add(f)
		c.view.Ledger.Add(f)
	}
}

// compared has the clock of the device inside measured against another's.
func (c *canned) compared(device byte, within time.Duration) {
	c.n++
	part, err := mesh.MakePart(mesh.KindClock, &mesh.Clock{Peer: mesh.Key{device}, WithinMS: uint32(within.Milliseconds()), Cause: mesh.ClockFirst})
	if c.err != nil || err != nil {
		c.err = errors.Join(c.err, err)
		return
	}
	c.add(mesh.Key{cannedLead}, mesh.Tap{byte(c.n >> 8), byte(c.n)}, mesh.By{}, []mesh.Part{part})
}

// later lets time go by.
func (c *canned) later(d time.Duration) {
	c.now += d
	c.view.Now.Wall = cannedAt + mesh.Wall(c.now.Milliseconds())
}

// clock is the time of the invented case.
func (c *canned) clock() time.Time { return time.UnixMilli(int64(c.view.Now.Wall)) }

// cannedTaps record what is tapped in a picture, and show what became of it.
type cannedTaps struct {
	c     *canned
	shown func()
	noted func(station.Act) // nil: nobody wants to know
}

// Tap is part of the screens' Taps.
func (t cannedTaps) Tap(by mesh.By, act station.Act, done func(station.Result, error)) bool {
	ref, err := t.c.try(0, by, act)
	if t.noted != nil && err == nil {
		t.noted(act)
	}
	if done != nil {
		done(station.Result{Saved: err == nil, Ref: ref}, err)
	}
	t.shown()
	return true
}

// Devices of the invented case, other than number 0 which looks.
const (
	cannedLead   = 1
	cannedRunner = 2
	cannedSecond = 3
	cannedCharge = 4
)

// people are who has the devices: a lead inside, a runner outside.
func (c *canned) people(lead, run byte) {
	c.do(lead, "lead", "L1", station.Hold{Holds: requests.Holds{Role: "lead", Tag: "L1", Rooms: []mesh.ID{"A1"}}})
	c.do(run, "runner", "R1", station.Hold{Holds: requests.Holds{Role: "runner", Tag: "R1", Rooms: []mesh.ID{"A1"}}})
}

func (c *canned) ask(lead byte, item mesh.Number, count requests.Count, soon requests.Urgency) mesh.Ref {
	return c.do(lead, "lead", "L1", station.Ask{Room: "A1", Thing: requests.Thing{Item: item, Count: count}, Urgency: soon})
}

func (c *canned) goes(run byte, r mesh.Ref) {
	c.do(run, "runner", "R1", station.Go{Request: r})
}

func (c *canned) holds(run byte, r mesh.Ref, item mesh.Number, count requests.Count) {
	c.do(run, "runner", "R1", station.ReadBack{Request: r, Thing: requests.Thing{Item: item, Count: count}, How: requests.Chosen})
}

// Items of the invented case.
const (
	itemTube     mesh.Number = 1032 // tracheal tube, cuffed 7.5
	itemBougie   mesh.Number = 1108
	itemKetamine mesh.Number = 3046 // 50 mg/mL
	itemWeaker   mesh.Number = 3038 // ketamine 10 mg/mL
	itemRescue   mesh.Number = 229  // set B

	itemRocuronium mesh.Number = 3009
)

// unitStory is the page of a device that belongs to the invented unit.
func (c *canned) unitStory() join.Snapshot {
	c.people(0, cannedRunner)
	s := join.Look(c.view)
	s.Unit, s.Name, s.Address = "Anvil unit, invented", "inside tablet", "192.0.2.21:29460"
	s.Devices = []join.Device{
		{Name: "inside tablet", Self: true, Held: true, Holds: s.Holds, RoleName: "Airway lead", Battery: 81},
		{Name: "runner phone", Held: true, Holds: requests.Holds{Role: "runner", Tag: "R1", Rooms: []mesh.ID{"A1"}}, RoleName: "Runner", Health: mesh.Connected,
			Via: mesh.OverQUIC, RoundTrip: 4 * time.Millisecond, OffsetMS: 180, WithinMS: 12, Battery: join.BatteryUnknown},
		{Name: "charge desk", Held: true, Holds: requests.Holds{Role: "charge", Tag: "C1"}, RoleName: "Charge nurse", Battery: join.BatteryUnknown},
	}
	return s
}
