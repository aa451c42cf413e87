package main

import (
	"time"

	"lintel/app/station"
	"lintel/assets"
	"lintel/mesh"
	"lintel/requests"
)

// ward is a unit with its rooms, in which device 0 has a role for every door;
// in A1 a case goes on, with a lead inside.
func (c *canned) ward(role mesh.ID, tag mesh.Tag) {
	c.unit(role, tag)
	c.first = c.do(cannedLead, "lead", "L1", station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation", Label: "C 12"}})
	for _, act := range team(c.first) {
		c.do(cannedLead, "lead", "L1", act)
	}
}

// unit is one in which nothing goes on.
func (c *canned) unit(role mesh.ID, tag mesh.Tag) {
	rooms, err := requests.ReadRooms(assets.Rooms())
	if c.err = err; err != nil {
		return
	}
	c.do(0, role, tag, station.Lines{Rooms: rooms})
	for _, x := range []struct {
		device byte
		holds  requests.Holds
	}{
		{0, requests.Holds{Role: role, Tag: tag}}, {cannedLead, requests.Holds{Role: "lead", Tag: "L1", Rooms: []mesh.ID{"A1"}}},
		{cannedRunner, requests.Holds{Role: "runner", Tag: "R3"}}, {cannedSecond, requests.Holds{Role: "runner", Tag: "R2"}},
		{cannedCharge, requests.Holds{Role: "charge", Tag: "C1"}},
	} {
		c.do(x.device, x.holds.Role, x.holds.Tag, station.Hold{Holds: x.holds})
	}
}

// doorStory is what an observer sees.
func (c *canned) doorStory(chapter string) {
	c.ward("observer", "O1")
	own := func(act station.Act) mesh.Ref { return c.do(0, "observer", "O1", act) }
	own(station.NoteTime{Case: c.first, What: "disconnection"})
	c.later(12 * time.Minute)
	own(station.GoIn{Case: c.first, Tag: "L2", Zone: "anteroom"})
	own(station.MeasureDoor{Room: "A1", Open: true})
	for _, step := range []mesh.ID{"policy", "slow", "look"} {
		own(station.DoffStep{Case: c.first, Tag: "L2", Step: step, Checker: "O1", Good: step != "look"})
	}
	own(station.TickLine{Case: c.first, List: "transfer", Line: "destination", Done: true})
	own(station.TickLine{Case: c.first, List: "transfer", Line: "oxygen", Done: true})
	if chapter == "breach" {
		c.do(cannedLead, "lead", "L1", station.ReportBreach{Case: c.first, Tag: "D1", What: "glove"})
		c.do(cannedLead, "lead", "L1", station.Say{Case: c.first, Phrase: "coming-out", Out: true})
	}
}

// timesStory is what a scribe noted.
func (c *canned) timesStory(chapter string) {
	c.ward("scribe", "S1")
	note := func(what mesh.ID) mesh.Ref {
		return c.do(0, "scribe", "S1", station.NoteTime{Case: c.first, What: what})
	}
	if chapter == "calm" {
		return
	}
	note("pre-oxygenation")
	c.later(3 * time.Minute)
	late := note("relaxant")
	c.do(0, "scribe", "S1", station.CorrectTime{Names: late, Happened: c.view.Now.Wall - 60_000, WithinMS: 30_000})
	note("attempt")
	c.later(40 * time.Second)
	note("attempt")
	c.do(0, "scribe", "S1", station.TieChart{Case: c.first, Monitor: c.view.Now.Wall + 63_000})
	note("co2-seen")
	note("first-ventilation")
}

// briefStory is what happens before the door closes.
func (c *canned) briefStory(chapter string) {
	by := func(act station.Act) mesh.Ref { return c.do(0, "charge", "C1", act) }
	c.unit("charge", "C1")
	if chapter == "rooms" {
		return
	}
	c.first = by(station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation", Label: "C 12", Hurry: chapter == "hurried"}})
	for _, act := range team(c.first)[:6] {
		by(act)
	}
	for _, line := range []mesh.ID{"roles-said", "speaker", "voice-link", "rescue-b"} {
		by(station.TickLine{Case: c.first, List: "brief", Line: line, Done: true})
	}
	by(station.TickLine{Case: c.first, List: "plan", Line: "a", Done: true, Words: "L1, hyperangulated blade, two attempts"})
	switch chapter {
	case "comms":
		test := c.do(cannedLead, "lead", "L1", station.TestComms{Room: "A1", Battery: 64, DiskMB: 5120, ScreenOn: true, Door: "A1"})
		by(station.HearTest{Test: test, Sound: true, RoundTripMS: 4})
	case "hurried":
		by(station.Skip{Case: c.first, List: "brief", Lines: []mesh.ID{"plan-said", "paper-card"}})
	case "drill":
		by(station.StartDrill{Case: c.first, Room: "A1", Label: "monthly"})
	case "second":
		by(station.GiveInject{Drill: by(station.StartDrill{Case: c.first, Room: "A1", Label: "monthly"}), What: "second-patient"})
	}
}

// debriefStory is a unit with a drill and some cases, the newest of half an hour.
func (c *canned) debriefStory() {
	c.unit("charge", "C1")
	drill := c.small("D 1")
	exercise := c.do(cannedCharge, "charge", "C1", station.StartDrill{Case: drill, Room: "A1", Label: "monthly"})
	c.do(cannedCharge, "charge", "C1", station.GiveInject{Drill: exercise, What: "cut-link"})
	c.shut(drill)
	for _, label := range []mesh.Label{"C 7", "C 8", "C 9", "C 10", "C 11"} {
		c.later(20 * time.Minute)
		c.shut(c.small(label))
	}
	c.later(30 * time.Minute)
	c.course()
}

func (c *canned) shut(of mesh.Ref) {
	c.later(2 * time.Minute)
	c.do(cannedCharge, "charge", "C1", station.ShutCase{Case: of, Why: "it is over"})
}

// small is a case with one request.
func (c *canned) small(label mesh.Label) mesh.Ref {
	of := c.do(cannedLead, "lead", "L1", station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation", Label: label}})
	c.bring(itemBougie, 1, requests.NextOpening)
	return of
}

// bring is a whole closed loop.
func (c *canned) bring(item mesh.Number, count requests.Count, soon requests.Urgency) {
	r := c.ask(cannedLead, item, count, soon)
	c.goes(cannedRunner, r)
	c.later(50 * time.Second)
	c.holds(cannedRunner, r, item, count)
	c.do(cannedLead, "lead", "L1", station.Agree{Request: r})
	c.do(cannedRunner, "runner", "R1", station.PutAtDoor{Request: r})
	c.later(20 * time.Second)
	c.do(cannedLead, "lead", "L1", station.TakeIn{Request: r})
}

// course is a case with something of everything.
func (c *canned) course() {
	lead := func(act station.Act) mesh.Ref { return c.do(cannedLead, "lead", "L1", act) }
	c.first = lead(station.OpenCase{Case: requests.CaseOpen{Room: "A1", What: "intubation", Label: "C 12"}})
	for i, device := range []byte{0, cannedRunner, cannedCharge} {
		c.compared(device, time.Duration(300+300*i)*time.Millisecond)
	}
	for _, act := range team(c.first) {
		lead(act)
	}
	lead(station.NoteTime{Case: c.first, What: "pre-oxygenation"})
	c.bring(itemBougie, 1, requests.NextOpening)
	c.later(2 * time.Minute)
	lead(station.NoteTime{Case: c.first, What: "induction"})
	drug := c.ask(cannedLead, itemKetamine, 2, requests.RightNow)
	c.goes(cannedRunner, drug)
	c.later(40 * time.Second)
	c.holds(cannedRunner, drug, itemWeaker, 2)
	lead(station.Refuse{Request: drug, Why: "50 mg/mL"})
	c.holds(cannedRunner, drug, itemKetamine, 2)
	lead(station.Agree{Request: drug})
	c.do(cannedRunner, "runner", "R1", station.PutAtDoor{Request: drug})
	lead(station.TakeIn{Request: drug})
	lead(station.NoteTime{Case: c.first, What: "attempt"})
	c.later(90 * time.Second)
	lead(station.NoteTime{Case: c.first, What: "co2-seen"})
	c.ask(cannedLead, itemTube, 1, requests.BeforeWeLeave)
	c.do(cannedRunner, "runner", "R1", station.GoIn{Case: c.first, Tag: "L2", Checker: "O1"})
	lead(station.ReportBreach{Case: c.first, Tag: "D1", What: "glove"})
	lead(station.Say{Case: c.first, Room: "A1", Phrase: "tube-in", Out: true})
	c.later(4 * time.Minute)
	c.bring(itemBougie, 1, requests.NextOpening)
	c.later(5 * time.Minute)
	for _, tag := range []mesh.Tag{"D1", "L2", "L1"} {
		c.do(cannedRunner, "runner", "R1", station.ComeOut{Case: c.first, Tag: tag, Checker: "O1"})
		c.later(time.Minute)
	}
	c.shut(c.first)
}
