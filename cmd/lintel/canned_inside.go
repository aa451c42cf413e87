package main

import (
	"lintel/app/inside"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/kits"
	"lintel/mesh"
	"lintel/requests"
)

// insideStory plays a case seen from inside, as far as a chapter.
func (c *canned) insideStory(chapter string) {
	c.people(0, cannedRunner)
	lead := func(act station.Act) mesh.Ref { return c.do(0, "lead", "L1", act) }
	runs := func(act station.Act) mesh.Ref { return c.do(cannedRunner, "runner", "R1", act) }
	switch chapter {
	case "calm", "lies", "other":
		return
	case "drugs":
		c.taken([]kits.TemplateLine{{Item: itemKetamine, Count: 2}, {Item: itemRocuronium, Count: 3}})
		return
	case "times":
		c.first = lead(station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation"}})
		lead(station.NoteTime{Case: c.first, What: "pre-oxygenation"})
		c.later(3 * 60e9)
		lead(station.NoteTime{Case: c.first, What: "induction"})
	}
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
		runs(station.Offer{Request: drug, Things: []requests.Thing{{Item: itemWeaker, Count: 2}, {Item: itemBougie, Count: 1}}})
	case "talk":
		c.talk(lead, runs)
	case "heard":
		lead(station.Hear{Said: c.talk(lead, runs)})
	case "late":
		c.later(100e9)
	case "drill":
		lead(station.GiveInject{Drill: lead(station.StartDrill{Room: "A1", Label: "can't intubate"}), What: "second-patient"})
	}
}

// talk has phrases in both directions, of which the newest was not heard.
func (c *canned) talk(lead, runs func(station.Act) mesh.Ref) (newest mesh.Ref) {
	c.first = lead(station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation"}})
	said := lead(station.Say{Room: "A1", Phrase: "door-shut", Out: true})
	runs(station.Hear{Said: said})
	lead(station.ReportBreach{Tag: "D1", What: "glove"})
	return runs(station.Say{Room: "A1", Phrase: "bed-ready"})
}

// insideLook is what the board shows of it. What a view without a network does
// not have is added.
func (c *canned) insideLook(chapter string) inside.Snapshot {
	s := inside.Look(c.view)
	s.InMemory, s.OnlyHere, s.MayStay = false, 0, false
	s.Runners = []inside.Runner{{Tag: "R1", Health: mesh.Connected}}
	if chapter == "cut off" {
		s.Runners[0].Health = mesh.NotConnected
	}
	for i := range s.Requests {
		s.Requests[i].Least = false
		s.Requests[i].Reach = words.Reach{Saved: true, Copies: 2, OnRunner: true}
	}
	for i := range s.Said {
		s.Said[i].Least = false
		s.Said[i].Reach = words.Reach{Saved: true, Copies: 2, OnRunner: true}
	}
	switch chapter {
	case "not reached":
		for i := range s.Requests {
			s.Requests[i].Reach = words.Reach{Saved: true, Copies: 1}
			s.Requests[i].Unreached, s.Requests[i].Going, s.Requests[i].Shown = true, nil, requests.ShownAsked
		}
	case "stay":
		s.MayStay = true
	case "only here":
		s.OnlyHere, s.Leaving = 4, true
	case "battery":
		s.Battery = 12
	}
	return s
}
