package main

import (
	"time"

	"lintel/app/runner"
	"lintel/app/station"
	"lintel/mesh"
	"lintel/requests"
)

// runnerStory plays a case seen from outside, as far as a chapter.
func (c *canned) runnerStory(chapter string) {
	switch chapter {
	case "calm":
		c.people(cannedLead, 0)
		return
	case "list", "asked", "read-back", "unread":
		c.people(cannedLead, 0)
		c.ask(cannedLead, itemBougie, 1, requests.BeforeWeLeave)
		tube := c.ask(cannedLead, itemTube, 1, requests.RightNow)
		drug := c.ask(cannedLead, itemKetamine, 2, requests.RightNow)
		c.goes(0, tube)
		if chapter == "list" {
			c.ask(cannedLead, itemRescue, 1, requests.RightNow)
			c.goes(0, drug)
		}
		return
	}
	c.ward("runner", "R1")
	c.calling(chapter)
}

// calling has two doors, two runners, and what a chapter is about.
func (c *canned) calling(chapter string) {
	lead := func(act station.Act) mesh.Ref { return c.do(cannedLead, "lead", "L1", act) }
	runs := func(act station.Act) mesh.Ref { return c.do(0, "runner", "R1", act) }
	other := func(act station.Act) mesh.Ref { return c.do(cannedSecond, "runner", "R2", act) }
	tube := c.ask(cannedLead, itemTube, 1, requests.NextOpening)
	drug := c.ask(cannedLead, itemKetamine, 2, requests.NextOpening)
	switch chapter {
	case "doors":
		lead(station.Ask{Room: "A2", Thing: requests.Thing{Item: itemBougie, Count: 1}, Urgency: requests.NextOpening})
		runs(station.Go{Request: drug})
		lead(station.Condition{Battery: 12})
	case "new", "again", "everybody":
		lead(station.Ask{Room: "A1", Thing: requests.Thing{Item: itemBougie, Count: 1}, Urgency: requests.RightNow})
		c.later(map[string]time.Duration{"new": 2e9, "again": 11e9, "everybody": 25e9}[chapter])
	case "still":
		now := c.ask(cannedLead, itemBougie, 1, requests.RightNow)
		runs(station.Go{Request: now})
		c.later(70e9)
	case "breach":
		lead(station.ReportBreach{Tag: "D1", What: "glove"})
	case "said":
		lead(station.Say{Room: "A1", Phrase: "tube-in", Out: true})
	case "test":
		lead(station.TestComms{Room: "A1", Battery: 81, DiskMB: 3200, Door: "A1", ScreenOn: true})
	case "passed":
		other(station.Go{Request: tube})
		other(station.PassOn{Request: tube, To: "R1"})
	case "passing":
		runs(station.Go{Request: tube})
		runs(station.Go{Request: drug})
	case "wrong":
		runs(station.Go{Request: tube})
		runs(station.ReadBack{Request: tube, Thing: requests.Thing{Item: itemTube, Count: 1}, How: requests.Chosen})
		lead(station.Agree{Request: tube})
	case "same":
		runs(station.Ask{Room: "A1", Thing: requests.Thing{Item: itemBougie, Count: 1}, Urgency: requests.RightNow, Origin: requests.AskedByVoice})
		c.ask(cannedLead, itemBougie, 1, requests.RightNow)
	case "back":
		runs(station.Go{Request: tube})
		runs(station.ReadBack{Request: tube, Thing: requests.Thing{Item: itemTube, Count: 1}, How: requests.Chosen})
		runs(station.PutAtDoor{Request: tube})
		lead(station.Withdraw{Request: tube})
	case "drill":
		lead(station.GiveInject{Drill: lead(station.StartDrill{Room: "A1", Label: "drill 3"}), What: "not-in-stock"})
	}
	c.later(2e9)
}

// runnerLook is what the list shows of it.
func (c *canned) runnerLook() runner.Snapshot {
	s := runner.Look(c.view)
	s.InMemory = false
	for i := range s.Rooms {
		s.Rooms[i].InReach = true
	}
	for i := range s.Requests {
		s.Requests[i].Least = false
	}
	return s
}
