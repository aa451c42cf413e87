package main

import (
	"time"

	"lintel/app/inside"
	"lintel/app/join"
	"lintel/app/runner"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// canned is an invented case in a room, folded without a device: what the
// pictures of the gallery show. The device that looks is number 0.
type canned struct {
	view station.View
	n    byte // facts so far
	err  error
}

// cannedAt is when the invented case is.
const cannedAt mesh.Wall = 1_790_000_000_000

// cannedGap is how much later each fact of it is.
const cannedGap = 7 * time.Second

func newCanned() (*canned, error) {
	starter, err := station.ReadStarter()
	if err != nil {
		return nil, err
	}
	return &canned{view: station.Read(mesh.GroupID{}, nil, nil, starter).View}, nil
}

// do records an act of a device; the first failure ends the case.
func (c *canned) do(device byte, role mesh.ID, tag mesh.Tag, act station.Act) mesh.Ref {
	if c.err != nil {
		return mesh.Ref{}
	}
	c.n++
	by := mesh.By{Role: role, Tag: tag}
	key, tap := mesh.Key{device}, mesh.Tap{c.n}
	var parts []mesh.Part
	if parts, c.err = station.Compose(c.view, key, tap, by, act); c.err != nil {
		return mesh.Ref{}
	}
	at := cannedAt + mesh.Wall(c.n)*mesh.Wall(cannedGap.Milliseconds())
	for i, p := range parts {
		f := mesh.Fact{Ref: mesh.MakeRef(key, tap, i), At: mesh.Order{Turn: mesh.Turn(c.n)}, Wall: at, By: by, Kind: p.Kind, Body: p.Body}
		c.view.Board.Add(f)
		c.view.Ledger.Add(f)
	}
	c.view.Now.Wall = at
	return mesh.MakeRef(key, tap, 1)
}

// Devices of the invented case, other than number 0 which looks.
const (
	cannedLead   = 1
	cannedRunner = 2
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
)

// insideStory plays a case seen from inside, as far as a chapter.
func (c *canned) insideStory(chapter string) inside.Snapshot {
	c.people(0, cannedRunner)
	if chapter != "calm" && chapter != "lies" && chapter != "other" {
		bougie := c.ask(0, itemBougie, 1, requests.NextOpening)
		drug := c.ask(0, itemKetamine, 2, requests.RightNow)
		c.goes(cannedRunner, drug)
		c.goes(cannedRunner, bougie)
		switch chapter {
		case "matches":
			c.holds(cannedRunner, drug, itemKetamine, 2)
		case "differs":
			c.holds(cannedRunner, drug, itemWeaker, 2)
		case "offered":
			c.do(cannedRunner, "runner", "R1", station.Offer{Request: drug, Things: []requests.Thing{{Item: itemWeaker, Count: 2}, {Item: itemBougie, Count: 1}}})
		}
	}
	s := inside.Look(c.view)
	s.InMemory, s.Runners = false, []inside.Runner{{Tag: "R1", Health: mesh.Connected}}
	if chapter == "cut off" {
		s.Runners[0].Health = mesh.NotConnected
	}
	for i := range s.Requests {
		s.Requests[i].Reach = words.Reach{Saved: true, Copies: 2, OnRunner: true}
	}
	return s
}

// runnerStory plays a case seen from outside.
func (c *canned) runnerStory(chapter string) runner.Snapshot {
	c.people(cannedLead, 0)
	if chapter != "calm" {
		c.ask(cannedLead, itemBougie, 1, requests.BeforeWeLeave)
		tube := c.ask(cannedLead, itemTube, 1, requests.RightNow)
		drug := c.ask(cannedLead, itemKetamine, 2, requests.RightNow)
		c.goes(0, tube)
		if chapter == "list" {
			c.ask(cannedLead, itemRescue, 1, requests.RightNow)
			c.goes(0, drug)
		}
	}
	s := runner.Look(c.view)
	s.InMemory = false
	for i := range s.Rooms {
		s.Rooms[i].InReach = true
	}
	return s
}

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
