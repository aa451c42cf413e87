package main

import (
	"fyne.io/fyne/v2"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// pictures lists the screens with what is on them.
func pictures(w words.Words) (all []picture) {
	all = append(all, boardPictures(w)...)
	all = append(all, listPictures(w)...)
	all = append(all, briefPictures(w)...)
	all = append(all, doorPictures(w)...)
	all = append(all, timesPictures(w)...)
	all = append(all, debriefPictures(w)...)
	all = append(all, chargePictures(w)...)
	return append(all, devicePictures(w)...)
}

// besideSign stands in a tap between the words of a line and those of the key
// beside it.
const besideSign = " # "

// phoneWide is the width in mm up to which a page is a phone's.
const phoneWide = 100

// album collects pictures of one screen: each has a name, a chapter and what
// is tapped first.
type album struct {
	prefix string
	reads  look.Role
	draw   func(g gallery, l *look.Look, chapter string) (fyne.CanvasObject, error)
	all    []picture
}

func (a *album) add(name, chapter string, taps ...string) {
	draw := a.draw
	a.all = append(a.all, picture{a.prefix + "-" + name, a.reads, func(g gallery, l *look.Look) (fyne.CanvasObject, error) { return draw(g, l, chapter) }, taps, 0, 0})
}

// boardPictures are of the board inside.
func boardPictures(w words.Words) []picture {
	a := album{prefix: "inside", reads: look.InsideTile, draw: gallery.inside}
	more, answer := "R1", w.Say("inside.answer") // the link says who is in reach, and leads on
	a.add("calm", "calm")
	a.add("going", "going")
	a.add("matches", "matches", answer)
	a.add("differs", "differs", answer)
	a.add("offered", "offered", answer)
	a.add("rescue", "lies", "C")
	a.add("other", "other", w.Say("inside.other"))
	a.add("shelf", "calm", "airway S–V")
	a.add("count", "calm", "10")
	a.add("one-more", "calm", "2 Tube 7.5")
	a.add("late", "late", w.Say("runner.open"))
	a.add("not-reached", "not reached")
	a.add("cut-off", "cut off")
	a.add("sign", "cut off", w.Say("inside.sign"))
	a.add("phrases", "heard", more)
	a.add("called", "talk")
	a.add("people", "calm", more, w.Say("inside.people"))
	a.add("breach", "calm", more, w.Say("inside.breach"), "L1")
	a.add("times", "times", more, w.Say("inside.times"))
	a.add("coming-out", "calm", more, w.Say("inside.out"))
	a.add("wiping", "calm", more, w.Say("inside.lock"))
	a.add("may-stay", "stay", more)
	a.add("only-here", "only here")
	a.add("battery", "battery")
	a.add("drill", "drill")
	drugs := []string{more, w.Say("inside.drugs"), w.DrugClassShort("induction"), "2", w.Say("inside.drug.seen")}
	for n, name := range []string{"drugs", "drug-end", "drug-typed", "drug-seen"} {
		a.add(name, "drugs", drugs[:n+2]...)
		a.all[len(a.all)-1].least = phoneWide // a phone of this size has no room for it
	}
	return a.all
}

// listPictures are of the list outside.
func listPictures(w words.Words) []picture {
	a := album{prefix: "runner", reads: look.RunnerLine, draw: gallery.runner}
	readBack := w.Say("runner.act.read-back")
	a.add("calm", "calm")
	a.add("list", "list")
	a.add("asked", "asked")
	a.add("read-back", "read-back", readBack)
	a.add("count", "read-back", readBack, "7.5"+besideSign+">3")
	a.add("doors", "doors")
	a.add("door", "doors", "A1")
	a.add("bag", "doors", "A1", "bag")
	a.add("code", "calm", w.Say("runner.voice"), "1", "1", "0", "8", w.Say("keys.done-short"), "1", w.Say("urgency.now"), "1", "2")
	a.add("phrases", "doors", w.Say("runner.say"))
	for _, chapter := range []string{"new", "again", "everybody", "still", "breach", "said", "test", "passed", "same", "back", "drill"} {
		a.add("call-"+chapter, chapter)
	}
	a.add("silence", "new", w.Say("runner.silence"))
	a.add("passing-on", "passing", w.Say("runner.open"), w.Say("runner.act.pass-on"))
	a.add("wrong-door", "wrong", w.Say("runner.act.put-at-door"), "A2")
	shown := len(a.all)
	a.add("label-unread", "unread")
	a.add("notice-inject", "drill", "A1: new inject")
	a.add("notice-said", "said", "A1 says")
	a.add("notice-breach", "breach", "A1, D1")
	a.add("notice-still", "still", "A1: still")
	a.add("notice-passed", "passed", "R2")
	for i := shown; i < len(a.all); i++ {
		a.all[i].most = phoneWide // elsewhere notices stand above the list, with their answers
	}
	return a.all
}

// briefPictures are of what happens before the door closes.
func briefPictures(w words.Words) []picture {
	a := album{prefix: "brief", reads: look.RunnerLine, draw: gallery.brief}
	a.add("rooms", "rooms")
	a.add("kind", "rooms", "A1")
	a.add("case", "case")
	for _, part := range []words.ID{"roles", "plans", "lines", "sets", "singly", "kit", "ppe", "end"} {
		a.add(string(part), "case", w.Say("brief.part."+part))
	}
	a.add("comms", "comms")
	a.add("comms-device", "comms", "inside tablet")
	a.add("hurried", "hurried")
	a.add("left-out", "hurried", w.Say("brief.part.skipped"))
	a.add("drill", "drill")
	unit := w.Say("brief.unit")
	a.add("second", "second", unit, w.Say("brief.unit.drill"), "A1")
	for name, page := range map[string]words.ID{"injects": "brief.unit.drill", "limits": "brief.unit.settings", "layout": "brief.unit.layout"} {
		a.add(name, "rooms", unit, w.Say(page))
	}
	return a.all
}

// doorPictures are of the observer's screen.
func doorPictures(w words.Words) []picture {
	a := album{prefix: "door", reads: look.RunnerLine, draw: gallery.door}
	a.add("people", "people")
	a.add("goes-in", "people", w.Say("door.act.in"))
	a.add("breach", "breach")
	a.add("harm", "people", w.Say("door.act.harm"), "L1")
	a.add("doffing", "people", w.Say("door.act.doff"), "L2")
	a.add("leaving", "people", w.Say("door.act.leave"), w.Say("door.list.transfer"))
	a.add("who-was-in", "people", w.Say("door.act.spent"))
	a.add("air", "people", w.Say("door.act.air"))
	a.add("papers", "people", w.Say("door.act.spent"), w.Say("door.paper"))
	return a.all
}

// timesPictures are of the scribe's screen.
func timesPictures(w words.Words) []picture {
	a := album{prefix: "times", reads: look.RunnerLine, draw: gallery.times}
	a.add("calm", "calm")
	a.add("noted", "noted")
	a.add("late", "noted", "−2")
	a.add("all-noted", "noted", w.Say("scribe.noted"))
	a.add("monitor", "noted", w.Say("scribe.noted"), w.Say("scribe.monitor-clock"))
	a.add("typed", "noted", w.Say("scribe.typed"), "1", "4")
	return a.all
}

// debriefPictures are of a case afterwards.
func debriefPictures(w words.Words) []picture {
	a := album{prefix: "debrief", reads: look.DeskLine, draw: func(g gallery, l *look.Look, _ string) (fyne.CanvasObject, error) { return g.debrief(l) }}
	a.add("case", "")
	a.add("figures", "", w.Say("debrief.to.figures"))
	a.add("beside", "", w.Say("debrief.to.beside"))
	a.add("questions", "", w.Say("debrief.to.questions"))
	a.add("question", "", w.Say("debrief.to.questions"), "What had to be fetched")
	a.add("held", "", w.Say("debrief.to.held"))
	a.add("cases", "", w.Say("debrief.to.cases"))
	a.add("drill", "", w.Say("debrief.to.cases"), "D 1")
	return a.all
}

// devicePictures are of the device itself, and of the ways between pages.
func devicePictures(w words.Words) (all []picture) {
	device := func(name string, unit bool, taps ...string) {
		all = append(all, picture{"join-" + name, look.DeskLine, func(g gallery, l *look.Look) (fyne.CanvasObject, error) { return g.join(l, unit) }, taps, 0, 0})
	}
	device("alone", false)
	device("devices", true)
	device("who", true, w.Say("join.who"))
	device("code", true, w.Say("join.invite"))
	all = append(all, picture{"measure", look.DeskLine, func(g gallery, l *look.Look) (fyne.CanvasObject, error) {
		return newMeasurePage(l, g.words, func(look.Scale) {}).root, nil
	}, nil, measureWide, 0})
	outside := sight{Unit: true, Side: requests.Outside, Can: requests.CanFetch, Sounds: true, SoundKnown: true, SoundWorks: true}
	gloved := sight{Unit: true, Side: requests.Inside, Can: requests.CanAgree, Rooms: []mesh.ID{"A1"}}
	called := outside
	called.Calls = []caller{{Room: "A1", Why: requests.CallNew, Item: "Tracheal tube", Count: 1, Urgency: requests.RightNow}}
	framed := func(name string, reads look.Role, at page, s sight) {
		all = append(all, picture{"frame-" + name, reads, func(g gallery, l *look.Look) (fyne.CanvasObject, error) { return g.frame(l, at, s) }, nil, 0, 0})
	}
	framed("list", look.RunnerLine, pageRequests, outside)
	framed("pages", look.RunnerLine, pageChoice, outside)
	framed("called", look.DeskLine, pageDebrief, called)
	drilled := outside
	drilled.Drills = []station.Exercise{{Room: "A1", Label: "monthly", Inject: "Second patient at another door"}}
	framed("drill", look.DeskLine, pageDebrief, drilled)
	framed("device", look.DeskLine, pageDevice, outside)
	framed("inside", look.InsideTile, pageChoice, gloved)
	framed("keys", look.DeskLine, pageKeys, gloved)
	all = append(all, picture{"frame-label", look.RunnerLine, gallery.mislabelled, nil, 0, 0})
	return all
}
