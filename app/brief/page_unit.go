package brief

import (
	"slices"
	"strconv"

	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// unitPage leads to what a unit decides in quiet times.
func unitPage(w words.Words, s Snapshot) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconSettings, Sentence: w.Say("brief.unit")}}
	for _, x := range []struct {
		id   words.ID
		to   step
		icon look.Icon
	}{{"drill", stepDrill, look.IconDrill}, {"layout", stepLayout, look.IconList}, {"settings", stepSettings, look.IconClock}} {
		p.row(look.RowFace{Icon: x.icon, Word: w.Say("brief.unit." + x.id), Detail: w.Say("brief.unit-tell." + x.id)}, pick{what: picksGo, to: x.to}, false)
	}
	return p
}

// leads tells whether whoever has the device may start drills.
func (s Snapshot) leads() bool { return s.Can&requests.CanLead != 0 }

// drillPage starts a drill in a room, gives its injects, and ends it.
func drillPage(w words.Words, s Snapshot, h hand, r Room) Page {
	if h.step == stepInject && r.Drill.On {
		return injectPage(w, s, r)
	}
	p := Page{Head: look.BannerFace{Icon: look.IconDoor, Sentence: w.Say("brief.drill-where"), Hint: w.Say("brief.drill-tell")}}
	if !s.leads() {
		p.Tell = look.BannerFace{Sentence: w.Say("brief.drill-lead")}
	}
	for _, x := range s.Rooms {
		k := pick{what: picksDrill, room: x.ID}
		if !s.leads() && !x.Drill.On {
			k = pick{}
		}
		row := p.row(roomFace(w, s, x), k, false)
		if x.Drill.On {
			row.Side, row.Does = look.BannerFace{Icon: look.IconUrgent, Sentence: w.Say("brief.real")}, pick{what: picksReal, room: x.ID}
		}
	}
	return p
}

func injectPage(w words.Words, s Snapshot, r Room) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconDoor, Sentence: joined(r.Name, w.Say("brief.inject-tell")), Tone: look.ToneDrill}}
	for _, x := range s.Injects {
		face, given := look.RowFace{Word: x.Words}, false
		for _, g := range r.Drill.Given {
			if g.ID == x.ID {
				face.Icon, face.State, given = look.IconDrill, said(w, s, g), true
			}
		}
		k := pick{what: picksInject, id: x.ID}
		if !s.leads() {
			k = pick{}
		}
		p.row(face, k, given)
		if x.ID == injectSecond && given {
			secondRows(w, s, r, &p)
		}
	}
	p.Buttons = append(p.Buttons, Button{Face: look.BannerFace{Icon: look.IconUrgent, Sentence: w.Say("brief.real")}, Pick: pick{what: picksReal, room: r.ID}})
	return p
}

// injectSecond is the inject that proposes a second case.
const injectSecond mesh.ID = "second-patient"

// secondRows propose a second case, as a drill, in each other room without one.
func secondRows(w words.Words, s Snapshot, r Room, p *Page) {
	for _, x := range s.Rooms {
		if x.ID == r.ID || x.Open {
			continue
		}
		k := pick{what: picksSecond, room: x.ID}
		if !s.leads() {
			k = pick{}
		}
		p.row(look.RowFace{Icon: look.IconDrill, Word: w.Say("brief.second", x.Name), Detail: w.Say("brief.second-tell")}, k, false)
	}
}

// offered is the layout of the board that can be accepted.
type offered struct{ layout station.BoardLayout }

// stands tells whether it is the one that the unit has.
func (o offered) stands(l Layout) bool {
	return l.Stands && string(l.Name) == o.layout.Name && slices.Equal(l.Tiles, o.tiles())
}

func (o offered) tiles() (out []requests.Tile) {
	for _, t := range o.layout.Tiles {
		out = append(out, requests.Tile{Place: uint32(t.Place), Item: t.Item})
	}
	return out
}

// layoutPage shows the board's layout that stands, and accepts another one:
// never during a case, and never by nobody.
func layoutPage(w words.Words, s Snapshot, o offered) Page {
	p := Page{Head: look.BannerFace{Sentence: w.Say("brief.layout-none"), Hint: o.layout.Name}}
	tiles := o.tiles()
	if s.Layout.Stands {
		p.Head = look.BannerFace{Sentence: s.Layout.Name, Hint: w.Say("brief.layout-by", string(s.Layout.Tag))}
		if tiles = s.Layout.Tiles; s.Layout.Differ {
			p.Head.Icon, p.Head.Hint = look.IconCompare, joined(p.Head.Hint, w.Say("brief.two-values"))
		}
	}
	for _, t := range tiles {
		p.row(look.RowFace{Word: joined(strconv.Itoa(int(t.Place)), s.Layout.Names[t.Item]), Off: true}, pick{}, false)
	}
	if o.stands(s.Layout) || len(o.layout.Tiles) == 0 {
		return p
	}
	accept := Button{Face: look.BannerFace{Sentence: w.Say("brief.layout-accept")}, Pick: pick{what: picksAccept}}
	switch {
	case s.anyOpen():
		p.Tell, accept.Off = look.BannerFace{Sentence: w.Say("brief.layout-case")}, true
	case s.By.Tag == "":
		p.Tell, accept.Off = look.BannerFace{Sentence: w.Say("brief.layout-tag")}, true
	default:
		p.Tell = look.BannerFace{Sentence: w.Say("brief.layout-offer", o.layout.Name, string(s.By.Tag))}
	}
	p.Buttons = append(p.Buttons, accept)
	return p
}

// limit is one of the unit's own choices that this page changes.
type limit struct {
	name   mesh.ID
	unit   words.ID // brief.unit-of.…
	values []string // of a choice among words; empty: a whole number
	most   int64
}

// limits are those that can be set here, in the order of the page.
func limits() []limit {
	const hour, day = 3600, 24 * 3600
	seconds := func(name mesh.ID, most int64) limit { return limit{name: name, unit: "seconds", most: most} }
	return []limit{
		seconds("unreached-after", 60), seconds("call-again", 600), seconds("call-again-now", 600),
		seconds("still-on-it", hour), seconds("still-on-it-now", hour), {name: "usual-from", unit: "deliveries", most: 100},
		seconds("silence-for", hour), seconds("undo-for", 60), seconds("more-for", 60), seconds("hold-ring", 10), seconds("wipe-for", hour),
		seconds("opening-window", 600), seconds("next-opening-wait", day), seconds("before-leave-wait", day), seconds("ppe-prompt", day),
		seconds("drill-cut-for", 120),
		{name: "battery-low", unit: "percent", most: 100}, {name: "tags-kept-days", unit: "days", most: 3650},
		{name: "expires-soon", unit: "months", most: 60},
		seconds("preox-mark-1", hour), seconds("preox-mark-2", hour),
		{name: "soft-tick", values: []string{"no", "yes"}}, {name: "spelling", values: []string{"us", "au"}},
	}
}

func limitOf(name mesh.ID) limit {
	for _, l := range limits() {
		if l.name == name {
			return l
		}
	}
	return limit{name: name}
}

// said is a value with its unit.
func (l limit) said(w words.Words, value string) string {
	switch {
	case len(l.values) > 0:
		return w.Say(words.ID("brief.value." + value))
	case l.name == "ppe-prompt" && number(value) == 0:
		return w.Say("brief.value.none")
	}
	return w.Say("brief.unit-of."+l.unit, value)
}

func number(value string) int64 {
	n, err := strconv.ParseInt(value, 10, 64)
	if err != nil {
		return 0 // nothing readable was set
	}
	return n
}

// settingsPage lists the unit's limits with their values.
func settingsPage(w words.Words, s Snapshot) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconSettings, Sentence: w.Say("brief.unit.settings"), Hint: w.Say("brief.settings-tell")}}
	for _, l := range limits() {
		k := pick{what: picksLimit, id: l.name}
		if len(l.values) > 0 {
			k.what = picksTurn
		}
		face := look.RowFace{Word: w.Say(words.ID("brief.setting." + l.name)), State: l.said(w, s.Settings[l.name])}
		if s.Differ[l.name] {
			face.Icon, face.Tone, face.Detail = look.IconCompare, look.ToneNext, w.Say("brief.two-values")
		}
		p.row(face, k, false)
	}
	n, _ := doneOf(s.Persons)
	p.row(look.RowFace{Word: w.Say("brief.setting.rescue-calls"), State: w.Count("brief.people", n)}, pick{what: picksGo, to: stepCalls}, false)
	return p
}

// callsPage chooses who is called with a rescue set.
func callsPage(w words.Words, s Snapshot) Page {
	p := Page{Head: look.BannerFace{Icon: look.IconPeople, Sentence: w.Say("brief.setting.rescue-calls"), Hint: w.Say("brief.calls-tell")}}
	for _, x := range s.Persons {
		face := look.RowFace{Word: x.Words}
		if x.Done {
			face.Icon, face.State = look.IconPerson, w.Say("brief.called")
		}
		p.row(face, pick{what: picksCall, id: x.ID}, x.Done)
	}
	return p
}

// settingPage changes one limit by less and more.
func settingPage(w words.Words, h hand) Page {
	l := limitOf(h.limit)
	p := Page{Head: look.BannerFace{Icon: look.IconSettings, Sentence: w.Say(words.ID("brief.setting." + l.name))}}
	p.Stepper = &look.StepperFace{
		Value: strconv.FormatInt(h.value, 10), Measure: w.Say("brief.measure." + l.unit), NoLess: h.value <= 0, NoMore: h.value >= l.most,
	}
	p.button(w.Say("brief.keep", l.said(w, strconv.FormatInt(h.value, 10))), pick{what: picksKeep})
	return p
}

// stepBy is how far less and more go: further for larger values.
func (l limit) stepBy(value int64, by int) int64 {
	size := int64(1)
	if l.unit == "seconds" || l.unit == "days" {
		switch at := value + min(int64(by), 0); {
		case at >= 3600:
			size = 600
		case at >= 600:
			size = 60
		case at >= 60:
			size = 10
		case at >= 10:
			size = 5
		}
	}
	return min(max(value+int64(by)*size, 0), l.most)
}
